/**
 * Geometry of a path beside another one, at a distance: what the centre of a
 * tool runs along so that its edge runs along a contour. Plane coordinates
 * (a, b), counter-clockwise from a to b; a distance is positive to the left.
 *
 * It knows two neighbours at a time, no program and no machine: that a tool gets
 * in the way of a contour farther on is not found here.
 */

export interface Point {
  readonly a: number;
  readonly b: number;
}

/** A piece of a path; an arc where it has a centre, else straight. Its length is not 0. */
export interface PathPart {
  readonly start: Point;
  readonly end: Point;
  readonly arc?: { readonly centre: Point; readonly sweepRadians: number };
}

/**
 * How the paths beside two parts come together at their common point: they
 * meet, one goes on to the other around the point, they cross each other on the
 * inside, or they do none of it because the tool does not fit.
 */
export type Corner =
  | { readonly kind: 'joined'; readonly at: Point }
  | { readonly kind: 'inside'; readonly at: Point; readonly isRounded: boolean }
  | { readonly kind: 'around'; readonly from: Point; readonly to: Point; readonly sweepRadians: number }
  | { readonly kind: 'apart' };

/** Below this the parts count as tangent, and no arc goes around their point. */
export const NO_TURN_RADIANS = 1e-4;
/** Up to this a turn to the inside may come from rounded coordinates (the tolerance of NISTIR 6556 App. B, from memory). */
const ROUNDED_TURN_RADIANS = 0.01;
const TINY = 1e-9;

export function directionAtStart({ start, end, arc }: PathPart): Point {
  return arc === undefined ? unit(start, end) : tangent(start, arc.centre, arc.sweepRadians);
}

export function directionAtEnd({ start, end, arc }: PathPart): Point {
  return arc === undefined ? unit(start, end) : tangent(end, arc.centre, arc.sweepRadians);
}

/** The point beside another one, across a direction of length 1. */
export function beside(point: Point, direction: Point, distance: number): Point {
  return { a: point.a - distance * direction.b, b: point.b + distance * direction.a };
}

/** From one direction to another, in radians, positive to the left; -pi to pi. */
export function turnBetween(first: Point, second: Point): number {
  return Math.atan2(first.a * second.b - first.b * second.a, first.a * second.a + first.b * second.b);
}

/** Much faster than `Math.hypot`; coordinates of programs are far from overflow. */
export function distanceBetween(first: Point, second: Point): number {
  const a = second.a - first.a;
  const b = second.b - first.b;
  return Math.sqrt(a * a + b * b);
}

/** The radius of an arc of a path beside it; 0 or less where the distance uses it up. */
export function radiusBeside({ start, arc }: PathPart, distance: number): number {
  return arc === undefined ? Infinity : distanceBetween(start, arc.centre) - Math.sign(arc.sweepRadians) * distance;
}

/** The path beside a whole part. Its arc must have a radius left. */
export function partBeside(part: PathPart, distance: number): PathPart {
  const start = beside(part.start, directionAtStart(part), distance);
  const end = beside(part.end, directionAtEnd(part), distance);
  return { ...part, start, end };
}

/** Where the path beside one part goes over into the path beside the next, which begins where it ends. */
export function cornerBetween(first: PathPart, second: PathPart, distance: number): Corner {
  const arrival = directionAtEnd(first);
  const departure = directionAtStart(second);
  const turn = turnBetween(arrival, departure);
  const to = beside(second.start, departure, distance);
  if (Math.abs(turn) <= NO_TURN_RADIANS || distance === 0) return { kind: 'joined', at: to };
  if (isOutside(turn, distance)) return { kind: 'around', from: beside(second.start, arrival, distance), to, sweepRadians: turnAround(turn, distance) };
  const isRounded = Math.abs(turn) <= ROUNDED_TURN_RADIANS;
  const crossing = crossingNear(second.start, partBeside(first, distance), partBeside(second, distance));
  if (crossing !== undefined) return { kind: 'inside', at: crossing, isRounded };
  return isRounded ? { kind: 'joined', at: to } : { kind: 'apart' };
}

/** Whether a turn leads away from the side on which the tool runs. A way straight back leads around its end. */
export function isOutside(turn: number, distance: number): boolean {
  return (turn > 0) !== (distance > 0) || Math.PI - Math.abs(turn) < TINY;
}

/** The turn around the outside of a corner; of a way straight back the sign of its angle is chance. */
export function turnAround(turn: number, distance: number): number {
  return -Math.sign(distance) * Math.abs(turn);
}

