/**
 * What an engraving block writes is read from its moves alone, on the face and
 * round the cylinder, on either spindle. Right blocks read as their text; the
 * same blocks made wrong are named by what a reader of the part would see.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composedProgram, figure, inventedCard, provedStretch, rulesOf, usualMachine, type Machine } from './composed-programs.ts';

type Sign = 1 | -1;

function cardOf(machine: Partial<Machine> = {}, sub: { zSense: Sign; ySense: Sign; workRotation: Sign } = { zSense: -1, ySense: -1, workRotation: 1 }): MachineCard {
  const plain = inventedCard({ ...usualMachine, ...machine });
  return inventedCard({ ...usualMachine, ...machine }, { subSpindle: sub, codes: { ...plain.codes, inverseTime: 'G93', subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294' } });
}

const card = cardOf();
const note = { TEXT: 'K7R', HEIGHT: '4', DEPTH: '0.12', 'TIP-DIA': '0.1', 'TIP-ANGLE': '60', FLUTES: '2', RPM: '30000', 'CHIP-LOAD': '0.01' };
const face = { ...note, 'AT-X': '44' };
const round = { ...note, SURFACE: 'CYLINDER', DIA: '40', 'AT-Z': '-10' };
const onFace = composedProgram('engraving', face, card);
const onCylinder = composedProgram('engraving', round, card);

function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not there`);
  return result;
}

/** Changes the number behind a letter in every move of the block between its first plunge and its last retract. */
function words(text: string, letter: string, change: (value: number) => number): string {
  const end = text.indexOf('(END ENGRAVING)');
  const body = text.slice(0, end).replace(new RegExp(`^(G0[01] .*\\b|G0[01] .*)${letter}(-?[\\d.]+)`, 'gm'), (_, before: string, value: string) => `${before}${letter}${change(Number(value)).toFixed(5)}`);
  return body + text.slice(end);
}

function messages(text: string, own = card): string {
  return provedStretch(text, own).proof!.findings.map(({ rule, message }) => `${rule}: ${message}`).join('\n');
}

describe('what is written right', () => {
  it('on a face: three letters, capitals 4 high', () => {
    const stretch = provedStretch(onFace, card);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'letters')).toMatchObject({ value: 3, wanted: 3 });
    expect(figure(stretch, 'textHeight').value).toBeCloseTo(4, 3);
    // 0.1 + 2 x 0.12 tan 30 degrees: the cone at its depth (derived).
    expect(figure(stretch, 'lineWidth').value).toBeCloseTo(0.1 + 0.24 * Math.tan(Math.PI / 6), 6);
  });

  it('is as long round the cylinder as on the face', () => {
    expect(figure(provedStretch(onCylinder, card), 'textLength').value).toBeCloseTo(figure(provedStretch(onFace, card), 'textLength').value, 3);
  });

  it('any text, any place, either surface, either spindle, however the machine counts', () => {
    const sign = fc.constantFrom<Sign>(1, -1);
    const text = fc.string({ unit: fc.constantFrom(...'AbQ8& -.,g'), minLength: 1, maxLength: 6 }).filter((each) => each.trim() === each && each !== '');
    fc.assert(fc.property(text, fc.boolean(), fc.integer({ min: -180, max: 180 }), fc.integer({ min: 1, max: 9 }), fc.record({ main: sign, sub: sign, z: sign, y: sign, onSub: fc.boolean(), diameter: fc.boolean() }), (written, isRound, angle, height, machine) => {
      const own = cardOf({ workRotation: machine.main, diameterProgramming: machine.diameter }, { zSense: machine.z, ySense: machine.y, workRotation: machine.sub });
      const place = isRound ? round : { ...face, 'AT-X': '-30' };
      const raw = { ...place, DIA: isRound ? '60' : '400', TEXT: written, HEIGHT: String(height), ANGLE: String(angle), SPINDLE: machine.onSub ? 'SUB' : 'MAIN' };
      const stretch = provedStretch(composedProgram('engraving', raw, own), own);
      expect(stretch.refused).toBeUndefined();
      expect(stretch.proof!.findings).toEqual([]);
    }), { numRuns: 60 });
  });

  it('in inches', () => {
    const inch = cardOf({ units: 'inch' });
    const raw = { ...note, HEIGHT: '0.16', DEPTH: '0.005', 'TIP-DIA': '0.004', 'CHIP-LOAD': '0.0004', 'AT-X': '1.7', 'RUN-OUT': '0.0001' };
    const stretch = provedStretch(composedProgram('engraving', raw, inch), inch);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'textHeight').value).toBeCloseTo(0.16, 4);
  });

  it('whatever the order and the direction of the strokes', () => {
    const text = composedProgram('engraving', { ...face, TEXT: 'I' }, card);
    const [, down = '', away = ''] = /G01 Z-0\.12 F\S+\nG01 (\S+ \S+) F\S+\n/.exec(text) ? [/./, /G00 (X\S+ Y\S+)\nG01 Z-0\.12/.exec(text)![1]!, /G01 (X\S+ Y\S+) F\S+\n/.exec(text)![1]!].map(String) : [];
    const back = text.replaceAll(down, 'THERE').replaceAll(away, down).replaceAll('THERE', away);
    expect(back).not.toBe(text);
    expect(provedStretch(back, card).proof!.findings).toEqual([]);
  });
});

