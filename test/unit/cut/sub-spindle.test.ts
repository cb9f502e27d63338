/**
 * Proofs of blocks for the sub-spindle: right ones pass, and the same ones made
 * wrong in one word are named. Also keyways that are clocked to a gear.
 */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composedProgram, figure, inventedCard, prove, provedStretch, rulesOf, usualMachine, type Machine } from './composed-programs.ts';

type Sign = 1 | -1;

function cardOf(zSense: Sign, workRotation: Sign, machine: Partial<Machine> = {}, codes: object = {}, change: object = {}): MachineCard {
  const plain = inventedCard({ ...usualMachine, ...machine });
  return inventedCard({ ...usualMachine, ...machine }, {
    subSpindle: { zSense, ySense: -1, workRotation },
    codes: { ...plain.codes, inverseTime: 'G93', subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294', ...codes },
    ...change,
  });
}

/** Changes one place; a change that finds nothing is a mistake of the test. */
function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not in\n${text}`);
  return result;
}

const gear = { MODULE: '1.5', TEETH: '14', FACE: '5', 'HOB-DIA': '50', 'HOB-GASHES': '10', RPM: '400', FEED: '1', 'FACE-Z': '3', SPINDLE: 'SUB' };
const helical = { ...gear, HELIX: '15' };

describe('hobbing in the sub-spindle', () => {
  const onSub = cardOf(-1, 1);
  const straight = composedProgram('hobbing', gear, onSub);

  it.each<[string, Sign, Sign, Partial<Machine>, Record<string, string>]>([
    ['Z into the part grows, climb', -1, 1, {}, {}],
    ['Z into the part falls, conventional, left-hand hob', 1, -1, {}, { METHOD: 'CONVENTIONAL', 'HOB-HAND': 'LEFT' }],
    ['hob on -X, drive the other way round', -1, -1, { hobSide: '-X', toolRotation: -1 }, { SHIFT: '3' }],
  ])('%s: nothing to object to', (_name, zSense, workRotation, machine, more) => {
    const card = cardOf(zSense, workRotation, machine);
    const stretch = provedStretch(composedProgram('hobbing', { ...gear, ...more }, card), card);
    expect(stretch.refused).toBeUndefined();
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'teeth').value).toBe(14);
  });

  it.each<[string, Sign, Sign, Record<string, string>]>([
    ['right, C and Z both with the face', 1, 1, { HAND: 'RIGHT' }],
    ['left, C and Z both against it', -1, -1, { HAND: 'LEFT' }],
  ])('a helix that the control makes, %s', (_name, zSense, workRotation, more) => {
    const card = cardOf(zSense, workRotation);
    const stretch = provedStretch(composedProgram('hobbing', { ...helical, ...more }, card), card);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'helixAngle').value).toBeCloseTo(more['HAND'] === 'LEFT' ? -15 : 15, 2);
  });

  it('a helix by C words in two cuts, the way back included; made wrong it is named', () => {
    const byC = cardOf(-1, 1, {}, { syncOn: 'G137 P{starts} Q{sense}{teeth}' }, { differentialByWorkAxis: 'absolute' });
    const text = composedProgram('hobbing', { ...helical, CUTS: '2' }, byC);
    expect(text).toMatch(/G00 Z\S+ C-?[\d.]+\n/);
    const stretch = provedStretch(text, byC);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'helixAngle').value).toBeCloseTo(15, 2);
    const swapped = text.replaceAll(/(Z\S+ C)(-?)(?=[\d.]*[1-9])/g, (_, words: string, minus: string) => words + (minus ? '' : '-'));
    expect(rulesOf(provedStretch(swapped, byC))).toContain('cut-differential');
    const wrongWayBack = changed(text, /(G00 Z\S+ C)(-?[\d.]+)/, '$19.0');
    expect(provedStretch(wrongWayBack, byC).proof!.findings).not.toEqual([]);
    const turnedAlone = changed(text, /(G01 Z\S+) (C\S+)( F\S+)/, '$1$3\nG00 $2');
    expect(rulesOf(provedStretch(turnedAlone, byC))).toContain('cut-index');
  });

  it.each<[string, string, string]>([
    ['the ratio of the main spindle', changed(straight, /Q(-?)14/, straight.includes('Q-14') ? 'Q14' : 'Q-14'), 'cut-direction'],
    ['the hob the way it turns for the main spindle', changed(straight, /M12[34]/, straight.includes('M123') ? 'M124' : 'M123'), 'cut-method'],
    ['Z as on the main spindle', straight.replaceAll(/Z(-?)(?=[\d.]+)/g, (_, minus: string) => (minus ? 'Z' : 'Z-')), 'cut-rapid'],
  ])('made wrong, %s', (_name, text, rule) => {
    expect(rulesOf(provedStretch(text, onSub))).toContain(rule);
  });

  it('a spindle that turns in the cut, uncoupled, mills the teeth away; the other spindle does not', () => {
    const own = cardOf(-1, 1, {}, { subStart: 'M268 S{rpm}', subStop: 'M269' });
    const uncoupled = (start: string) => straight.replace(/^(N?\d* ?M29[12].*)$/gm, '').replace(/^(.*G137.*)$/m, `${start}\n`).replace(/^(.*G138.*)$/m, '');
    const proofOf = (start: string, card: MachineCard) => provedStretch(uncoupled(start), card).proof!;
    expect(proofOf('', own).findings).not.toEqual([]);
    expect(proofOf('M03 S400', own)).toEqual(proofOf('', own));
    expect(proofOf('M268 S400', own)).not.toEqual(proofOf('', own));
    expect(proofOf('M03 S400', onSub)).not.toEqual(proofOf('', onSub));
  });

  it('is refused, in a sentence, where the card leaves a sense open', () => {
    const open = { ...onSub, subSpindle: { ...onSub.subSpindle, ySense: 1 as const } };
    expect(provedStretch(straight, open).refused).toMatch(/^The note cannot be read: SPINDLE: SUB needs subSpindle\.toolRotation, which the machine card does not say\./);
  });
});

const slot = { BORE: '30', LENGTH: '12', FEED: '0.05', ANGLE: '25', COUNT: '2', 'FACE-Z': '3' };

describe('a keyway in the sub-spindle', () => {
  const card = cardOf(-1, -1);
  const methods = [['driven', { RPM: '800' }], ['static', { METHOD: 'STATIC', SPEED: '8' }]] as const;

  it.each(methods)('%s: nothing to object to, and it is where the note says', (_name, more) => {
    for (const own of [card, cardOf(1, 1)]) {
      const stretch = provedStretch(composedProgram('keyway', { ...slot, ...more, SPINDLE: 'SUB' }, own), own);
      expect(stretch.proof!.findings).toEqual([]);
      expect(figure(stretch, 'slotLength1').value).toBeCloseTo(12, 2);
      expect([1, 2].map((index) => Math.round(figure(stretch, `slotAngle${index}`).value)).sort((a, b) => a - b)).toEqual([-155, 25]);
    }
  });

  it.each(methods)('%s: a block of the main spindle is found wrong there', (_name, more) => {
    const sub = composedProgram('keyway', { ...slot, ...more, SPINDLE: 'SUB' }, card);
    const main = composedProgram('keyway', { ...slot, ...more }, card);
    const [note] = /\(KEYWAY:[^)]*\)\n(\(\+[^)]*\)\n)*/.exec(sub) ?? [''];
    const mixed = changed(main, /\(KEYWAY:[^)]*\)\n(\(\+[^)]*\)\n)*/, note);
    expect(rulesOf(provedStretch(mixed, card))).toEqual(expect.arrayContaining([expect.stringMatching(/^slot-(length|nothing)$/)]));
  });
});

describe('a keyway clocked to a gear', () => {
  const card = cardOf(1, 1);
  const clocked = { BORE: '20', LENGTH: '5', RPM: '800', FEED: '0.05', 'CLOCK-TO': 'SPACE', 'GEAR-TEETH': '18', 'TOOTH-ANGLE': '7', 'TOOTH-NO': '2', ANGLE: '1.5' };

  it('is proved where it is clocked to, two and a half pitches and an angle further', () => {
    const stretch = provedStretch(composedProgram('keyway', clocked, card), card);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'slotAngle1').value).toBeCloseTo(7 + 2.5 * 20 + 1.5, 4);
  });

  it('is found a pitch away', () => {
    const text = composedProgram('keyway', clocked, card);
    expect(rulesOf(provedStretch(changed(text, /C58\.5/, 'C78.5'), card))).toContain('slot-position');
  });

  it('is set against teeth in the same spindle only', () => {
    const teeth = composedProgram('hobbing', { ...gear, SPINDLE: 'SUB' }, card).replace(/M30\n$/, '');
    const gapOf = (spindle: string) => prove(teeth + composedProgram('keyway', { ...clocked, SPINDLE: spindle }, card), card).find(({ process }) => process === 'KEYWAY')!.proof!.figures.some(({ id }) => id === 'slotToGap1');
    expect(gapOf('SUB')).toBe(true);
    expect(gapOf('MAIN')).toBe(false);
  });
});

describe('engraving in the sub-spindle', () => {
  const card = cardOf(-1, 1);
  const mark = { TEXT: 'K7', HEIGHT: '4', DEPTH: '0.12', 'TIP-DIA': '0.1', 'TIP-ANGLE': '60', FLUTES: '2', RPM: '30000', 'CHIP-LOAD': '0.01', 'AT-X': '44', SPINDLE: 'SUB', 'FACE-Z': '2' };
  // Z- is the safe side here.
  const text = composedProgram('engraving', mark, card).replaceAll('Z200.0', 'Z-200.0');

  it('on a face from which Z falls: nothing to object to', () => {
    const stretch = provedStretch(text, card);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'depth').value).toBeCloseTo(0.12, 6);
  });

  it.each([
    ['too deep', text.replaceAll('Z2.12', 'Z2.2'), 'engrave-depth'],
    ['into the air, as on the main spindle', text.replaceAll('Z2.12', 'Z1.88'), 'engrave-nothing'],
    ['not lifted between strokes', text.replaceAll('Z1.5', 'Z2.05'), 'engrave-rapid'],
  ])('%s', (_name, wrong, rule) => {
    expect(wrong).not.toBe(text);
    expect(rulesOf(provedStretch(wrong, card))).toContain(rule);
  });
});
