/**
 * An estimate of the thickest chip at the tip of the hob. The formula is
 * empirical (Hoffmeister) and stands here from memory; for helical gears even
 * the unit of its helix angle is uncertain. The library takes radians, where
 * the helix has almost no effect; spur gears are not touched by the question.
 */
import type { Gear } from './gear.ts';
import type { Hob } from './hob.ts';

/** In the gear's unit of length: the formula keeps its form in any unit because it is a product of ratios. */
export function maxChipThickness(gear: Gear, hob: Hob, feedPerWorkRevolution: number, radialDepth: number): number {
  const module = gear.normalModule;
  const helix = gear.helixAngleRadians;
  return (
    4.9 *
    module *
    gear.teeth ** (9.25e-3 * helix - 0.542) *
    Math.exp(-0.015 * helix - 0.015 * gear.profileShift) *
    (hob.tipDiameter / (2 * module)) ** (-8.25e-3 * helix - 0.225) *
    (hob.gashes / hob.starts) ** -0.877 *
    (feedPerWorkRevolution / module) ** FEED_EXPONENT *
    (radialDepth / module) ** 0.319
  );
}

/** The feed at which the thickest chip reaches `limit`: the inverse of `maxChipThickness`. */
export function feedForChipThickness(gear: Gear, hob: Hob, limit: number, radialDepth: number): number {
  const atUnitFeed = maxChipThickness(gear, hob, gear.normalModule, radialDepth);
  return gear.normalModule * (limit / atUnitFeed) ** (1 / FEED_EXPONENT);
}

const FEED_EXPONENT = 0.511;
