/**
 * Hands, sides and senses as signs, so that a formula can multiply by them
 * instead of branching. It knows no machine: which side the hob stands on and
 * which way the work counts are inputs like any other.
 */
import { OutOfRange } from './quantity.ts';

/** A hand: right = +1, left = -1. Also a side or a sense: +1 along the axis named, -1 against it. */
export type Hand = 1 | -1;

/** Throws `OutOfRange` unless the value is exactly +1 or -1. */
export function requireHand(parameter: string, value: number): void {
  if (value !== 1 && value !== -1) throw new OutOfRange(parameter, value, '1 or -1');
}