/**
 * The part between two of its points, each undefined for its own end; undefined
 * where they stand in the wrong order, which leaves nothing of the part.
 */
export function partBetween(part: PathPart, start: Point | undefined, end: Point | undefined): PathPart | undefined {
  const from = start === undefined ? 0 : shareAt(part, start);
  const to = end === undefined ? 1 : shareAt(part, end);
  if (to - from <= 0) return undefined;
  const ends = { start: start ?? part.start, end: end ?? part.end };
  return part.arc === undefined ? ends : { ...ends, arc: { centre: part.arc.centre, sweepRadians: part.arc.sweepRadians * (to - from) } };
}

/** How far along a part a point on it is, 0 at its start and 1 at its end. */
function shareAt({ start, end, arc }: PathPart, point: Point): number {
  if (arc === undefined) {
    const along = { a: end.a - start.a, b: end.b - start.b };
    return ((point.a - start.a) * along.a + (point.b - start.b) * along.b) / (along.a * along.a + along.b * along.b);
  }
  const turn = turnBetween(minus(start, arc.centre), minus(point, arc.centre)) * Math.sign(arc.sweepRadians);
  const forward = turn < -TINY ? turn + 2 * Math.PI : turn;
  return forward / Math.abs(arc.sweepRadians);
}

/** The point that lies on both parts, of several the nearest to a point. */
function crossingNear(near: Point, first: PathPart, second: PathPart): Point | undefined {
  const onBoth = crossings(first, second).filter((point) => isOn(first, point) && isOn(second, point));
  return onBoth.sort((one, other) => distanceBetween(one, near) - distanceBetween(other, near))[0];
}

function isOn(part: PathPart, point: Point): boolean {
  const share = shareAt(part, point);
  return share >= -TINY && share <= 1 + TINY;
}

/** Where the straight lines and whole circles of two parts cross. */
function crossings(first: PathPart, second: PathPart): Point[] {
  if (first.arc === undefined) return second.arc === undefined ? lineCrossing(first, second) : circleCrossings(second.start, second.arc.centre, first);
  if (second.arc === undefined) return circleCrossings(first.start, first.arc.centre, second);
  return commonPoints(first.arc.centre, distanceBetween(first.start, first.arc.centre), second.arc.centre, distanceBetween(second.start, second.arc.centre));
}

function lineCrossing(first: PathPart, second: PathPart): Point[] {
  const along = unit(first.start, first.end);
  const other = unit(second.start, second.end);
  const sine = along.a * other.b - along.b * other.a;
  if (Math.abs(sine) < TINY) return [];
  const gap = minus(second.start, first.start);
  const way = (gap.a * other.b - gap.b * other.a) / sine;
  return [{ a: first.start.a + way * along.a, b: first.start.b + way * along.b }];
}

function circleCrossings(onCircle: Point, centre: Point, line: PathPart): Point[] {
  const along = unit(line.start, line.end);
  const gap = minus(centre, line.start);
  const way = gap.a * along.a + gap.b * along.b;
  const off = gap.b * along.a - gap.a * along.b;
  const square = distanceBetween(onCircle, centre) ** 2 - off * off;
  if (square < 0) return [];
  return [way - Math.sqrt(square), way + Math.sqrt(square)].map((each) => ({ a: line.start.a + each * along.a, b: line.start.b + each * along.b }));
}

function commonPoints(centre: Point, radius: number, other: Point, otherRadius: number): Point[] {
  const apart = distanceBetween(centre, other);
  if (apart < TINY) return [];
  const way = (apart * apart + radius * radius - otherRadius * otherRadius) / (2 * apart);
  const square = radius * radius - way * way;
  if (square < 0) return [];
  const along = unit(centre, other);
  const foot = { a: centre.a + way * along.a, b: centre.b + way * along.b };
  return [Math.sqrt(square), -Math.sqrt(square)].map((off) => beside(foot, along, off));
}

/** Forward along a circle at one of its points. */
function tangent(point: Point, centre: Point, sweepRadians: number): Point {
  const outward = unit(centre, point);
  return sweepRadians > 0 ? { a: -outward.b, b: outward.a } : { a: outward.b, b: -outward.a };
}

function unit(from: Point, to: Point): Point {
  const length = distanceBetween(from, to);
  return { a: (to.a - from.a) / length, b: (to.b - from.b) / length };
}

function minus(point: Point, origin: Point): Point {
  return { a: point.a - origin.a, b: point.b - origin.b };
}
