/** What must hold of the grammar for any text at all. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Piece, readLines } from './nc-grammar.ts';

const fragment = fc.constantFrom(
  'G', 'x', 'N10', 'O', '1', '2.', '.5', '-', '+', ' ', '\t', '#', '[', ']', '(', ')', ';', '/', '%', ':', '=', '*', '<', '>', '"',
  'SIN', 'atan', 'or', 'MSG', '(HOBBING: ', '(+ ', '(END HOBBING)', 'TEETH=3', 'FIT=JS9', '<hole>', 'é', '\ud800',
);
const programLine = fc.oneof(
  { weight: 4, arbitrary: fc.array(fragment, { maxLength: 25 }).map((parts) => parts.join('')) },
  fc.string({ unit: 'binary', maxLength: 30 }).map((text) => text.replace(/[\r\n]/g, ' ')),
);

/** The innermost scope of each character that is not white space. */
const coloursOfCharacters = (pieces: readonly Piece[]): string[] =>
  pieces.flatMap(({ text, scopes }) => [...text.replace(/[ \t]/g, '')].map((character) => `${character} ${scopes.at(-1) ?? ''}`));

describe('for any text', () => {
  test('a line ends whatever it opened, so that no line depends on the lines before it', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(programLine, { minLength: 1, maxLength: 4 }), async (lines) => {
        const inContext = await readLines(lines);
        expect(inContext.openRules).toBe(0);
        expect(inContext.pieces).toEqual((await readLines(lines.slice(-1))).pieces);
      }),
    );
  });

  test('every character of the line is in one piece', async () => {
    await fc.assert(
      fc.asyncProperty(programLine, async (line) => {
        expect((await readLines([line])).pieces.map(({ text }) => text).join('')).toBe(line);
      }),
    );
  });
});

// N is no word, and O is none in the report either: at the start of a line it numbers the program.
const letter = fc.constantFrom(...'ABCDEFGHIJKLMPQRSTUVWXYZ');
const number = fc.tuple(fc.constantFrom('', '0', '00'), fc.nat(99999), fc.constantFrom('', '.', '.5', '.250')).map((parts) => parts.join(''));
const legalWord = fc.tuple(letter, number).map((parts) => parts.join(''));
const legalBlock = fc.array(legalWord, { minLength: 1, maxLength: 6 }).map((words) => `N10${words.join('')}`);
const whiteSpaces = fc.array(fc.constantFrom('', '', ' ', '\t'), { minLength: 80, maxLength: 80 });

describe('white space and case mean nothing outside comments (NISTIR 6556, section 3.3)', () => {
  test('white space between any two characters of a legal block changes no colour', async () => {
    await fc.assert(
      fc.asyncProperty(legalBlock, whiteSpaces, async (block, spaces) => {
        const spaced = [...block].map((character, index) => character + (spaces[index] ?? '')).join('');
        expect(coloursOfCharacters((await readLines([spaced])).pieces)).toEqual(coloursOfCharacters((await readLines([block])).pieces));
      }),
    );
  });

  test('lower case is coloured as upper case', async () => {
    await fc.assert(
      fc.asyncProperty(legalBlock, async (block) => {
        const scopesOf = async (line: string) => (await readLines([line])).pieces.map(({ scopes }) => scopes);
        expect(await scopesOf(block.toLowerCase())).toEqual(await scopesOf(block));
      }),
    );
  });

  test('every letter and every digit of a legal block has a colour', async () => {
    await fc.assert(
      fc.asyncProperty(legalBlock, async (block) => {
        expect((await readLines([block])).pieces.filter(({ scopes }) => scopes.length === 0)).toEqual([]);
      }),
    );
  });
});
