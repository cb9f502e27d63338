/**
 * V-shaped grooves round a bore, cut with a full-form pointed insert. The
 * dimensions come from the drawing: the published serration profiles were not
 * verified, so none is built in.
 *
 * Picture: look along the bore. The groove points to +X, its two flanks meet (or
 * leave a small flat) at the floor radius and open towards the axis.
 * Source of everything here: derived.
 */
import { radians } from './angles.ts';
import { count, inRange, lengthOrZero, positiveLength } from './domain.ts';
import { OutOfRange } from './quantity.ts';
import { cornerContactRadius } from './slot-geometry.ts';

export interface VGroove {
  boreDiameter: number;
  /** Distance of the groove's floor from the axis. */
  floorRadius: number;
  /** Between the two flanks, 1 to 179 degrees. */
  includedAngleDegrees: number;
  /** Width of the flat at the point, 0 for a sharp point. */
  tipFlat: number;
}

/** Half the width of the groove where its flanks meet the bore's circle. */
export function halfWidthAtBore(groove: VGroove): number {
  const { boreRadius, slope, apexRadius } = checkedGroove(groove);
  const underRoot = apexRadius ** 2 - (1 + slope ** 2) * (apexRadius ** 2 - boreRadius ** 2);
  if (underRoot < 0) throw new OutOfRange('includedAngleDegrees', groove.includedAngleDegrees, 'smaller', 'the flanks of the groove miss the bore');
  return (slope * (apexRadius - Math.sqrt(underRoot))) / (1 + slope ** 2);
}

/** Distance of the insert's point from the axis when it first touches the bore. */
export function grooveContactRadius({ boreDiameter, tipFlat }: Pick<VGroove, 'boreDiameter' | 'tipFlat'>): number {
  return cornerContactRadius(positiveLength('boreDiameter', boreDiameter) / 2, tipFlat / 2);
}

/**
 * Arc of the bore that stays between neighbouring grooves.
 *
 * @throws OutOfRange on `count` when the grooves run into one another
 */
export function landBetweenGrooves(groove: VGroove, howMany: number): number {
  count('count', howMany);
  const boreRadius = groove.boreDiameter / 2;
  const angleOfOne = 2 * Math.asin(halfWidthAtBore(groove) / boreRadius);
  const most = Math.floor((2 * Math.PI) / angleOfOne + 1e-9);
  if (howMany > most) throw new OutOfRange('count', howMany, `at least 1 and at most ${most}`, 'more grooves run into one another');
  return Math.max(0, boreRadius * ((2 * Math.PI) / howMany - angleOfOne));
}

function checkedGroove({ boreDiameter, floorRadius, includedAngleDegrees, tipFlat }: VGroove) {
  const boreRadius = positiveLength('boreDiameter', boreDiameter) / 2;
  inRange('floorRadius', floorRadius, { over: boreRadius, atMost: 2 * boreRadius });
  inRange('includedAngleDegrees', includedAngleDegrees, { atLeast: 1, atMost: 179 });
  lengthOrZero('tipFlat', tipFlat);
  inRange('tipFlat', tipFlat, { under: boreDiameter });
  const slope = Math.tan(radians(includedAngleDegrees / 2));
  return { boreRadius, slope, apexRadius: floorRadius + tipFlat / 2 / slope };
}
