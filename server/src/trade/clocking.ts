/**
 * Angles of the work: where equal features sit round the axis, how a keyway is
 * clocked to a tooth, and what turning the work instead of moving in Y does to a
 * slot. C is positive as the caller counts it; a tool below the centre (X
 * negative) adds 180 degrees. Knows no control. Source of everything here: derived.
 */
import { degrees, radians } from './angles.ts';
import { count, inRange, positiveLength } from './domain.ts';

/**
 * Angles of `howMany` evenly spaced features. Each is computed from the start at
 * once, because a pitch that is rounded and added up drifts.
 */
export function evenlySpacedAnglesDegrees(howMany: number, startAngleDegrees: number): number[] {
  count('count', howMany);
  inRange('startAngleDegrees', startAngleDegrees, { atLeast: -360, atMost: 360 });
  return Array.from({ length: howMany }, (_, i) => startAngleDegrees + (i * 360) / howMany);
}

/** The largest error of a pitch, on a radius, from rounding C to its last digit: either end may be half a step off. */
export function pitchErrorFromRounding(radius: number, resolutionDegrees: number): number {
  positiveLength('radius', radius);
  inRange('resolutionDegrees', resolutionDegrees, { over: 0, atMost: 360 });
  return radius * radians(resolutionDegrees);
}

/**
 * C of a keyway that sits on the middle of a tooth or of a space, for a gear
 * whose tooth number 0 has its middle at `toothAngleDegrees`.
 *
 * @param index which tooth, or the space that follows that tooth; counts with C
 */
export function clockedToGearDegrees(toothAngleDegrees: number, teeth: number, target: 'tooth' | 'space', index = 0): number {
  inRange('toothAngleDegrees', toothAngleDegrees, { atLeast: -360, atMost: 360 });
  count('teeth', teeth);
  inRange('index', index, { atLeast: -1e4, atMost: 1e4, whole: true });
  const pitches = index + (target === 'space' ? 0.5 : 0);
  return toothAngleDegrees + (pitches * 360) / teeth;
}

/** The turn of the work that would stand in for an offset in Y at a radius. It turns flanks and floor along. */
export function turnForOffsetDegrees(offset: number, radius: number): number {
  positiveLength('radius', radius);
  inRange('offset', offset, { atLeast: -radius, atMost: radius });
  return degrees(Math.asin(offset / radius));
}

/** The same place on the work as an angle from 0 to below 360 degrees. */
export function withinOneTurnDegrees(angleDegrees: number): number {
  inRange('angleDegrees', angleDegrees, { atLeast: -1e7, atMost: 1e7 });
  const rest = angleDegrees % 360;
  return rest < 0 ? rest + 360 : rest;
}
