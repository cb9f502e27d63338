/**
 * How long steps of motion take and how fast spindles turn meanwhile.
 *
 * Times are ideal: no acceleration, no look-ahead, no tool change. Seconds are
 * NaN where the text and the dialect do not say enough.
 */
import type { Dialect } from './dialect.ts';
import { COUPLED_SPINDLES, DRIVEN_TOOL, MAIN_SPINDLE, SUB_SPINDLE, turnedByFeed, WORK_IN_STEP } from './feed.ts';
import { unitFactor } from './inch.ts';
import * as r from './registers.ts';
import { syncSlots } from './state.ts';
import { ARC, DWELL, RAPID, type Step, THREAD, UNKNOWN } from './step.ts';

const SECONDS_IN_MINUTE = 60;
const SAMPLES_ON_AN_ARC = 64;

/**
 * Gives a step whose path is known its time, in the modes of `row`. Dwells have theirs. Time is
 * written into the step rather than returned, because numbers handed from function to function are
 * what a long program would make most garbage of.
 */
export function timeStep(step: Step, row: Float64Array, dialect: Dialect): void {
  if (step.kind === DWELL) return;
  if (step.kind === RAPID) timeRapid(step, row, dialect);
  else if (step.kind === THREAD) timeThread(step, row, dialect);
  else if (step.kind === UNKNOWN) step.seconds = NaN;
  else timeFeed(step, row, dialect);
}

function timeFeed(step: Step, row: Float64Array, dialect: Dialect): void {
  const feed = row[r.FEED]!;
  if (row[r.FEED_MODE] === 93) step.seconds = SECONDS_IN_MINUTE / feed;
  else if (step.length === 0 || dialect.xFeedOnDiameter) step.seconds = (feedPath(step, dialect) / feed) * SECONDS_IN_MINUTE;
  else step.seconds = (step.length / feed) * SECONDS_IN_MINUTE;
  if (row[r.FEED_MODE] === 95) multiplyByMinutesPerRevolution(step, row, dialect);
}

/**
 * Speed of the main spindle at an X as programmed, rev/min: S itself, or with
 * constant cutting speed n = 1000 v / (pi d), in inch 12 v / (pi d), up to the limit.
 * NaN where not known, 0 when it stands.
 */
export function spindleRpm(row: Float64Array, x: number, dialect: Dialect): number {
  if (row[r.SPINDLE] === 5) return 0;
  if (row[r.SPEED_MODE] !== 96) return row[r.SPEED]!;
  const limit = row[r.SPEED_LIMIT]!;
  const rpm = speedFactor(row) / diameterOf(x, dialect);
  return rpm > limit ? limit : rpm;
}

/** Revolutions of the work for one of the driven tool while in sync, by the slots ratio or starts and teeth; NaN if not said. */
export function syncRatio(row: Float64Array, dialect: Dialect): number {
  const slots = syncSlots(row, dialect);
  const ratio = slots['ratio'] ?? slots['starts']! / Math.abs(slots['teeth']!);
  return Number.isFinite(ratio) ? ratio : NaN;
}

/** The diameter at an X as programmed. */
export function diameterOf(x: number, dialect: Dialect): number {
  return dialect.diameterProgramming ? Math.abs(x) : 2 * Math.abs(x);
}

/** Each axis at its own rapid speed; the slowest decides (common practice, no source). */
function timeRapid(step: Step, row: Float64Array, dialect: Dialect): void {
  step.seconds = 0;
  for (let axis = 0; step.axes >> axis !== 0; axis++) {
    if ((step.axes & (1 << axis)) === 0 || step.to[axis] === step.from[axis]) continue;
    step.seconds = dialect.rapid === undefined ? NaN : Math.max(step.seconds, rapidAxisSeconds(step, axis, row, dialect));
  }
}

function rapidAxisSeconds(step: Step, axis: number, row: Float64Array, dialect: Dialect): number {
  const speed = rapidSpeed(axis, dialect);
  if (speed === undefined) return NaN;
  const distance = Math.abs(step.to[axis]! - step.from[axis]!);
  if (axis === r.C) return (distance / speed) * SECONDS_IN_MINUTE;
  const travel = axis === r.X && dialect.diameterProgramming ? distance / 2 : distance;
  return (travel / (speed * unitFactor(row, dialect))) * SECONDS_IN_MINUTE;
}

function rapidSpeed(axis: number, { rapid }: Dialect): number | undefined {
  return axis === r.X ? rapid?.x : axis === r.Y ? rapid?.y : axis === r.Z ? rapid?.z : axis === r.C ? rapid?.c : undefined;
}

/**
 * The path that the feed counts: linear axes, or rotary ones that move alone (NISTIR 6556
 * §2.1.2.5). A feed on the diameter counts D = 2R instead of R in X: L² + D² - (D/2)².
 */
function feedPath(step: Step, dialect: Dialect): number {
  if (step.length === 0) return step.rotationDegrees;
  if (!dialect.xFeedOnDiameter || (step.axes & (1 << r.X)) === 0 || step.kind === ARC) return step.length;
  const change = step.to[r.X]! - step.from[r.X]!;
  const asDiameter = dialect.diameterProgramming ? change : 2 * change;
  return Math.sqrt(step.length * step.length + 0.75 * asDiameter * asDiameter);
}

