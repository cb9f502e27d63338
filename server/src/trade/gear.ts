/**
 * The external involute gear, spur or helical, as plain numbers: what the
 * drawing says goes in, every diameter, angle and thickness of the tooth comes
 * out. It knows nothing of how the gear is cut or measured.
 *
 * Symbols follow ISO 21771. Lengths are in the caller's unit; the formulas do
 * not care which.
 */
import { radians } from './angles.ts';
import { inRange } from './domain.ts';
import { requireHand, type Hand } from './hands.ts';
import { involute } from './involute.ts';
import { unitsPerMillimetre } from './lengths.ts';
import { OutOfRange, type Units } from './quantity.ts';

export interface GearInput {
  /** The unit of every length below and in the result. */
  readonly units: Units;
  /** 0.05 to 100 mm. */
  readonly normalModule: number;
  /** 1 to 10000. */
  readonly teeth: number;
  /** The amount, 0 to 60; the hand is a field of its own. */
  readonly helixAngleDegrees: number;
  /** Ignored for a spur gear. */
  readonly gearHand: Hand;
  /** 5 to 45. */
  readonly normalPressureAngleDegrees: number;
  /** Profile shift coefficient x in the normal section, -2 to +2. */
  readonly profileShift: number;
  /** Omitted: reference diameter and addendum 1 m. */
  readonly tipDiameter?: number | undefined;
  /** Whole depth. Omitted: down to the root of the ISO 53 A tooth, dedendum 1.25 m. */
  readonly depth?: number | undefined;
}

export interface Gear {
  readonly units: Units;
  readonly normalModule: number;
  readonly teeth: number;
  readonly gearHand: Hand;
  readonly profileShift: number;
  readonly isSpur: boolean;
  /** The amount, 0 or more. */
  readonly helixAngleRadians: number;
  /** Positive for a right-hand gear, negative for a left-hand one. */
  readonly signedHelixAngleRadians: number;
  readonly normalPressureAngleRadians: number;
  readonly transversePressureAngleRadians: number;
  readonly baseHelixAngleRadians: number;
  readonly transverseModule: number;
  readonly referenceDiameter: number;
  readonly baseDiameter: number;
  readonly tipDiameter: number;
  readonly rootDiameter: number;
  readonly wholeDepth: number;
  /** From the profile reference line down to the root: the addendum of the tool that cuts it. */
  readonly toolAddendum: number;
  readonly normalToothThickness: number;
  readonly transverseToothThickness: number;
  readonly normalBasePitch: number;
  /** Axial length of one full turn of the helix; undefined for a spur gear, which has none. */
  readonly lead: number | undefined;
}

/** Addendum and dedendum of the basic rack, in modules (ISO 53, profile A). */
export const RACK_ADDENDUM_FACTOR = 1;
export const RACK_DEDENDUM_FACTOR = 1.25;

/** A smaller helix angle is none: over a metre of face it would not move the flank by a nanometre. */
const SMALLEST_HELIX_DEGREES = 1e-8;

/** Throws `OutOfRange` with the name of the field for anything that is not a gear with a tooth of some width at its tip. */
export function gearGeometry(input: GearInput): Gear {
  checkGearInput(input);
  const gear = diametersOf(input);
  checkDepth(gear, input);
  checkTip(gear, input);
  return gear;
}

/** Transverse tooth thickness (arc) at any diameter from the base circle outward; negative beyond the point of the tooth. */
export function transverseThicknessAt(gear: Gear, diameter: number): number {
  const angle = Math.acos(Math.min(1, gear.baseDiameter / diameter));
  return (
    diameter *
    (gear.transverseToothThickness / gear.referenceDiameter +
      involute(gear.transversePressureAngleRadians) -
      involute(angle))
  );
}

/** Helix angle (the amount, radians) on the cylinder of the given diameter. */
export function helixAngleAtRadians(gear: Gear, diameter: number): number {
  return Math.atan((Math.tan(gear.helixAngleRadians) * diameter) / gear.referenceDiameter);
}

/** Tooth thickness across the tip in the normal section. */
export function normalTipThickness(gear: Gear): number {
  return transverseThicknessAt(gear, gear.tipDiameter) * Math.cos(helixAngleAtRadians(gear, gear.tipDiameter));
}

