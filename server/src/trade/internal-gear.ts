/**
 * The internal gear and the internal spline as plain numbers. A positive profile
 * shift widens the space, as on the external gear of the same shift that would
 * fill it. It knows nothing of how the teeth are cut.
 */
import { radians } from './angles.ts';
import { inRange } from './domain.ts';
import { RACK_ADDENDUM_FACTOR, RACK_DEDENDUM_FACTOR } from './gear.ts';
import { involute } from './involute.ts';
import { unitsPerMillimetre } from './lengths.ts';
import { OutOfRange, type Units } from './quantity.ts';

export interface InternalGearInput {
  readonly units: Units;
  readonly normalModule: number;
  /** 5 to 10000. */
  readonly teeth: number;
  readonly helixAngleDegrees: number;
  readonly normalPressureAngleDegrees: number;
  readonly profileShift: number;
  /** The inner diameter. Omitted: d - 2 m (1 - x). */
  readonly tipDiameter?: number | undefined;
  /** The outer diameter. Omitted: d + 2 m (1.25 + x). */
  readonly rootDiameter?: number | undefined;
}

export interface InternalGear {
  readonly units: Units;
  readonly normalModule: number;
  readonly teeth: number;
  readonly profileShift: number;
  readonly helixAngleRadians: number;
  readonly normalPressureAngleRadians: number;
  readonly transversePressureAngleRadians: number;
  readonly baseHelixAngleRadians: number;
  readonly referenceDiameter: number;
  readonly baseDiameter: number;
  readonly tipDiameter: number;
  readonly rootDiameter: number;
  readonly wholeDepth: number;
  readonly normalSpaceWidth: number;
  readonly transverseSpaceWidth: number;
}

/** Throws `OutOfRange` with the name of the field; the teeth must end outside the base circle. */
export function internalGearGeometry(input: InternalGearInput): InternalGear {
  checkInternalInput(input);
  const helix = radians(input.helixAngleDegrees);
  const alpha = radians(input.normalPressureAngleDegrees);
  const transverseAlpha = Math.atan(Math.tan(alpha) / Math.cos(helix));
  const referenceDiameter = (input.teeth * input.normalModule) / Math.cos(helix);
  const shifted = referenceDiameter + 2 * input.profileShift * input.normalModule;
  const tipDiameter = input.tipDiameter ?? shifted - 2 * RACK_ADDENDUM_FACTOR * input.normalModule;
  const rootDiameter = input.rootDiameter ?? shifted + 2 * RACK_DEDENDUM_FACTOR * input.normalModule;
  const normalSpaceWidth = input.normalModule * (Math.PI / 2 + 2 * input.profileShift * Math.tan(alpha));
  const gear: InternalGear = {
    units: input.units,
    normalModule: input.normalModule,
    teeth: input.teeth,
    profileShift: input.profileShift,
    helixAngleRadians: helix,
    normalPressureAngleRadians: alpha,
    transversePressureAngleRadians: transverseAlpha,
    baseHelixAngleRadians: Math.asin(Math.sin(helix) * Math.cos(alpha)),
    referenceDiameter,
    baseDiameter: referenceDiameter * Math.cos(transverseAlpha),
    tipDiameter,
    rootDiameter,
    wholeDepth: (rootDiameter - tipDiameter) / 2,
    normalSpaceWidth,
    transverseSpaceWidth: normalSpaceWidth / Math.cos(helix),
  };
  checkDiameters(gear);
  return gear;
}

/** Transverse space width (arc) at a diameter outside the base circle. */
export function transverseSpaceAt(gear: InternalGear, diameter: number): number {
  const angle = Math.acos(Math.min(1, gear.baseDiameter / diameter));
  const halfAngles = gear.transverseSpaceWidth / gear.referenceDiameter + involute(gear.transversePressureAngleRadians);
  return diameter * (halfAngles - involute(angle));
}

function checkInternalInput(input: InternalGearInput): void {
  const millimetre = unitsPerMillimetre(input.units);
  inRange('normalModule', input.normalModule, { atLeast: 0.05 * millimetre, atMost: 100 * millimetre });
  inRange('teeth', input.teeth, { atLeast: 5, atMost: 10_000, whole: true });
  inRange('helixAngleDegrees', input.helixAngleDegrees, { atLeast: 0, atMost: 60 });
  inRange('normalPressureAngleDegrees', input.normalPressureAngleDegrees, { atLeast: 5, atMost: 45 });
  inRange('profileShift', input.profileShift, { atLeast: -2, atMost: 2 });
}

function checkDiameters(gear: InternalGear): void {
  inRange('tipDiameter', gear.tipDiameter, {
    atLeast: gear.baseDiameter,
    under: gear.rootDiameter,
    reason: 'the involute of an internal tooth ends at its base circle; give a larger tip diameter',
  });
  inRange('rootDiameter', gear.rootDiameter, { over: gear.tipDiameter, atMost: 1e6 });
  if (transverseSpaceAt(gear, gear.rootDiameter) <= 0) {
    throw new OutOfRange('rootDiameter', gear.rootDiameter, 'smaller', 'the flanks of the space meet before the root circle');
  }
}