/** A thread under constant cutting speed has no steady lead, so its time is left open. */
function timeThread(step: Step, row: Float64Array, dialect: Dialect): void {
  const rpm = row[r.SPEED_MODE] === 96 ? NaN : spindleRpm(row, step.from[r.X]!, dialect);
  step.seconds = (step.revolutions / rpm) * SECONDS_IN_MINUTE;
}

/** Makes of revolutions the time they take, averaged over the path. */
function multiplyByMinutesPerRevolution(step: Step, row: Float64Array, dialect: Dialect): void {
  const turned = turnedByFeed(row);
  if (turned === MAIN_SPINDLE && row[r.SPEED_MODE] === 96) multiplyByMinutesAtCuttingSpeed(step, row, dialect);
  else step.seconds /= steadyRpm(turned, row, dialect);
}

/** Speed of what `turnedByFeed` says, rev/min, that does not change along a path: of the main spindle outside of constant cutting speed. NaN where not known. */
export function steadyRpm(turned: number, row: Float64Array, dialect: Dialect): number {
  switch (turned) {
    case WORK_IN_STEP: return row[r.DRIVEN_SPEED]! * syncRatio(row, dialect);
    case DRIVEN_TOOL: return row[r.DRIVEN_SPEED]!;
    case COUPLED_SPINDLES: return row[r.COUPLED_SPEED]!;
    case SUB_SPINDLE: return row[r.SUB_SPEED]!;
    case MAIN_SPINDLE: return row[r.SPEED]!;
    default: return NaN;
  }
}

/** At constant cutting speed a revolution takes as long as the diameter says, down to where the speed limit holds. */
function multiplyByMinutesAtCuttingSpeed(step: Step, row: Float64Array, dialect: Dialect): void {
  const factor = speedFactor(row);
  step.seconds *= meanDiameter(step, factor / row[r.SPEED_LIMIT]!, dialect) / factor;
}

/** Speed times diameter at constant cutting speed: 1000 v / pi, in inch 12 v / pi. */
function speedFactor(row: Float64Array): number {
  return (row[r.UNITS] === 20 ? 12 / Math.PI : 1000 / Math.PI) * row[r.SPEED]!;
}

/** The mean along the path of the diameter, counted as at least `least`, below which the speed limit holds. */
function meanDiameter(step: Step, least: number, dialect: Dialect): number {
  const smallest = Number.isNaN(least) ? 0 : least;
  if (step.kind === ARC && step.plane !== 19) return meanDiameterOnArc(step, smallest, dialect);
  const from = diameterOf(step.from[r.X]!, dialect);
  const to = diameterOf(step.to[r.X]!, dialect);
  const crosses = step.from[r.X]! * step.to[r.X]! < 0;
  if (!crosses) return meanOfAtLeast(from, to, smallest);
  return (from * meanOfAtLeast(0, from, smallest) + to * meanOfAtLeast(0, to, smallest)) / (from + to);
}

/** The mean of max(value, least) while the value goes evenly from one to the other. */
export function meanOfAtLeast(from: number, to: number, least: number): number {
  const low = Math.min(from, to);
  const high = Math.max(from, to);
  if (least >= high) return least;
  if (least <= low) return (low + high) / 2;
  const below = (least - low) / (high - low);
  return below * least + ((1 - below) * (least + high)) / 2;
}

/** The exact mean where the whole arc is known to lie on one side of X0 and beyond `least`, else by samples. */
function meanDiameterOnArc(step: Step, least: number, dialect: Dialect): number {
  const scale = dialect.diameterProgramming ? 2 : 1;
  const isXFirst = step.plane === 17;
  const centreX = (isXFirst ? step.centreA : step.centreB) / scale;
  const along = step.from[r.X]! / scale - centreX;
  const across = isXFirst ? step.centreB - step.from[r.Y]! : step.from[r.Z]! - step.centreA;
  const radius = Math.sqrt(along * along + across * across);
  if (!(centreX - radius >= least / 2) && !(smallestX(step, radius, scale) >= least / 2)) return meanOfSamples(centreX, along, across, step.sweepRadians, least);
  const sine = Math.sin(step.sweepRadians);
  return 2 * (centreX + (along * sine + across * (1 - Math.cos(step.sweepRadians))) / step.sweepRadians);
}

/** What no point of an arc lies below, as a radius: its lower end less its sagitta. NaN for more than half a turn. */
function smallestX(step: Step, radius: number, scale: number): number {
  if (Math.abs(step.sweepRadians) > Math.PI) return NaN;
  return Math.min(step.from[r.X]!, step.to[r.X]!) / scale - radius * (1 - Math.cos(step.sweepRadians / 2));
}

/** By the midpoint rule, whose error on a smooth arc is far below that of ideal times. Each sample turns the last one on. */
function meanOfSamples(centreX: number, fromAlong: number, fromAcross: number, sweepRadians: number, least: number): number {
  const turn = sweepRadians / SAMPLES_ON_AN_ARC;
  const cosine = Math.cos(turn);
  const sine = Math.sin(turn);
  let along = fromAlong * Math.cos(turn / 2) + fromAcross * Math.sin(turn / 2);
  let across = fromAcross * Math.cos(turn / 2) - fromAlong * Math.sin(turn / 2);
  let sum = 0;
  for (let sample = 0; sample < SAMPLES_ON_AN_ARC; sample++) {
    sum += Math.max(2 * Math.abs(centreX + along), least);
    const next = along * cosine + across * sine;
    across = across * cosine - along * sine;
    along = next;
  }
  return sum / SAMPLES_ON_AN_ARC;
}
