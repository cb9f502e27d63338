/**
 * An insert in the material may do one thing: stroke. The right blocks pass, and
 * each other motion put into them is named with its line, wherever the strokes
 * are measured otherwise.
 */
import { describe, expect, it } from 'vitest';
import { composedProgram, inventedCard, provedStretch } from './composed-programs.ts';

const card = inventedCard();
const note = { BORE: '50', WIDTH: '14', DEPTH: '3.8', LENGTH: '32', FEED: '0.2', 'SPARK-OUT': '2' };
const standing = composedProgram('keyway', { ...note, METHOD: 'STATIC', SPEED: '8' }, card);
const driven = composedProgram('keyway', { ...note, FEED: '0.05', RPM: '1000' }, card);
const twice = composedProgram('keyway', { ...note, FEED: '0.05', RPM: '1000', COUNT: '2' }, card);
const sided = composedProgram('keyway', { ...note, METHOD: 'STATIC', SPEED: '8', INSERT: '10' }, card);
const square = composedProgram('slotting', { SHAPE: 'SQUARE', BORE: '11', 'ACROSS-FLATS': '10', LENGTH: '12', METHOD: 'STATIC', SPEED: '8', FEED: '0.2' }, card);

/** Replaces the match of a number, counted from 0; from the end where it is negative. */
function changed(text: string, pattern: RegExp, which: number, replacement: string): string {
  const found = [...text.matchAll(new RegExp(pattern, 'g'))].at(which);
  if (!found) throw new Error(`${pattern} is not there`);
  return text.slice(0, found.index) + found[0].replace(pattern, replacement) + text.slice(found.index + found[0].length);
}

function notAStroke(text: string): { line: string; message: string }[] {
  const { proof, refused } = provedStretch(text, card);
  if (!proof) throw new Error(refused);
  return proof.findings.filter(({ rule }) => rule === 'slot-not-a-stroke').map(({ line, message }) => ({ line: text.split('\n')[line]!, message }));
}

describe('strokes and nothing else', () => {
  it.each([['static', standing], ['driven', driven], ['two keyways', twice], ['with side passes', sided], ['a square', square]])('%s: nothing to object to', (_, text) => {
    expect(provedStretch(text, card).proof!.findings).toEqual([]);
  });
});

describe('motions in the material', () => {
  const [start, end] = [/G01 Z-34\.0 F\S+\n/, /G00 Z2\.0\n/];
  it.each<[string, string, RegExp, RegExp]>([
    ['an infeed in X at rapid, half way down the bore', changed(standing, end, 5, 'G00 Z-16.0\nG00 X52.0\nG00 X48.0\nG00 Z2.0\n'), /^G00 X52\.0$/, /moves in X at a standing Z/],
    ['an infeed in X at feed, half way down the bore', changed(standing, end, 5, 'G00 Z-16.0\nG01 X52.0 F100.0\nG00 X48.0\nG00 Z2.0\n'), /^G01 X52\.0 F100\.0$/, /moves in X at a standing Z/],
    ['a stroke at rapid', changed(standing, start, 3, 'G00 Z-34.0\n'), /^G00 Z-34\.0$/, /moves along Z in rapid/],
    ['the work is turned before the insert is out', changed(standing, /G00 X\S+\nG00 Z2\.0\n/, -1, 'G00 Z-20.0\nG00 C5.0\n'), /^G00 C5\.0$/, /the work turns/],
    ['a move in Y in the slot', changed(standing, end, -1, 'G00 Z-20.0\nG00 X57.0\nG00 Y0.5\nG00 X40.0\nG00 Z2.0\n'), /^G00 Y0\.5$/, /it moves in Y/],
    ['the retract before the next side pass left out', changed(sided, /G00 X\S+\nG00 Y-2\.\S+\n/, 0, 'G00 Z-8.0\nG00 X57.6\nG00 Y-2.0\n'), /^G00 Y-2\.0$/, /it moves in Y/],
    ['driven, the second keyway indexed without a retract', changed(twice, /(G04.*\n)G00 X\S+\n(M194\n)/, 0, '$1$2'), /^G00 C180\.0$/, /the work turns/],
    ['driven, a unit that stands is drawn through the bore', changed(driven, /G01 X57\.6 F\S+\n(.*\n)*?G00 X/, 0, 'M125\nG00 Z38.0\nG00 X57.6\nG01 Z-40.0 F500.0\nG00 Z2.0\nG00 X'), /^G01 Z-40\.0/, /by a unit that does not stroke/],
    ['a square indexed without a retract', changed(square, /G00 Z2\.0\nG00 X10\.0\n(M194\nM193\n)?(M194\nG00 C90)/, 0, 'G00 Z-6.0\n$2'), /^G00 C90\.0$/, /the work turns/],
  ])('%s', (_, text, line, message) => {
    expect(notAStroke(text)).toEqual([{ line: expect.stringMatching(line) as string, message: expect.stringMatching(message) as string }]);
  });

  it('an infeed at the face, and a lift behind the bore, are none of them', () => {
    const flush = composedProgram('keyway', { ...note, METHOD: 'STATIC', SPEED: '8', 'LEAD-IN': '0', 'LEAD-OUT': '0' }, card);
    expect(notAStroke(flush)).toEqual([]);
  });
});

