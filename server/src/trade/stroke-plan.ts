/**
 * Strokes of a slotting tool, driven or static: where they start and end, how
 * long one takes, how many a radial way needs. Knows no section of a slot and
 * no control: distances from the face, not Z words. Source: derived.
 */
import { boxCycleMinutes } from './crank.ts';
import { BOX_CYCLE_DEFAULTS, MOST_STROKES_PER_PASS, neededStroke, type StrokeInput } from './keyway-input.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { OutOfRange } from './quantity.ts';

export interface StrokePlan {
  readonly strokeLength: number;
  /** From the face to the start of the stroke, positive before the face. */
  readonly strokeStartZOffset: number;
  /** From the face to the end of the stroke, negative inside the work. */
  readonly strokeEndZOffset: number;
  readonly strokesPerMinute: number;
  readonly secondsPerStroke: number;
  /** A whole number of strokes at full depth. */
  readonly dwellSecondsForSparkOut: number;
  /** Driven method: radial feed in length a minute, doubled if F counts on the diameter. */
  readonly feedPerMinute: number;
  /** Static method only. */
  readonly box: { readonly cutFeed: number; readonly returnFeed: number; readonly liftFeed: number; readonly liftOff: number } | undefined;
}

/** The input must have passed `checkStrokeInput`. */
export function strokePlan(input: StrokeInput): StrokePlan {
  const timing = strokeTiming(input);
  return {
    ...strokeEnds(input),
    ...timing,
    dwellSecondsForSparkOut: input.sparkOutStrokes * timing.secondsPerStroke,
    feedPerMinute: input.feedPerStroke * timing.strokesPerMinute * (input.xFeedOnDiameter ? 2 : 1),
  };
}

/**
 * Whole strokes for a radial way; a way that fits but for rounding errors does
 * not cost a stroke.
 *
 * @throws OutOfRange on `feedPerStroke` when it would take more than a million
 */
export function strokesToFeed(way: number, feedPerStroke: number): number {
  const strokes = Math.ceil(way / feedPerStroke - 1e-9);
  if (strokes <= MOST_STROKES_PER_PASS) return strokes;
  const least = way / MOST_STROKES_PER_PASS;
  throw new OutOfRange('feedPerStroke', feedPerStroke, `at least ${least.toPrecision(3)}`, 'a million strokes a pass');
}

function strokeTiming(input: StrokeInput) {
  if (input.method === 'static') return boxTiming(input);
  const strokesPerMinute = (input.toolRpm ?? NaN) * input.strokeRatio;
  return { strokesPerMinute, secondsPerStroke: 60 / strokesPerMinute, box: undefined };
}

function boxTiming(input: StrokeInput) {
  const defaults = BOX_CYCLE_DEFAULTS[input.units];
  const perSpeed = lengthPerSpeedUnit(input.units);
  const box = {
    cutFeed: (input.cuttingSpeed ?? NaN) * perSpeed,
    returnFeed: (input.returnSpeed ?? defaults.returnSpeed) * perSpeed,
    liftFeed: (input.liftSpeed ?? defaults.liftSpeed) * perSpeed,
    liftOff: input.liftOff ?? defaults.liftOff,
  };
  const minutes = boxCycleMinutes({ stroke: input.stroke ?? neededStroke(input), ...box });
  return { strokesPerMinute: 1 / minutes, secondsPerStroke: minutes * 60, box };
}

/** The end of the stroke is what the work limits, so spare stroke lies before the face. */
function strokeEnds(input: StrokeInput) {
  const strokeLength = input.stroke ?? neededStroke(input);
  const strokeEndZOffset = -(input.length + input.leadOut);
  return { strokeLength, strokeStartZOffset: strokeEndZOffset + strokeLength, strokeEndZOffset };
}