describe('what is written wrong', () => {
  const retract = /G00 Z0\.5\nG00 (X\S+ Y\S+)\nG01 Z-0\.12 F\S+\n/;
  it.each<[string, string, RegExp]>([
    ['mirrored left to right, on the face', words(onFace, 'Y', (y) => -y), /^engrave-mirrored: The text is mirrored left to right\./],
    ['mirrored left to right, round the cylinder', words(onCylinder, 'C', (c) => -c), /^engrave-mirrored: The text is mirrored left to right\./],
    ['mirrored top to bottom', words(onFace, 'X', (x) => 2 * 48 - x), /^engrave-mirrored: The text is mirrored top to bottom\./],
    ['on its head', words(words(onFace, 'X', (x) => 2 * 48 - x), 'Y', (y) => -10 - y), /^engrave-mirrored: The text stands on its head\./],
    ['heights of the letters written as radii where X counts on the diameter', words(onFace, 'X', (x) => 44 + (x - 44) / 2), /^engrave-size: The letters are 2 mm high; 4 is wanted\. A radius was written where a diameter counts\./],
    ['heights of the letters on the diameter where X counts on the radius', words(onFace, 'X', (x) => 44 + (x - 44) * 2), /^engrave-size: The letters are 8 mm high; 4 is wanted\. A diameter was written where a radius counts\./],
    ['all X words taken as radii', words(onFace, 'X', (x) => x / 2), /^engrave-size: The letters are 2 mm high[^]*engrave-place: The text starts 0 mm along and -11 mm up/],
    ['letters too wide', words(onFace, 'Y', (y) => y * 1.2), /^engrave-size: The letters are 1\.2 times as wide as their height asks for\./],
    ['too near to the axis', words(onFace, 'X', (x) => x - 3), /^engrave-place: The text starts 0 mm along and -1\.5 mm up/],
    ['the work turned, on the face', changed(onFace, /G00 C0\.0/, 'G00 C12.0'), /^engrave-place: The text stands 12 degrees clockwise about the work axis/],
    ['the work turned, under the cylinder', words(onCylinder, 'C', (c) => c - 9), /^engrave-place: The text starts 3\.142 mm along and 0 mm up/],
    ['along Z in another place', words(onCylinder, 'Z', (z) => z - 1), /^engrave-place: The text starts 0 mm along and -1 mm up/],
    ['a letter missing in the middle', lettersWithout(1), /^engrave-letters: Of the letters of the text, 7 \(number 2\) is missing\.$/],
    ['the last letter missing', lettersWithout(2), /^engrave-letters: Of the letters of the text, R \(number 3\) is missing\.$/],
    ['plunges and not one stroke', changed(onFace, /^G01 X.*\n/gm, ''), /^engrave-letters: Of the letters of the text, K \(number 1\) is missing, 7 \(number 2\) is missing, R \(number 3\) is missing\.$/],
    ['another text than the note has', changed(onFace, /TEXT=K7R/, 'TEXT=K1R'), /engrave-letters: Of the letters of the text, 1 \(number 2\)[^]*engrave-stray/],
    ['a stroke that is not finished', changed(onFace, /(G01 Z-0\.12 F\S+\n)G01 X44\.0 (Y-?[\d.]+)/, '$1G01 X48.0 $2'), /engrave-letters: Of the letters of the text, K \(number 1\) is cut to \d\d %/],
    ['not lifted: fed on to the next stroke', changed(onFace, retract, 'G01 $1\n'), /^engrave-stray: From here on the cutter cuts [\d.]+ mm where the text has no stroke\./],
    ['not lifted: in rapid to the next stroke', changed(onFace, retract, 'G00 $1\n'), /^engrave-rapid: A rapid move goes 0\.12 mm below the surface\./],
    ['lifted, but not out of the work', changed(onFace, /G00 Z0\.5\n(G00 X)/, 'G00 Z-0.02\n$1'), /^engrave-rapid: A rapid move goes 0\.12 mm below|^engrave-rapid: A rapid move goes 0\.02 mm below/],
    ['plunged in rapid', changed(onFace, /G01 (Z-0\.12) F\S+\n/, 'G00 $1\n'), /^engrave-rapid: A rapid move goes 0\.12 mm below the surface\./],
    ['too shallow', onFace.replaceAll('Z-0.12', 'Z-0.06'), /^engrave-depth: The cutter runs 0\.06 mm below the surface; 0\.12 is wanted: the line comes to 0\.169 mm instead of 0\.239\./],
    ['depth on the diameter, round the cylinder', words(onCylinder, 'X', (x) => (x < 40 ? 39.88 : x)), /^engrave-depth: The cutter runs 0\.06 mm below/],
    ['the cylinder engraved beside its top', changed(onCylinder, /Y0\.0/, 'Y1.0'), /^engrave-depth: The cutter runs 0\.0949 mm below[^]*engrave-place: The text starts 1 mm along/],
  ])('%s', (_, text, message) => {
    expect(text === onFace || text === onCylinder).toBe(false);
    expect(messages(text)).toMatch(message);
  });

  /** The block without the strokes of one letter; K has three, 7 two, R three. */
  function lettersWithout(index: number): string {
    const strokes = [...onFace.matchAll(/G00 X\S+ Y\S+\nG01 Z-0\.12 F\S+\n(G01 X.*\n)+G00 Z0\.5\n/g)].map(([stroke]) => stroke);
    expect(strokes).toHaveLength(8);
    const [from, to] = [[0, 3], [3, 5], [5, 8]][index]!;
    return strokes.slice(from, to).reduce((text, stroke) => text.replace(stroke, ''), onFace);
  }

  it('a C that counts the other way mirrors a text round the cylinder', () => {
    expect(messages(onCylinder, cardOf({ workRotation: -1 }))).toMatch(/engrave-mirrored/);
  });

  it('a face of the sub-spindle engraved with the Y of the main spindle is mirrored', () => {
    const sub = composedProgram('engraving', { ...face, SPINDLE: 'SUB' }, card);
    expect(rulesOf(provedStretch(words(sub, 'Y', (y) => -y), card))).toContain('engrave-mirrored');
  });

  it('a text that is its own mirror image is not called mirrored', () => {
    const text = composedProgram('engraving', { ...face, TEXT: 'HOH' }, card);
    expect(rulesOf(provedStretch(words(text, 'Y', (y) => -y), card))).toEqual(['engrave-place']);
  });

  it('findings of an inch program speak inches', () => {
    const inch = cardOf({ units: 'inch' });
    const raw = { ...note, HEIGHT: '0.16', DEPTH: '0.005', 'TIP-DIA': '0.004', 'CHIP-LOAD': '0.0004', 'AT-X': '1.7', 'RUN-OUT': '0.0001' };
    const text = words(composedProgram('engraving', raw, inch), 'X', (x) => 1.7 + (x - 1.7) / 2);
    expect(messages(text, inch)).toMatch(/The letters are 0\.08 inch high; 0\.16 is wanted/);
  });
});
