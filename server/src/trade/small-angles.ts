/**
 * Small angles as the trade measures them: minutes and seconds of arc, and what
 * an angle comes to over a length.
 */
import { radians } from './angles.ts';
import { inRange, lengthOrZero } from './domain.ts';

/** Degrees, minutes and seconds of arc as decimal degrees; the sign is that of the degrees. Source: published. */
export function decimalDegrees(wholeDegrees: number, minutes: number, seconds: number): number {
  inRange('degrees', wholeDegrees, { atLeast: -1e5, atMost: 1e5 });
  inRange('minutes', minutes, { atLeast: 0, under: 60 });
  inRange('seconds', seconds, { atLeast: 0, under: 60 });
  const sign = wholeDegrees < 0 || Object.is(wholeDegrees, -0) ? -1 : 1;
  return wholeDegrees + sign * (minutes / 60 + seconds / 3600);
}

/**
 * By how much a line at an angle is off after a length: the flank of a slot that
 * was turned in place of an offset, the two ends of a floor cut by an edge out of
 * square, a spindle that points aside. Length x tan. Source: derived.
 */
export function leanOver(length: number, angleDegrees: number): number {
  inRange('angleDegrees', angleDegrees, { over: -90, under: 90 });
  return lengthOrZero('length', length) * Math.tan(radians(angleDegrees));
}
