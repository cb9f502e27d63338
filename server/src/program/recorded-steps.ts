/**
 * Steps of motion that are kept with the modes in which they are made, for a
 * closer look at a stretch of a program. A step costs a row of registers, so a
 * whole program is never kept this way.
 */
import type { Execution, LineSink } from './execution.ts';
import { Step } from './step.ts';

export interface RecordedStep {
  readonly line: number;
  readonly step: Step;
  /** The registers before the step. */
  readonly row: Float64Array;
}

/** Adds the wanted steps to `steps`. `firstLine` is the line of row 0. */
export class StepRecorder implements LineSink {
  row = 0;

  constructor(
    private readonly execution: Execution, private readonly firstLine: number, private readonly steps: RecordedStep[],
    private readonly isWanted: (step: Step, row: Float64Array) => boolean,
  ) {}

  problem(): void {}

  count(): void {}

  mark(): void {}

  step(step: Step): void {
    if (this.isWanted(step, this.execution.row)) this.steps.push({ line: this.firstLine + this.row, step: copyOfStep(step), row: this.execution.row.slice() });
  }
}

export function copyOfStep(step: Step): Step {
  const copy = new Step();
  copy.from.set(step.from);
  copy.to.set(step.to);
  copy.kind = step.kind;
  copy.cycle = step.cycle;
  copy.axes = step.axes;
  copy.plane = step.plane;
  copy.centreA = step.centreA;
  copy.centreB = step.centreB;
  copy.sweepRadians = step.sweepRadians;
  copy.length = step.length;
  copy.rotationDegrees = step.rotationDegrees;
  copy.revolutions = step.revolutions;
  copy.seconds = step.seconds;
  return copy;
}
