/**
 * The marks that hobbing leaves on a flank even when everything runs true: waves
 * along the tooth from the feed, facets across it from the finite number of
 * gashes. Heights are normal to the flank.
 */
import type { Gear } from './gear.ts';
import type { Hob } from './hob.ts';

/** delta_x = (f / cos beta)^2 sin alpha_n / (4 d_a0): the sagitta of the hob's tip circle over one feed. */
export function feedMarkDepth(gear: Gear, hob: Hob, feedPerWorkRevolution: number): number {
  const alongFlank = feedPerWorkRevolution / Math.cos(gear.helixAngleRadians);
  return (alongFlank ** 2 * Math.sin(gear.normalPressureAngleRadians)) / (4 * hob.tipDiameter);
}

/** The feed at which the feed mark has the given depth: the inverse of `feedMarkDepth`. */
export function feedForMarkDepth(gear: Gear, hob: Hob, depth: number): number {
  const square = (4 * hob.tipDiameter * depth) / Math.sin(gear.normalPressureAngleRadians);
  return Math.sqrt(Math.max(0, square)) * Math.cos(gear.helixAngleRadians);
}

/** delta_y = pi^2 z0^2 m_n sin alpha_n / (4 z i^2): deviation of the facets from the involute at the reference circle. */
export function generatingMarkDepth(gear: Gear, hob: Hob): number {
  const turnPerCut = (Math.PI * hob.starts) / hob.gashes;
  return (turnPerCut ** 2 * gear.normalModule * Math.sin(gear.normalPressureAngleRadians)) / (4 * gear.teeth);
}
