/**
 * Straight-sided splines of ISO 14:1982, as far as a hub is slotted with a
 * full-form insert as wide as the tooth space. Lengths in millimetres.
 */
import { limitDeviations } from './fits.ts';
import { OutOfRange } from './quantity.ts';
import { cornerContactRadius, sagittaOfChord } from './slot-geometry.ts';

/** One hub, named as the standard does: number of teeth x inner x outer diameter. */
export interface StraightSpline {
  readonly teeth: number;
  readonly innerDiameter: number;
  readonly outerDiameter: number;
  /** Width of a tooth of the shaft and of a space of the hub. */
  readonly width: number;
  readonly series: 'light' | 'medium';
}

/** ISO 286 classes of the hub; one published source. */
const HUB_CLASSES = {
  notTreatedAfterCutting: { width: 'H9', outerDiameter: 'H10', innerDiameter: 'H7' },
  treatedAfterCutting: { width: 'H11', outerDiameter: 'H10', innerDiameter: 'H7' },
} as const;

/** Both series, read in the standard's table and in a second one. */
export const STRAIGHT_SPLINES: readonly StraightSpline[] = [
  spline(6, 23, 26, 6, 'light'),
  spline(6, 26, 30, 6, 'light'),
  spline(6, 28, 32, 7, 'light'),
  spline(8, 32, 36, 6, 'light'),
  spline(8, 36, 40, 7, 'light'),
  spline(8, 42, 46, 8, 'light'),
  spline(8, 46, 50, 9, 'light'),
  spline(8, 52, 58, 10, 'light'),
  spline(8, 56, 62, 10, 'light'),
  spline(8, 62, 68, 12, 'light'),
  spline(10, 72, 78, 12, 'light'),
  spline(10, 82, 88, 12, 'light'),
  spline(10, 92, 98, 14, 'light'),
  spline(10, 102, 108, 16, 'light'),
  spline(10, 112, 120, 18, 'light'),
  spline(6, 11, 14, 3, 'medium'),
  spline(6, 13, 16, 3.5, 'medium'),
  spline(6, 16, 20, 4, 'medium'),
  spline(6, 18, 22, 5, 'medium'),
  spline(6, 21, 25, 5, 'medium'),
  spline(6, 23, 28, 6, 'medium'),
  spline(6, 26, 32, 6, 'medium'),
  spline(6, 28, 34, 7, 'medium'),
  spline(8, 32, 38, 6, 'medium'),
  spline(8, 36, 42, 7, 'medium'),
  spline(8, 42, 48, 8, 'medium'),
  spline(8, 46, 54, 9, 'medium'),
  spline(8, 52, 60, 10, 'medium'),
  spline(8, 56, 65, 10, 'medium'),
  spline(8, 62, 72, 12, 'medium'),
  spline(10, 72, 82, 12, 'medium'),
  spline(10, 82, 92, 12, 'medium'),
  spline(10, 92, 102, 14, 'medium'),
  spline(10, 102, 112, 16, 'medium'),
  spline(10, 112, 125, 18, 'medium'),
];

/**
 * The spline of a designation such as 6 x 23 x 26.
 *
 * @throws OutOfRange on `outerDiameter` when ISO 14 has no such spline
 */
export function straightSpline(teeth: number, innerDiameter: number, outerDiameter: number): StraightSpline {
  const found = STRAIGHT_SPLINES.find((row) =>
    row.teeth === teeth && row.innerDiameter === innerDiameter && row.outerDiameter === outerDiameter);
  if (found) return found;
  const near = STRAIGHT_SPLINES.filter((row) => row.innerDiameter === innerDiameter);
  const allowed = near.map((row) => `${row.teeth}x${row.innerDiameter}x${row.outerDiameter}`).join(', ');
  throw new OutOfRange('outerDiameter', `${teeth}x${innerDiameter}x${outerDiameter}`, allowed || 'a spline of ISO 14, inner diameters 11 to 112');
}

export interface SplineHubLimits {
  readonly spaceWidthUpper: number;
  readonly outerDiameterUpper: number;
  readonly innerDiameterUpper: number;
}

/** Largest sizes of a hub; the smallest are nominal in all its classes. `treated`: hardened after cutting. */
export function splineHubLimits({ width, outerDiameter, innerDiameter }: StraightSpline, treated: boolean): SplineHubLimits {
  const classes = treated ? HUB_CLASSES.treatedAfterCutting : HUB_CLASSES.notTreatedAfterCutting;
  const largest = (size: number, isoClass: string) => size + limitDeviations(size, isoClass).upperMicrometres / 1000;
  return {
    spaceWidthUpper: largest(width, classes.width),
    outerDiameterUpper: largest(outerDiameter, classes.outerDiameter),
    innerDiameterUpper: largest(innerDiameter, classes.innerDiameter),
  };
}

/** What one space asks of a flat insert as wide as the space. */
export interface SplineSpaceCut {
  /** At the centre line: half the difference of the diameters. */
  readonly radialDepth: number;
  readonly contactRadius: number;
  readonly sagitta: number;
  /** From the corner's first contact to the floor. */
  readonly cutPath: number;
}

/** The cut of one tooth space in a bore of the inner diameter. Source: derived. */
export function splineSpaceCut({ innerDiameter, outerDiameter, width }: StraightSpline): SplineSpaceCut {
  const boreRadius = innerDiameter / 2;
  const contactRadius = cornerContactRadius(boreRadius, width / 2);
  return {
    radialDepth: (outerDiameter - innerDiameter) / 2,
    contactRadius,
    sagitta: sagittaOfChord(boreRadius, width),
    cutPath: outerDiameter / 2 - contactRadius,
  };
}

function spline(teeth: number, innerDiameter: number, outerDiameter: number, width: number, series: 'light' | 'medium'): StraightSpline {
  return { teeth, innerDiameter, outerDiameter, width, series };
}
