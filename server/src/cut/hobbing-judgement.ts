import type { GearCut } from './gear-cut.ts';
import type { GearMeasurement } from './gear-report.ts';
import type { HobbingMachine, HobbingMotion } from './hobbing-motion.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import type { HobbingSpan } from './motion.ts';
import type { ToolStep } from './tool-steps.ts';

/** All that a verdict on a hobbing stretch is formed from, and which of its steps cut. */

/** Arcs shorter than this, in mm, are no cut to speak of. */
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

export function cuttingSpans({ stretch, cut, motion }: Judgement): CuttingSpan[] {
  return motion.spans.flatMap((span, index) => {
    const step = motion.steps[index]!;
    return (cut.effects[index]?.removed ?? 0) > leastCut(stretch, span, step) ? [{ span, step }] : [];
  });
}

/**
 * The revolution in which a feed ends reaches some tooth spaces and others not,
 * so a coupled retract still takes from those what one feed leaves: no more than
 * a feed mark of twice the width, f^2 / d, which on a circle near the root shows
 * as an arc of up to four times that.
 */
function leastCut({ feedPerWorkTurn = 0, gear, tool }: HobbingStretch, span: HobbingSpan, step: ToolStep): number {
  if (!step.sync || !isRadial(span) || Math.abs(span.end.x) < Math.abs(span.start.x)) return LEAST_CUT;
  const alongTooth = feedPerWorkTurn / Math.cos((gear.helixAngleDegrees * Math.PI) / 180);
  return LEAST_CUT + (4 * alongTooth ** 2) / tool.tipDiameter;
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
