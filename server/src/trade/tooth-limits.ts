/**
 * Where a tooth stops being a good tooth: undercut at the foot, a point at the
 * head, and the diameters between which its flank is an involute.
 */
import { inRange } from './domain.ts';
import { helixAngleAtRadians, normalTipThickness, transverseThicknessAt, type Gear } from './gear.ts';
import { straightTipHeight } from './generating-length.ts';
import { inverseInvolute, involute } from './involute.ts';
import { OutOfRange } from './quantity.ts';
import { rootBetween } from './roots.ts';

/** Height of the straight flank of the ISO 53 hob above its reference line, in modules. */
export const STANDARD_STRAIGHT_TIP_FACTOR = 1;

/** Usual lower limits of the tip thickness in modules, from memory. */
export const USUAL_TIP_THICKNESS_FACTOR = 0.2;
export const CASE_HARDENED_TIP_THICKNESS_FACTOR = 0.4;

/** z_min = 2 h* cos beta / sin^2 alpha_t: below this number a gear without profile shift is undercut. */
export function undercutTeeth(gear: Gear, straightTipFactor = STANDARD_STRAIGHT_TIP_FACTOR): number {
  checkStraightTip(straightTipFactor);
  return (2 * straightTipFactor * Math.cos(gear.helixAngleRadians)) / Math.sin(gear.transversePressureAngleRadians) ** 2;
}

/** x_min = h* - z sin^2 alpha_t / (2 cos beta): with less profile shift than this the foot is undercut. */
export function leastProfileShift(gear: Gear, straightTipFactor = STANDARD_STRAIGHT_TIP_FACTOR): number {
  checkStraightTip(straightTipFactor);
  const square = Math.sin(gear.transversePressureAngleRadians) ** 2;
  return straightTipFactor - (gear.teeth * square) / (2 * Math.cos(gear.helixAngleRadians));
}

/**
 * Diameter from which outward the hobbed flank is an involute: where the end of
 * the tool's straight flank last touches it. Throws `OutOfRange` for an undercut
 * tooth, whose involute begins farther out than this formula knows.
 */
export function formDiameter(gear: Gear, straightTipFactor = STANDARD_STRAIGHT_TIP_FACTOR): number {
  const least = leastProfileShift(gear, straightTipFactor);
  if (gear.profileShift < least) {
    throw new OutOfRange('profileShift', gear.profileShift, `at least ${least.toFixed(5)}`, 'the tooth is undercut');
  }
  const sine = Math.sin(gear.transversePressureAngleRadians);
  const below = ((straightTipFactor - gear.profileShift) * gear.normalModule) / sine;
  return 2 * Math.hypot(gear.baseDiameter / 2, (gear.referenceDiameter / 2) * sine - below);
}

/**
 * The innermost diameter on which a measuring face may touch: the form diameter
 * of the hob that cuts this very depth. For an undercut tooth only the base
 * circle is known, so there the limit is weaker than the truth.
 */
export function innermostFlankDiameter(gear: Gear): number {
  const straightTipFactor = straightTipHeight(gear, { addendum: gear.toolAddendum }) / gear.normalModule;
  const isUndercut = straightTipFactor <= 0 || gear.profileShift < leastProfileShift(gear, straightTipFactor);
  return isUndercut ? gear.baseDiameter : formDiameter(gear, straightTipFactor);
}

/** Diameter at which the two flanks of a tooth meet. */
export function pointedDiameter(gear: Gear): number {
  const halfAngle = gear.transverseToothThickness / gear.referenceDiameter;
  return gear.baseDiameter / Math.cos(inverseInvolute(halfAngle + involute(gear.transversePressureAngleRadians)));
}

/** The largest tip diameter that leaves a tip thickness (normal section) of `thickness`. */
export function tipDiameterForThickness(gear: Gear, thickness: number): number {
  const normalThickness = (diameter: number): number =>
    transverseThicknessAt(gear, diameter) * Math.cos(helixAngleAtRadians(gear, diameter)) - thickness;
  inRange('thickness', thickness, { atLeast: 0, under: normalThickness(gear.baseDiameter) + thickness });
  return rootBetween(normalThickness, gear.baseDiameter, pointedDiameter(gear));
}

/** Tip thickness in modules, to be held against the usual limits. */
export const tipThicknessFactor = (gear: Gear): number => normalTipThickness(gear) / gear.normalModule;

/** z / cos^3 beta, the usual form. */
export const virtualTeeth = (gear: Gear): number => gear.teeth / Math.cos(gear.helixAngleRadians) ** 3;

/** z / (cos^2 beta_b cos beta), the exact form of ISO 21771. */
export const exactVirtualTeeth = (gear: Gear): number =>
  gear.teeth / (Math.cos(gear.baseHelixAngleRadians) ** 2 * Math.cos(gear.helixAngleRadians));

const checkStraightTip = (factor: number): number => inRange('straightTipFactor', factor, { over: 0, atMost: 3 });