function checkGearInput(input: GearInput): void {
  const millimetre = unitsPerMillimetre(input.units);
  inRange('normalModule', input.normalModule, { atLeast: 0.05 * millimetre, atMost: 100 * millimetre });
  inRange('teeth', input.teeth, { atLeast: 1, atMost: 10_000, whole: true });
  inRange('helixAngleDegrees', input.helixAngleDegrees, { atLeast: 0, atMost: 60 });
  requireHand('gearHand', input.gearHand);
  inRange('normalPressureAngleDegrees', input.normalPressureAngleDegrees, { atLeast: 5, atMost: 45 });
  inRange('profileShift', input.profileShift, { atLeast: -2, atMost: 2 });
}

function diametersOf(input: GearInput): Gear {
  const { normalModule, teeth, profileShift } = input;
  const helix = input.helixAngleDegrees < SMALLEST_HELIX_DEGREES ? 0 : radians(input.helixAngleDegrees);
  const normalPressureAngle = radians(input.normalPressureAngleDegrees);
  const transverseModule = normalModule / Math.cos(helix);
  const transversePressureAngle = Math.atan(Math.tan(normalPressureAngle) / Math.cos(helix));
  const referenceDiameter = teeth * transverseModule;
  const shiftedDiameter = referenceDiameter + 2 * profileShift * normalModule;
  const tipDiameter = input.tipDiameter ?? shiftedDiameter + 2 * RACK_ADDENDUM_FACTOR * normalModule;
  const rootDiameter =
    input.depth === undefined ? shiftedDiameter - 2 * RACK_DEDENDUM_FACTOR * normalModule : tipDiameter - 2 * input.depth;
  const normalToothThickness = normalModule * (Math.PI / 2 + 2 * profileShift * Math.tan(normalPressureAngle));
  return {
    units: input.units,
    normalModule,
    teeth,
    gearHand: input.gearHand,
    profileShift,
    isSpur: helix === 0,
    helixAngleRadians: helix,
    signedHelixAngleRadians: helix === 0 ? 0 : input.gearHand * helix,
    normalPressureAngleRadians: normalPressureAngle,
    transversePressureAngleRadians: transversePressureAngle,
    baseHelixAngleRadians: Math.asin(Math.sin(helix) * Math.cos(normalPressureAngle)),
    transverseModule,
    referenceDiameter,
    baseDiameter: referenceDiameter * Math.cos(transversePressureAngle),
    tipDiameter,
    rootDiameter,
    wholeDepth: (tipDiameter - rootDiameter) / 2,
    toolAddendum: (shiftedDiameter - rootDiameter) / 2,
    normalToothThickness,
    transverseToothThickness: normalToothThickness / Math.cos(helix),
    normalBasePitch: Math.PI * normalModule * Math.cos(normalPressureAngle),
    lead: helix === 0 ? undefined : (Math.PI * referenceDiameter) / Math.tan(helix),
  };
}

/** A root at or inside the axis means that there is no gear; which field is to blame depends on what was given. */
function checkDepth(gear: Gear, input: GearInput): void {
  const tip = inRange('tipDiameter', gear.tipDiameter, { over: 0, atMost: 1e6 });
  if (input.depth !== undefined) inRange('depth', input.depth, { over: 0, under: tip / 2 });
  if (gear.rootDiameter > 0 && gear.wholeDepth > 0) return;
  if (input.tipDiameter !== undefined) {
    throw new OutOfRange('tipDiameter', tip, `more than the root diameter, ${gear.rootDiameter.toFixed(4)}`);
  }
  throw new OutOfRange('teeth', input.teeth, 'enough for a root circle', 'the tooth space would reach the axis');
}

function checkTip(gear: Gear, input: GearInput): void {
  const parameter = input.tipDiameter === undefined ? 'profileShift' : 'tipDiameter';
  const value = input.tipDiameter ?? input.profileShift;
  if (gear.tipDiameter < gear.baseDiameter) {
    throw new OutOfRange(parameter, value, 'such that the tip lies outside the base circle', baseCircleInWords(gear));
  }
  if (transverseThicknessAt(gear, gear.tipDiameter) <= 0) {
    throw new OutOfRange(parameter, value, 'less than what brings the tooth to a point', 'the flanks meet before the tip circle');
  }
}

const baseCircleInWords = (gear: Gear): string => `base diameter ${gear.baseDiameter.toFixed(4)}`;
