/**
 * The error conditions that NISTIR 6556 gives in its text, one by one, and the
 * warnings that the ISO family of codes and the trade add. Where a severity is
 * milder than the report's, the rule's own summary says so.
 */
import { RULE_IDS } from '../../../server/src/program/problems.ts';
import { FIRST_CHARACTER_KIND } from '../../../server/src/program/tally.ts';
import { describe, expect, test } from 'vitest';
import { type Dialect, openStandardDialect, programRules, readProgram } from '../../../server/src/program/index.ts';
import { atZero, marks, standingAt } from './helpers.ts';

const at = (dialect: Partial<Dialect>): Dialect => ({ ...openStandardDialect, ...dialect });

describe('errors of the text (NISTIR 6556 §3.3)', () => {
  test.each([
    ['an unknown character', 'G1 F1 X1 !', ['1:10 character']],
    ['an unknown function', 'G1 F1 X asim[0.5]', ['1:9 expression']],
    ['an opening parenthesis in a comment', '(a(b)', ['1:3 comment-nested']],
    ['an open comment', 'G21 (open', ['1:5 comment-open']],
    ['a sequence number with sign', 'N-5', ['1:1 sequence-number']],
    ['a sequence number with point', 'N5.', ['1:1 sequence-number']],
    ['a sequence number of six digits', 'N000009', ['1:1 sequence-number']],
    ['a sequence number behind a word', 'G1 N5 F1 X1', ['1:4 sequence-number']],
    ['a second sequence number', 'N5 N6 G1 F1 X1', ['1:4 sequence-number']],
    ['a sequence number behind a slash', '/N5 G1 F1 X1', []],
    ['a letter without a number', 'G1 F1 X', ['1:7 value-missing']],
    ['a point without a digit', 'G1 F1 X.', ['1:7 value-missing']],
    ['a bracket that is not closed', 'G1 F1 X[1', ['1:8 expression']],
    ['a number too far from a whole one', 'G1.5 M3', []],
    ['a G that is not a tenth', 'G1.55', ['1:1 not-integer']],
    ['an M that is not whole', 'M3.5', ['1:1 not-integer']],
    ['a T that is not whole', 'T1.5', ['1:1 not-integer']],
    ['a space inside a number, which is legal and misleading', 'G1 F1 X1 2', ['1:7 space-in-number']],
  ])('%s: %s', (_name, line, expected) => expect(marks(line, atZero).filter((mark) => !mark.endsWith('unknown-code'))).toEqual(expected));

  test('whole numbers may be off by 0.0001 (NISTIR 6556 §3.3.2.1)', () => {
    expect(marks('M3.0001 T4.99999 G[2*10+0.0001/10]', atZero)).toEqual([]);
    expect(marks('M3.0002', atZero)).toEqual(['1:1 not-integer']);
  });

  test('256 characters are the longest line', () => {
    expect(marks(`(${'x'.repeat(254)})`)).toEqual([]);
    expect(marks(`(${'x'.repeat(255)})`)).toEqual(['1:257 line-too-long']);
    expect(marks('G1 F1 X10.000', { ...atZero, maxLineLength: 10 })).toEqual(['1:11 line-too-long']);
    expect([10, undefined].map((most) => readProgram(`(${'x'.repeat(255)})`, { ...atZero, ...(most === undefined ? {} : { maxLineLength: most }) }).problems()[0]!.message)).toEqual([expect.stringContaining('the control reads at most 10'), expect.stringContaining('RS274/NGC reads at most 256')]);
  });

  test('errors behind a slash are still errors (NISTIR 6556 §2.2.2)', () => expect(marks('/X', at({ skipBlocks: true }))).toEqual(['1:2 value-missing']));
});

describe('increments by letters of their own, which the report does not know', () => {
  const dialect = standingAt({ X: 10, Y: 0, Z: 5 }, { incrementalAxes: { U: 'X', W: 'Z' } });
  const xAfter = (text: string): number | undefined => readProgram(text, dialect).stateAfter(text.split('\n').length - 1).position.X;

  test.each([
    ['beside the word of the axis', 'G0 X20 U5', ['1:8 word-twice'], undefined],
    ['beside the word of another axis', 'G0 X20 W5', [], 20],
    ['with G92', 'G92 U5', ['1:5 not-computed'], undefined],
    ['with G92 for another axis', 'G92 X3 W5', ['1:8 not-computed'], 3],
    ['with G10', 'G10 L2 P1 U5', ['1:11 not-computed'], undefined],
    ['as place of a hole', 'G98 G81 X10 Z-5 R2 F1\nU5', ['2:1 not-computed'], undefined],
    ['as depth of holes', 'G98 G81 X10 W-5 R2 F1\nX20', ['1:13 not-computed'], undefined],
  ])('%s: %s', (_name, text, expected, x) => {
    expect(marks(text, dialect)).toEqual(expected);
    expect(xAfter(text)).toBe(x);
  });

  test('a letter that moves another axis has no number of its own to set', () => expect(readProgram('G92 U5', dialect).stateAfter(0).position.U).toBeUndefined());
});

