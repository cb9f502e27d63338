/** Plunged gears, cut virtually: right ones between shoulders, and the same blocks made wrong in one word. */
import { describe, expect, it } from 'vitest';
import { composedProgram, figure, inventedCard, provedStretch, rulesOf, usualMachine } from './composed-programs.ts';

const card = inventedCard(usualMachine);
const note = { MODULE: '1.5', TEETH: '20', HELIX: '15', FACE: '8', 'HOB-DIA': '50', 'HOB-GASHES': '10', SPEED: '50', FEED: '1', ENTRY: 'PLUNGE', 'RADIAL-FEED': '0.3' };
const text = composedProgram('hobbing', note, card);

/** Changes one place; a change that finds nothing is a mistake of the test. */
function changed(pattern: RegExp, replacement: string, from = text): string {
  const result = from.replace(pattern, replacement);
  if (result === from) throw new Error(`${pattern} is not in\n${from}`);
  return result;
}

describe('a plunge', () => {
  it.each<[string, Record<string, string>]>([
    ['one cut', {}],
    ['two cuts, left hand', { CUTS: '2', HAND: 'LEFT' }],
    ['straight teeth, conventional', { HELIX: '0', METHOD: 'CONVENTIONAL' }],
    ['no spark-out and no clearance', { 'SPARK-OUT': '0', CLEARANCE: '0' }],
    ['between two shoulders, where an approach finds no room', { 'SHOULDER-DIA': '40', 'SHOULDER-GAP': '19.5', 'FRONT-DIA': '40', 'FRONT-GAP': '19.5' }],
  ])('%s: nothing to object to', (_name, more) => {
    const stretch = provedStretch(composedProgram('hobbing', { ...note, ...more }, card), card);
    expect(stretch.refused).toBeUndefined();
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'teeth').value).toBe(20);
    expect(Math.abs(figure(stretch, 'helixAngle').value - (figure(stretch, 'helixAngle').wanted ?? NaN))).toBeLessThan(0.01);
  });

  it('in an inch program, X and its feed on the diameter or in radii: nothing to object to', () => {
    const inch = { ...note, FACE: '.32', 'HOB-DIA': '2', SPEED: '160', FEED: '.04', 'RADIAL-FEED': '.012' };
    for (const own of [inventedCard({ ...usualMachine, units: 'inch' }, { xFeedOnDiameter: true }), inventedCard({ ...usualMachine, units: 'inch', diameterProgramming: false })]) {
      const stretch = provedStretch(composedProgram('hobbing', inch, own), own);
      expect(stretch.proof!.findings).toEqual([]);
      expect(figure(stretch, 'teeth').value).toBe(20);
    }
  });

  it('between those shoulders axial entry is refused', () => {
    expect(() => composedProgram('hobbing', { ...axialNote(), 'FRONT-DIA': '40', 'FRONT-GAP': '19.5' }, card)).toThrow(/ENTRY=PLUNGE finds room/);
  });
});

describe('a plunge made wrong', () => {
  const sync = /G137.*\n/.exec(text)![0];
  const radial = Number(/G01 X\S+ F([\d.]+)/.exec(text)![1]);
  const startZ = Number(/G00 Y\S+ Z([-\d.]+)/.exec(text)![1]);

  it.each<[string, string, string]>([
    ['hob and work coupled only after it', changed(/(G04.*\n)/, `$1${sync}`, changed(/G137.*\n/, '')), 'cut-unsynchronised'],
    ['in rapid', changed(/G01 (X\S+) F\S+/, 'G00 $1'), 'cut-rapid'],
    ['feed counted on the diameter', changed(/(G01 X\S+ F)\S+/, `$1${(2 * radial).toFixed(4)}`), 'cut-feed'],
    ['feed counted on the hob instead of the work', changed(/(G01 X\S+ F)\S+/, `$1${(20 * radial).toFixed(4)}`), 'cut-feed'],
    ['the axial feed', changed(/(G01 X\S+ F)\S+/, `$1${/G01 Z\S+ F(\S+)/.exec(text)![1]}`), 'cut-feed'],
    ['C turned on the way in', changed(/(G01 X\S+)/, '$1 C3.0'), 'cut-index'],
    ['not to depth, in either part', changed(/G01 X([\d.]+)/, `G01 X${(Number(/G01 X([\d.]+)/.exec(text)![1]) + 0.2).toFixed(4)}`), 'cut-depth'],
    ['inside the teeth', changed(new RegExp(`Z${startZ}`, 'g'), 'Z-3.0'), 'cut-travel'],
    ['a note that asks for axial entry', changed(/ ENTRY=PLUNGE RADIAL-FEED=0\.3/, ''), 'cut-entry'],
    ['an axial block under a note that asks for a plunge', changed(/FACE=8/, 'FACE=8 ENTRY=PLUNGE RADIAL-FEED=0.3', composedProgram('hobbing', axialNote(), card)), 'cut-entry'],
  ])('%s', (_name, wrong, rule) => {
    const stretch = provedStretch(wrong, card);
    expect(stretch.refused).toBeUndefined();
    expect(rulesOf(stretch)).toContain(rule);
  });

  it('the rapid is named as one that goes in radially', () => {
    const stretch = provedStretch(changed(/G01 (X\S+) F\S+/, 'G00 $1'), card);
    expect(stretch.proof!.findings.find(({ rule }) => rule === 'cut-rapid')?.message).toContain('radially without a feed');
  });
});

function axialNote(): Record<string, string> {
  const { ENTRY: _entry, 'RADIAL-FEED': _feed, ...rest } = note;
  return rest;
}

describe('the retract', () => {
  it('takes what the last revolution of a coarse feed leaves, and that is no cut in rapid', () => {
    const coarse = { MODULE: '3', TEETH: '20', HELIX: '30', FACE: '12.7', 'HOB-DIA': '80', 'HOB-STARTS': '3', 'HOB-HAND': 'LEFT', 'HOB-GASHES': '22', RPM: '400', FEED: '1.55', CUTS: '3', METHOD: 'CONVENTIONAL', ENTRY: 'PLUNGE', 'RADIAL-FEED': '0.853', 'SPARK-OUT': '2' };
    for (const FACE of ['12.6', '12.7', '12.9']) expect(provedStretch(composedProgram('hobbing', { ...coarse, FACE }, card), card).proof!.findings).toEqual([]);
  });

  it('too late after the coupling has ended, with the hob still in the teeth, is named', () => {
    const early = changed(/(G01 Z\S+ F\S+\n)/, '$1G138\nG04 P2.0\n', changed(/\nG138\n/, '\n'));
    expect(rulesOf(provedStretch(early, card))).toContain('cut-unsynchronised');
  });
});
