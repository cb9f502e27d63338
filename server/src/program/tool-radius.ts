/**
 * By how much tool radius compensation moves the centre of the tool off the
 * programmed path: half the diameter that the machine gives for the D word, or
 * for the tool in use where G41 or G42 has none.
 */
import type { Dialect } from './dialect.ts';
import { unitFactor } from './inch.ts';
import * as r from './registers.ts';

/**
 * In program units, positive to the left of the path; NaN where not known. A
 * diameter below zero moves to the other side: the program then gives the centre
 * of a nominal tool, and the diameter is what the real one has more.
 */
export function offsetToTheLeft(row: Float64Array, dialect: Dialect): number {
  const diameter = dialect.toolDiameters?.get(radiusNumber(row)) ?? NaN;
  const side = row[r.RADIUS_COMPENSATION] === 41 ? 1 : -1;
  return (side * diameter * unitFactor(row, dialect)) / 2;
}

/** The number under which the diameter is looked up; NaN where not known. */
export function radiusNumber(row: Float64Array): number {
  return row[r.RADIUS_NUMBER] === r.NEVER ? row[r.TOOL]! : row[r.RADIUS_NUMBER]!;
}
