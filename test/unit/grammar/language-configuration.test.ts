/** The language configuration, read and used as an editor uses it. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { type ParseError, parse } from 'jsonc-parser';
import { describe, expect, test } from 'vitest';
import { readLines } from './nc-grammar.ts';

interface LanguageConfiguration {
  comments: { lineComment: string; blockComment: [string, string] };
  brackets: [string, string][];
  autoClosingPairs: { open: string; close: string; notIn: string[] }[];
  surroundingPairs: [string, string][];
  wordPattern: { pattern: string; flags: string };
  onEnterRules: { beforeText: string; afterText: string; action: { indent: string; appendText: string } }[];
  folding: { markers: { start: string; end: string } };
}

const errors: ParseError[] = [];
const text = readFileSync(new URL('../../../syntaxes/language-configuration.json', import.meta.url), 'utf8');
const configuration = parse(text, errors) as LanguageConfiguration;

test('is well formed', () => expect(errors).toEqual([]));

describe('comment toggling', () => {
  const { lineComment, blockComment } = configuration.comments;

  test('a toggled line is all comment and holds nothing illegal, whatever it held before', async () => {
    const line = fc.array(fc.constantFrom('N10 ', 'G1X2', '(TOP)', '(', ')', ';', ' ', '[', '<hole>', '(HOBBING: TEETH=3)'), { maxLength: 8 }).map((parts) => parts.join(''));
    await fc.assert(
      fc.asyncProperty(line, async (before) => {
        const { pieces } = await readLines([`${lineComment} ${before}`]);
        expect(pieces.filter(({ scopes }) => !scopes[0]?.startsWith('comment.') || scopes.some((scope) => scope.startsWith('invalid.')))).toEqual([]);
      }),
    );
  });

  test('wrapped in the standard parentheses instead, a line with a comment would stay partly live', async () => {
    const { pieces } = await readLines([`${blockComment.join('N10 (TOP) G1 X2')}`]);
    expect(pieces.some(({ scopes }) => scopes.includes('invalid.illegal.nested-parenthesis'))).toBe(true);
    expect(pieces.some(({ scopes }) => scopes.includes('keyword.control.preparatory'))).toBe(true);
  });

  test('a block without comments is legal in the standard parentheses', async () => {
    const { pieces } = await readLines([blockComment.join('N10 G1 X2')]);
    expect(new Set(pieces.map(({ scopes }) => scopes[0]))).toEqual(new Set(['comment.block.parenthesis']));
  });
});

describe('brackets', () => {
  test('parentheses and square brackets match', () => expect(configuration.brackets).toEqual([['(', ')'], ['[', ']']]));

  test('close by themselves, but never inside a comment', () => {
    expect(configuration.autoClosingPairs.map(({ open, close, notIn }) => [open, close, notIn])).toEqual([['(', ')', ['comment']], ['[', ']', ['comment']]]);
  });

  test('a selection is never surrounded with parentheses', () => expect(configuration.surroundingPairs).toEqual([['[', ']']]));
});

describe('the words that editor services see in', () => {
  const { pattern, flags } = configuration.wordPattern;
  const wordsOf = (line: string) => [...line.matchAll(new RegExp(pattern, `g${flags}`))].map(([word]) => word);

  test.each([
    ['N10G59.1X12.5Y-.5 z+3.', ['N10', 'G59.1', 'X12.5', 'Y-.5', 'z+3.']],
    ['S[#1+2] ##12=4', ['S', '#1', '2', '##12', '4']],
    ['(HOBBING: HOB-DIA=63 SHIFT=-0.25 FIT=JS9)', ['HOBBING', 'HOB-DIA', '63', 'SHIFT', '-0.25', 'FIT', 'JS9']],
    ['<syncOn> P1', ['<syncOn>', 'P1']],
    ['(Größe 5)', ['Größe', '5']],
  ])('%s', (line, words) => expect(wordsOf(line)).toEqual(words));
});

describe('enter at the end of a line', () => {
  const continuationOf = (line: string) =>
    configuration.onEnterRules.find(({ beforeText, afterText }) => new RegExp(beforeText).test(line) && new RegExp(afterText).test(''))?.action.appendText;

  test.each([
    ['(HOBBING: MODULE=2 TEETH=32)', '(+ '],
    ['N10 (KEYWAY:)', '(+ '],
    ['  (+ HOB-DIA=63)  ', '(+ '],
    [';HOBBING: MODULE=2', ';+ '],
    ['; + SPEED=60', ';+ '],
    ['(END HOBBING)', undefined],
    ['(NOTE: CHECK THIS)', undefined],
    ['(HOBBING: MODULE=2', undefined],
    ['(+ 5 DEGREES)', undefined],
    ['; PLAIN: words', undefined],
    ['G1 X2 (TOP)', undefined],
  ])('%s', (line, expected) => expect(continuationOf(line)).toBe(expected));
});

describe('folding', () => {
  const { start, end } = configuration.folding.markers;
  const roleOf = (line: string) => (new RegExp(start).test(line) ? 'start' : new RegExp(end).test(line) ? 'end' : 'none');

  test.each([
    ['(HOBBING: MODULE=2)', 'start'],
    ['N10 (KEYWAY: BORE=50)', 'start'],
    ['(INDEXED-SLOT: COUNT=6)', 'start'],
    [';HOBBING: MODULE=2', 'start'],
    ['(+ TEETH=32)', 'none'],
    ['(NOTE: CHECK THIS)', 'none'],
    ['G1 (HOBBING: MODULE=2)', 'none'],
    ['(END HOBBING)', 'end'],
    ['N90 ( END KEYWAY )', 'end'],
    ['; END HOBBING', 'end'],
    ['(END OF PART ONE)', 'none'],
  ])('%s', (line, role) => expect(roleOf(line)).toBe(role));
});
