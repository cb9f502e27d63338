/**
 * The involute function and its inverse, in radians. Everything about tooth
 * thickness away from the reference circle goes through these two.
 */
import { inRange } from './domain.ts';

/** Below this angle tan a - a loses digits to cancellation; the series below is exact to the last bit there. */
const SERIES_LIMIT_RADIANS = 0.02;

/** inv a = tan a - a. `angleRadians` from 0 up to, not including, a right angle. */
export function involute(angleRadians: number): number {
  inRange('angleRadians', angleRadians, { atLeast: 0, under: Math.PI / 2 });
  return angleRadians < SERIES_LIMIT_RADIANS ? smallInvolute(angleRadians) : Math.tan(angleRadians) - angleRadians;
}

/**
 * The angle in radians whose involute is `value` (0 to 1e6).
 *
 * Newton's method works on u = tan a, where the equation is u - atan u = value:
 * unlike the angle itself, u has no wall at the right angle to run into.
 */
export function inverseInvolute(value: number): number {
  inRange('involute', value, { atLeast: 0, atMost: 1e6 });
  if (value === 0) return 0;
  let tangent = startingTangent(value);
  for (let step = 0; step < 50; step += 1) {
    const correction = tangentCorrection(tangent, value);
    tangent -= correction;
    if (Math.abs(correction) <= 4e-16 * tangent) break;
  }
  return Math.atan(tangent);
}

function tangentCorrection(tangent: number, value: number): number {
  const angle = Math.atan(tangent);
  const reached = angle < SERIES_LIMIT_RADIANS ? smallInvolute(angle) : tangent - angle;
  const square = tangent * tangent;
  return ((reached - value) * (1 + square)) / square;
}

/** u^3 / 3 for small angles, value + pi/2 for large ones; both lie on the side from which Newton converges. */
function startingTangent(value: number): number {
  const small = Math.cbrt(3 * value);
  return value < 1 ? small * (1 + 0.2 * small * small) : value + Math.PI / 2;
}

function smallInvolute(angle: number): number {
  const square = angle * angle;
  return angle * square * (1 / 3 + square * (2 / 15 + square * (17 / 315 + (square * 62) / 2835)));
}
