import { degrees } from '../trade/angles.ts';
import { RemovedArcs, middleOf, wrapped } from './arcs.ts';
import type { Bore, EdgeSweep, Strip } from './slot-cut.ts';
import { isOpen, openTo, stripsAt } from './slot-cut.ts';

/**
 * Measuring slots in a bore from the cut shape: where they are, how wide, how
 * deep, how long, how flat. The shape is probed with straight lines, as with a
 * height gauge along and across the slot. Lengths in mm, angles in degrees.
 */
export interface SlotMeasurement {
  /** Direction of the slot's middle line about the work axis, from the X axis of the work. */
  angleDegrees: number;
  /** Width half way down. */
  width: number;
  /** Width near the bottom less width near the mouth: 0 when the sides are parallel. */
  taper: number;
  /** From the bore circle to the bottom on the middle line (t2). */
  depth: number;
  /** Highest less lowest place of the bottom across the slot. */
  floorFlatness: number;
  /** How much the bottom rises from one end of the slot to the other. */
  floorSlope: number;
  /** Distance of the slot's middle from the plane through the work axis: what sets it off centre. */
  offCentre: number;
  /** The part of the bore, along Z, where the slot has its full depth. */
  zLow: number;
  zHigh: number;
}

/** A place counts as fully deep when no more than this of the depth is missing. */
const FULL_DEPTH_SHARE = 0.02;

/** All slots found in the bore, in rising order of their angle. */
export function measureSlots(sweeps: readonly EdgeSweep[], bore: Bore): SlotMeasurement[] {
  const places = placesAlong(sweeps, bore);
  const deepest = sectionWithMostOpen(sweeps, places, bore);
  return slotDirections(deepest, bore.radius).map((direction) => measureSlot(direction, deepest, sweeps, places, bore));
}

function measureSlot(direction: number, strips: Strip[], sweeps: readonly EdgeSweep[], places: number[], bore: Bore): SlotMeasurement {
  const angle = squaredDirection(strips, bore.radius, direction);
  const floor = openTo(strips, bore.radius, angle, 0);
  const middle = (bore.radius + floor) / 2;
  const [low, high] = wallsAt(strips, bore.radius, angle, middle);
  const near = wallsAt(strips, bore.radius, angle, bore.radius + 0.1 * (floor - bore.radius));
  const far = wallsAt(strips, bore.radius, angle, bore.radius + 0.9 * (floor - bore.radius));
  return {
    angleDegrees: degrees(wrapped(angle)),
    width: high - low,
    taper: far[1] - far[0] - (near[1] - near[0]),
    depth: floor - bore.radius,
    floorFlatness: flatness(strips, bore.radius, angle, low, high),
    offCentre: (low + high) / 2,
    ...alongBore(angle, sweeps, places, bore),
  };
}

/** One place between every two neighbouring stroke ends: between them nothing changes but in a straight line. */
function placesAlong(sweeps: readonly EdgeSweep[], bore: Bore): number[] {
  const ends = sweeps.flatMap((sweep) => [sweep.fromZ, sweep.toZ]);
  const inside = ends.filter((z) => z > bore.zLow && z < bore.zHigh);
  const sorted = [...new Set([bore.zLow, ...inside, bore.zHigh])].sort((a, b) => a - b);
  return sorted.flatMap((z, index) => {
    const next = sorted[index + 1];
    return next === undefined ? [] : [z + 1e-6 * (next - z), (z + next) / 2, next - 1e-6 * (next - z)];
  });
}

function sectionWithMostOpen(sweeps: readonly EdgeSweep[], places: readonly number[], bore: Bore): Strip[] {
  const sections = places.map((z) => stripsAt(z, sweeps));
  const open = sections.map((strips) => strips.reduce((sum, strip) => sum + Math.max(strip.outerX - bore.radius, 0), 0));
  return sections[open.indexOf(Math.max(...open))] ?? [];
}

/** Directions of the arcs that are missing on a circle just outside the bore. */
function slotDirections(strips: readonly Strip[], boreRadius: number): number[] {
  const circle = boreRadius * 1.002;
  const removed = new RemovedArcs();
  for (const strip of strips) {
    if (strip.outerX < circle) continue;
    const low = Math.asin(Math.max(-1, strip.lowY / circle));
    const high = Math.asin(Math.min(1, strip.highY / circle));
    removed.remove(low - strip.workRadians, high - strip.workRadians);
  }
  return removed.arcs().map(middleOf);
}

/** Turns the direction until the two walls of the slot lie square to the probing line, that is until its middle line is straight. */
function squaredDirection(strips: readonly Strip[], boreRadius: number, start: number): number {
  let angle = start;
  for (let round = 0; round < 4; round += 1) {
    const floor = openTo(strips, boreRadius, angle, 0);
    const near = boreRadius + 0.1 * (floor - boreRadius);
    const far = boreRadius + 0.9 * (floor - boreRadius);
    const [lowNear, highNear] = wallsAt(strips, boreRadius, angle, near);
    const [lowFar, highFar] = wallsAt(strips, boreRadius, angle, far);
    angle += Math.atan2((lowFar + highFar - lowNear - highNear) / 2, far - near);
  }
  return angle;
}

/** Where the slot's walls stand at a distance from the work axis, measured across from the middle line. */
function wallsAt(strips: readonly Strip[], boreRadius: number, angle: number, x: number): [number, number] {
  const isOpenAt = (y: number): boolean => isOpen(strips, boreRadius, angle, x, y);
  return [wall(isOpenAt, -1, boreRadius), wall(isOpenAt, 1, boreRadius)];
}

/** Steps outward until the shape closes, then halves the last step. */
function wall(isOpenAt: (y: number) => boolean, sign: 1 | -1, boreRadius: number): number {
  let open = 0;
  let closed = boreRadius / 200;
  while (closed < boreRadius && isOpenAt(sign * closed)) {
    open = closed;
    closed += boreRadius / 200;
  }
  for (let round = 0; round < 45; round += 1) {
    const half = (open + closed) / 2;
    if (isOpenAt(sign * half)) open = half;
    else closed = half;
  }
  return (sign * (open + closed)) / 2;
}

function flatness(strips: readonly Strip[], boreRadius: number, angle: number, low: number, high: number): number {
  const floors = Array.from({ length: 41 }, (_, index) => {
    const y = low + (high - low) * (0.001 + (0.998 * index) / 40);
    return openTo(strips, boreRadius, angle, y);
  });
  return Math.max(...floors) - Math.min(...floors);
}

function alongBore(angle: number, sweeps: readonly EdgeSweep[], places: readonly number[], bore: Bore) {
  const floors = places.map((z) => openTo(stripsAt(z, sweeps), bore.radius, angle, 0));
  const deepest = Math.max(...floors);
  const limit = deepest - FULL_DEPTH_SHARE * (deepest - bore.radius);
  const first = floors.findIndex((floor) => floor >= limit);
  const last = floors.findLastIndex((floor) => floor >= limit);
  return { floorSlope: floors[last]! - floors[first]!, zLow: places[first]!, zHigh: places[last]! };
}
