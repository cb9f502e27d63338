/**
 * The items of one line in arrays that are used again for the next line.
 *
 * A program of a million lines is read without making an object a word; whoever
 * wants objects copies them out of the tape. The tape knows nothing of meaning.
 */
import type { RuleId } from './rules.ts';

export const WORD = 1;
export const SEQUENCE = 2;
export const SKIP = 3;
export const PERCENT = 4;
export const PROGRAM_NUMBER = 5;
export const PARENTHESIS_COMMENT = 6;
export const SEMICOLON_COMMENT = 7;
export const ASSIGNMENT = 8;
export const HOLE = 9;
export const JUNK = 10;

/** The number was written with a decimal point. */
export const POINTED = 1;
/** The value is an expression, a parameter or a function. */
export const EXPRESSION = 2;
/** The comment is closed on its line. */
export const CLOSED = 4;
/** No value could be read. */
export const VALUELESS = 8;
/** The value depends on a parameter that nobody has set. */
export const UNKNOWN = 16;

/** A mistake in the text itself, found while it was read. */
export interface Fault {
  readonly rule: RuleId;
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

const FIRST_CAPACITY = 64;

/** An item's kind, flags and letter share one number, so that adding an item is four writes. */
const FLAGS_AT = 8;
const LETTER_AT = 16;
const BYTE = 255;

export class Tape {
  count = 0;
  start = new Int32Array(FIRST_CAPACITY);
  end = new Int32Array(FIRST_CAPACITY);
  /** NaN where there is no value or it is not known. */
  value = new Float64Array(FIRST_CAPACITY);
  /** The parameter number of an assignment. */
  index = new Float64Array(FIRST_CAPACITY);
  /** Empty on nearly every line. */
  faults: Fault[] = [];
  #tags = new Int32Array(FIRST_CAPACITY);

  kind(row: number): number {
    return this.#tags[row]! & BYTE;
  }

  flags(row: number): number {
    return (this.#tags[row]! >> FLAGS_AT) & BYTE;
  }

  /** Upper case character code; 0 where an item has no letter. */
  letter(row: number): number {
    return this.#tags[row]! >> LETTER_AT;
  }

  clear(): void {
    this.count = 0;
    if (this.faults.length > 0) this.faults = [];
  }

  /** Adds an item and returns its row. */
  add(kind: number, start: number, end: number, letter = 0, flags = 0, value = NaN): number {
    const row = this.count++;
    if (row === this.start.length) this.#grow();
    this.#tags[row] = kind | (flags << FLAGS_AT) | (letter << LETTER_AT);
    this.start[row] = start;
    this.end[row] = end;
    this.value[row] = value;
    return row;
  }

  setFlags(row: number, flags: number): void {
    this.#tags[row] = (this.#tags[row]! & ~(BYTE << FLAGS_AT)) | (flags << FLAGS_AT);
  }

  fault(rule: RuleId, start: number, end: number, message: string): void {
    this.faults.push({ rule, start, end, message });
  }

  #grow(): void {
    const capacity = this.start.length * 2;
    this.#tags = copyInto(new Int32Array(capacity), this.#tags);
    this.start = copyInto(new Int32Array(capacity), this.start);
    this.end = copyInto(new Int32Array(capacity), this.end);
    this.value = copyInto(new Float64Array(capacity), this.value);
    this.index = copyInto(new Float64Array(capacity), this.index);
  }
}

function copyInto<T extends Int32Array | Float64Array>(larger: T, smaller: T): T {
  larger.set(smaller);
  return larger;
}
