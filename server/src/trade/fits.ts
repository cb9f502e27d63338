/**
 * Limits of a size by its ISO 286 class, such as 14 P9, for holes (and slots)
 * and shafts up to 500 mm. Letters and grades whose tables were not read in a
 * published source are refused. Knows nothing of keys; lengths here are
 * millimetres, deviations micrometres.
 */
import { inRange } from './domain.ts';
import {
  HOLE_CORRECTION,
  SHAFT_LOWER_DEVIATION,
  SHAFT_UPPER_DEVIATION,
  SIZE_UP_TO,
  STANDARD_TOLERANCE,
} from './iso286-tables.ts';
import { OutOfRange } from './quantity.ts';
import type { Standing } from './standing.ts';

export interface LimitDeviations {
  readonly upperMicrometres: number;
  readonly lowerMicrometres: number;
  readonly source: string;
  readonly standing: Standing;
}

/** What `limitDeviations` accepts, in words for messages and help. */
export const ISO_CLASSES_IN_WORDS =
  'an ISO 286 class of the letters D, E, F, G, H, JS, K, M, N, P (shafts in lower case, no j) and the grades 5 to 12, such as JS9';

/**
 * The deviations of a class at a nominal size.
 *
 * @param nominalMillimetres over 0 and up to 500
 * @param isoClass for example "P9", "JS9", "h9"; capitals are holes and slots
 * @throws OutOfRange on `nominal` or `fit`
 * Source: ISO 286-1 and ISO 286-2, tables and rules.
 */
export function limitDeviations(nominalMillimetres: number, isoClass: string): LimitDeviations {
  const { letter, grade } = parseIsoClass(isoClass);
  const index = sizeRangeIndex(nominalMillimetres);
  const tolerance = toleranceAt(grade, index);
  const limits = letter === letter.toUpperCase() ? holeLimits : shaftLimits;
  const [upper, lower] = limits({ letter, grade, index, tolerance, isoClass });
  return {
    upperMicrometres: upper,
    lowerMicrometres: lower,
    source: 'ISO 286-1 and ISO 286-2',
    standing: grade === 12 && nominalMillimetres > 315 ? 'from memory' : 'seen in source',
  };
}

/**
 * The standard tolerance of a grade, in micrometres.
 *
 * @param nominalMillimetres over 0 and up to 500
 * @param grade 5 to 12
 * @throws OutOfRange on `nominal` or `grade`
 * Source: ISO 286-1.
 */
export function standardToleranceMicrometres(nominalMillimetres: number, grade: number): number {
  inRange('grade', grade, { atLeast: 5, atMost: 12, whole: true });
  return toleranceAt(grade, sizeRangeIndex(nominalMillimetres));
}

/**
 * The tolerance unit i of a size's range in micrometres, at the geometric mean
 * of the range; the grades 5 to 12 are 7, 10, 16, 25, 40, 64, 100 and 160 of it
 * before the standard's own rounding.
 *
 * @throws OutOfRange on `nominal`
 * Source: ISO 286-1.
 */
export function toleranceUnitMicrometres(nominalMillimetres: number): number {
  const index = sizeRangeIndex(nominalMillimetres);
  // The standard takes 1 for the lower end of the first range, whose mean would be 0.
  const mean = Math.sqrt((index === 0 ? 1 : cell(SIZE_UP_TO, index - 1)) * cell(SIZE_UP_TO, index));
  return 0.45 * Math.cbrt(mean) + 0.001 * mean;
}

/**
 * Half the tolerance as older editions print it: odd tolerances of the grades
 * 7 to 11 are lowered to the even number below first. Kept so that a drawing of
 * that time can be read; the exact half is what `limitDeviations` gives.
 * Source: a machine-drawing textbook (one published source).
 */
export function olderSymmetricDeviationMicrometres(nominalMillimetres: number, grade: number): number {
  const tolerance = standardToleranceMicrometres(nominalMillimetres, grade);
  return grade >= 7 && grade <= 11 ? Math.floor(tolerance / 2) : tolerance / 2;
}

