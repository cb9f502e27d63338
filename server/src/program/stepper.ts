/**
 * Makes steps of motion: from where the axes stand to where they shall go, with
 * length, turn and time, and leaves the axes there.
 */
import type { Arc } from './arcs.ts';
import type { Execution } from './execution.ts';
import { planeAxes } from './planes.ts';
import * as r from './registers.ts';
import { ARC, DWELL, Step, UNKNOWN } from './step.ts';
import { timeStep } from './timing.ts';

const FIRST_ROTARY = 3;
const ROTARY_AXES = 0b111000;
const ONLY_XYZ = 0b111;

export class Stepper {
  readonly step = new Step();

  /** Factor from programmed X to a radius. */
  readonly #scaleX: number;

  constructor(private readonly execution: Execution) {
    this.#scaleX = execution.dialect.diameterProgramming ? 0.5 : 1;
  }

  /** Begins a step where the axes stand. */
  begin(): Step {
    const { step } = this;
    const { row } = this.execution;
    const { from, to } = step;
    from[r.X] = to[r.X] = row[r.X]!;
    from[r.Y] = to[r.Y] = row[r.Y]!;
    from[r.Z] = to[r.Z] = row[r.Z]!;
    step.axes = 0;
    step.cycle = 0;
    step.sweepRadians = 0;
    return step;
  }

  /** Sends an axis of the begun step somewhere; NaN for a place that is not known. */
  aim(axis: number, value: number): void {
    const { step } = this;
    step.from[axis] = this.execution.row[axis]!;
    step.to[axis] = value;
    step.axes |= 1 << axis;
  }

  /** Finishes a straight step. */
  finish(kind: number): void {
    const { step } = this;
    step.kind = kind;
    this.#measure(step.axes, 0);
    this.#deliver();
  }

  /** Finishes a step on an arc in the axes a and b; undefined for one that cannot be computed. */
  finishArc(a: number, b: number, arc: Arc | undefined): void {
    const { step } = this;
    step.kind = ARC;
    step.plane = this.execution.row[r.PLANE]!;
    if (arc === undefined) this.#measure(step.axes, NaN);
    else this.#measureArc(arc, a, b);
    this.#deliver();
  }

  /** Finishes a step of which only the ends are known. */
  finishUnknown(): void {
    this.step.kind = UNKNOWN;
    this.#measure(this.step.axes, NaN);
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
    return axis === r.X ? this.#scaleX : 1;
  }

  #measureArc(arc: Arc, a: number, b: number): void {
    const { step } = this;
    step.centreA = arc.centreA / this.scale(a);
    step.centreB = arc.centreB / this.scale(b);
    step.sweepRadians = arc.sweepRadians;
    this.#measure(step.axes & ~((1 << a) | (1 << b)), arc.radius * arc.sweepRadians);
  }

  /** The path of straight axes, with the path in the plane of an arc beside them, and the turn of the rotary ones. */
  #measure(straightAxes: number, arcLength: number): void {
    const { step } = this;
    const { from, to } = step;
    const x = (straightAxes & (1 << r.X)) === 0 ? 0 : (to[r.X]! - from[r.X]!) * this.#scaleX;
    const y = (straightAxes & (1 << r.Y)) === 0 ? 0 : to[r.Y]! - from[r.Y]!;
    const z = (straightAxes & (1 << r.Z)) === 0 ? 0 : to[r.Z]! - from[r.Z]!;
    const others = straightAxes & ~ONLY_XYZ & ~ROTARY_AXES;
    const square = arcLength * arcLength + x * x + y * y + z * z;
    step.length = Math.sqrt(others === 0 ? square : square + this.#squareOf(others));
    const rotary = step.axes & ROTARY_AXES;
    step.rotationDegrees = rotary === 0 ? 0 : Math.sqrt(this.#squareOf(rotary));
  }

  #squareOf(axes: number): number {
    const { from, to } = this.step;
    let sum = 0;
    for (let axis = FIRST_ROTARY; axis < r.AXIS_COUNT; axis++) {
      if ((axes & (1 << axis)) === 0) continue;
      const travel = to[axis]! - from[axis]!;
      sum += travel * travel;
    }
    return sum;
  }

  #deliver(): void {
    const { step, execution } = this;
    timeStep(step, execution.row, execution.dialect);
    execution.sink.step(step);
    const { row } = execution;
    const { axes, to } = step;
    execution.touched |= axes;
    if (row[r.OFF_PATH] !== 0) this.#markOffPath();
    for (let axis = 0; axes >> axis !== 0; axis++) {
      if ((axes & (1 << axis)) !== 0) row[axis] = to[axis]!;
    }
  }

  /** Tool radius compensation moves the axes of the plane off their places; a move without it brings them back. */
  #markOffPath(): void {
    const { step } = this;
    const { row } = this.execution;
    const marks = row[r.OFF_PATH]!;
    if (row[r.RADIUS_COMPENSATION] === 40) {
      row[r.OFF_PATH] = marks & ~r.FIRST_MOVE & ~step.axes;
      return;
    }
    const { a, b } = planeAxes(row[r.PLANE]!);
    if (travelsIn(step, a, b)) row[r.OFF_PATH] = (marks & ~r.FIRST_MOVE) | (1 << a) | (1 << b);
  }
}

/** Whether a step moves along one of two axes, or may; a full circle comes back to where it began. */
export function travelsIn(step: Step, a: number, b: number): boolean {
  return step.sweepRadians !== 0 || travels(step, a) || travels(step, b);
}

function travels({ axes, from, to }: Step, axis: number): boolean {
  return (axes & (1 << axis)) !== 0 && from[axis] !== to[axis];
}
