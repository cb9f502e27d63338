/**
 * Measurement of external gears over two pins, or over two balls where the gear
 * is helical: the size that fits the space best, the nearest one in the drawer,
 * and the measure over it.
 */
import type { Gear } from './gear.ts';
import { inverseInvolute, involute } from './involute.ts';
import { OutOfRange } from './quantity.ts';
import { innermostFlankDiameter } from './tooth-limits.ts';

export interface OverPins {
  readonly pinDiameter: number;
  /** Over two pins, or balls. */
  readonly measure: number;
  /** Transverse pressure angle at the pin's centre. */
  readonly centreAngleRadians: number;
  readonly centreDiameter: number;
  /** Where the pin touches the flank. */
  readonly contactDiameter: number;
}

/** Throws `OutOfRange` for a pin that finds no place between the flanks or does not stand out of the space. */
export function overPins(gear: Gear, pinDiameter: number): OverPins {
  const inv = pinCentreInvolute(gear, pinDiameter);
  if (!(pinDiameter > 0 && inv >= 0)) throw new OutOfRange('pinDiameter', pinDiameter, 'larger', 'the pin would fall through to the root');
  const centreAngle = inverseInvolute(inv);
  const centreDiameter = gear.baseDiameter / Math.cos(centreAngle);
  const seat = { pinDiameter, centreAngleRadians: centreAngle, centreDiameter, contactDiameter: contactDiameter(gear, pinDiameter, centreAngle) };
  checkSeat(gear, seat);
  return { ...seat, measure: acrossPins(gear.teeth, centreDiameter) + pinDiameter };
}

/** Distance between the centres of two pins as nearly opposite as the number of teeth allows. */
export function acrossPins(teeth: number, centreDiameter: number): number {
  return teeth % 2 === 0 ? centreDiameter : centreDiameter * Math.cos(Math.PI / (2 * teeth));
}

/**
 * The pin that touches the flanks on the V-circle d + 2 x m. A helical gear is
 * treated as its virtual spur gear of z / cos^3 beta teeth in the normal section.
 */
export function idealPinDiameter(gear: Gear): number {
  const teeth = gear.teeth / Math.cos(gear.helixAngleRadians) ** 3;
  const alpha = gear.normalPressureAngleRadians;
  const shifted = teeth + 2 * gear.profileShift;
  const cosine = (teeth * Math.cos(alpha)) / shifted;
  if (!(cosine > 0 && cosine <= 1)) throw new OutOfRange('profileShift', gear.profileShift, 'such that the V-circle lies outside the base circle');
  const halfSpace = Math.PI / (2 * teeth) - involute(alpha) - (2 * gear.profileShift * Math.tan(alpha)) / teeth;
  const phi = Math.tan(Math.acos(cosine)) + halfSpace;
  if (!(phi > 0 && phi < Math.PI / 2)) throw new OutOfRange('profileShift', gear.profileShift, 'such that a pin fits the tooth space');
  return teeth * gear.normalModule * Math.cos(alpha) * (involute(phi) + halfSpace);
}

/**
 * The size to take from the drawer. Millimetres: steps of 0.05 up to 3 mm, of
 * 0.25 up to 10 and of 0.5 beyond (common practice, no source). Inches: the
 * nearest of the handbook sizes 1.68/P, 1.728/P and 1.92/P.
 */
export function nearestPinDiameter(gear: Gear): number {
  const ideal = idealPinDiameter(gear);
  return gear.units === 'mm' ? nearestMetricPin(ideal) : nearestInchPin(ideal, gear.normalModule);
}

/** inv alpha_Kt = s_t / d + D / (z m_n cos alpha_n) - pi / z + inv alpha_t. */
function pinCentreInvolute(gear: Gear, pinDiameter: number): number {
  const pin = pinDiameter / (gear.teeth * gear.normalModule * Math.cos(gear.normalPressureAngleRadians));
  const thickness = gear.transverseToothThickness / gear.referenceDiameter;
  return thickness + pin - Math.PI / gear.teeth + involute(gear.transversePressureAngleRadians);
}

function contactDiameter(gear: Gear, pinDiameter: number, centreAngle: number): number {
  const tangent = Math.tan(centreAngle) - (pinDiameter * Math.cos(gear.baseHelixAngleRadians)) / gear.baseDiameter;
  return tangent < 0 ? 0 : gear.baseDiameter * Math.hypot(1, tangent);
}

function checkSeat(gear: Gear, seat: Omit<OverPins, 'measure'>): void {
  if (seat.contactDiameter < innermostFlankDiameter(gear) || seat.centreDiameter + seat.pinDiameter <= gear.tipDiameter) {
    throw new OutOfRange('pinDiameter', seat.pinDiameter, 'larger', 'the pin must rest on the flanks and stand out of the space');
  }
  if (seat.contactDiameter > gear.tipDiameter) {
    throw new OutOfRange('pinDiameter', seat.pinDiameter, 'smaller', 'the pin would rest on the edges of the teeth');
  }
}

function nearestMetricPin(ideal: number): number {
  const perMillimetre = ideal <= 3 ? 20 : ideal <= 10 ? 4 : 2;
  return Math.max(1, Math.round(ideal * perMillimetre)) / perMillimetre;
}

function nearestInchPin(ideal: number, normalModule: number): number {
  const sizes = HANDBOOK_PIN_FACTORS.map((factor) => factor * normalModule);
  return sizes.reduce((best, size) => (Math.abs(size - ideal) < Math.abs(best - ideal) ? size : best));
}

/** In multiples of the module, which in inches is one over the diametral pitch. */
const HANDBOOK_PIN_FACTORS = [1.68, 1.728, 1.92] as const;
