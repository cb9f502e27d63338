/**
 * A hand-over is followed word by word: who holds the part, coupled or not, in
 * which phase. And teeth cut in the main spindle are found again in the
 * sub-spindle, where a keyway is clocked to them. The phase is worked out from
 * the picture of two spindles that face each other (derived).
 */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composedProgram, figure, inventedCard, prove, provedStretch, usualMachine } from './composed-programs.ts';

type Sign = 1 | -1;

function cardOf(main: Sign = 1, sub: Sign = 1, codes: object = {}): MachineCard {
  const plain = inventedCard({ ...usualMachine, workRotation: main });
  return inventedCard({ ...usualMachine, workRotation: main }, {
    subSpindle: { zSense: 1, ySense: -1, workRotation: sub },
    codes: {
      ...plain.codes, subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294', mainChuckOpen: 'M220', mainChuckClose: 'M221', subChuckOpen: 'M226', subChuckClose: 'M227',
      spindleSyncOn: 'G236 S{rpm} C{angle}', spindleSyncOff: 'G239', subRapid: 'G225 W{z}', subFeed: 'G229 W{z} F{feed}', ...codes,
    },
  });
}

const card = cardOf();
const note = { RPM: '300', 'GRIP-Z': '-400', 'RETRACT-Z': '0', OVERLAP: '18', FEED: '200', PAUSE: '0' };
const release = composedProgram('handover', { ...note, HELD: '25', 'MAIN-ANGLE': '40', 'SUB-ANGLE': '90' }, card);
const heldUnknown = composedProgram('handover', note, card);
const cutOff = composedProgram('handover', { ...note, METHOD: 'CUT-OFF', PULL: '30' }, card);
const retract = composedProgram('handover', { METHOD: 'RETRACT', 'GRIP-Z': '-400', 'RETRACT-Z': '0' }, card);

