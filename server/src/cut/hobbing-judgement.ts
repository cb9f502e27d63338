import type { GearCut } from './gear-cut.ts';
import type { GearMeasurement } from './gear-report.ts';
import type { HobbingMachine, HobbingMotion } from './hobbing-motion.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import type { HobbingSpan } from './motion.ts';
import type { ToolStep } from './tool-steps.ts';

/** All that a verdict on a hobbing stretch is formed from, and which of its steps cut. */

/** Arcs shorter than this, in mm, are what the last revolution of a feed leaves for the retract: no cut to speak of. */
const LEAST_CUT = 0.005;

export interface Judgement {
  stretch: HobbingStretch;
  motion: HobbingMotion;
  machine: HobbingMachine;
  cut: GearCut;
  measured: GearMeasurement;
}

export interface CuttingSpan {
  span: HobbingSpan;
  step: ToolStep;
}

export function cuttingSpans({ cut, motion }: Judgement): CuttingSpan[] {
  return motion.spans.flatMap((span, index) => ((cut.effects[index]?.removed ?? 0) > LEAST_CUT ? [{ span, step: motion.steps[index]! }] : []));
}

/** The cutting span with the longest way along Z: the one that makes the teeth. */
export function mainSpan(cutting: readonly CuttingSpan[]): CuttingSpan {
  const way = ({ span }: CuttingSpan): number => (span.rapid ? -1 : Math.abs(span.end.z - span.start.z));
  return cutting.reduce((best, each) => (way(each) > way(best) ? each : best));
}

/** A way in or out along X alone, beside which nothing but the rotations changes. */
export function isRadial({ start, end }: HobbingSpan): boolean {
  return start.x !== end.x && start.y === end.y && start.z === end.z;
}
