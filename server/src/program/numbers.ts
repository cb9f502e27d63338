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
  #text = '';
  #limit = 0;
  #mantissa = 0;

  /** Reads at `at`, which must not be white space. Answers whether there is a number with at least one digit. */
  read(text: string, at: number, limit: number): boolean {
    this.#begin(text, at, limit);
    const isNegative = this.#takeSign();
    this.#takeDigits();
    const integerDigits = this.digits;
    this.#takePoint();
    if (this.pointed) this.#takeDigits();
    this.value = this.digits === 0 ? NaN : this.#size(at, this.digits - integerDigits) * (isNegative ? -1 : 1);
    return this.digits > 0;
  }

  #begin(text: string, at: number, limit: number): void {
    this.#text = text;
    this.#limit = limit;
    this.#mantissa = 0;
    this.end = at;
    this.digits = 0;
    this.pointed = this.spaced = this.signed = false;
  }

  /** Answers whether there is a minus sign. */
  #takeSign(): boolean {
    const code = this.#codeAt(this.end);
    this.signed = code === MINUS || code === PLUS;
    if (this.signed) this.end++;
    return code === MINUS;
  }

  #takeDigits(): void {
    for (let at = this.#next(); ; at = this.#next()) {
      const code = this.#codeAt(at);
      if (code < ZERO || code > NINE) return;
      this.#mantissa = this.#mantissa * 10 + (code - ZERO);
      this.digits++;
      this.#take(at);
    }
  }

  #takePoint(): void {
    const at = this.#next();
    if (this.#codeAt(at) !== POINT) return;
    this.pointed = true;
    this.#take(at);
  }

  /** White space before the first digit or point separates nothing; after it, it stands inside the number. */
  #take(at: number): void {
    const isInside = this.digits > 1 || (this.digits === 1 && this.#codeAt(at) === POINT) || (this.pointed && this.#codeAt(at) !== POINT);
    this.spaced ||= at > this.end && isInside;
    this.end = at + 1;
  }

  /** The next place that is not white space. */
  #next(): number {
    let at = this.end;
    while (at < this.#limit && isWhite(this.#text.charCodeAt(at))) at++;
    return at;
  }

  #codeAt(at: number): number {
    return at < this.#limit ? this.#text.charCodeAt(at) : 0;
  }

  #size(at: number, fractionDigits: number): number {
    if (this.digits > EXACT_DIGITS) return longNumber(this.#text, at, this.end);
    return this.#mantissa / POWERS_OF_TEN[fractionDigits]!;
  }
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