function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not there`);
  return result;
}

function found(text: string, own = card): string[] {
  const { proof, refused } = provedStretch(text, own);
  if (!proof) throw new Error(refused);
  return proof.findings.map(({ rule, line }) => `${rule} ${text.split('\n')[line]!}`);
}

describe('a hand-over', () => {
  it.each([['released', release], ['released, at feed all the way', heldUnknown], ['drawn out, for cutting off', cutOff], ['taken away', retract]])('%s: nothing to object to', (_, text) => {
    expect(found(text)).toEqual([]);
  });

  it('holds the phase that brings C 40 to C 90, both counting right-handed: 130', () => {
    expect(figure(provedStretch(release, card), 'phaseAngle')).toMatchObject({ value: 130, wanted: 130 });
    expect(figure(provedStretch(composedProgram('handover', { ...note, 'MAIN-ANGLE': '40', 'SUB-ANGLE': '90' }, cardOf(1, -1)), cardOf(1, -1)), 'phaseAngle').value).toBe(50);
  });

  it.each<[string, string, RegExp]>([
    ['another phase', changed(release, /C130\.0/, 'C90.0'), /^handover-phase G236/],
    ['not coupled', changed(release, /G236.*\n/, ''), /^handover-uncoupled M227/],
    ['uncoupled before the jaws close', changed(release, /(M227\n)/, 'G239\n$1'), /^handover-uncoupled M227/],
    ['jaws not opened before', changed(release, /M226\n/, ''), /^handover-grip G229/],
    ['jaws never closed', changed(release, /M227\n/, ''), /^handover-dropped M220/],
    ['the main chuck opens first', changed(release, /(M226\n)/, 'M220\n$1'), /^handover-dropped M220/],
    ['gripped too early', changed(release, /G229 W-400\.0/, 'G229 W-390.0'), /^handover-grip M227/],
    ['over the part in rapid', changed(release, /G225 W-377\.0/, 'G225 W-390.0'), /^handover-rapid G225 W-390/],
    ['drawn out of the main chuck in rapid', changed(release, /G229 W-370\.0.*\n/, ''), /^handover-rapid G225 W0/],
    ['in rapid before it is out', changed(release, /G229 W-370\.0/, 'G229 W-376.0'), /^handover-rapid G225 W0/],
    ['in rapid although nobody knows how far it is in', changed(heldUnknown, /G229 W0\.0 F200\.0/, 'G229 W-200.0 F200.0\nG225 W0.0'), /^handover-rapid G225 W0/],
    ['the bar drawn out in rapid', changed(cutOff, /G229 W-370\.0 F200\.0/, 'G225 W-370.0'), /^handover-rapid G225 W-370/],
    ['taken away while the main chuck holds', changed(release, /M220\n/, ''), /^handover-held G229 W-370/],
    ['the main spindle turns on with open jaws', changed(release, /M05\n/, ''), /^handover-turning \(END/],
    ['drawn out while the main chuck holds', changed(cutOff, /M220\n/, ''), /^handover-held G229/],
    ['not taken back as far as asked', changed(release, /G225 W0\.0/, 'G225 W-100.0'), /^handover-retract/],
    ['the part not taken away', changed(retract, /G225.*\n/, ''), /^handover-retract/],
    ['the jaws open on the way back', changed(retract, /(G225)/, 'M226\n$1'), /^handover-dropped M226/],
  ])('%s', (_, text, message) => {
    expect(found(text)[0]).toMatch(message);
  });

  it('objects to spindles that turn on behind the retract after cutting off', () => {
    const both = (block: string) => prove(changed(cutOff, /M30\n$/, '') + changed(block, /^[^(]*/, ''), card).at(-1)!.proof!.findings.map(({ rule }) => rule);
    expect([both(retract), both(changed(retract, /M05\n/, ''))]).toEqual([[], ['handover-turning']]);
  });

  it('lets the part go in rapid once it is out, with less of the gap than the block gives', () => {
    expect(found(changed(release, /G229 W-370\.0/, 'G229 W-374.0'))).toEqual([]);
  });

  it('is refused where the card does not say who holds the part', () => {
    const { refused } = provedStretch(release, cardOf(1, 1, { subChuckClose: '' }));
    expect(refused).toContain('codes.subChuckClose');
  });

  it('says that the angle is taken for granted where the coupling word has none', () => {
    const plain = cardOf(1, 1, { spindleSyncOn: 'G236 S{rpm}' });
    expect(provedStretch(composedProgram('handover', note, plain), plain).proof!.assumptions.join(' ')).toContain('{angle}');
  });
});

describe('teeth of the main spindle, a keyway in the sub-spindle', () => {
  const gear = { MODULE: '2', TEETH: '18', FACE: '5', 'HOB-DIA': '50', 'HOB-GASHES': '10', RPM: '400', FEED: '1.2' };
  const slot = { BORE: '20', LENGTH: '5', RPM: '800', FEED: '0.05', SPINDLE: 'SUB' };

  function keywayOf(own: MachineCard, angles: { main: string; sub: string; slot: string }, before = '') {
    const parts = [composedProgram('hobbing', gear, own).replace('(HOBBING', `${before}(HOBBING`), composedProgram('handover', { ...note, 'MAIN-ANGLE': angles.main, 'SUB-ANGLE': angles.sub }, own), changed(composedProgram('keyway', { ...slot, ANGLE: angles.slot }, own), /\(KEYWAY/, 'G55\n$&')];
    return prove(parts.map((part) => part.replace(/M30\n$/, '')).join('') + 'M30\n', own).find(({ process }) => process === 'KEYWAY')!;
  }

  it('a gap at C 0 is at SUB-ANGLE afterwards, and the keyway as far from it as its C says', () => {
    const stretch = keywayOf(card, { main: '0', sub: '90', slot: '93' });
    expect(figure(stretch, 'slotToGap1').value).toBeCloseTo(3, 1);
    expect(stretch.proof!.assumptions.join(' ')).toContain('gripped in the phase of the coupling word');
  });

  it.each<[Sign, Sign]>([[1, 1], [1, -1], [-1, 1], [-1, -1]])('C counting %i and %i: what stood at MAIN-ANGLE stands at SUB-ANGLE', (main, sub) => {
    // Coupled with C at 7, a gap stands there; the keyway is slotted three degrees beside it.
    const stretch = keywayOf(cardOf(main, sub), { main: '7', sub: '33', slot: '36' }, 'G00 C7.0\n');
    expect(figure(stretch, 'slotToGap1').value).toBeCloseTo(3 * sub, 1);
  });

  it('is not told where no word holds the angle', () => {
    const own = cardOf(1, 1, { spindleSyncOn: 'G236 S{rpm}' });
    const stretch = keywayOf(own, { main: '0', sub: '0', slot: '0' });
    expect(stretch.proof!.figures.some(({ id }) => id === 'slotToGap1')).toBe(false);
  });
});
