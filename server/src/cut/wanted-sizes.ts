import { inverseInvolute } from '../trade/involute.ts';
import type { GearCircles, WantedGear } from './wanted-gear.ts';

/**
 * The sizes that an inspection of the wanted gear would show, in mm, to be set
 * beside the measured ones (ISO 21771; involute helpers are all that is shared
 * with the trade library).
 */

export function wantedRootDiameter(gear: WantedGear, circles: GearCircles, hobAddendum: number): number {
  return 2 * (circles.reference + gear.profileShift * gear.normalModule - hobAddendum);
}

/** Base tangent length (ISO 21771), written out here so that the proof leans on no figure of the block. */
export function wantedSpan(gear: WantedGear, circles: GearCircles, spanTeeth: number): number {
  const alpha = (gear.normalPressureAngleDegrees * Math.PI) / 180;
  const transverse = circles.transversePressureAngleRadians;
  const involute = Math.tan(transverse) - transverse;
  const m = gear.normalModule;
  return m * Math.cos(alpha) * (Math.PI * (spanTeeth - 0.5) + gear.teeth * involute) + 2 * gear.profileShift * m * Math.sin(alpha);
}

/** Size over two balls (ISO 21771; the same formula is checked against published tables in the trade library's tests). */
export function wantedOverBalls(gear: WantedGear, circles: GearCircles, ball: number): number {
  const alpha = (gear.normalPressureAngleDegrees * Math.PI) / 180;
  const transverse = circles.transversePressureAngleRadians;
  const halfTooth = (Math.PI / 2 + 2 * gear.profileShift * Math.tan(alpha)) / gear.teeth;
  const involute = halfTooth + ball / (gear.teeth * gear.normalModule * Math.cos(alpha)) - Math.PI / gear.teeth + Math.tan(transverse) - transverse;
  const centre = (2 * circles.base) / Math.cos(inverseInvolute(Math.max(involute, 0)));
  return centre * (gear.teeth % 2 === 0 ? 1 : Math.cos(Math.PI / (2 * gear.teeth))) + ball;
}
