/**
 * Sizes of parallel keys by bore, as data: DIN 6885-1 in millimetres and ASME
 * B17.1 in inches. How a size is chosen and what is made of it is in
 * key-standards.ts; the limits of the width come from fits.ts.
 */
import type { Standing } from './standing.ts';

/** One size of DIN 6885-1:1968 (= ISO/R 773:1969). All lengths in millimetres. */
export interface MetricKeySize {
  readonly boreOver: number;
  readonly boreUpTo: number;
  readonly width: number;
  readonly height: number;
  /** t1, from the shaft's circle at the centre line. */
  readonly shaftDepth: number;
  /** t2, from the bore's circle at the centre line. */
  readonly hubDepth: number;
  /** Upper limit of both depths; the lower limit is 0. */
  readonly depthTolerance: number;
  readonly cornerRadiusMin: number;
  readonly cornerRadiusMax: number;
  readonly keyLengthMin: number;
  readonly keyLengthMax: number;
  readonly keyLengthStanding: Standing;
}

/** One size of ANSI/ASME B17.1-1967 (R2013). All lengths in inches. */
export interface InchKeySize {
  readonly boreOver: number;
  readonly boreUpTo: number;
  readonly width: number;
  readonly squareHeight: number;
  /** The smallest size has no rectangular key. */
  readonly rectangularHeight: number | undefined;
  readonly preferred: 'square' | 'rectangular';
}

/** Limits of an inch keyseat, all relative to the nominal size, in inches. */
export interface InchFitRow {
  readonly widthUpTo: number;
  readonly keyWidthUpper: number;
  readonly keyWidthLower: number;
  readonly seatWidthUpper: number;
}

const published: Standing = 'seen in source';
const remembered: Standing = 'from memory';

/** Widths, heights and depths: several published tables. Corner radii: the ISO/R 773 table alone. */
export const METRIC_KEY_SIZES: readonly MetricKeySize[] = [
  // over, up to, b, h, t1, t2, tolerance of the depths, r2 min, r2 max, key length min, max
  metric(6, 8, 2, 2, 1.2, 1, 0.1, 0.08, 0.16, 6, 20, published),
  metric(8, 10, 3, 3, 1.8, 1.4, 0.1, 0.08, 0.16, 6, 36, published),
  metric(10, 12, 4, 4, 2.5, 1.8, 0.1, 0.08, 0.16, 8, 45, published),
  metric(12, 17, 5, 5, 3, 2.3, 0.1, 0.16, 0.25, 10, 56, published),
  metric(17, 22, 6, 6, 3.5, 2.8, 0.1, 0.16, 0.25, 14, 70, published),
  metric(22, 30, 8, 7, 4, 3.3, 0.2, 0.16, 0.25, 18, 90, published),
  metric(30, 38, 10, 8, 5, 3.3, 0.2, 0.25, 0.4, 22, 110, published),
  metric(38, 44, 12, 8, 5, 3.3, 0.2, 0.25, 0.4, 28, 140, published),
  metric(44, 50, 14, 9, 5.5, 3.8, 0.2, 0.25, 0.4, 36, 160, published),
  metric(50, 58, 16, 10, 6, 4.3, 0.2, 0.25, 0.4, 45, 180, published),
  metric(58, 65, 18, 11, 7, 4.4, 0.2, 0.25, 0.4, 50, 200, remembered),
  metric(65, 75, 20, 12, 7.5, 4.9, 0.2, 0.4, 0.6, 56, 220, remembered),
  metric(75, 85, 22, 14, 9, 5.4, 0.2, 0.4, 0.6, 63, 250, remembered),
  metric(85, 95, 25, 14, 9, 5.4, 0.2, 0.4, 0.6, 70, 280, remembered),
  metric(95, 110, 28, 16, 10, 6.4, 0.2, 0.4, 0.6, 80, 320, remembered),
  metric(110, 130, 32, 18, 11, 7.4, 0.2, 0.4, 0.6, 90, 360, remembered),
  metric(130, 150, 36, 20, 12, 8.4, 0.3, 0.7, 1, 100, 400, remembered),
  metric(150, 170, 40, 22, 13, 9.4, 0.3, 0.7, 1, 100, 400, remembered),
  metric(170, 200, 45, 25, 15, 10.4, 0.3, 0.7, 1, 110, 450, remembered),
  metric(200, 230, 50, 28, 17, 11.4, 0.3, 0.7, 1, 125, 500, remembered),
  metric(230, 260, 56, 32, 20, 12.4, 0.3, 1.2, 1.6, 140, 500, remembered),
  metric(260, 290, 63, 32, 20, 12.4, 0.3, 1.2, 1.6, 160, 500, remembered),
  metric(290, 330, 70, 36, 22, 14.4, 0.3, 1.2, 1.6, 180, 500, remembered),
  metric(330, 380, 80, 40, 25, 15.4, 0.3, 2, 2.5, 200, 500, remembered),
  metric(380, 440, 90, 45, 28, 17.4, 0.3, 2, 2.5, 220, 500, remembered),
  metric(440, 500, 100, 50, 31, 19.5, 0.3, 2, 2.5, 250, 500, remembered),
];

