/** Two gears in mesh, as quantities. */
import { degrees } from './angles.ts';
import { gearFigure } from './catalogue-gear.ts';
import { gearGeometry, type GearInput } from './gear.ts';
import { shown, type Quantity } from './quantity.ts';
import { generatingProfileShift, generatingShiftSumForBacklash, shiftSumForCentreDistance, workingPair } from './working-pair.ts';

export type PairQuantityId =
  | 'workingPressureAngle'
  | 'centreDistance'
  | 'centreDistanceFactor'
  | 'tipShorteningFactor'
  | 'firstTipDiameter'
  | 'secondTipDiameter';

/** Throws `OutOfRange` for gears that do not mesh. */
export function pairData(firstInput: GearInput, secondInput: GearInput): Record<PairQuantityId, Quantity> {
  const [first, second] = [gearGeometry(firstInput), gearGeometry(secondInput)];
  const pair = workingPair(first, second);
  const { units } = first;
  const angle = degrees(pair.workingPressureAngleRadians);
  const [y, k] = [shown(pair.centreDistanceFactor), shown(pair.tipShorteningFactor)];
  return {
    workingPressureAngle: gearFigure('workingPressureAngle', angle, units, () =>
      `inv alpha_t + 2 tan alpha_n (x1 + x2)/(z1 + z2) = ${shown(pair.workingInvolute, 6)}, so alpha_wt = ${shown(angle)}`),
    centreDistance: gearFigure('centreDistance', pair.centreDistance, units, () =>
      `a cos alpha_t / cos alpha_wt = ${shown(pair.referenceCentreDistance)} x cos ${shown(degrees(first.transversePressureAngleRadians))} / cos ${shown(angle)} = ${shown(pair.centreDistance)}`),
    centreDistanceFactor: gearFigure('centreDistanceFactor', pair.centreDistanceFactor, units, () =>
      `(a_w - a) / m_n = (${shown(pair.centreDistance)} - ${shown(pair.referenceCentreDistance)}) / ${shown(first.normalModule)} = ${y}`),
    tipShorteningFactor: gearFigure('tipShorteningFactor', pair.tipShorteningFactor, units, () =>
      `x1 + x2 - y = ${shown(first.profileShift)} + ${shown(second.profileShift)} - ${y} = ${k}`),
    firstTipDiameter: gearFigure('firstTipDiameter', pair.firstTipDiameter, units, () =>
      `d + 2 m_n (1 + x - k) = ${shown(first.referenceDiameter)} + 2 x ${shown(first.normalModule)} x (1 + ${shown(first.profileShift)} - ${k}) = ${shown(pair.firstTipDiameter)}`),
    secondTipDiameter: gearFigure('secondTipDiameter', pair.secondTipDiameter, units, () =>
      `d + 2 m_n (1 + x - k) = ${shown(second.referenceDiameter)} + 2 x ${shown(second.normalModule)} x (1 + ${shown(second.profileShift)} - ${k}) = ${shown(pair.secondTipDiameter)}`),
  };
}

/** The sum of profile shifts that a given centre distance asks for. */
export function shiftSumData(firstInput: GearInput, secondInput: GearInput, centreDistance: number): Record<'shiftSum', Quantity> {
  const [first, second] = [gearGeometry(firstInput), gearGeometry(secondInput)];
  const sum = shiftSumForCentreDistance(first, second, centreDistance);
  return {
    shiftSum: gearFigure('shiftSum', sum, first.units, () =>
      `(inv alpha_wt - inv alpha_t)(z1 + z2) / (2 tan alpha_n) with a_w ${shown(centreDistance)} = ${shown(sum)}`),
  };
}

/** The sum of generating profile shifts that leaves the given normal backlash, shared by both gears. */
export function backlashShiftData(firstInput: GearInput, secondInput: GearInput, normalBacklash: number): Record<'generatingShiftSum', Quantity> {
  const [first, second] = [gearGeometry(firstInput), gearGeometry(secondInput)];
  const sum = generatingShiftSumForBacklash(first, second, normalBacklash);
  return {
    generatingShiftSum: gearFigure('generatingShiftSum', sum, first.units, () =>
      `x1 + x2 - j_n / (2 m_n sin alpha_n) = ${shown(first.profileShift)} + ${shown(second.profileShift)} - ${shown(normalBacklash)} / (2 x ${shown(first.normalModule)} x sin ${shown(firstInput.normalPressureAngleDegrees)}) = ${shown(sum)}`),
  };
}

/** The profile shift to set the tool to, for a tooth thinner by `-allowance` (normal section). */
export function generatingShiftData(input: GearInput, allowance: number): Record<'generatingProfileShift', Quantity> {
  const gear = gearGeometry(input);
  const shift = generatingProfileShift(gear, allowance);
  return {
    generatingProfileShift: gearFigure('generatingProfileShift', shift, gear.units, () =>
      `x + A_sn / (2 m_n tan alpha_n) = ${shown(gear.profileShift)} + ${shown(allowance)} / (2 x ${shown(gear.normalModule)} x tan ${shown(input.normalPressureAngleDegrees)}) = ${shown(shift)}`),
  };
}
