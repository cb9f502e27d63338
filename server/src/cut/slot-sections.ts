import type { Bore, EdgeSweep, Strip } from './slot-cut.ts';
import { openTo, stripsAt } from './slot-cut.ts';

/** The sections of a slotted bore: at which places along it to look, which is the deepest, and how far along it is deep. Lengths in mm. */

/** A place counts as fully deep when no more than this of the depth is missing. */
const FULL_DEPTH_SHARE = 0.02;

/** Places between every two neighbouring stroke ends: between them nothing changes but in a straight line. */
export function sectionPlaces(sweeps: readonly EdgeSweep[], bore: Bore): number[] {
  const ends = sweeps.flatMap((sweep) => [sweep.fromZ, sweep.toZ]);
  const inside = ends.filter((z) => z > bore.zLow && z < bore.zHigh);
  const sorted = [...new Set([bore.zLow, ...inside, bore.zHigh])].sort((a, b) => a - b);
  return sorted.flatMap((z, index) => {
    const next = sorted[index + 1];
    return next === undefined ? [] : [z + 1e-6 * (next - z), (z + next) / 2, next - 1e-6 * (next - z)];
  });
}

export function deepestSection(sweeps: readonly EdgeSweep[], places: readonly number[], bore: Bore): Strip[] {
  const sections = places.map((z) => stripsAt(z, sweeps));
  const open = sections.map((strips) => strips.reduce((sum, strip) => sum + Math.max(strip.outerX - bore.radius, 0), 0));
  return sections[open.indexOf(Math.max(...open))] ?? [];
}

export interface DepthAlongBore {
  /** How much the bottom rises from one end of the full depth to the other. */
  floorSlope: number;
  /** The part of the bore, along Z, where the full depth is reached. */
  zLow: number;
  zHigh: number;
}

/** The depth in one direction over the length of the bore, counted from `nearRadius` outward. */
export function depthAlongBore(angle: number, nearRadius: number, sweeps: readonly EdgeSweep[], places: readonly number[], bore: Bore): DepthAlongBore {
  const floors = places.map((z) => openTo(stripsAt(z, sweeps), bore.radius, angle, 0));
  const deepest = Math.max(...floors);
  const limit = deepest - FULL_DEPTH_SHARE * (deepest - nearRadius);
  const first = floors.findIndex((floor) => floor >= limit);
  const last = floors.findLastIndex((floor) => floor >= limit);
  return { floorSlope: floors[last]! - floors[first]!, zLow: places[first]!, zHigh: places[last]! };
}
