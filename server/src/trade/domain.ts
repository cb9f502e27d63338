/**
 * Guards for the inputs of the formulas: a value outside the range in which a
 * formula holds becomes an `OutOfRange` that names the field and the range.
 * Knows no formula; the caller states each range.
 */
import { OutOfRange, shown } from './quantity.ts';

export interface Range {
  /** The value must be more than this. */
  over?: number;
  /** The value must be this or more. */
  atLeast?: number;
  /** The value must be less than this. */
  under?: number;
  /** The value must be this or less. */
  atMost?: number;
  whole?: boolean;
  /** Why, when the range alone does not explain it. */
  reason?: string;
}

/**
 * Large enough for any part and any machine, small enough that no product of a
 * few such numbers overflows.
 */
export const LARGEST_LENGTH = 1e5;
/** Far below any real length, large enough that nothing divided by it overflows. Shown as 0 in messages. */
const SMALLEST_POSITIVE = 1e-12;
export const LARGEST_RPM = 1e6;
export const LARGEST_RATE = 1e9;
export const LARGEST_COUNT = 1e4;

/** Returns the value if it lies in the range. Throws `OutOfRange` otherwise, for NaN too. */
export function inRange(parameter: string, value: number, range: Range): number {
  if (!isInside(value, range)) throw new OutOfRange(parameter, value, rangeInWords(range), range.reason);
  return value;
}

/** Returns the value if it is a positive length in any unit. */
export function positiveLength(parameter: string, value: number): number {
  return inRange(parameter, value, { over: SMALLEST_POSITIVE, atMost: LARGEST_LENGTH });
}

/** Returns the value if it is a length of 0 or more in any unit. */
export function lengthOrZero(parameter: string, value: number): number {
  return inRange(parameter, value, { atLeast: 0, atMost: LARGEST_LENGTH });
}

/** Returns the value if it is a speed of rotation in revolutions (or strokes) a minute. */
export function turningSpeed(parameter: string, value: number): number {
  return inRange(parameter, value, { over: SMALLEST_POSITIVE, atMost: LARGEST_RPM });
}

/** Returns the value if it is a rate in length a minute, revolution or tooth, in any unit of length. */
export function positiveRate(parameter: string, value: number): number {
  return inRange(parameter, value, { over: SMALLEST_POSITIVE, atMost: LARGEST_RATE });
}

/** Returns the value if it is a whole number from `atLeast` on. */
export function count(parameter: string, value: number, atLeast = 1): number {
  return inRange(parameter, value, { atLeast, atMost: LARGEST_COUNT, whole: true });
}

/**
 * Returns a result if it is within what the next formula takes. Throws on the
 * input that led to it otherwise, because nobody gave the result itself.
 */
export function resultInRange(result: number, what: string, most: number, parameter: string, given: number): number {
  if (result > SMALLEST_POSITIVE && result <= most) return result;
  throw new OutOfRange(parameter, given, `a value that gives ${what} more than 0 and at most ${shown(most)}`, `it gives ${result.toPrecision(3)}`);
}

/** For example "more than 0 and at most 100". */
export function rangeInWords(range: Range): string {
  const bounds: string[] = [];
  if (range.over !== undefined) bounds.push(`more than ${shown(range.over)}`);
  if (range.atLeast !== undefined) bounds.push(`at least ${shown(range.atLeast)}`);
  if (range.under !== undefined) bounds.push(`less than ${shown(range.under)}`);
  if (range.atMost !== undefined) bounds.push(`at most ${shown(range.atMost)}`);
  return (range.whole ? 'a whole number, ' : '') + bounds.join(' and ');
}

function isInside(value: number, range: Range): boolean {
  return (
    Number.isFinite(value) &&
    value > (range.over ?? -Infinity) &&
    value >= (range.atLeast ?? -Infinity) &&
    value < (range.under ?? Infinity) &&
    value <= (range.atMost ?? Infinity) &&
    (!range.whole || Number.isInteger(value))
  );
}
