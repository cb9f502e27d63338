/**
 * Two external gears in mesh: working pressure angle, centre distance, and the
 * shortening of the tips that keeps the bottom clearance. It knows nothing of
 * strength or contact ratio.
 */
import { inRange } from './domain.ts';
import { RACK_ADDENDUM_FACTOR, type Gear } from './gear.ts';
import { inverseInvolute, involute } from './involute.ts';
import { OutOfRange } from './quantity.ts';

export interface WorkingPair {
  readonly workingPressureAngleRadians: number;
  readonly workingInvolute: number;
  /** (d1 + d2) / 2. */
  readonly referenceCentreDistance: number;
  /** The distance at which the pair meshes without backlash. */
  readonly centreDistance: number;
  /** (a_w - a) / m_n. */
  readonly centreDistanceFactor: number;
  /** x1 + x2 - y, in modules; 0 or more. */
  readonly tipShorteningFactor: number;
  readonly firstTipDiameter: number;
  readonly secondTipDiameter: number;
}

/** Throws `OutOfRange` for gears that do not mesh: unlike module, pressure angle or helix, or helices of the same hand. */
export function workingPair(first: Gear, second: Gear): WorkingPair {
  checkMesh(first, second);
  const shiftSum = first.profileShift + second.profileShift;
  const workingInvolute = pairInvolute(first, second, shiftSum);
  const workingPressureAngle = inverseInvolute(workingInvolute);
  const reference = referenceCentreDistance(first, second);
  const centreDistance = (reference * Math.cos(first.transversePressureAngleRadians)) / Math.cos(workingPressureAngle);
  const centreDistanceFactor = (centreDistance - reference) / first.normalModule;
  const tipShorteningFactor = shiftSum - centreDistanceFactor;
  return {
    workingPressureAngleRadians: workingPressureAngle,
    workingInvolute,
    referenceCentreDistance: reference,
    centreDistance,
    centreDistanceFactor,
    tipShorteningFactor,
    firstTipDiameter: shortenedTipDiameter(first, tipShorteningFactor),
    secondTipDiameter: shortenedTipDiameter(second, tipShorteningFactor),
  };
}

/** x1 + x2 that makes the pair mesh without backlash at the given centre distance. */
export function shiftSumForCentreDistance(first: Gear, second: Gear, centreDistance: number): number {
  checkMesh(first, second);
  const alpha = first.transversePressureAngleRadians;
  const baseDistance = referenceCentreDistance(first, second) * Math.cos(alpha);
  inRange('centreDistance', centreDistance, { atLeast: baseDistance, atMost: 10 * baseDistance });
  const working = Math.acos(baseDistance / centreDistance);
  const teeth = first.teeth + second.teeth;
  return ((involute(working) - involute(alpha)) * teeth) / (2 * Math.tan(first.normalPressureAngleRadians));
}

/**
 * Generating profile shift x_E = x + A_sn / (2 m_n tan alpha_n): what the tool
 * must be set to so that the tooth comes out thinner (`allowance` negative) than
 * the gear without backlash.
 */
export function generatingProfileShift(gear: Gear, allowance: number): number {
  inRange('allowance', allowance, { atLeast: -gear.normalModule, atMost: gear.normalModule });
  return gear.profileShift + allowance / (2 * gear.normalModule * Math.tan(gear.normalPressureAngleRadians));
}

/** Sum of the generating profile shifts of a pair for a normal backlash j_n shared by both: sum x - j_n / (2 m_n sin alpha_n). */
export function generatingShiftSumForBacklash(first: Gear, second: Gear, normalBacklash: number): number {
  checkMesh(first, second);
  inRange('normalBacklash', normalBacklash, { atLeast: 0, atMost: first.normalModule });
  const sine = Math.sin(first.normalPressureAngleRadians);
  return first.profileShift + second.profileShift - normalBacklash / (2 * first.normalModule * sine);
}

function pairInvolute(first: Gear, second: Gear, shiftSum: number): number {
  const shift = (2 * Math.tan(first.normalPressureAngleRadians) * shiftSum) / (first.teeth + second.teeth);
  const sum = involute(first.transversePressureAngleRadians) + shift;
  if (sum < 0) throw new OutOfRange('profileShift', shiftSum, 'larger in sum', 'the gears would have to mesh inside their base circles');
  return sum;
}

const referenceCentreDistance = (first: Gear, second: Gear): number =>
  (first.referenceDiameter + second.referenceDiameter) / 2;

const shortenedTipDiameter = (gear: Gear, shortening: number): number =>
  gear.referenceDiameter + 2 * gear.normalModule * (RACK_ADDENDUM_FACTOR + gear.profileShift - shortening);

function checkMesh(first: Gear, second: Gear): void {
  const meshes =
    first.normalModule === second.normalModule &&
    first.normalPressureAngleRadians === second.normalPressureAngleRadians &&
    first.helixAngleRadians === second.helixAngleRadians;
  if (!meshes) throw new OutOfRange('second', 'a gear of another module, pressure angle or helix angle', 'a gear that meshes with the first');
  if (!first.isSpur && first.gearHand === second.gearHand) {
    throw new OutOfRange('gearHand', second.gearHand, 'of the other hand', 'external helical gears on parallel shafts have unlike hands');
  }
}
