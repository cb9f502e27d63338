/** Slots through a subprogram, cut virtually: the same slot as written out, and every slip of the call named. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkProgram } from '../../../server/src/assist/check.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { slotting } from '../../../server/src/process/slotting.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { callingCard, programOf } from '../process/subprogram-cards.ts';
import { provedStretch, rulesOf } from './composed-programs.ts';

const standing = { BORE: '30', LENGTH: '25', METHOD: 'STATIC', SPEED: '8', FEED: '0.05' };
const driven = { BORE: '30', LENGTH: '25', RPM: '500', FEED: '0.05', COUNT: '3' };

const through = (raw: Record<string, string>) => programOf(keyway, { ...raw, PROGRAM: '8000' }, callingCard);

function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not in\n${text}`);
  return result;
}

const errorsOf = (text: string) => checkProgram(readProgram(text, dialectOf(callingCard)), callingCard).filter(({ severity }) => severity === 'error').map(({ rule, line }) => `${line + 1} ${rule}`);
const lineOf = (text: string, words: string) => text.split('\n').indexOf(words) + 1;

describe('the cut', () => {
  it.each([['standing', standing], ['driven', driven]])('of a %s tool through a subprogram has nothing to object to', (_name, raw) => {
    const text = through(raw);
    expect(text).toContain('M898 P8000');
    expect(provedStretch(text, callingCard).proof?.findings).toEqual([]);
    expect(errorsOf(text)).toEqual([]);
  });

  const any = fc.record({ BORE: fc.constantFrom('20', '30', '50'), FEED: fc.constantFrom('0.05', '0.1'), COUNT: fc.constantFrom('1', '3'), ANGLE: fc.constantFrom('0', '-37.5'), INSERT: fc.constantFrom('5', '6'), LENGTH: fc.constantFrom('8', '25'), 'FACE-Z': fc.constantFrom('0', '-4') });

  it('is the same as of the block that is written out, figure by figure', () => {
    fc.assert(fc.property(any, fc.boolean(), (raw, stands) => {
      const full = { ...raw, COUNT: stands ? raw.COUNT : '3', ...(stands ? { METHOD: 'STATIC', SPEED: '8' } : { RPM: '500' }) };
      const [called, written] = [through(full), programOf(keyway, full, callingCard)].map((text) => provedStretch(text, callingCard).proof);
      expect(called?.figures.length).toBeGreaterThan(5);
      expect(called?.findings).toEqual([]);
      expect(called?.figures.map(({ id, value }) => [id, Number(value.toFixed(6))])).toEqual(written?.figures.map(({ id, value }) => [id, Number(value.toFixed(6))]));
    }), { numRuns: 12 });
  });
});

describe('a call or a subprogram made wrong', () => {
  const text = through(standing);
  const called = through(driven);

  it.each<[string, string, string]>([
    ['two repeats too few: the stroke after them takes three feeds', changed(text, /L76/, 'L74'), 'slot-bite'],
    ['two repeats too many: the insert goes below the floor', changed(text, /L76/, 'L78'), 'slot-depth'],
    ['the step on the radius where X counts diameters', changed(text, /U1\.1/, 'U1.05'), 'slot-bite'],
    ['a stroke that steps out more than it lifts off', changed(text, /U-1\.0/, 'U-0.8'), 'slot-depth'],
    ['a stroke that comes back short: each one starts further inside', changed(text, /G00 W29\.0/, 'G00 W28.0'), 'slot-bite'],
    ['one slot of three not called', changed(called, /(G00 C240\.0\nM10\n)M898 P8000 L1\n/, '$1'), 'slot-count'],
    ['a feed past the floor', changed(called, /G01 X36\.6/, 'G01 X36.8'), 'slot-depth'],
  ])('%s', (_name, wrong, rule) => {
    expect(rulesOf(provedStretch(wrong, callingCard))).toContain(rule);
    expect(errorsOf(wrong)).not.toEqual([]);
  });

  it('one repeat too few or too many is found by the note, on the word', () => {
    for (const repeats of ['L75', 'L77']) {
      const wrong = changed(text, /L76/, repeats);
      expect(errorsOf(wrong)).toEqual([`${lineOf(wrong, `M898 P8000 ${repeats}`)} drift`]);
    }
  });

  it('a word of the subprogram is held against the note too', () => {
    const wrong = changed(text, /W-29\.0/, 'W-28.5');
    expect(errorsOf(wrong)).toEqual([`${lineOf(wrong, 'G01 W-28.5 F8000.0')} drift`]);
  });

  it.each<[string, string, RegExp, string]>([
    ['the return is missing', changed(text, /M899\n/, ''), /8000 of line \d+ has no return/, 'subprogram-open'],
    ['the return is missing and another subprogram follows', changed(text, /M899\n/, 'O8001\nG04 P1\nM899\n'), /8000 of line \d+ has no return/, 'subprogram-open'],
    ['the subprogram is missing', changed(text, /O8000\n[^%]*/, ''), /8000, which the block calls, is not in this file/, 'subprogram-missing'],
    ['the number stands twice', changed(text, /M899\n/, 'M899\nO8000\nG04 P1\nM899\n'), /8000 is the number of more than one program/, 'subprogram-missing'],
  ])('%s: refused by name', (_name, wrong, refused, rule) => {
    expect(provedStretch(wrong, callingCard).refused).toMatch(refused);
    expect(errorsOf(wrong).map((error) => error.split(' ')[1])).toContain(rule);
  });

  it('a hole in the subprogram is not carried out', () => {
    expect(provedStretch(changed(text, /G00 U1\.1/, 'G00 <feed>'), callingCard).refused).toMatch(/holes .*<feed>/);
  });
});

describe('squares and hexagons', () => {
  it.each(['SQUARE', 'HEXAGON'])('a %s in side passes, its corners through a subprogram or its strokes, is as flat as stated', (shape) => {
    const ways: Record<string, string>[] = [{ RPM: '600', FEED: '0.05' }, { METHOD: 'STATIC', SPEED: '8', FEED: '0.05' }];
    for (const strokes of ways) {
      const raw: Record<string, string> = { SHAPE: shape, BORE: '20', 'ACROSS-FLATS': '20', INSERT: '6', FLATNESS: '0.006', LENGTH: '12', ...strokes };
      const text = programOf(slotting, { ...raw, PROGRAM: '8000' }, callingCard);
      expect(text).toContain('M898 P8000');
      expect(provedStretch(text, callingCard).proof?.findings).toEqual([]);
      expect(errorsOf(text)).toEqual([]);
    }
  });
});

describe('a keyway with a stated flatness', () => {
  const raw = { BORE: '50', WIDTH: '14', DEPTH: '3.8', LENGTH: '25', RPM: '500', FEED: '0.05', INSERT: '8' };
  const cut = (stated: Record<string, string>, from: RegExp, to: string) => rulesOf(provedStretch(changed(programOf(keyway, { ...raw, ...stated }, callingCard), from, to), callingCard));
  const lastPass = /(G00 Y3\.0\nG01 )X57\.6/;

  it('whose last pass is four thousandths short is found, and is within what nobody stated', () => {
    expect(cut({ FLATNESS: '0.003' }, lastPass, '$1X57.592')).toContain('slot-flatness');
    expect(cut({}, lastPass, '$1X57.592')).toEqual([]);
    expect(cut({ FLATNESS: '0.003' }, lastPass, '$1X57.6 ')).toEqual([]);
  });
});
