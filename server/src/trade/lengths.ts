/**
 * Where millimetres and inches meet. Most gear formulas do not care for the unit
 * of length; the few that do (tolerances, series of sizes, cutting speed) convert here.
 */
import type { Units } from './quantity.ts';

/** Exact since 1959. */
export const MILLIMETRES_PER_INCH = 25.4;

/** How many of the caller's units one millimetre is. */
export const unitsPerMillimetre = (units: Units): number => (units === 'mm' ? 1 : 1 / MILLIMETRES_PER_INCH);

/** How many millimetres one of the caller's units is. */
export const millimetresPerUnit = (units: Units): number => (units === 'mm' ? 1 : MILLIMETRES_PER_INCH);

/** Lengths of travel in one unit of cutting speed: 1000 mm in a metre, 12 inches in a foot. */
export const lengthPerSpeedUnit = (units: Units): number => (units === 'mm' ? 1000 : 12);
