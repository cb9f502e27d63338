/**
 * How the work must turn so that the hob cuts the wanted teeth. One law covers
 * synchronism, differential and shift, and every sign of the hobbing process
 * comes from this file and from no other.
 *
 * The picture. Z is the axis of the work, X points from it toward the hob that
 * stands on the +X side, and XYZ is right-handed. The hob axis lies square to X.
 * With the setting angle at zero it points along +Y. Looking from the hob
 * toward the work with +Z up, a positive setting angle turns the hob axis
 * clockwise. So the unit vector along the hob axis, toward the +Y end, is
 *
 *     a = (0, cos eta, -side sin eta)      side = +1: hob on +X, -1: hob on -X
 *
 * because a viewer on the other side sees Y mirrored. Hob rotation is counted
 * right-handed about a. Work rotation is counted right-handed about +Z when
 * `workRotationSense` is +1, the other way round when it is -1. Right hands are
 * positive, left hands negative.
 *
 * Derived from the motion of the rack that gear and hob share at the pitch point.
 */
import { degrees } from './angles.ts';
import type { Gear } from './gear.ts';
import type { Hand } from './hands.ts';
import type { Hob } from './hob.ts';

export interface HobbingSenses {
  /** +1: hob on the +X side of the work, -1: on the -X side. */
  readonly hobSide: Hand;
  /** +1: the work angle counts right-handed about +Z. */
  readonly workRotationSense: Hand;
}

export interface ShiftParts {
  readonly deltaY: number;
  readonly deltaZ: number;
  /** What the work must turn so that the shifted hob still meets the same teeth. */
  readonly workDegrees: number;
}

/** Signed setting angle: helix angle less hob lead angle, both signed by hand. */
export function settingAngleRadians(gear: Gear, hob: Hob): number {
  return gear.signedHelixAngleRadians - hob.signedLeadAngleRadians;
}

/**
 * Work rotation in degrees after the hob has turned `hobDegrees` and has moved
 * by `deltaY` and `deltaZ` (in the gear's unit) relative to the work:
 *
 *     C = sense (-side s_h (z0/z) theta + (360 / (pi d)) (side dY - dZ tan beta))
 */
export function workRotationDegrees(
  gear: Gear,
  hob: Hob,
  senses: HobbingSenses,
  motion: { readonly hobDegrees: number; readonly deltaY: number; readonly deltaZ: number },
): number {
  const rolling = -senses.hobSide * hob.hand * (hob.starts / gear.teeth) * motion.hobDegrees;
  const alongCircumference = senses.hobSide * motion.deltaY - motion.deltaZ * Math.tan(gear.signedHelixAngleRadians);
  return senses.workRotationSense * (rolling + degrees(alongCircumference / (gear.referenceDiameter / 2)));
}

/** Revolutions of the work for one of the hob, without feed: the plain ratio, unsigned. */
export const synchronousRatio = (gear: Gear, hob: Hob): number => hob.starts / gear.teeth;

/** Degrees of work rotation for one unit of axial travel, unsigned; 0 for a spur gear. */
export const differentialDegreesPerLength = (gear: Gear): number => (gear.lead === undefined ? 0 : 360 / gear.lead);

/** A move of `shift` along the hob axis toward its +Y end, split into the machine's axes, and the work turn that keeps the teeth. */
export function shiftParts(gear: Gear, hob: Hob, senses: HobbingSenses, shift: number): ShiftParts {
  const setting = settingAngleRadians(gear, hob);
  const deltaY = shift * Math.cos(setting);
  const deltaZ = -senses.hobSide * shift * Math.sin(setting);
  return { deltaY, deltaZ, workDegrees: workRotationDegrees(gear, hob, senses, { hobDegrees: 0, deltaY, deltaZ }) };
}

/**
 * The sense in which the hob must turn about a: +1 or -1. At the contact a hob
 * on +X that turns positively cuts toward +Z. Climb means that the cut runs
 * against the feed, conventional that it runs with it.
 */
export function hobRotationSense(climb: boolean, feedDirectionZ: Hand, hobSide: Hand): Hand {
  return (hobSide * feedDirectionZ * (climb ? -1 : 1)) as Hand;
}

/**
 * Hob revolutions for one of the work while the hob feeds `feed` along Z per
 * work revolution: (z / z0) (1 +- f / p_z). Plus for climb with like hands and for
 * conventional with unlike hands.
 */
export function hobRevolutionsPerWorkRevolution(gear: Gear, hob: Hob, climb: boolean, feed: number): number {
  const plain = gear.teeth / hob.starts;
  if (gear.lead === undefined) return plain;
  const sign = (gear.gearHand === hob.hand) === climb ? 1 : -1;
  return plain * (1 + (sign * feed) / gear.lead);
}
