/**
 * Reads one literal number of the word address format.
 *
 * White space means nothing, not even inside a number (NISTIR 6556 §3.3), so
 * `+0. 12 34` is 0.1234. The reader leaves its result in its fields because it
 * is called for every word of a program.
 */
import { isWhite, MINUS, NINE, PLUS, POINT, ZERO } from './characters.ts';

/** Up to this many digits, digits / power of ten is the correctly rounded value. */
export const EXACT_DIGITS = 15;
export const POWERS_OF_TEN = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, power) => 10 ** power);

export class NumberReader {
  value = NaN;
  /** After the last character of the number; equal to where reading began if there is none. */
  end = 0;
  pointed = false;
  spaced = false;
  digits = 0;
  signed = false;

  /** Reads at `at`, which must not be white space. Answers whether there is a number with at least one digit. */
  read(text: string, at: number, limit: number): boolean {
    let position = at;
    let mantissa = 0;
    let digits = 0;
    let fractionDigits = 0;
    let pointed = false;
    let spaced = false;
    let code = position < limit ? text.charCodeAt(position) : 0;
    const negative = code === MINUS;
    const signed = negative || code === PLUS;
    if (signed) code = ++position < limit ? text.charCodeAt(position) : 0;
    let end = position;
    for (;;) {
      if (code >= ZERO && code <= NINE) {
        mantissa = mantissa * 10 + (code - ZERO);
        digits++;
        if (pointed) fractionDigits++;
      } else if (code === POINT && !pointed) {
        pointed = true;
      } else if (isWhite(code)) {
        const next = afterWhite(text, position, limit);
        if (!continues(text, next, limit, pointed)) break;
        spaced ||= digits > 0 || pointed;
        position = next;
        code = text.charCodeAt(position);
        continue;
      } else {
        break;
      }
      end = ++position;
      code = position < limit ? text.charCodeAt(position) : 0;
    }
    this.end = digits === 0 && !pointed && !signed ? at : end;
    this.pointed = pointed;
    this.spaced = spaced;
    this.digits = digits;
    this.signed = signed;
    if (digits === 0) {
      this.value = NaN;
      return false;
    }
    const size = digits <= EXACT_DIGITS ? mantissa / POWERS_OF_TEN[fractionDigits]! : longNumber(text, at, end);
    this.value = negative ? -size : size;
    return true;
  }
}

function afterWhite(text: string, from: number, limit: number): number {
  let position = from;
  while (position < limit && isWhite(text.charCodeAt(position))) position++;
  return position;
}

function continues(text: string, at: number, limit: number, pointed: boolean): boolean {
  if (at >= limit) return false;
  const code = text.charCodeAt(at);
  return (code >= ZERO && code <= NINE) || (code === POINT && !pointed);
}

/** Reads blocks of digits in pieces so that a line of ten million digits stays cheap and finite. */
function longNumber(text: string, start: number, end: number): number {
  const SIGNIFICANT = 1000;
  const cleaned = text.slice(start, Math.min(end, start + SIGNIFICANT)).replace(/[\s+-]/g, '');
  const value = Number(cleaned);
  return end - start <= SIGNIFICANT ? value : value * 10 ** Math.min(integerDigitsBeyond(text, start + SIGNIFICANT, end, cleaned), 400);
}

function integerDigitsBeyond(text: string, from: number, end: number, read: string): number {
  if (read.includes('.')) return 0;
  let count = 0;
  for (let position = from; position < end; position++) {
    const code = text.charCodeAt(position);
    if (code === POINT) break;
    if (code >= ZERO && code <= NINE) count++;
  }
  return count;
}
