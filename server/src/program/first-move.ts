/**
 * Geometry of the first move under tool radius compensation, from a place off
 * the contour to its first point. A distance is positive to the left of the way.
 *
 * The centre goes straight to where its way touches the circle of the tool about
 * that point, so the edge comes to the point and not beyond it (from memory of
 * RS274/NGC). Where the next part turns to the tool's side that place would be
 * beyond the contour, and the centre goes to the start of the path beside it.
 */
import { beside, type Corner, directionAtStart, distanceBetween, isOutside, NO_TURN_RADIANS, type PathPart, type Point, turnAround, turnBetween } from './offset-path.ts';
import { shown } from './shown.ts';

/** Why there is no way in, of one that is refused whatever comes next. */
export function entryRefusal(start: Point, { end }: PathPart, distance: number): string | undefined {
  const length = distanceBetween(start, end);
  const radius = Math.abs(distance);
  if (length > 0 && length >= radius) return undefined;
  return `the first move under tool radius compensation is ${shown(length)} long in the plane; it must be at least as long as the radius of the tool, ${shown(radius)}.`;
}

/** The direction of the straight way from a start that touches the circle about the end, which lies at least its radius away. */
export function directionTouching(start: Point, end: Point, distance: number): Point {
  const length = distanceBetween(start, end);
  const turn = Math.asin(distance / length);
  const along = { a: (end.a - start.a) / length, b: (end.b - start.b) / length };
  return { a: along.a * Math.cos(turn) - along.b * Math.sin(turn), b: along.b * Math.cos(turn) + along.a * Math.sin(turn) };
}

/** How the first way, in its direction, goes over into the path beside the next part. */
export function cornerAfterEntry(direction: Point, next: PathPart, distance: number): Corner {
  const departure = directionAtStart(next);
  const turn = turnBetween(direction, departure);
  const to = beside(next.start, departure, distance);
  if (Math.abs(turn) <= NO_TURN_RADIANS || distance === 0) return { kind: 'joined', at: to };
  if (!isOutside(turn, distance)) return { kind: 'inside', at: to, isRounded: false };
  return { kind: 'around', from: beside(next.start, direction, distance), to, sweepRadians: turnAround(turn, distance) };
}

/** How far a place is off the line of a part on its side of the tool; below 0 on the other. */
export function clearance(place: Point, part: PathPart, distance: number): number {
  const { a, b } = directionAtStart(part);
  return Math.sign(distance) * (a * (place.b - part.start.b) - b * (place.a - part.start.a));
}
