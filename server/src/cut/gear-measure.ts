import type { Arc } from './arcs.ts';
import { middleOf, wrapped } from './arcs.ts';
import type { GearSection } from './gear-section.ts';

/**
 * Measuring a cut section the way an inspector would: counting, calipers,
 * balls, a tracer along the flank. Only the shape goes in; nothing here knows
 * hob, motion or program. Angles are radians, lengths mm.
 */

/** One point of a flank in a transverse section. */
export interface FlankPoint {
  radius: number;
  angle: number;
}

/** The two flanks that border a gap. `lower` lies at the smaller angle. */
export interface GapFlanks {
  lower: FlankPoint[];
  upper: FlankPoint[];
}

/** How many separate teeth stand on a circle; 0 when the circle is untouched or milled away. */
export function teethOnCircle(section: GearSection, circle: number): number {
  return section.circles[circle]!.arcs().filter((arc) => arc.end - arc.start < 2 * Math.PI - 1e-9).length;
}

/** The share of a circle that is still material, 0 to 1. */
export function materialShare(section: GearSection, circle: number): number {
  const gone = section.circles[circle]!.arcs().reduce((sum, arc) => sum + arc.end - arc.start, 0);
  return Math.max(0, 1 - gone / (2 * Math.PI));
}

/** The largest difference between the position of a gap and even spacing, as an angle; 0 with fewer than two gaps. */
export function largestPitchDeviation(section: GearSection, circle: number): number {
  const middles = section.circles[circle]!.arcs().map(middleOf);
  const first = middles[0];
  if (first === undefined || middles.length < 2) return 0;
  const deviations = middles.map((middle, index) => middle - first - (2 * Math.PI * index) / middles.length);
  return Math.max(...deviations) - Math.min(...deviations);
}

/** The arc on a circle whose middle is nearest to an angle, moved by whole turns to lie next to it. */
export function gapNearest(section: GearSection, circle: number, angle: number): Arc | undefined {
  let best: Arc | undefined;
  for (const arc of section.circles[circle]!.arcs()) {
    const near = movedNextTo(arc, angle);
    if (!best || Math.abs(middleOf(near) - angle) < Math.abs(middleOf(best) - angle)) best = near;
  }
  return best;
}

/**
 * Follows the flanks of one gap over all circles, from the root outward. Where
 * the gap is as wide as the pitch no tooth is left, and the flank ends.
 */
export function flanksOfGap(section: GearSection, middle: number, pitch: number): GapFlanks {
  const flanks: GapFlanks = { lower: [], upper: [] };
  section.radii.forEach((radius, circle) => {
    const arc = arcAround(section, circle, middle);
    if (!arc || arc.end - arc.start >= pitch) return;
    flanks.lower.push({ radius, angle: arc.start });
    flanks.upper.push({ radius, angle: arc.end });
  });
  return flanks;
}

/**
 * The distance of two parallel planes square to the section that touch the
 * outer flanks of a group of teeth: `first` is the upper side of the gap before
 * the group, `last` the lower side of the gap behind it. Undefined when a plane
 * touches an end of the flank instead of the flank itself.
 */
export function transverseSpan(first: readonly FlankPoint[], last: readonly FlankPoint[]): number | undefined {
  const direction = middleDirection(first, last);
  const low = extreme(first, direction, -1);
  const high = extreme(last, direction, 1);
  if (low === undefined || high === undefined) return undefined;
  return high + low;
}

/**
 * The radius at which the centre of a ball rests in a gap, touching both
 * flanks, at whatever height of the helicoid. Undefined when the ball falls to
 * the root or stands on the tips.
 */
export function ballCentreRadius(flanks: GapFlanks, ballDiameter: number, lead: number): number | undefined {
  let low = Math.max(flanks.lower[0]?.radius ?? 0, ballDiameter / 2);
  let high = (flanks.lower.at(-1)?.radius ?? 0) + ballDiameter / 2;
  const middle = gapMiddleAngle(flanks);
  if (clearance(flanks, low, middle, lead) > ballDiameter / 2) return undefined;
  if (clearance(flanks, high, middle, lead) < ballDiameter / 2) return undefined;
  for (let round = 0; round < 60; round += 1) {
    const radius = (low + high) / 2;
    if (clearance(flanks, radius, middle, lead) > ballDiameter / 2) high = radius;
    else low = radius;
  }
  return (low + high) / 2;
}

/** Deviation of a flank from the involute of a base circle, normal to the flank in the section, positive toward extra material. */
export function profileDeviations(flank: readonly FlankPoint[], base: number, side: 'lower' | 'upper'): number[] {
  const materialSign = side === 'lower' ? 1 : -1;
  return flank.map(({ radius, angle }) => materialSign * base * angle + base * involuteAngle(base / radius));
}

