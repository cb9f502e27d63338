/**
 * Speed, turns and feed, each from the others. Diameters and lengths are in the
 * caller's units, cutting speeds in m/min or ft/min, feeds in length a minute or
 * a revolution. Source of everything here: elementary, published in every
 * machining text.
 */
import { count, inRange, LARGEST_RATE, LARGEST_RPM, positiveLength, positiveRate, resultInRange, turningSpeed } from './domain.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import type { Units } from './quantity.ts';

/** Largest cutting speed that is taken for one, in m/min or ft/min. */
export const LARGEST_SPEED = 1e12;

/** Returns the value if it is a cutting speed in m/min or ft/min. */
export function cuttingSpeedValue(parameter: string, value: number): number {
  return inRange(parameter, value, { over: 1e-12, atMost: LARGEST_SPEED });
}

/** n = v_c / (pi D) */
export function rpmOf(cuttingSpeed: number, diameter: number, units: Units): number {
  const rpm = (cuttingSpeedValue('cuttingSpeed', cuttingSpeed) * lengthPerSpeedUnit(units)) / (Math.PI * positiveLength('diameter', diameter));
  return resultInRange(rpm, 'turns a minute', LARGEST_RPM, 'cuttingSpeed', cuttingSpeed);
}

/** v_c = pi D n */
export function cuttingSpeedOf(rpm: number, diameter: number, units: Units): number {
  return (Math.PI * positiveLength('diameter', diameter) * turningSpeed('rpm', rpm)) / lengthPerSpeedUnit(units);
}

/** Diameter at which a speed and a number of turns belong together: D = v_c / (pi n). */
export function diameterOf(cuttingSpeed: number, rpm: number, units: Units): number {
  return (cuttingSpeedValue('cuttingSpeed', cuttingSpeed) * lengthPerSpeedUnit(units)) / (Math.PI * turningSpeed('rpm', rpm));
}

/** v_f = f n */
export function feedPerMinuteOf(feedPerRevolution: number, rpm: number): number {
  return positiveRate('feedPerRevolution', feedPerRevolution) * turningSpeed('rpm', rpm);
}

/** f = v_f / n */
export function feedPerRevolutionOf(feedPerMinute: number, rpm: number): number {
  const feed = positiveRate('feedPerMinute', feedPerMinute) / turningSpeed('rpm', rpm);
  return resultInRange(feed, 'a feed a revolution', LARGEST_RATE, 'feedPerMinute', feedPerMinute);
}

/** f = f_z z */
export function feedPerRevolutionOfTeeth(chipLoad: number, teeth: number): number {
  return positiveLength('chipLoad', chipLoad) * count('flutes', teeth);
}

/** f_z = f / z */
export function chipLoadOf(feedPerRevolution: number, teeth: number): number {
  return positiveRate('feedPerRevolution', feedPerRevolution) / count('flutes', teeth);
}

/** Seconds of a cut of a length at a feed a minute. */
export function secondsOfCut(length: number, feedPerMinute: number): number {
  return (60 * positiveLength('length', length)) / positiveRate('feedPerMinute', feedPerMinute);
}