describe('a blind slot', () => {
  const blind = { ...note, FEED: '0.05', RPM: '1000', RELIEF: '4' };
  const relief = (text: string) => provedStretch(text, card).proof!.findings.filter(({ rule }) => rule === 'slot-relief').map(({ message }) => message);

  it.each<[string, Record<string, string>]>([['driven', blind], ['static', { ...blind, METHOD: 'STATIC', SPEED: '8', FEED: '0.2' }]])('%s: the strokes end in the relief groove', (_, raw) => {
    expect(relief(composedProgram('keyway', raw, card))).toEqual([]);
  });

  it('the unit stands too deep in the bore', () => {
    const text = composedProgram('keyway', blind, card);
    expect(relief(changed(text, /G00 Z2\.0/, 0, 'G00 Z-1.0'))).toEqual([expect.stringMatching(/A stroke goes 1 mm beyond the end of the relief groove, Z -36/)]);
  });

  it('a static stroke goes too far', () => {
    const text = composedProgram('keyway', { ...blind, METHOD: 'STATIC', SPEED: '8', FEED: '0.2' }, card);
    expect(relief(changed(text, /G01 Z-34\.0/, 8, 'G01 Z-37.0'))).toEqual([expect.stringMatching(/1 mm beyond the end of the relief groove, Z -36/)]);
  });
});

describe('a driven unit that is stopped, anywhere in its stroke', () => {
  // Length 32 and 2 free on either side: the stroke is 36, so that X may cross the wall from Z36 on.
  const clear = /G00 Z38\.0\n/;
  const from = (z: string): string => changed(changed(driven, /Z200\.0/, 0, z), clear, 0, '');

  it.each<[string, string, RegExp]>([
    ['goes into the bore too near to the face', from('Z35.5'), /^G00 X\S+ Y0\.0$/],
    ['goes into the bore right before the face', from('Z2.0'), /^G00 X\S+ Y0\.0$/],
    ['leaves it too near to the face', changed(driven, clear, -1, 'G00 Z35.5\nG00 X120.0\n'), /^G00 X120\.0$/],
    ['leaves it right before the face', changed(driven, clear, -1, 'G00 X120.0\n'), /^G00 X120\.0$/],
    ['goes slantwise', changed(driven, clear, -1, 'G00 X120.0 Z36.0\n'), /^G00 X120\.0 Z36\.0$/],
    ['comes nearer beside the bore', changed(driven, clear, 0, 'G00 Z35.0\n'), /^G00 Z35\.0$/],
    ['comes nearer with X beyond the wall', changed(driven, clear, 0, 'G00 X60.0 Z38.0\nG00 Z2.0\n'), /^G00 Z2\.0$/],
    ['in a square', changed(composedProgram('slotting', { SHAPE: 'SQUARE', BORE: '11', 'ACROSS-FLATS': '10', LENGTH: '12', RPM: '600', FEED: '0.04' }, card), /G00 Z18\.0\n/, -1, 'G00 X60.0\n'), /^G00 X60\.0$/],
  ])('%s', (_, text, line) => {
    expect(notAStroke(text)).toEqual([{ line: expect.stringMatching(line) as string, message: expect.stringMatching(/^The insert may stand up to .* the unit is stopped, nobody knows where in its stroke/) as string }]);
  });

  it.each<[string, string]>([
    ['crosses the wall a whole stroke before the face', changed(driven, clear, -1, 'G00 Z36.0\nG00 X120.0\n')],
    ['goes out of the slot that it has cut, into the bore', changed(driven, /G00 X\S+\nM125\n/, -1, 'M125\nG00 X45.0\n')],
    ['comes from beside the work', changed(driven, /Z200\.0/, 0, 'Z20.0')],
  ])('and nothing is wrong where it %s', (_, text) => expect(notAStroke(text)).toEqual([]));
});