/** A handbook's table and a technical reference page; the heights to 3 1/4 also in a textbook. */
export const INCH_KEY_SIZES: readonly InchKeySize[] = [
  inch(5 / 16, 7 / 16, 3 / 32, 3 / 32, undefined, 'square'),
  inch(7 / 16, 9 / 16, 1 / 8, 1 / 8, 3 / 32, 'square'),
  inch(9 / 16, 7 / 8, 3 / 16, 3 / 16, 1 / 8, 'square'),
  inch(7 / 8, 5 / 4, 1 / 4, 1 / 4, 3 / 16, 'square'),
  inch(5 / 4, 11 / 8, 5 / 16, 5 / 16, 1 / 4, 'square'),
  inch(11 / 8, 7 / 4, 3 / 8, 3 / 8, 1 / 4, 'square'),
  inch(7 / 4, 9 / 4, 1 / 2, 1 / 2, 3 / 8, 'square'),
  inch(9 / 4, 11 / 4, 5 / 8, 5 / 8, 7 / 16, 'square'),
  inch(11 / 4, 13 / 4, 3 / 4, 3 / 4, 1 / 2, 'square'),
  inch(13 / 4, 15 / 4, 7 / 8, 7 / 8, 5 / 8, 'square'),
  inch(15 / 4, 9 / 2, 1, 1, 3 / 4, 'square'),
  inch(9 / 2, 11 / 2, 5 / 4, 5 / 4, 7 / 8, 'square'),
  inch(11 / 2, 13 / 2, 3 / 2, 3 / 2, 1, 'square'),
  inch(13 / 2, 15 / 2, 7 / 4, 7 / 4, 3 / 2, 'rectangular'),
  inch(15 / 2, 9, 2, 2, 3 / 2, 'rectangular'),
  inch(9, 11, 5 / 2, 5 / 2, 7 / 4, 'rectangular'),
];

/** Class 1, square keys: two sources up to 1 inch, one above. */
export const CLASS_1_SQUARE: readonly InchFitRow[] = [
  { widthUpTo: 1 / 2, keyWidthUpper: 0, keyWidthLower: -0.002, seatWidthUpper: 0.002 },
  { widthUpTo: 3 / 4, keyWidthUpper: 0, keyWidthLower: -0.002, seatWidthUpper: 0.003 },
  { widthUpTo: 1, keyWidthUpper: 0, keyWidthLower: -0.003, seatWidthUpper: 0.003 },
  { widthUpTo: 1 + 1 / 2, keyWidthUpper: 0, keyWidthLower: -0.003, seatWidthUpper: 0.004 },
  { widthUpTo: 2 + 1 / 2, keyWidthUpper: 0, keyWidthLower: -0.004, seatWidthUpper: 0.004 },
  { widthUpTo: 3 + 1 / 2, keyWidthUpper: 0, keyWidthLower: -0.006, seatWidthUpper: 0.004 },
];

/** Class 1, rectangular keys: one published source. */
export const CLASS_1_RECTANGULAR: readonly InchFitRow[] = [
  { widthUpTo: 1 / 2, keyWidthUpper: 0, keyWidthLower: -0.003, seatWidthUpper: 0.002 },
  { widthUpTo: 3 / 4, keyWidthUpper: 0, keyWidthLower: -0.003, seatWidthUpper: 0.003 },
  { widthUpTo: 1, keyWidthUpper: 0, keyWidthLower: -0.004, seatWidthUpper: 0.003 },
  { widthUpTo: 1 + 1 / 2, keyWidthUpper: 0, keyWidthLower: -0.004, seatWidthUpper: 0.004 },
  { widthUpTo: 3, keyWidthUpper: 0, keyWidthLower: -0.005, seatWidthUpper: 0.004 },
  { widthUpTo: 4, keyWidthUpper: 0, keyWidthLower: -0.006, seatWidthUpper: 0.004 },
  { widthUpTo: 6, keyWidthUpper: 0, keyWidthLower: -0.008, seatWidthUpper: 0.004 },
];

/** Class 2: the limits of the key from one published source, those of the keyseat from memory. */
export const CLASS_2: readonly InchFitRow[] = [
  { widthUpTo: 1 + 1 / 4, keyWidthUpper: 0.001, keyWidthLower: 0, seatWidthUpper: 0.002 },
  { widthUpTo: 3, keyWidthUpper: 0.002, keyWidthLower: 0, seatWidthUpper: 0.002 },
  { widthUpTo: 3 + 1 / 2, keyWidthUpper: 0.003, keyWidthLower: 0, seatWidthUpper: 0.002 },
];

/** Class 1 and class 2 alike: the hub depth may be this much larger, not smaller, in inches. */
export const INCH_HUB_DEPTH_UPPER = 0.01;
/** Class 1 and class 2 alike: the shaft depth may be this much smaller, not larger, in inches. */
export const INCH_SHAFT_DEPTH_LOWER = -0.015;

function metric(
  boreOver: number, boreUpTo: number, width: number, height: number, shaftDepth: number, hubDepth: number,
  depthTolerance: number, cornerRadiusMin: number, cornerRadiusMax: number, keyLengthMin: number,
  keyLengthMax: number, keyLengthStanding: Standing,
): MetricKeySize {
  return {
    boreOver, boreUpTo, width, height, shaftDepth, hubDepth, depthTolerance, cornerRadiusMin,
    cornerRadiusMax, keyLengthMin, keyLengthMax, keyLengthStanding,
  };
}

function inch(
  boreOver: number, boreUpTo: number, width: number, squareHeight: number,
  rectangularHeight: number | undefined, preferred: 'square' | 'rectangular',
): InchKeySize {
  return { boreOver, boreUpTo, width, squareHeight, rectangularHeight, preferred };
}
