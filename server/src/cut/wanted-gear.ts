import { radians } from '../trade/angles.ts';
import { OutOfRange } from '../trade/quantity.ts';

/**
 * What the gear should be, and the circles on which a cut shape is measured.
 *
 * These few formulas (ISO 21771) are written out here instead of being taken
 * from the trade library: a proof that used the same code as the block it
 * proves could not find that code's mistakes.
 */

/** Lengths in mm. The helix angle is signed: positive for a right-hand gear. */
export interface WantedGear {
  normalModule: number;
  teeth: number;
  helixAngleDegrees: number;
  normalPressureAngleDegrees: number;
  profileShift: number;
  /** Diameter of the blank. */
  tipDiameter: number;
}

/** The circles of a transverse section, as radii in mm. */
export interface GearCircles {
  reference: number;
  base: number;
  tip: number;
  transversePressureAngleRadians: number;
  /** Angle between two teeth, in radians. */
  pitchRadians: number;
  /** Helix angle on the base cylinder, signed. */
  baseHelixRadians: number;
}

export function gearCircles(gear: WantedGear): GearCircles {
  const beta = radians(gear.helixAngleDegrees);
  const alpha = radians(gear.normalPressureAngleDegrees);
  const reference = (gear.teeth * gear.normalModule) / (2 * Math.cos(beta));
  const transverse = Math.atan(Math.tan(alpha) / Math.cos(beta));
  const circles = {
    reference,
    base: reference * Math.cos(transverse),
    tip: gear.tipDiameter / 2,
    transversePressureAngleRadians: transverse,
    pitchRadians: (2 * Math.PI) / gear.teeth,
    baseHelixRadians: Math.asin(Math.sin(beta) * Math.cos(alpha)),
  };
  if (!(circles.tip > circles.base)) {
    throw new OutOfRange('tipDiameter', gear.tipDiameter, 'larger than the base diameter', 'no flank is left to measure');
  }
  return circles;
}

/**
 * Where the involute begins above the fillet that the hob leaves, as a radius
 * in mm. `hobFormHeight` is the straight part of the hob's flank above its
 * reference line.
 */
export function formRadius(gear: WantedGear, circles: GearCircles, hobFormHeight: number): number {
  const sine = Math.sin(circles.transversePressureAngleRadians);
  const below = hobFormHeight - gear.profileShift * gear.normalModule;
  const rolled = circles.reference * sine - below / sine;
  return rolled > 0 ? Math.hypot(circles.base, rolled) : undercutRadius(circles, rolled);
}

/** In an undercut tooth the fillet eats into the involute; from the mirrored roll length on nothing of it is lost. */
function undercutRadius(circles: GearCircles, rolled: number): number {
  return Math.hypot(circles.base, 1.2 * rolled) + 0.02 * (circles.tip - circles.base);
}

/**
 * How many teeth a caliper held in the transverse section takes so that it
 * touches the flanks half way between `form` and the tip; a choice of anvils,
 * not a measured value. On helical teeth it is fewer than a caliper held across
 * the teeth would take.
 */
export function spanTeethFor(gear: WantedGear, circles: GearCircles, form: number): number {
  const touched = (form + circles.tip) / 2;
  const opening = 2 * Math.tan(Math.acos(circles.base / touched));
  const further = (opening - toothAngleOnBase(gear, circles)) / circles.pitchRadians;
  return Math.max(1, Math.min(1 + Math.round(further), Math.floor(gear.teeth / 2)));
}

function toothAngleOnBase(gear: WantedGear, circles: GearCircles): number {
  const alpha = circles.transversePressureAngleRadians;
  const normal = Math.PI / 2 + 2 * gear.profileShift * Math.tan(radians(gear.normalPressureAngleDegrees));
  return (2 * normal) / gear.teeth + 2 * (Math.tan(alpha) - alpha);
}
