/**
 * Reads a plain line straight into a block, without a tape: a block delete mark,
 * a sequence number, words with literal numbers, and comments that are no notes.
 * Nearly every line of a long program is plain, and nobody asks where its words
 * stand.
 *
 * It knows nothing that `lines.ts` does not know. Whatever is not plain, and
 * whatever may be wrong, it leaves to that reader.
 */
import type { Block } from './block.ts';
import { CLOSE_PARENTHESIS, COLON, isControlCharacter, isWhite, letterOf, MINUS, NINE, OPEN_PARENTHESIS, PERCENT_SIGN, POINT, SLASH, ZERO } from './characters.ts';
import { LONGEST_SEQUENCE_NUMBER } from './lines.ts';
import { EXACT_DIGITS, POWERS_OF_TEN } from './numbers.ts';
import { BEYOND_ASCII, type CharacterWindow } from './window.ts';

const FIRST_LETTER = 65;
const LETTER_E = 69;
const LETTER_N = 78;
const LETTER_O = 79;
/** In place of an offset: the line is not plain. */
const NOT_PLAIN = -1;

/** The letters of words that may stand anywhere on a line, by character in either case; 0 for all other characters. */
const WORD_LETTERS = Uint8Array.from({ length: 256 }, (_, code) => {
  const letter = letterOf(code);
  return letter === LETTER_N || letter === LETTER_O ? 0 : letter;
});

/** Characters in a comment that the other reader looks at: of notes, of nested comments, and what a comment must not hold. */
const IS_OPEN_IN_COMMENT = Uint8Array.from({ length: 256 }, (_, code) =>
  code === OPEN_PARENTHESIS || code === COLON || code === BEYOND_ASCII || code === PERCENT_SIGN || isControlCharacter(code) ? 1 : 0);

export class PlainReader {
  constructor(private readonly block: Block) {}

  /**
   * Fills the block from a line in the window. False if the line is not plain; the block is then of no use.
   *
   * It is one long function on purpose: a call for each word of a million lines, with what the words come to so
   * far in fields of objects, is a good part of what reading costs. Behind the line stands a line end or nothing,
   * so digits end there at the latest.
   */
  read({ bytes, start }: CharacterWindow, from: number, limit: number): boolean {
    const { block } = this;
    const { values, axisBits, lettersToLookAt } = block;
    const end = limit - start;
    block.begin();
    let at = afterSequence(bytes, this.#afterSkip(bytes, from - start));
    let seen = 0;
    let axes = 0;
    while (at !== NOT_PLAIN && at < end) {
      let code = bytes[at]!;
      const letter = WORD_LETTERS[code]!;
      if (letter === 0) {
        at = isWhite(code) ? at + 1 : code === OPEN_PARENTHESIS ? afterComment(bytes, at + 1, end) : NOT_PLAIN;
        continue;
      }

      code = bytes[++at]!;
      const isNegative = code === MINUS;
      if (isNegative) code = bytes[++at]!;
      const digitsStart = at;
      let mantissa = 0;
      while (code >= ZERO && code <= NINE) {
        mantissa = mantissa * 10 + (code - ZERO);
        code = bytes[++at]!;
      }
      let digits = at - digitsStart;
      let value = mantissa;
      if (code === POINT) {
        const pointAt = at;
        code = bytes[++at]!;
        while (code >= ZERO && code <= NINE) {
          mantissa = mantissa * 10 + (code - ZERO);
          code = bytes[++at]!;
        }
        digits = at - digitsStart - 1;
        value = mantissa / POWERS_OF_TEN[at - pointAt - 1]!;
      }
      if (digits === 0 || digits > EXACT_DIGITS) return false;

      const index = letter - FIRST_LETTER;
      const bit = 1 << index;
      if ((lettersToLookAt & bit) !== 0) {
        block.incoming[0] = isNegative ? -value : value;
        if (!block.take(letter)) return false;
      } else if ((seen & bit) === 0) {
        seen |= bit;
        axes |= axisBits[index]!;
        values[index] = isNegative ? -value : value;
      } else return false;
      at = afterGap(bytes, code, at);
    }
    block.seen |= seen;
    block.axes |= axes;
    return at !== NOT_PLAIN;
  }

  /** A mark with a digit or a second slash after it is left to the other reader, which refuses such a start. */
  #afterSkip(bytes: Uint8Array, at: number): number {
    if (bytes[at] !== SLASH || WORD_LETTERS[bytes[at + 1]!] === 0 && (bytes[at + 1]! & ~32) !== LETTER_N) return at;
    this.block.takeSkip();
    return at + 1;
  }
}

/** After the white space that may stand behind a number: one character of it, if the number cannot go on after it. */
function afterGap(bytes: Uint8Array, code: number, at: number): number {
  if (!isWhite(code)) return at;
  const next = bytes[at + 1]!;
  return (next >= ZERO && next <= NINE) || next === POINT || isWhite(next) ? NOT_PLAIN : at + 1;
}

/** After the sequence number with which a line may begin. */
function afterSequence(bytes: Uint8Array, at: number): number {
  if ((bytes[at]! & ~32) !== LETTER_N) return at;
  let position = at + 1;
  let code = bytes[position]!;
  while (code >= ZERO && code <= NINE) code = bytes[++position]!;
  const digits = position - at - 1;
  return digits > 0 && digits <= LONGEST_SEQUENCE_NUMBER && code !== POINT ? afterGap(bytes, code, position) : NOT_PLAIN;
}

/** After a comment that opens before `at` and cannot be a note. A note has a colon, or begins with END. */
function afterComment(bytes: Uint8Array, at: number, end: number): number {
  let first = at;
  while (first < end && isWhite(bytes[first]!)) first++;
  if ((bytes[first]! & ~32) === LETTER_E && (bytes[first + 1]! & ~32) === LETTER_N) return NOT_PLAIN;
  for (let position = first; position < end; position++) {
    const code = bytes[position]!;
    if (code === CLOSE_PARENTHESIS) return position + 1;
    if (IS_OPEN_IN_COMMENT[code] === 1) return NOT_PLAIN;
  }
  return NOT_PLAIN;
}
