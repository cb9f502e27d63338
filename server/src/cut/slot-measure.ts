import { degrees } from '../trade/angles.ts';
import { middleOf, wrapped } from './arcs.ts';
import type { Bore, EdgeSweep, Strip } from './slot-cut.ts';
import { isOpen, openTo } from './slot-cut.ts';
import { openingsBeyond } from './slot-openings.ts';
import { deepestSection, depthAlongBore, sectionPlaces } from './slot-sections.ts';

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

/** Slots are looked for on a circle so much larger than the bore. */
const OUTSIDE_THE_BORE = 1.002;

/** All slots found in the bore, each with its own direction. */
export function measureSlots(sweeps: readonly EdgeSweep[], bore: Bore): SlotMeasurement[] {
  const places = sectionPlaces(sweeps, bore);
  const deepest = deepestSection(sweeps, places, bore);
  return openingsBeyond(deepest, bore.radius, OUTSIDE_THE_BORE * bore.radius).map((opening) => measureSlot(middleOf(opening), deepest, sweeps, places, bore));
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
    ...depthAlongBore(angle, bore.radius, sweeps, places, bore),
  };
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