describe('words of one line (NISTIR 6556 §3.3.5, §3.4)', () => {
  test.each([
    ['a letter twice', 'G1 F1 X1 X2', ['1:10 word-twice']],
    ['five M words', 'M3 M8 M48 M0 M10', ['1:14 too-many-m']],
    ['two codes of one group', 'G0 G1 F1 X1', ['1:4 group-conflict']],
    ['two planes', 'G17 G18', ['1:5 group-conflict']],
    ['two M of one group', 'M3 M4', ['1:4 group-conflict']],
    ['both coolants on one line', 'M7 M8', ['1:4 group-conflict']],
    ['codes of different groups', 'G0 G17 G21 G40 G49 G54 G90 G94 G98 X1', []],
    ['G92 beside a motion code', 'G1 F1 G92 X1', ['1:7 one-shot-and-motion']],
    ['G92 under a motion in force', 'G1 F1 X1\nG92 X1', []],
    ['a code of no table', 'G5', ['1:1 unknown-code']],
    ['a code that is permanently free', 'M25', ['1:1 unknown-code']],
    ['a code beyond the tables', 'G1234', ['1:1 unknown-code']],
    ['G92 without an axis word', 'G92', ['1:1 word-missing']],
    ['G43 without H', 'G43', ['1:1 word-missing']],
    ['D without G41 or G42', 'G40 D1', ['1:5 word-unused']],
    ['D that is negative', 'G41 D-1', ['1:5 negative-value']],
    ['G1 without an axis word', 'G1 F1', ['1:1 motion-without-axis']],
    ['axis words after G80', 'G80\nX1', ['2:1 axis-without-motion']],
    ['axis words before any motion code', 'X1', ['1:1 motion-not-set']],
    ['G53 under an arc', 'G2 X1 R5 F1\nG53 X1', ['2:1 machine-coordinates']],
    ['G53 with compensation', 'G41 G1 F1 X1\nG53 X1', ['2:1 machine-coordinates']],
    ['a negative S', 'S-100', ['1:1 negative-value']],
    ['a negative T', 'T-1', ['1:1 negative-value']],
    ['a negative F', 'F-1', ['1:1 negative-value']],
    ['a G10 without L2', 'G10 P1 X1', ['1:1 coordinate-system']],
    ['a G10 with P10', 'G10 L2 P10 X1', ['1:1 coordinate-system']],
    ['a G10 that is right', 'G10 L2 P9 X1', []],
  ])('%s: %s', (_name, text, expected) => expect(marks(text, atZero)).toEqual(expected));

  test.each<[string, Partial<Dialect>, string]>([
    ['no card says it', {}, 'does not say that S beside it is the speed limit'],
    ['the card has other words for it', { patterns: [{ name: 'speedLimit', words: [{ letter: 'G', value: 27 }, { letter: 'S', slot: 'rpm' }] }] }, 'has other words for the speed limit'],
  ])('G92 S where %s is refused, and sets neither speed nor limit', (_name, more, message) => {
    const program = readProgram('G96 S200 M3\nG92 S3000', at(more));
    expect(program.problems()[0]).toMatchObject({ line: 1, start: 0, end: 3, rule: 'word-missing', message: expect.stringContaining(message) as string });
    expect(program.stateAfter(1)).toMatchObject({ speed: 200 });
    expect(program.stateAfter(1).speedLimit).toBeUndefined();
  });

  test('S beside a G92 with an axis word is the speed (NISTIR 6556 table 8)', () => {
    expect(readProgram('G92 X1 S900', at({})).stateAfter(0).speed).toBe(900);
    expect(readProgram('G92 U1 S900', at({ incrementalAxes: { U: 'X' } })).stateAfter(0).speed).toBe(900);
    expect(readProgram('G92', at({})).problems()[0]!.message).toBe('G92 needs at least one axis word.');
  });

  test('the machine card may explain a code', () => expect(marks('M25 G5 M08', at({ meanings: { M25: 'chuck', G05: 'hold' } }))).toEqual([]));
});

