/**
 * Turning at constant surface speed with a limit on the turns, and how long
 * facing takes under it. Units as in speeds-and-feeds.ts; feeds are radial, a
 * revolution, also where X is programmed as a diameter.
 *
 * A warning found in print is kept here on purpose: the time of constant turns,
 * radius over (feed times turns at the outside), is twice that of constant
 * surface speed when facing to the centre without a limit.
 */
import { lengthOrZero, positiveRate, turningSpeed } from './domain.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import type { Units } from './quantity.ts';
import { cuttingSpeedValue, diameterOf, rpmOf } from './speeds-and-feeds.ts';

export interface SurfaceSpeed {
  units: Units;
  /** m/min or ft/min. */
  cuttingSpeed: number;
  /** The limit on the turns, 1/min. */
  clampRpm: number;
}

/** Turns at a diameter: what the speed asks for, at most the limit. At the centre it is the limit. */
export function rpmUnderClamp({ units, cuttingSpeed, clampRpm }: SurfaceSpeed, diameter: number): number {
  const limit = turningSpeed('clampRpm', clampRpm);
  return lengthOrZero('diameter', diameter) <= clampDiameter({ units, cuttingSpeed, clampRpm }) ? limit : rpmOf(cuttingSpeed, diameter, units);
}

/** Below this diameter the limit holds and the surface speed falls. */
export function clampDiameter({ units, cuttingSpeed, clampRpm }: SurfaceSpeed): number {
  turningSpeed('clampRpm', clampRpm);
  return diameterOf(cuttingSpeed, clampRpm, units);
}

/**
 * Seconds of facing between two diameters, in either direction. Source: derived
 * by integration of d radius / (f n).
 */
export function facingSeconds(css: SurfaceSpeed, fromDiameter: number, toDiameter: number, feedPerRevolution: number): number {
  const [inner, outer] = [fromDiameter, toDiameter].map((each, i) => lengthOrZero(i === 0 ? 'fromDiameter' : 'toDiameter', each)).sort((a, b) => a - b) as [number, number];
  const feed = positiveRate('feedPerRevolution', feedPerRevolution);
  const limit = clampDiameter(css);
  const outside = Math.max(outer, limit) ** 2 - Math.max(inner, limit) ** 2;
  const inside = Math.min(outer, limit) - Math.min(inner, limit);
  const speed = cuttingSpeedValue('cuttingSpeed', css.cuttingSpeed) * lengthPerSpeedUnit(css.units);
  return 60 * ((Math.PI * outside) / (4 * feed * speed) + inside / (2 * feed * css.clampRpm));
}

/** Seconds of facing at constant turns, for comparison. */
export function facingSecondsAtConstantRpm(rpm: number, fromDiameter: number, toDiameter: number, feedPerRevolution: number): number {
  const way = Math.abs(lengthOrZero('fromDiameter', fromDiameter) - lengthOrZero('toDiameter', toDiameter)) / 2;
  return way === 0 ? 0 : (60 * way) / (positiveRate('feedPerRevolution', feedPerRevolution) * turningSpeed('rpm', rpm));
}
