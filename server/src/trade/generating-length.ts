/**
 * Where along the hob the tooth is made: the zone in which its flanks are
 * finished, and the zone before it where material is only removed.
 */
import type { Gear } from './gear.ts';
import type { Hob } from './hob.ts';

export interface GeneratingLength {
  /** Needed for the foot of the tooth: the straight part of the hob's tip. */
  readonly forTip: number;
  /** Needed for the head of the tooth: out to the gear's tip circle. */
  readonly forFlank: number;
  /** The longer of the two, along the hob axis. */
  readonly length: number;
  /** From the pitch point to the end where cutting begins. */
  readonly entrySide: number;
  /** Cutting edges that take part in forming one flank. */
  readonly cutsPerFlank: number;
}

/** Tip radius of the ISO 53 A tool in modules (from memory). */
export const HOB_TIP_RADIUS_FACTOR = 0.38;

/**
 * `tipRadiusFactor` in modules; where the hob tooth is too narrow at its tip for
 * that radius, the largest that fits takes its place.
 */
export function generatingLength(gear: Gear, hob: Hob, tipRadiusFactor = HOB_TIP_RADIUS_FACTOR): GeneratingLength {
  const toHobAxis = Math.cos(gear.helixAngleRadians) / Math.cos(hob.leadAngleRadians);
  const tangent = Math.tan(gear.transversePressureAngleRadians);
  const straightTip = straightTipHeight(gear, hob, tipRadiusFactor) - gear.profileShift * gear.normalModule;
  const forTip = ((2 * straightTip) / tangent) * toHobAxis;
  const forFlank = 2 * lengthOfActionAboveReference(gear) * Math.cos(gear.transversePressureAngleRadians) * toHobAxis;
  const length = Math.max(forTip, forFlank, 0);
  return {
    forTip,
    forFlank,
    length,
    entrySide: Math.sqrt(Math.max(0, gear.wholeDepth * (gear.tipDiameter - gear.wholeDepth))) * toHobAxis,
    cutsPerFlank: (length * hob.gashes) / (hob.starts * hob.axialPitch),
  };
}

/** Height of the straight flank of the hob above its reference line: h_a0F = h_aP0 - rho (1 - sin alpha_n). */
export function straightTipHeight(gear: Gear, hob: Pick<Hob, 'addendum'>, tipRadiusFactor = HOB_TIP_RADIUS_FACTOR): number {
  const radius = Math.min(tipRadiusFactor * gear.normalModule, fullTipRadius(gear, hob.addendum));
  return hob.addendum - radius * (1 - Math.sin(gear.normalPressureAngleRadians));
}

/** The radius that takes up the whole width of the hob tooth at its tip. */
function fullTipRadius(gear: Gear, addendum: number): number {
  const angle = gear.normalPressureAngleRadians;
  const halfWidth = (Math.PI / 4) * gear.normalModule - addendum * Math.tan(angle);
  return Math.max(0, halfWidth) / Math.tan(Math.PI / 4 - angle / 2);
}

function lengthOfActionAboveReference(gear: Gear): number {
  const tip = Math.sqrt(Math.max(0, gear.tipDiameter ** 2 - gear.baseDiameter ** 2)) / 2;
  return tip - (gear.referenceDiameter / 2) * Math.sin(gear.transversePressureAngleRadians);
}
