/**
 * One step of motion while it is computed: a record of numbers that is used
 * again for every step. Whoever wants to keep a step copies it.
 */
import { AXIS_COUNT } from './registers.ts';

export const RAPID = 1;
export const FEED_MOVE = 2;
export const ARC = 3;
export const THREAD = 4;
export const DWELL = 5;
/** No motion code says how the axes move, or its path is not computed here. */
export const UNKNOWN = 6;

export class Step {
  kind = RAPID;
  /** The G number of the cycle it belongs to, 0 for none. */
  cycle = 0;
  /**
   * Programmed positions in the order of AXES; NaN where not known. Of axes that
   * take no part only X, Y and Z are filled in.
   */
  readonly from = new Float64Array(AXIS_COUNT);
  readonly to = new Float64Array(AXIS_COUNT);
  /** Bits of the axes that take part. */
  axes = 0;
  /** The plane of an arc: 17, 18 or 19. */
  plane = 17;
  /** Centre of an arc that could be computed, in programmed coordinates of the two axes of its plane. */
  centreA = NaN;
  centreB = NaN;
  /** Radians, positive counter-clockwise; 0 where there is no arc, or none that could be computed. */
  sweepRadians = 0;
  /** Path of the linear axes in program units, X as a radius; NaN where not known. */
  length = NaN;
  /** Path of the rotary axes, degrees. */
  rotationDegrees = NaN;
  /** Of a thread: revolutions of the spindle. */
  revolutions = NaN;
  seconds = NaN;
}

/** Takes the steps of motion in their order. The step is only lent. */
export interface StepSink {
  step(step: Step): void;
}