export interface StraightLine {
  slope: number;
  /** Value at the mean place. */
  mean: number;
  /** Largest less smallest distance from the line. */
  spread: number;
}

/** The line of least squares through values at places, and how far they scatter about it. */
export function lineThrough(places: readonly number[], values: readonly number[]): StraightLine {
  const centre = average(places);
  const mean = average(values);
  let along = 0;
  let square = 0;
  places.forEach((place, index) => {
    along += (place - centre) * (values[index]! - mean);
    square += (place - centre) ** 2;
  });
  const slope = square > 0 ? along / square : 0;
  const rest = values.map((value, index) => value - mean - slope * (places[index]! - centre));
  return { slope, mean, spread: rest.length ? Math.max(...rest) - Math.min(...rest) : 0 };
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function movedNextTo(arc: Arc, angle: number): Arc {
  const shift = angle + wrapped(middleOf(arc) - angle) - middleOf(arc);
  return { start: arc.start + shift, end: arc.end + shift };
}

function arcAround(section: GearSection, circle: number, angle: number): Arc | undefined {
  return section.circles[circle]!.arcs()
    .map((arc) => movedNextTo(arc, angle))
    .find((arc) => arc.start <= angle && arc.end >= angle);
}

function middleDirection(first: readonly FlankPoint[], last: readonly FlankPoint[]): number {
  const low = first[first.length >> 1]?.angle ?? 0;
  const high = last[last.length >> 1]?.angle ?? 0;
  return (low + high) / 2;
}

/**
 * How far a flank reaches along +-(the tangent at the direction angle). The
 * highest of the points is refined by the parabola through its neighbours.
 */
function extreme(flank: readonly FlankPoint[], direction: number, sign: 1 | -1): number | undefined {
  const heights = flank.map((point) => sign * point.radius * Math.sin(point.angle - direction));
  const best = heights.indexOf(Math.max(...heights));
  if (best <= 0 || best >= heights.length - 1) return undefined;
  return topOfParabola(heights[best - 1]!, heights[best]!, heights[best + 1]!);
}

function topOfParabola(before: number, middle: number, after: number): number {
  const bend = before - 2 * middle + after;
  return bend < 0 ? middle - (after - before) ** 2 / (8 * bend) : middle;
}

function gapMiddleAngle(flanks: GapFlanks): number {
  const index = flanks.lower.length >> 1;
  return ((flanks.lower[index]?.angle ?? 0) + (flanks.upper[index]?.angle ?? 0)) / 2;
}

/** The distance from a ball's centre to the nearer flank, each flank being screwed along its lead. */
function clearance(flanks: GapFlanks, radius: number, middle: number, lead: number): number {
  return Math.min(
    distanceToFlank(flanks.lower, radius, middle, lead),
    distanceToFlank(flanks.upper, radius, middle, lead),
  );
}

function distanceToFlank(flank: readonly FlankPoint[], radius: number, middle: number, lead: number): number {
  let nearest = Infinity;
  for (let index = 1; index < flank.length; index += 1) {
    nearest = Math.min(nearest, distanceToPiece(flank[index - 1]!, flank[index]!, radius, middle, lead));
  }
  return nearest;
}

/** Samples the piece between two points finely enough that the distance is good to far below a micrometre. */
function distanceToPiece(a: FlankPoint, b: FlankPoint, radius: number, middle: number, lead: number): number {
  let nearest = Infinity;
  for (let step = 0; step <= 8; step += 1) {
    const share = step / 8;
    const r = a.radius + share * (b.radius - a.radius);
    const angle = a.angle + share * (b.angle - a.angle);
    nearest = Math.min(nearest, distanceToHelix(r, angle - middle, radius, lead));
  }
  return nearest;
}

/** Smallest distance from the point (radius, 0, 0) to the helix through (r, angle) at z = 0. */
function distanceToHelix(r: number, angle: number, radius: number, lead: number): number {
  const turnPerLength = Number.isFinite(lead) ? (2 * Math.PI) / lead : 0;
  let height = 0;
  for (let round = 0; round < 6; round += 1) {
    const turned = angle + turnPerLength * height;
    const slope = r * radius * turnPerLength * Math.sin(turned) + height;
    const curvature = r * radius * turnPerLength ** 2 * Math.cos(turned) + 1;
    height -= slope / curvature;
  }
  const turned = angle + turnPerLength * height;
  return Math.sqrt(r * r + radius * radius - 2 * r * radius * Math.cos(turned) + height * height);
}

/** tan a - a of the angle with the given cosine. */
function involuteAngle(cosine: number): number {
  const angle = Math.acos(Math.min(1, cosine));
  return Math.tan(angle) - angle;
}
