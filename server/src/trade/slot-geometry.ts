/**
 * Plain geometry of a flat-bottomed slot cut outward into the wall of a bore:
 * the edge is parallel to Y, the tool moves along X, the part stands still.
 *
 * Picture: look along the bore. The bore is a circle about the origin, the slot
 * points to +X. A flat edge meets the circle with its two corners first, nearer
 * to the axis than the bore's radius by the sagitta. Knows no standard and no
 * unit: all lengths are in one unit. Source of everything here: derived.
 */
import { inRange, lengthOrZero, positiveLength } from './domain.ts';

/**
 * Distance from the axis of an edge whose outer corner lies `halfChord` off the
 * centre line, at the moment the corner touches the bore.
 *
 * @throws OutOfRange on `halfChord` if the corner would lie outside the bore
 */
export function cornerContactRadius(boreRadius: number, halfChord: number): number {
  positiveLength('boreRadius', boreRadius);
  inRange('halfChord', halfChord, { atLeast: 0, under: boreRadius });
  return Math.sqrt((boreRadius - halfChord) * (boreRadius + halfChord));
}

/** How far the bore's circle bulges over a chord: the radius less the corner contact radius. */
export function sagittaOfChord(radius: number, chord: number): number {
  // Written without a difference of near numbers, so that a feed mark of a nanometre keeps its digits.
  return (chord / 2) ** 2 / (radius + cornerContactRadius(radius, chord / 2));
}

/**
 * Area of material between the bore's circle and the floor of the slot.
 * Multiplied by the length of the slot it is the volume removed.
 */
export function slotArea(boreRadius: number, width: number, floorRadius: number): number {
  const contact = cornerContactRadius(boreRadius, width / 2);
  lengthOrZero('floorRadius', floorRadius);
  const underTheCircle = (width / 2) * contact + boreRadius ** 2 * Math.asin(width / 2 / boreRadius);
  return width * floorRadius - underTheCircle;
}

/**
 * Where the floor must sit so that a caliper over the opposite wall and the
 * floor reads `overall`, in a bore that came out at `measuredBoreDiameter`.
 */
export function floorRadiusFromMeasuredBore(overall: number, measuredBoreDiameter: number): number {
  positiveLength('measuredBoreDiameter', measuredBoreDiameter);
  inRange('overall', overall, { over: measuredBoreDiameter, atMost: 2 * measuredBoreDiameter });
  return overall - measuredBoreDiameter / 2;
}