describe('feed, speed and compensation', () => {
  test.each([
    ['a thread with its lead before any F (ISO 6983-1, from memory)', 'S100 M3\nG33 Z-1 K0.5', []],
    ['a thread without lead before any F', 'S100 M3\nG33 Z-1', ['2:5 feed-missing']],
    ['a feed move before any F', 'G1 X1\nX2', ['1:4 feed-missing']],
    ['inverse time without F on the line (NISTIR 6556 §3.5.19)', 'G93 G1 X1 F2\nX2\nG0 X3', ['2:1 feed-missing']],
    ['inverse time with a probe (NISTIR 6556 §3.5.9)', 'G93 G38.2 X9 F1', ['1:5 feed-mode']],
    ['feed per revolution while nothing turns', 'G95 G1 X1 F0.1', ['1:5 feed-without-spindle']],
    ['compensation when it is on (NISTIR 6556 §3.5.10)', 'G41\nG42', ['2:1 compensation-on']],
    ['a change of plane under it', 'G41\nG18', ['2:1 compensation-on']],
    ['a change of units under it', 'G41\nG20', ['2:1 compensation-on']],
    ['another work offset under it', 'G41\nG55', ['2:1 compensation-on']],
    ['home under it', 'G41\nG28', ['2:1 compensation-on']],
    ['G92 under it', 'G41\nG92 X1', ['2:1 compensation-on']],
    // Common practice, no source.
    ['another tool under it', 'G41\nT2 M6\nG40\nT3 M6', ['2:4 compensation-left-on']],
    ['another tool behind it, on the line that ends it', 'G41\nG40 T2 M6', []],
    ['a tool that is only made ready under it', 'G41\nT2', []],
    ['the plane of lathes', 'G18\nG41', []],
    ['the YZ plane', 'G19\nG41', ['2:1 compensation-plane']],
    ['a probe that starts too near (NISTIR 6556 §3.5.9.1)', 'G38.2 X0.253 F1', ['1:7 probe']],
    ['a probe far enough', 'G38.2 X0.255 F1', []],
    ['the same in inch', 'G20 G38.2 X0.0099 F1', ['1:11 probe']],
    ['a probe with a rotary axis', 'G38.2 X9 C1 F1', ['1:1 probe']],
    ['a stop word on a line with motion (NISTIR 6556 §3.8 against ISO)', 'G0 X1 M5', ['1:7 stop-before-motion']],
    ['coolant that stops while it cuts, and beside a rapid', 'M3 G1 X1 F1 M9\nG0 X0 M9', ['1:13 stop-before-motion']],
    // Common practice, no source: a feed is written where the tool cuts.
    ['a feed on a line that moves in rapid by the code before', 'G0 X9\nX5 F0.1\nF2\nX4', ['2:4 feed-in-rapid']],
    ['a feed beside a rapid of its own line, or beside a move at feed', 'G0 X9 F0.1\nG1 X5\nX4 F0.2', []],
    ['a path that is not computed', 'M3 G34 Z9 K1 F1', ['1:4 not-computed']],
  ])('%s', (_name, text, expected) => expect(marks(text, atZero)).toEqual(expected));
});

describe('the frame of a program (NISTIR 6556 §3.1)', () => {
  const rules = (text: string): string[] => readProgram(text).problems().map(({ line, rule }) => `${line + 1} ${rule}`);
  test.each([
    ['no end at all', 'G21\n\n', ['1 end-missing']],
    ['M2', 'G21\nM2', []],
    ['a pair of percent signs', '%\nG21\n%\n', []],
    ['an opening percent sign only', '\n%\nG21\nM30\n', ['4 percent-open']],
    // From memory of ISO 6983-1: what names the program may precede its start.
    ['comments before the opening percent sign', '(PART 17)\n; TAPE B\n%\nG21\n%\n', []],
    ['comments before an opening percent sign only', '(PART 17)\n%\nG21\nM30\n', ['4 percent-open']],
    ['words before a percent sign', '(PART 17)\nN1\n%\nM2', ['3 percent-late']],
    ['a percent sign in the middle', 'G21\n%\nM2', ['2 percent-late']],
    ['anything after the closing percent sign', '%\nG21\n%\n!!! (x', []],
    ['anything after M30 is not executed', 'M30\nG1 X1', []],
    ['nothing', '', []],
  ])('%s', (_name, text, expected) => expect(rules(text)).toEqual(expected));
});

test('a message names the word, its value and what is allowed', () => {
  const [problem] = readProgram('S-100\nM2').problems();
  expect(problem).toEqual({ line: 0, start: 0, end: 5, rule: 'negative-value', severity: 'error', message: 'S-100: the value must be 0 or more.' });
  expect(readProgram('G2 X9 I5 F1\nM2', atZero).problems()[0]!.message).toBe('X9: the radius is 5 at the start and 4 at the end; they may differ by at most 0.002 mm.');
});

test('a visible hole is an error', () => {
  expect(readProgram('<syncOn>\nM2').problems()).toMatchObject([{ rule: 'hole', severity: 'error', start: 0, end: 8 }]);
});

test('every rule has a summary and a source', () => {
  for (const rule of Object.values(programRules)) {
    expect(rule.summary).toMatch(/^[A-Z].*\.$/);
    expect(rule.source.length).toBeGreaterThan(5);
  }
});

describe('many problems', () => {
  const text = `${'X1 X2\n'.repeat(1000)}!\nM2`;
  test('at most so many of one rule, and none of another is lost', () => {
    const some = readProgram(text, standingAt({})).problems(0, undefined, 10);
    expect(some.filter(({ rule }) => rule === 'word-twice').length).toBe(10);
    expect(some.filter(({ rule }) => rule === 'character')).toMatchObject([{ line: 1000 }]);
  });
  test('the counts count all', () => expect(readProgram(text).problemCounts().get('word-twice')).toBe(1000));
  test('a range of lines', () => expect(readProgram(text).problems(500, 502).filter(({ rule }) => rule === 'word-twice').map(({ line }) => line)).toEqual([500, 501]));
});

test('the kinds of problems have room for every rule', () => {
  expect(RULE_IDS.length).toBeLessThanOrEqual(FIRST_CHARACTER_KIND);
});
