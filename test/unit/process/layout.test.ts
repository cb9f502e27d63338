import { describe, expect, it } from 'vitest';
import { comment, layOut, type Layout } from '../../../server/src/process/layout.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import type { BlockLine } from '../../../server/src/process/process.ts';

const blocks = (...words: string[]): BlockLine[] => words.map((each) => ({ kind: 'block', words: each }));

/** Lays out lines under a note without parameters and gives what stands between its ends. */
function check(lines: BlockLine[], layout: Partial<Layout>, expected: string[]): void {
  const all = layOut(keyway, {}, lines, { comment: 'parentheses', maxLineLength: 80, ...layout }).lines;
  expect(all.slice(1, -1)).toEqual(expected);
}

describe('sequence numbers', () => {
  it('go on by their step', () => check(blocks('G00', 'G01', 'M30'), { numbering: { first: 120, step: 10 } }, ['N120 G00', 'N130 G01', 'N140 M30']));
  it('are none without numbering', () => check(blocks('G00', 'G01'), {}, ['G00', 'G01']));
  it('are not given to comments', () => check([...blocks('G00'), { kind: 'comment', text: 'A' }, ...blocks('G01')], { numbering: { first: 5, step: 5 } }, ['N5 G00', '(A)', 'N10 G01']));
  it('end just before the next number of the program', () => check(blocks('G00', 'G01'), { numbering: { first: 20, step: 10, before: 31 } }, ['N20 G00', 'N30 G01']));
  it('take a smaller step where the usual one does not fit', () => check(blocks('G00', 'G01', 'G02'), { numbering: { first: 20, step: 10, before: 25 } }, ['N12 G00', 'N14 G01', 'N16 G02']));
  it('take the smallest step where only that fits', () => check(blocks('G00', 'G01', 'G02'), { numbering: { first: 20, step: 10, before: 14 } }, ['N11 G00', 'N12 G01', 'N13 G02']));
  it('are left out where they do not fit', () => check(blocks('G00', 'G01', 'G02'), { numbering: { first: 20, step: 10, before: 13 } }, ['G00', 'G01', 'G02']));
  it('are left out where they would fall below zero', () => check(blocks('G00', 'G01'), { numbering: { first: 0, step: 10, before: 5 } }, ['G00', 'G01']));
  it('are left out where the program counts down behind', () => check(blocks('G00'), { numbering: { first: 120, step: 10, before: 50 } }, ['G00']));
  it('never pass five digits [NISTIR 6556 §3.3.1]', () => check(blocks('G00', 'G01'), { numbering: { first: 99_990, step: 10 } }, ['N99985 G00', 'N99990 G01']));
});

describe('comments', () => {
  it('take the style of the program', () => {
    expect(comment('UNIT K', 'parentheses')).toBe('(UNIT K)');
    expect(comment('UNIT K', 'semicolon')).toBe(';UNIT K');
  });

  it('never hold what would end them', () => {
    expect(comment('UNIT (K) \u00b5 \n', 'parentheses')).toBe('(UNIT [K] ? ?)');
    expect(comment('a\r\nM30', 'semicolon')).toBe(';a??M30');
  });

  it('are wrapped at words within the limit', () => {
    const text = 'ONE TWO THREE FOUR FIVE SIX SEVEN EIGHT NINE TEN';
    check([{ kind: 'comment', text }], { maxLineLength: 30 }, ['(ONE TWO THREE FOUR FIVE SIX)', '(SEVEN EIGHT NINE TEN)']);
  });
});

describe('a line that is too long', () => {
  it('is an error that names the key of the card', () => {
    const { problems } = layOut(keyway, {}, blocks(`G01 ${'X1.234 '.repeat(5)}`.trim()), { comment: 'parentheses', maxLineLength: 30 });
    expect(problems).toMatchObject([{ rule: 'line-too-long', severity: 'error', cardKey: 'maxLineLength' }]);
    expect(problems[0]?.message).toBe('"G01 X1.234 X1.234 X1.234 X1.23…" has 38 characters; the machine card allows 30.');
  });

  it('is none at exactly the limit', () => {
    expect(layOut(keyway, {}, blocks('G01 X1.234567 Y1.234567 Z1.234'), { comment: 'parentheses', maxLineLength: 30 }).problems).toEqual([]);
  });
});
