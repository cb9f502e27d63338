import type { Dialect } from './dialect.ts';
import { UNITS } from './registers.ts';

/** The one conversion between the two unit systems of programs. Exact since 1959. */
export const INCH_IN_MM = 25.4;

/** The units of the program. */
export function unitsInForce(row: Float64Array): 'mm' | 'inch' {
  return row[UNITS] === 20 ? 'inch' : 'mm';
}

/** Program units in one unit of the dialect. */
export function unitFactor(row: Float64Array, dialect: Dialect): number {
  const isProgramInch = row[UNITS] === 20;
  if (isProgramInch === (dialect.units === 'inch')) return 1;
  return isProgramInch ? 1 / INCH_IN_MM : INCH_IN_MM;
}
