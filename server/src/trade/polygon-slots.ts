/**
 * Inside squares, hexagons and other regular polygons, slotted corner by corner
 * with a pointed insert out of a round bore.
 *
 * Picture: look along the bore. A corner of the polygon points to +X, the
 * insert's point has the polygon's corner angle and lies on the X axis. Flats
 * between the corners are what the insert's sides and further passes leave.
 * Source of everything here: geometry, derived; the ratios of square and hexagon are published.
 */
import { inRange, lengthOrZero, positiveLength } from './domain.ts';

/** Corner angle of a regular polygon, which the point of the insert must have. */
export function cornerAngleDegrees(sides: number): number {
  return 180 - 360 / checkedSides(sides);
}

/** Distance over opposite corners: twice the radius of the circle through the corners. */
export function acrossCorners(sides: number, acrossFlats: number): number {
  return positiveLength('acrossFlats', acrossFlats) / Math.cos(Math.PI / checkedSides(sides));
}

/** Length of one whole flat, corner to corner. */
export function flatLength(sides: number, acrossFlats: number): number {
  return positiveLength('acrossFlats', acrossFlats) * Math.tan(Math.PI / checkedSides(sides));
}

/**
 * Radial way of the insert's point from the bore's wall to the corner.
 *
 * @throws OutOfRange on `boreDiameter` when the bore already reaches the corners
 */
export function cornerCutDepth(sides: number, acrossFlats: number, boreDiameter: number): number {
  const corners = acrossCorners(sides, acrossFlats);
  inRange('boreDiameter', boreDiameter, { over: 0, under: corners, reason: 'the bore must leave the corners standing' });
  return (corners - boreDiameter) / 2;
}

/** How much of each flat's length the bore has already taken away, in a bore wider than the flats. */
export function flatLostToBore(acrossFlats: number, boreDiameter: number): number {
  positiveLength('acrossFlats', acrossFlats);
  lengthOrZero('boreDiameter', boreDiameter);
  return Math.sqrt(Math.max(0, boreDiameter ** 2 - acrossFlats ** 2));
}

function checkedSides(sides: number): number {
  return inRange('sides', sides, { atLeast: 3, atMost: 100, whole: true });
}
