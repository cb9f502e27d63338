/**
 * Measurement of internal gears and splines between two pins, or two balls
 * where the teeth are helical.
 */
import { inverseInvolute, involute } from './involute.ts';
import type { InternalGear } from './internal-gear.ts';
import { acrossPins } from './pins.ts';
import { OutOfRange } from './quantity.ts';

export interface BetweenPins {
  readonly pinDiameter: number;
  readonly measure: number;
  readonly centreAngleRadians: number;
  readonly centreDiameter: number;
  readonly contactDiameter: number;
}

/** Throws `OutOfRange` for a pin that is too large to enter the space or too small to rest on its flanks. */
export function betweenPins(gear: InternalGear, pinDiameter: number): BetweenPins {
  const inv = centreInvolute(gear, pinDiameter);
  if (!(pinDiameter > 0 && inv >= 0)) throw new OutOfRange('pinDiameter', pinDiameter, 'more than 0 and smaller', 'no pin of this size fits the space');
  const centreAngle = inverseInvolute(inv);
  const centreDiameter = gear.baseDiameter / Math.cos(centreAngle);
  const contactDiameter = contactDiameterOf(gear, pinDiameter, centreAngle);
  if (contactDiameter > gear.rootDiameter) throw new OutOfRange('pinDiameter', pinDiameter, 'larger', 'the pin would rest on the root');
  if (contactDiameter < gear.tipDiameter) throw new OutOfRange('pinDiameter', pinDiameter, 'smaller', 'the pin would rest on the edges of the teeth');
  const measure = acrossPins(gear.teeth, centreDiameter) - pinDiameter;
  return { pinDiameter, measure, centreAngleRadians: centreAngle, centreDiameter, contactDiameter };
}

/**
 * The pin that touches the flanks on the V-circle d + 2 x m. With c = e/d + inv
 * alpha the centre of that pin lies at the pressure angle tan alpha_v - c, and
 * the pin spans the difference of the tangents on the line of action. Helical
 * teeth are treated in the normal section with z / cos^3 beta teeth.
 */
export function idealInternalPinDiameter(gear: InternalGear): number {
  const teeth = gear.teeth / Math.cos(gear.helixAngleRadians) ** 3;
  const alpha = gear.normalPressureAngleRadians;
  const cosine = (teeth * Math.cos(alpha)) / (teeth + 2 * gear.profileShift);
  const tangent = Math.tan(Math.acos(cosine));
  const centreAngle = tangent - gear.normalSpaceWidth / (teeth * gear.normalModule) - involute(alpha);
  if (!(cosine > 0 && cosine <= 1 && centreAngle > -Math.PI / 2)) {
    throw new OutOfRange('profileShift', gear.profileShift, 'such that the V-circle lies on the flank');
  }
  return teeth * gear.normalModule * Math.cos(alpha) * (tangent - Math.tan(centreAngle));
}

/** inv alpha_Kt = e_t / d + inv alpha_t - D / (z m_n cos alpha_n). */
function centreInvolute(gear: InternalGear, pinDiameter: number): number {
  const pin = pinDiameter / (gear.teeth * gear.normalModule * Math.cos(gear.normalPressureAngleRadians));
  return gear.transverseSpaceWidth / gear.referenceDiameter + involute(gear.transversePressureAngleRadians) - pin;
}

function contactDiameterOf(gear: InternalGear, pinDiameter: number, centreAngle: number): number {
  const tangent = Math.tan(centreAngle) + (pinDiameter * Math.cos(gear.baseHelixAngleRadians)) / gear.baseDiameter;
  return gear.baseDiameter * Math.hypot(1, tangent);
}
