/**
 * Which key belongs to a bore, and how deep its keyway is: DIN 6885-1 in
 * millimetres, ASME B17.1 in inches.
 *
 * The two standards measure the depth of the hub differently, and mixing them is
 * the classic mistake: DIN's t2 is taken at the centre line from the bore's
 * circle, B17.1's H/2 at the corner of the keyway. Everything that leaves this
 * module is at the centre line.
 */
import { positiveLength } from './domain.ts';
import {
  CLASS_1_RECTANGULAR,
  CLASS_1_SQUARE,
  CLASS_2,
  INCH_KEY_SIZES,
  METRIC_KEY_SIZES,
  type InchFitRow,
  type InchKeySize,
  type MetricKeySize,
} from './key-tables.ts';
import { OutOfRange } from './quantity.ts';
import { sagittaOfChord } from './slot-geometry.ts';
import type { Standing } from './standing.ts';

export type KeyShape = 'square' | 'rectangular';
export type KeyKind = 'parallel' | 'taper';

/** C of B17.1 in inches: clearance over a parallel key, interference over a taper key. */
export const DEPTH_ALLOWANCE: Readonly<Record<KeyKind, number>> = { parallel: 0.005, taper: -0.02 };

/**
 * The DIN 6885-1 key of a bore in millimetres; ranges are "over ... up to and
 * including", and 6 mm itself takes the first size as the tables that list it do.
 *
 * @throws OutOfRange on `boreDiameter` outside 6 to 500
 */
export function metricKeyForBore(boreDiameter: number): MetricKeySize {
  const size = METRIC_KEY_SIZES.find((row) => boreDiameter <= row.boreUpTo);
  if (!size || !(boreDiameter >= 6)) {
    throw new OutOfRange('boreDiameter', boreDiameter, 'at least 6 and at most 500', 'mm, DIN 6885-1; outside it give width and depth');
  }
  return size;
}

/**
 * The B17.1 key of a bore in inches.
 *
 * @throws OutOfRange on `boreDiameter` outside over 5/16 up to 11
 */
export function inchKeyForBore(boreDiameter: number): InchKeySize {
  const size = INCH_KEY_SIZES.find((row) => boreDiameter <= row.boreUpTo);
  if (!size || !(boreDiameter > 5 / 16)) {
    throw new OutOfRange('boreDiameter', boreDiameter, 'more than 0.3125 and at most 11', 'inch, ASME B17.1; outside it give width and depth');
  }
  return size;
}

/**
 * Height of the inch key in a shape.
 *
 * @throws OutOfRange on `keyShape` where the standard has no rectangular key
 */
export function inchKeyHeight(size: InchKeySize, shape: KeyShape = size.preferred): number {
  const height = shape === 'square' ? size.squareHeight : size.rectangularHeight;
  if (height === undefined) throw new OutOfRange('keyShape', shape, 'square', 'this bore has no rectangular key');
  return height;
}

/**
 * Dimension S of B17.1: floor of the shaft's keyseat to the opposite side of the shaft.
 * S = D - Y - H/2 with the chordal height Y.
 */
export function shaftDepthDimension(diameter: number, width: number, height: number): number {
  return diameter - sagittaOfChord(diameter / 2, width) - positiveLength('height', height) / 2;
}

/**
 * Dimension T of B17.1: floor of the hub's keyway to the opposite side of the
 * bore (at the deep end of a taper key). T = D - Y + H/2 + C.
 */
export function hubDepthDimension(diameter: number, width: number, height: number, kind: KeyKind = 'parallel'): number {
  const corner = diameter - sagittaOfChord(diameter / 2, width);
  return corner + positiveLength('height', height) / 2 + DEPTH_ALLOWANCE[kind];
}

export interface SeatLimits {
  readonly upper: number;
  readonly lower: number;
  readonly standing: Standing;
}

/**
 * Limits of the width of an inch keyseat relative to its nominal width.
 *
 * @throws OutOfRange on `fit` for another class than CLASS1 and CLASS2, on `width` beyond the table
 */
export function inchSeatLimits(width: number, fit: string, shape: KeyShape): SeatLimits {
  const { rows, standing } = inchFitTable(fit, shape, width);
  return { upper: rowForWidth(rows, width).seatWidthUpper, lower: 0, standing };
}

/** Limits of the width of the inch key itself relative to its nominal width. */
export function inchKeyLimits(width: number, fit: string, shape: KeyShape): SeatLimits {
  const { rows } = inchFitTable(fit, shape, width);
  const row = rowForWidth(rows, width);
  return { upper: row.keyWidthUpper, lower: row.keyWidthLower, standing: 'seen in source' };
}

/**
 * Thin keys are refused: the depths of ISO 2491 were not confirmed in a second
 * source, and DIN 6885-3 has other depths for the same section.
 */
export function thinKeyForBore(boreDiameter: number): never {
  throw new OutOfRange(
    'keyForm', `thin key for bore ${boreDiameter}`, 'a key of DIN 6885-1',
    'the depths of ISO 2491 and DIN 6885-3 differ and are not verified; give width and depth from the drawing',
  );
}

function inchFitTable(fit: string, shape: KeyShape, width: number): { rows: readonly InchFitRow[]; standing: Standing } {
  positiveLength('width', width);
  if (fit === 'CLASS2') return { rows: CLASS_2, standing: 'from memory' };
  if (fit !== 'CLASS1') throw new OutOfRange('fit', fit, 'CLASS1 or CLASS2 (class 3 is not tabulated)');
  return { rows: shape === 'square' ? CLASS_1_SQUARE : CLASS_1_RECTANGULAR, standing: 'seen in source' };
}

function rowForWidth(rows: readonly InchFitRow[], width: number): InchFitRow {
  const row = rows.find(({ widthUpTo }) => width <= widthUpTo);
  if (row) return row;
  throw new OutOfRange('width', width, `at most ${rows.at(-1)?.widthUpTo ?? 0}`, 'inch, ASME B17.1 fits');
}
