/** The clamp of the work axis against what the tool does: right blocks pass, and blocks with a clamp word left out or put in are named. */
import { describe, expect, it } from 'vitest';
import { composedProgram, inventedCard, provedStretch, usualMachine } from './composed-programs.ts';

const card = inventedCard(usualMachine, { codes: { ...inventedCard().codes, inverseTime: 'G93', subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294' }, subSpindle: { zSense: 1, ySense: -1, workRotation: 1 } });
const slot = { BORE: '30', LENGTH: '12', FEED: '0.05', COUNT: '2', RPM: '800' };
const mark = { TEXT: 'H7', HEIGHT: '4', DEPTH: '0.12', 'TIP-DIA': '0.1', 'TIP-ANGLE': '60', FLUTES: '2', RPM: '30000', 'CHIP-LOAD': '0.01', 'AT-X': '44' };
const gear = { MODULE: '1.5', TEETH: '14', FACE: '5', 'HOB-DIA': '50', 'HOB-GASHES': '10', RPM: '400', FEED: '1' };

const keyway = composedProgram('keyway', slot, card);
const onSub = composedProgram('keyway', { ...slot, SPINDLE: 'SUB' }, card);
const standing = composedProgram('keyway', { ...slot, METHOD: 'STATIC', SPEED: '8', FEED: '0.2', COUNT: '1' }, card);
const face = composedProgram('engraving', { ...mark, ANGLE: '30' }, card);
const round = composedProgram('engraving', { ...mark, SURFACE: 'CYLINDER', DIA: '40', 'AT-Z': '-10' }, card);
const hobbing = composedProgram('hobbing', gear, card);

function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not there`);
  return result;
}

function clampingOf(text: string, own = card): string[] {
  const { proof, refused } = provedStretch(text, own);
  if (!proof) throw new Error(refused);
  return proof.findings.filter(({ rule }) => /^(work|engrave)-(un)?clamped$/.test(rule)).map(({ line, rule, severity }) => `${severity} ${rule} ${text.split('\n')[line]!}`);
}

describe('clamp of the work axis', () => {
  it.each([['keyways', keyway], ['keyways in the sub-spindle', onSub], ['static', standing], ['engraving on the face', face], ['round the cylinder', round], ['hobbing', hobbing]])('%s: nothing to object to', (_, text) => {
    expect(provedStretch(text, card).proof!.findings).toEqual([]);
  });

  it.each<[string, string, RegExp]>([
    ['the second keyway indexed without a release', changed(keyway, /M194\n(G00 C180)/, '$1'), /^error work-clamped G00 C180/],
    ['the second keyway indexed without a release, sub-spindle', changed(onSub, /M294\n(G00 C180)/, '$1'), /^error work-clamped G00 C180/],
    ['strokes on a released axis', keyway.replaceAll('M193\n', ''), /^error work-unclamped G01 X/],
    ['strokes of a static tool on a released axis', standing.replaceAll('M193\n', ''), /^error work-unclamped G01 Z/],
    ['the face engraved on a released axis', face.replaceAll('M193\n', ''), /^warning engrave-unclamped G01 Z/],
    ['round the cylinder with a clamped axis', changed(round, /M194\n/, 'M193\n'), /^error work-clamped G0[01] C/],
    ['hobbed with a clamped axis', changed(hobbing, /M194\n/, 'M193\n'), /^error work-clamped/],
    ['clamped long before the block, and not released in it', changed(changed(hobbing, /M194\n/, ''), /T0101\n/, 'T0101\nM193\n'), /^error work-clamped/],
  ])('%s', (_, text, found) => {
    expect(clampingOf(text)).toEqual([expect.stringMatching(found)]);
  });

  it('a release and a turn on one line are in order, and so are a turn and a clamp', () => {
    const text = changed(keyway, /M194\nG00 (C180\.0)\nM193\n/, 'M194 G00 $1 M193\n');
    expect(clampingOf(text)).toEqual([]);
  });

  it('the words of the other spindle say nothing', () => {
    expect(clampingOf(changed(onSub, /(M294\n)(G00 C180)/, '$1M193\n$2'))).toEqual([]);
  });

  it('a card that has no word for the clamp is not judged by it', () => {
    const own = { ...card, codes: { ...card.codes, workClamp: undefined } };
    expect(clampingOf(keyway.replaceAll('M193\n', ''), own)).toEqual([]);
  });

  it('what is not known is not said: no word of the clamp in the program', () => {
    expect(clampingOf(keyway.replaceAll(/M19[34]\n/g, ''))).toEqual([]);
  });

  it('a subprogram that turns the work between its own words is left alone, and nothing is concluded from it', () => {
    const calling = { ...card, codes: { ...card.codes, subprogramCall: 'M298 P{program}', subprogramReturn: 'M299' } };
    const text = changed(changed(keyway, /M194\n(G00 C180\.0\n)M193\n/, 'M298 P8000\n'), /M30\n$/, 'M30\nO8000\nM194\nG00 C180.0\nM193\nM299\n');
    expect(provedStretch(text, calling).proof!.findings).toEqual([]);
  });
});
