/**
 * Radial entry: the hob goes in square to the work axis beside the first face,
 * stays there until every tooth space has its depth, and only then feeds along
 * the work. It takes the place of the axial approach where a collar before the
 * teeth leaves no room for that.
 *
 * Where it goes in. Behind the teeth the hob must pass the far face by the lag
 * of its generating zone, or the last flanks stay unfinished. Seen from the
 * other end the motion is the same, so it must stand off the first face by as
 * much before it feeds along: the approach of a plunge is the overrun.
 *
 * The work turns with the hob all the while at the plain ratio. The way in lies
 * along the common normal of the two axes and not along Z, so no tooth wants a
 * turn of its own: the differential of a plunge is zero, for helical teeth too.
 */
import { inRange } from './domain.ts';
import type { HobbingCut } from './hobbing-travel.ts';

export interface PlungeInput {
  readonly radialFeedPerWorkRevolution: number;
  /** Revolutions of the work at the depth of a cut, before axial feed begins; 0 to 20. */
  readonly sparkOutWorkRevolutions: number;
}

/** The radial part of one cut. Lengths in the input's units. */
export interface Plunge {
  /** Centre distance at which radial feed begins. */
  readonly startAxisDistance: number;
  /** From there to the depth of the cut: what is new to this cut, and half the clearance. */
  readonly travel: number;
  /** True speed, whatever a control counts it on. */
  readonly feedPerMinute: number;
  readonly seconds: number;
  readonly sparkOutSeconds: number;
}

/** Throws `OutOfRange` with the name of the input field. */
export function checkPlungeInput(plunge: PlungeInput, millimetre: number): void {
  inRange('radialFeedPerWorkRevolution', plunge.radialFeedPerWorkRevolution, { over: 0, atMost: 20 * millimetre });
  inRange('sparkOutWorkRevolutions', plunge.sparkOutWorkRevolutions, { atLeast: 0, atMost: 20 });
}

/** The later cuts find the space of the one before, so their radial feed begins half the clearance above its depth. */
export function plungeOfCut(cut: HobbingCut, plunge: PlungeInput, clearance: number, workRpm: number): Plunge {
  const travel = cut.depthIncrement + clearance / 2;
  const feedPerMinute = plunge.radialFeedPerWorkRevolution * workRpm;
  return {
    startAxisDistance: cut.hobAxisToWorkAxis + travel,
    travel,
    feedPerMinute,
    seconds: (60 * travel) / feedPerMinute,
    sparkOutSeconds: (60 * plunge.sparkOutWorkRevolutions) / workRpm,
  };
}