interface ClassAtSize {
  letter: string;
  grade: number;
  index: number;
  tolerance: number;
  isoClass: string;
}

type UpperAndLower = readonly [number, number];

const HOLES_BELOW_ZERO = new Set(['K', 'M', 'N', 'P']);

/** Letter and grade of a class. Throws `OutOfRange` on `fit` for what is no class of the tables. */
export function parseIsoClass(isoClass: string): { letter: string; grade: number } {
  const match = /^([A-Z]{1,2}|[a-z]{1,2})([5-9]|1[0-2])$/.exec(isoClass);
  if (!match) throw unknownClass(isoClass);
  return { letter: match[1] ?? '', grade: Number(match[2]) };
}

function sizeRangeIndex(nominal: number): number {
  inRange('nominal', nominal, { over: 0, atMost: 500, reason: 'ISO 286 up to 500 mm, in mm' });
  return SIZE_UP_TO.findIndex((upTo) => nominal <= upTo);
}

function toleranceAt(grade: number, index: number): number {
  return cell(STANDARD_TOLERANCE[grade], index);
}

function holeLimits(at: ClassAtSize): UpperAndLower {
  const { letter, tolerance } = at;
  if (letter === 'JS') return [tolerance / 2, -tolerance / 2];
  if (HOLES_BELOW_ZERO.has(letter)) return below(upperDeviationOfHole(at), tolerance);
  const shaftUpper = SHAFT_UPPER_DEVIATION[letter.toLowerCase()];
  if (!shaftUpper) throw unknownClass(at.isoClass);
  const lower = 0 - cell(shaftUpper, at.index);
  return [lower + tolerance, lower];
}

function shaftLimits(at: ClassAtSize): UpperAndLower {
  const { letter, tolerance, index } = at;
  if (letter === 'js') return [tolerance / 2, -tolerance / 2];
  const upper = SHAFT_UPPER_DEVIATION[letter];
  if (upper) return below(cell(upper, index), tolerance);
  const lower = lowerDeviationOfShaft(at);
  return [lower + tolerance, lower];
}

function lowerDeviationOfShaft({ letter, grade, index, isoClass }: ClassAtSize): number {
  const row = SHAFT_LOWER_DEVIATION[letter];
  if (!row) throw unknownClass(isoClass);
  return letter === 'k' && grade > 7 ? 0 : cell(row, index);
}

function upperDeviationOfHole(at: ClassAtSize): number {
  const { letter, grade, index } = at;
  if (letter === 'M' && grade === 6 && SIZE_UP_TO[index] === 315) return -9;
  if (letter === 'N' && grade > 8) return index === 0 ? -4 : 0;
  if (letter === 'K' && grade > 8) {
    throw new OutOfRange('fit', at.isoClass, 'K5 to K8', 'the standard gives K no upper limit of its own above grade 8');
  }
  const shaft = cell(SHAFT_LOWER_DEVIATION[letter.toLowerCase()], index);
  return correctionFor(letter, grade, index) - shaft;
}

/** The correction holds up to grade 8 for K, M and N and up to grade 7 for P. */
function correctionFor(letter: string, grade: number, index: number): number {
  const lastGrade = letter === 'P' ? 7 : 8;
  return grade <= lastGrade ? cell(HOLE_CORRECTION[grade], index) : 0;
}

function below(upper: number, tolerance: number): UpperAndLower {
  return [upper, upper - tolerance];
}

function unknownClass(isoClass: string): OutOfRange {
  return new OutOfRange('fit', isoClass, ISO_CLASSES_IN_WORDS);
}

function cell(row: readonly number[] | undefined, index: number): number {
  const value = row?.[index];
  if (value === undefined) throw new OutOfRange('nominal', index, 'a size that the table holds');
  return value;
}
