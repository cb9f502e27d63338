/**
 * Motion of a driven stroke unit: a crank turns the tool's rotation into
 * strokes, cutting one way and lifted off on the way back. Also the box cycle
 * of a static tool. Knows nothing of keyways; lengths are millimetres or inches
 * as the caller says, and rates are a minute in the same length.
 */
import { radians } from './angles.ts';
import { inRange, lengthOrZero, positiveLength, positiveRate, turningSpeed } from './domain.ts';

/**
 * Mean speed of the cutting half of the stroke, in length a minute: twice the
 * stroke times the strokes a minute. Source: shaper theory, published.
 */
export function meanStrokeSpeed(stroke: number, strokesPerMinute: number): number {
  return 2 * positiveLength('stroke', stroke) * turningSpeed('strokesPerMinute', strokesPerMinute);
}

/**
 * Largest speed of a sinusoidal stroke (endless connecting rod), in length a
 * minute: pi/2 times the mean speed. Source: derived.
 */
export function peakStrokeSpeed(stroke: number, strokesPerMinute: number): number {
  return (Math.PI / 2) * meanStrokeSpeed(stroke, strokesPerMinute);
}

/**
 * Speed at a distance from the start of the stroke, in length a minute, for a
 * sinusoidal stroke. It is 0 at both ends. Source: derived.
 */
export function strokeSpeedAt(distance: number, stroke: number, strokesPerMinute: number): number {
  positiveLength('stroke', stroke);
  const share = inRange('distance', distance, { atLeast: 0, atMost: stroke }) / stroke;
  return peakStrokeSpeed(stroke, strokesPerMinute) * 2 * Math.sqrt(share * (1 - share));
}

/** A crank with a connecting rod of finite length; `rodRatio` is crank radius over rod length. */
export interface Crank {
  stroke: number;
  strokesPerMinute: number;
  /** 0 for a sinusoidal stroke (endless rod or yoke), below 1. */
  rodRatio: number;
}

/**
 * Distance from the start of the stroke at a crank angle; the angle is 0 at the
 * start of the cutting stroke and 180 degrees at its end. The stroke starts at
 * the outer dead centre (crank and rod in line, the slide farthest from the
 * crank's axis), so a finite rod makes its first half the quicker one. A unit
 * that cuts from the inner dead centre runs through the same speeds backwards.
 * Source: piston motion, published.
 */
export function crankPosition(crank: Crank, angleDegrees: number): number {
  const { radius, ratio, angleRadians } = checkedCrank(crank, angleDegrees);
  const sine = ratio * Math.sin(angleRadians);
  const rodShortfall = ratio === 0 ? 0 : (1 - Math.sqrt(1 - sine ** 2)) / ratio;
  return radius * (1 - Math.cos(angleRadians) + rodShortfall);
}

/** Speed at a crank angle in length a minute, positive on the cutting stroke. Source: derived. */
export function crankSpeed(crank: Crank, angleDegrees: number): number {
  const { radius, ratio, angleRadians } = checkedCrank(crank, angleDegrees);
  const sine = Math.sin(angleRadians);
  const rodShare = (ratio * sine * Math.cos(angleRadians)) / Math.sqrt(1 - (ratio * sine) ** 2);
  return 2 * Math.PI * crank.strokesPerMinute * radius * (sine + rodShare);
}

/**
 * How much a finite connecting rod raises the largest speed over that of a
 * sinusoidal stroke. Found by search; sqrt(1 + ratio^2) is the common estimate.
 */
export function peakSpeedFactor(rodRatio: number): number {
  const crank: Crank = { stroke: 2, strokesPerMinute: 1 / (2 * Math.PI), rodRatio };
  return largestOver(0, 180, (angle) => crankSpeed(crank, angle));
}

/**
 * Mean speed of the cutting stroke of a quick-return motion, in length a minute.
 * `returnTimeRatio` is return time over cutting time; 1 for a plain crank.
 * Source: shaper theory, published.
 */
export function quickReturnSpeed(stroke: number, strokesPerMinute: number, returnTimeRatio: number): number {
  inRange('returnTimeRatio', returnTimeRatio, { over: 0, atMost: 10 });
  return (meanStrokeSpeed(stroke, strokesPerMinute) / 2) * (1 + returnTimeRatio);
}

export interface BoxCycle {
  /** Length of the cutting stroke, lead-in and lead-out included. */
  stroke: number;
  /** All rates in length a minute. */
  cutFeed: number;
  returnFeed: number;
  /** Radial distance that the edge lifts off before it returns. */
  liftOff: number;
  liftFeed: number;
}

/** Minutes of one pass: cut, lift off, return, advance. Axis acceleration is left out. Source: derived. */
export function boxCycleMinutes(cycle: BoxCycle): number {
  positiveLength('stroke', cycle.stroke);
  lengthOrZero('liftOff', cycle.liftOff);
  for (const feed of ['cutFeed', 'returnFeed', 'liftFeed'] as const) positiveRate(feed, cycle[feed]);
  const { stroke, cutFeed, returnFeed, liftOff, liftFeed } = cycle;
  return stroke / cutFeed + stroke / returnFeed + (2 * liftOff) / liftFeed;
}

/**
 * Seconds that a real axis needs for a length from rest to rest, with speed and
 * acceleration in the same length and seconds. Source: derived.
 */
export function axisMoveSeconds(length: number, speedPerSecond: number, acceleration: number): number {
  positiveLength('length', length);
  inRange('speedPerSecond', speedPerSecond, { over: 0, atMost: 1e6 });
  inRange('acceleration', acceleration, { over: 0, atMost: 1e9 });
  const reachesSpeed = length >= speedPerSecond ** 2 / acceleration;
  return reachesSpeed ? length / speedPerSecond + speedPerSecond / acceleration : 2 * Math.sqrt(length / acceleration);
}

function checkedCrank(crank: Crank, angleDegrees: number) {
  inRange('angleDegrees', angleDegrees, { atLeast: -1e6, atMost: 1e6 });
  turningSpeed('strokesPerMinute', crank.strokesPerMinute);
  return {
    radius: positiveLength('stroke', crank.stroke) / 2,
    ratio: inRange('rodRatio', crank.rodRatio, { atLeast: 0, under: 1 }),
    angleRadians: radians(angleDegrees),
  };
}

/** Golden-section search for the largest value of a function with one hump. */
function largestOver(from: number, to: number, f: (x: number) => number): number {
  const shrink = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  while (high - low > 1e-9) {
    const left = high - shrink * (high - low);
    const right = low + shrink * (high - low);
    if (f(left) < f(right)) low = left;
    else high = right;
  }
  return f((low + high) / 2);
}
