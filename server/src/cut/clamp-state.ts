import type { Program } from '../program/index.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Whether the work axis is clamped while a tool moves, as the machine's own words
 * tell. What stands far before the stretch is not looked up: then it is not
 * known, and nothing is said about it.
 */
export interface ClampWords {
  /** Names of the patterns. */
  clamp: string;
  unclamp: string;
}

/** Lines before a stretch in which its first state is looked for. */
const LOOK_BACK = 300;

/** The steps with their state; a release on the line of a move acts before it, a clamp after it. */
export function withClamping(program: Program, steps: readonly ToolStep[], words: ClampWords): ToolStep[] {
  const first = steps[0]?.line;
  if (first === undefined) return [];
  const states = new ClampStates(program, words, first);
  return steps.map((step) => {
    const clamped = states.during(step.line);
    // The turn of a subprogram has its own words round it, which are not seen here.
    if (turns(step) && states.isCall(step.line)) return states.forget(step);
    return clamped === undefined ? step : { ...step, clamped };
  });
}

function turns({ from, to }: ToolStep): boolean {
  return from.c !== to.c;
}

class ClampStates {
  private state: boolean | undefined;
  private line: number;
  private readonly moving = new Map<number, boolean | undefined>();

  constructor(private readonly program: Program, private readonly words: ClampWords, firstLine: number) {
    this.line = Math.max(0, firstLine - LOOK_BACK);
    this.during(firstLine);
  }

  /** Lines must be asked for in order; one may be asked for again. */
  during(line: number): boolean | undefined {
    for (; this.line <= line; this.line += 1) this.read(this.line);
    return this.moving.get(line);
  }

  isCall(line: number): boolean {
    return this.names(line).includes('subprogramCall');
  }

  forget(step: ToolStep): ToolStep {
    this.state = undefined;
    this.moving.set(step.line, undefined);
    return step;
  }

  private read(line: number): void {
    const names = this.names(line);
    if (names.includes(this.words.unclamp)) this.state = false;
    this.moving.set(line, this.state);
    if (names.includes(this.words.clamp)) this.state = true;
  }

  private names(line: number): string[] {
    return this.program.events(line).map(({ name }) => name);
  }
}
