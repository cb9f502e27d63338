/** No pattern of the grammar may do more than linear work, on any line: counted in steps of matching, never timed. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { grammarValues, readLines } from './nc-grammar.ts';
import { countSteps } from './step-counter.ts';

const patterns = [...new Set(grammarValues('match', 'begin', 'end'))];

const CHARACTERS = [...' \t019.+-*/#[]()<>=:;%",AXGNOE_'];
const OPENINGS = [
  '', '(', '(A', '(A:', '(A: ', '(+', '(+ A', '(END', '(END ', '(END A', '(M S G', ';', ';A', ';A:', ';+ ', ';END A', 'X', 'X+', 'X1', 'X1.', 'X[', '#', '#1', '#1=', '#1 = +',
  '#SIN', '#[1]', '#SIN[1]', 'X SIN', 'ATAN[1]', '[1]', ']', '] /', '<A', 'A=', 'A="', 'A=1', 'A=1.', '/', '/1', 'N', 'N1', 'N1 O', ':', ':1', 'O1', '%', '1', '1.', '1 .',
];
const UNITS = [...CHARACTERS, ...CHARACTERS.flatMap((first) => CHARACTERS.map((second) => first + second)), 'X 1 ', '(A: ', '(A:B=', 'A=" ', '#1=', '1 1.', 'SIN[', 'ATAN[1]/', 'A-B ', '] /', 'N1 O1 ', '(END A'];

/** The unit of text on which twice the length costs clearly more than twice the steps, if there is one. */
function worstLine(pattern: string): string | undefined {
  const cost = (opening: string, unit: string, length: number) => countSteps(pattern, opening + unit.repeat(length / unit.length)).steps;
  const growsTooFast = (opening: string, unit: string) => cost(opening, unit, 240) > 2.5 * cost(opening, unit, 120) + 200;
  for (const opening of OPENINGS) {
    const unit = (opening === '' ? UNITS : CHARACTERS).find((candidate) => growsTooFast(opening, candidate));
    if (unit !== undefined) return `${opening}${unit}${unit}${unit}...`;
  }
  return undefined;
}

describe('the step counter', () => {
  test('finds what the regular expressions of the language find, in every pattern of the grammar', () => {
    const line = fc.array(fc.constantFrom(...CHARACTERS, ...OPENINGS, 'sin[', 'or', 'mSg,'), { maxLength: 12 }).map((parts) => parts.join(''));
    fc.assert(
      fc.property(fc.constantFrom(...patterns), line, (pattern, text) => {
        const expected = [...text.matchAll(new RegExp(pattern, 'g'))].map((match) => [match.index, match.index + match[0].length]);
        expect(countSteps(pattern, text).matches).toEqual(expected);
      }),
      { numRuns: 3000 },
    );
  });

  test.each(['[ \\t]*X', 'X[ \\t]*[-+]?[ \\t]*[0-9]', '[0-9]+\\.?[0-9]*X', '[A-Z][A-Z0-9-]*='])('calls %s too slow', (pattern) => {
    expect(worstLine(pattern)).toBeDefined();
  });

  test.each(['(?:a+)+b', '(a|b)*c'])('refuses the repeated group of %s', (pattern) => {
    expect(() => countSteps(pattern, 'aaa')).toThrow('Not in the part of the pattern language');
  });
});

describe('the grammar', () => {
  test('has patterns', () => expect(patterns.length).toBeGreaterThan(30));

  test.each(patterns)('is linear in %s', (pattern) => {
    expect(worstLine(pattern)).toBeUndefined();
  });

  // Editors leave longer lines without colour unless they are told otherwise. A shorter line of
  // open brackets will do: each piece lists the scopes of all brackets round it.
  test.each(CHARACTERS)('reads a long line of nothing but "%s" and leaves nothing open', async (character) => {
    const { openRules } = await readLines([character.repeat(character === '[' ? 2_000 : 20_000)]);
    expect(openRules).toBe(0);
  });
});
