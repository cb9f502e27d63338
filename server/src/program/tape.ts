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

export class Tape {
  count = 0;
  kind = new Uint8Array(FIRST_CAPACITY);
  /** Upper case character code; 0 where an item has no letter. */
  letter = new Uint8Array(FIRST_CAPACITY);
  flags = new Uint8Array(FIRST_CAPACITY);
  start = new Int32Array(FIRST_CAPACITY);
  end = new Int32Array(FIRST_CAPACITY);
  valueStart = new Int32Array(FIRST_CAPACITY);
  /** NaN where there is no value or it is not known. */
  value = new Float64Array(FIRST_CAPACITY);
  /** The parameter number of an assignment. */
  index = new Float64Array(FIRST_CAPACITY);
  /** Empty on nearly every line. */
  faults: Fault[] = [];

  clear(): void {
    this.count = 0;
    if (this.faults.length > 0) this.faults = [];
  }

  /** Adds an item and returns its row. */
  add(kind: number, start: number, end: number): number {
    const row = this.count++;
    if (row === this.kind.length) this.#grow();
    this.kind[row] = kind;
    this.letter[row] = 0;
    this.flags[row] = 0;
    this.start[row] = start;
    this.end[row] = end;
    this.valueStart[row] = end;
    this.value[row] = NaN;
    return row;
  }

  fault(rule: RuleId, start: number, end: number, message: string): void {
    this.faults.push({ rule, start, end, message });
  }

  #grow(): void {
    const capacity = this.kind.length * 2;
    this.kind = copyInto(new Uint8Array(capacity), this.kind);
    this.letter = copyInto(new Uint8Array(capacity), this.letter);
    this.flags = copyInto(new Uint8Array(capacity), this.flags);
    this.start = copyInto(new Int32Array(capacity), this.start);
    this.end = copyInto(new Int32Array(capacity), this.end);
    this.valueStart = copyInto(new Int32Array(capacity), this.valueStart);
    this.value = copyInto(new Float64Array(capacity), this.value);
    this.index = copyInto(new Float64Array(capacity), this.index);
  }
}

function copyInto<T extends Uint8Array | Int32Array | Float64Array>(larger: T, smaller: T): T {
  larger.set(smaller);
  return larger;
}
