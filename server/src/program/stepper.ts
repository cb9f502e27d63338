/**
 * Makes steps of motion: from where the axes stand to where they shall go, with
 * length, turn and time, and leaves the axes there.
 */
import type { Arc } from './arcs.ts';
import type { Execution } from './execution.ts';
import * as r from './registers.ts';
import { ARC, DWELL, Step } from './step.ts';
import { secondsOf } from './timing.ts';

const FIRST_ROTARY = 3;
const LAST_ROTARY = 5;

export class Stepper {
  readonly step = new Step();

  constructor(private readonly execution: Execution) {}

  /** Begins a step where the axes stand. */
  begin(): Step {
    const { step, execution } = this;
    const { row } = execution;
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) step.from[axis] = step.to[axis] = row[axis]!;
    step.axes = 0;
    step.cycle = 0;
    step.plane = row[r.PLANE]!;
    step.centreA = step.centreB = NaN;
    step.sweepRadians = 0;
    step.revolutions = NaN;
    return step;
  }

  /** Sends an axis of the begun step somewhere; NaN for a place that is not known. */
  aim(axis: number, value: number): void {
    this.step.to[axis] = value;
    this.step.axes |= 1 << axis;
  }

  /** Finishes a straight step. */
  finish(kind: number): void {
    const { step } = this;
    step.kind = kind;
    step.length = Math.sqrt(this.#squareOfLinear(step.axes));
    step.rotationDegrees = Math.sqrt(this.#squareOfRotary());
    this.#deliver();
  }

  /** Finishes a step on an arc in the axes a and b; undefined for one that cannot be computed. */
  finishArc(a: number, b: number, arc: Arc | undefined): void {
    const { step } = this;
    step.kind = ARC;
    step.rotationDegrees = Math.sqrt(this.#squareOfRotary());
    if (arc === undefined) step.length = NaN;
    else this.#measureArc(arc, a, b);
    this.#deliver();
  }

  /** A wait; NaN for one whose length is not known. */
  dwell(seconds: number, cycle = 0): void {
    const step = this.begin();
    step.kind = DWELL;
    step.cycle = cycle;
    step.length = step.rotationDegrees = 0;
    step.seconds = seconds;
    this.execution.sink.step(step);
  }

  /** Factor from programmed numbers of an axis to lengths. */
  scale(axis: number): number {
    return axis === r.X && this.execution.dialect.diameterProgramming ? 0.5 : 1;
  }

  #measureArc(arc: Arc, a: number, b: number): void {
    const { step } = this;
    step.centreA = arc.centreA / this.scale(a);
    step.centreB = arc.centreB / this.scale(b);
    step.sweepRadians = arc.sweepRadians;
    const inPlane = arc.radius * arc.sweepRadians;
    const across = this.#squareOfLinear(step.axes & ~((1 << a) | (1 << b)));
    step.length = Math.sqrt(inPlane * inPlane + across);
  }

  #squareOfLinear(axes: number): number {
    const { from, to } = this.step;
    let sum = 0;
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if ((axes & (1 << axis)) === 0 || (axis >= FIRST_ROTARY && axis <= LAST_ROTARY)) continue;
      const travel = (to[axis]! - from[axis]!) * this.scale(axis);
      sum += travel * travel;
    }
    return sum;
  }

  #squareOfRotary(): number {
    const { axes, from, to } = this.step;
    let sum = 0;
    for (let axis = FIRST_ROTARY; axis <= LAST_ROTARY; axis++) {
      if ((axes & (1 << axis)) === 0) continue;
      const turn = to[axis]! - from[axis]!;
      sum += turn * turn;
    }
    return sum;
  }

  #deliver(): void {
    const { step, execution } = this;
    step.seconds = secondsOf(step, execution.row, execution.dialect);
    execution.sink.step(step);
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if ((step.axes & (1 << axis)) !== 0) execution.place(axis, step.to[axis]!);
    }
  }
}
