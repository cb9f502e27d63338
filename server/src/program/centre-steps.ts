/**
 * Steps of the centre of a tool, made from programmed ones: another way in the
 * plane, the same beside it, with length and time of the new way.
 */
import type { Dialect } from './dialect.ts';
import { type Leg, scaleOf } from './legs.ts';
import { distanceBetween, type PathPart, type Point } from './offset-path.ts';
import { copyOfStep } from './recorded-steps.ts';
import * as r from './registers.ts';
import { ARC, RAPID, Step } from './step.ts';
import { timeStep } from './timing.ts';

/** How far X, Y and Z stand off their programmed places; lengths, X as a radius. */
export type OffPath = readonly [x: number, y: number, z: number];

const MAIN_AXES = [r.X, r.Y, r.Z];
const LINEAR_AXES = [...MAIN_AXES, 6, 7, 8];

/** The step of a leg on another way in its plane. */
export function stepAlong(leg: Leg, way: PathPart, dialect: Dialect): Step {
  const step = copyOfStep(leg.step);
  place(step.from, leg, way.start);
  place(step.to, leg, way.end);
  step.axes |= (1 << leg.a) | (1 << leg.b);
  if (way.arc !== undefined) {
    step.sweepRadians = way.arc.sweepRadians;
    placeCentre(step, leg, way.arc.centre);
  }
  step.length = Math.sqrt(lengthOf(way) ** 2 + squareAcross(leg));
  timeStep(step, leg.row, dialect);
  return step;
}

/** The arc around a corner before the step of a leg. It is made at the feed even before a rapid move (from memory). */
export function stepAround(leg: Leg, way: Required<PathPart>, dialect: Dialect): Step {
  const step = new Step();
  step.from.set(leg.step.from);
  step.to.set(leg.step.from);
  step.kind = ARC;
  step.plane = leg.row[r.PLANE]!;
  place(step.from, leg, way.start);
  place(step.to, leg, way.end);
  step.axes = (1 << leg.a) | (1 << leg.b);
  step.sweepRadians = way.arc.sweepRadians;
  placeCentre(step, leg, way.arc.centre);
  step.length = lengthOf(way);
  step.rotationDegrees = 0;
  timeStep(step, leg.row, dialect);
  if (leg.row[r.FEED] === r.NEVER) step.seconds = NaN;
  return step;
}

/** With inverse time feed both steps together take the time of the line (from memory). */
export function shareInverseTime(around: Step, along: Step, row: Float64Array): void {
  if (row[r.FEED_MODE] !== 93 || along.kind === RAPID) return;
  const share = around.length / (around.length + along.length);
  around.seconds = along.seconds * share;
  along.seconds *= 1 - share;
}

/** A straight step, or none, of a tool that stands off the programmed places before it and after it. */
export function stepOff({ step: programmed, row, scaleX }: Pick<Leg, 'step' | 'row' | 'scaleX'>, before: OffPath, after: OffPath, dialect: Dialect): Step {
  const step = copyOfStep(programmed);
  let square = programmed.length ** 2;
  for (const axis of MAIN_AXES) {
    if (before[axis] === 0 && after[axis] === 0) continue;
    square -= (step.axes & (1 << axis)) === 0 ? 0 : travel(step, axis, scaleOf(axis, scaleX)) ** 2;
    step.from[axis]! += before[axis]! / scaleOf(axis, scaleX);
    step.to[axis]! += after[axis]! / scaleOf(axis, scaleX);
    step.axes |= 1 << axis;
    square += travel(step, axis, scaleOf(axis, scaleX)) ** 2;
  }
  if (step.kind === ARC) return step;
  step.length = Math.sqrt(Math.max(0, square));
  timeStep(step, row, dialect);
  return step;
}

/** Of the linear axes that are not in the plane. */
function squareAcross({ step, a, b, scaleX }: Leg): number {
  const others = LINEAR_AXES.filter((axis) => axis !== a && axis !== b && (step.axes & (1 << axis)) !== 0);
  return others.reduce((sum, axis) => sum + travel(step, axis, scaleOf(axis, scaleX)) ** 2, 0);
}

export function lengthOf({ start, end, arc }: PathPart): number {
  return arc === undefined ? distanceBetween(start, end) : distanceBetween(start, arc.centre) * Math.abs(arc.sweepRadians);
}

function travel({ from, to }: Step, axis: number, scale: number): number {
  return (to[axis]! - from[axis]!) * scale;
}

function place(values: Float64Array, { a, b, scaleX }: Leg, point: Point): void {
  values[a] = point.a / scaleOf(a, scaleX);
  values[b] = point.b / scaleOf(b, scaleX);
}

function placeCentre(step: Step, { a, b, scaleX }: Leg, centre: Point): void {
  step.centreA = centre.a / scaleOf(a, scaleX);
  step.centreB = centre.b / scaleOf(b, scaleX);
}
