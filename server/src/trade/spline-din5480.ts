/**
 * DIN 5480: involute splines of 30 degrees built on a reference diameter. Every
 * line was confirmed on the data sheet of one such spline. Shafts that are cold
 * rolled are refused: their root was not verified.
 */
import { inRange } from './domain.ts';
import type { GearInput } from './gear.ts';
import type { InternalGearInput } from './internal-gear.ts';
import { OutOfRange } from './quantity.ts';

export type SplineCutting = 'broached' | 'hobbed' | 'shaped';

export interface Din5480Input {
  /** d_B, millimetres. */
  readonly splineReferenceDiameter: number;
  /** Millimetres, 0.5 to 10. */
  readonly module: number;
  readonly teeth: number;
  /** How the shaft is cut; decides the depth of its root. */
  readonly cutting: SplineCutting;
}

/** Millimetres. */
export interface Din5480Spline {
  /** x1 m, of the shaft. */
  readonly profileShiftLength: number;
  readonly referenceDiameter: number;
  readonly baseDiameter: number;
  readonly shaftTipDiameter: number;
  readonly shaftRootDiameter: number;
  readonly hubTipDiameter: number;
  readonly hubRootDiameter: number;
  /** Tooth of the shaft and space of the hub, both at the reference circle. */
  readonly toothThickness: number;
}

/** Root of the shaft below the profile reference line, in modules. The cold-rolled form was not verified and is not here. */
const SHAFT_DEDENDUM_FACTORS: Readonly<Record<SplineCutting, number>> = { broached: 0.55, hobbed: 0.6, shaped: 0.65 };

const SPLINE_PRESSURE_ANGLE_DEGREES = 30;

/** Throws `OutOfRange` when diameter, module and number of teeth do not belong together (x from -0.05 to +0.45). */
export function din5480Spline(input: Din5480Input): Din5480Spline {
  checkDin5480(input);
  const { splineReferenceDiameter, module, teeth } = input;
  const profileShiftLength = profileShiftLengthOf(input);
  const referenceDiameter = module * teeth;
  const shifted = referenceDiameter + 2 * profileShiftLength;
  return {
    profileShiftLength,
    referenceDiameter,
    baseDiameter: referenceDiameter * (Math.sqrt(3) / 2),
    shaftTipDiameter: shifted + 0.9 * module,
    shaftRootDiameter: shifted - 2 * SHAFT_DEDENDUM_FACTORS[input.cutting] * module,
    hubTipDiameter: shifted - 0.9 * module,
    hubRootDiameter: splineReferenceDiameter,
    toothThickness: (Math.PI * module) / 2 + (2 * profileShiftLength) / Math.sqrt(3),
  };
}

/** The shaft as a gear, so that hobbing and measuring need no formulas of their own. */
export function din5480ShaftAsGear(input: Din5480Input): GearInput {
  const spline = din5480Spline(input);
  return {
    units: 'mm',
    normalModule: input.module,
    teeth: input.teeth,
    helixAngleDegrees: 0,
    gearHand: 1,
    normalPressureAngleDegrees: SPLINE_PRESSURE_ANGLE_DEGREES,
    profileShift: spline.profileShiftLength / input.module,
    tipDiameter: spline.shaftTipDiameter,
    depth: (spline.shaftTipDiameter - spline.shaftRootDiameter) / 2,
  };
}

/** The hub as an internal gear. */
export function din5480HubAsGear(input: Din5480Input): InternalGearInput {
  const spline = din5480Spline(input);
  return {
    units: 'mm',
    normalModule: input.module,
    teeth: input.teeth,
    helixAngleDegrees: 0,
    normalPressureAngleDegrees: SPLINE_PRESSURE_ANGLE_DEGREES,
    profileShift: spline.profileShiftLength / input.module,
    tipDiameter: spline.hubTipDiameter,
    rootDiameter: spline.hubRootDiameter,
  };
}

const profileShiftLengthOf = ({ splineReferenceDiameter, module, teeth }: Din5480Input): number =>
  (splineReferenceDiameter - module * teeth - 1.1 * module) / 2;

function checkDin5480(input: Din5480Input): void {
  inRange('splineReferenceDiameter', input.splineReferenceDiameter, { over: 0, atMost: 1000 });
  inRange('module', input.module, { atLeast: 0.5, atMost: 10 });
  inRange('teeth', input.teeth, { atLeast: 6, atMost: 500, whole: true });
  if (SHAFT_DEDENDUM_FACTORS[input.cutting] === undefined) {
    throw new OutOfRange('cutting', input.cutting, 'broached, hobbed or shaped', 'other ways of cutting are not verified');
  }
  const allowed = { least: (input.teeth + 1) * input.module, most: (input.teeth + 2) * input.module };
  inRange('splineReferenceDiameter', input.splineReferenceDiameter, {
    atLeast: allowed.least - 1e-9,
    atMost: allowed.most + 1e-9,
    reason: 'the profile shift of DIN 5480 lies between -0.05 and +0.45 modules',
  });
}
