import type { Arc } from './arcs.ts';
import type { Strip } from './slot-cut.ts';
import { openTo } from './slot-cut.ts';

/**
 * Where a section of a slotted bore is open beyond a circle: the shape is looked
 * at from the work axis in every direction. Lengths in mm, angles in radians.
 */

/** Twenty directions a degree: a slot narrower than that is no slot. */
const DIRECTIONS = 7200;

/** How far the section is open in a direction, from the axis. */
export function radiusAt(strips: readonly Strip[], boreRadius: number, angle: number): number {
  return openTo(strips, boreRadius, angle, 0);
}

/** The least and the greatest distance of the wall from the axis. */
export function extremesOf(strips: readonly Strip[], boreRadius: number): { least: number; greatest: number } {
  const radii = directions().map((angle) => radiusAt(strips, boreRadius, angle));
  return { least: minimum(radii), greatest: -minimum(radii.map((radius) => -radius)) };
}

/** The arcs of a circle about the axis along which the section is open, from rising ends, each less than a whole turn. */
export function openingsBeyond(strips: readonly Strip[], boreRadius: number, circle: number): Arc[] {
  const isOpenAt = (angle: number): boolean => radiusAt(strips, boreRadius, angle) > circle;
  const angles = directions();
  const open = angles.map(isOpenAt);
  const step = (2 * Math.PI) / DIRECTIONS;
  const starts = angles.filter((_, index) => open[index] && !open.at(index - 1)).map((angle) => crossing(isOpenAt, angle - step, angle));
  const ends = angles.filter((_, index) => !open[index] && open.at(index - 1)).map((angle) => crossing((each) => !isOpenAt(each), angle - step, angle));
  return starts.map((start) => ({ start, end: start + turnTo(start, ends) }));
}

function directions(): number[] {
  return Array.from({ length: DIRECTIONS }, (_, index) => -Math.PI + (2 * Math.PI * (index + 0.5)) / DIRECTIONS);
}

/** Where `holds` becomes true between two angles, by halving. */
function crossing(holds: (angle: number) => boolean, from: number, to: number): number {
  let [before, after] = [from, to];
  for (let round = 0; round < 40; round += 1) {
    const half = (before + after) / 2;
    if (holds(half)) after = half;
    else before = half;
  }
  return (before + after) / 2;
}

/** The least turn from an angle forward to one of the ends. */
function turnTo(start: number, ends: readonly number[]): number {
  return minimum(ends.map((end) => end - start - 2 * Math.PI * Math.floor((end - start) / (2 * Math.PI))));
}

function minimum(values: readonly number[]): number {
  return values.reduce((least, value) => Math.min(least, value), Infinity);
}
