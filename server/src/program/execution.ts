/**
 * What is being executed: the registers, the parameters, the words of the line,
 * and whoever listens. The parts of the interpreter share it and talk through it.
 */
import { Block, letterIndex, type ProblemSink } from './block.ts';
import type { Dialect } from './dialect.ts';
import { wholeNumber } from './expressions.ts';
import { Parameters } from './parameters.ts';
import { PatternFinder } from './patterns.ts';
import * as r from './registers.ts';
import type { RuleId } from './rules.ts';
import { MODAL_FIELDS, type ModalField } from './state.ts';
import type { StepSink } from './step.ts';
import type { Tape } from './tape.ts';

/** A bit per letter that moves one of the axes, by its own word or by an increment, A lowest. */
export function lettersThatMove(axes: string, { incrementalAxes }: Dialect): number {
  const increments = Object.keys(incrementalAxes).filter((letter) => axes.includes(incrementalAxes[letter]!));
  return [...axes, ...increments].reduce((mask, letter) => mask | (1 << letterIndex(letter)), 0);
}

/** Something at which an operation may begin or end. */
export type MarkKind = 'tool' | 'sync' | 'noteStart' | 'noteEnd';

export interface ExecutionSink extends ProblemSink, StepSink {
  /** Comes before any step of its line. `name` is the process name of a note. */
  mark(kind: MarkKind, name: string): void;
}

/** A sink that is told which row of a piece of the program is being executed. */
export interface LineSink extends ExecutionSink {
  row: number;
}

/** The letter indices of AXES. */
export const AXIS_LETTERS = Int32Array.from([...r.AXES].map(letterIndex));

/** The bit of each modal field in `touched`. */
export const TOUCH = Object.fromEntries(MODAL_FIELDS.map((field, index) => [field, 1 << index])) as Record<ModalField, number>;
const INVERSE_TIME = 93;
const ALL_POSITIONS = (1 << r.AXIS_COUNT) - 1;
/** Rules about what must stand before a line. Before a subprogram stands whatever its caller says. */
const RULES_OF_WHAT_IS_BEFORE: ReadonlySet<RuleId> = new Set(['motion-not-set', 'feed-without-spindle', 'speed-without-limit', 'cycle-spindle', 'cycle-return', 'place-beyond-machine', 'axis-not-on', 'feed-beyond-rapid', 'feed-hardly-any', 'thread-lead'] satisfies RuleId[]);

export class Execution {
  readonly row = new Float64Array(r.REGISTER_COUNT);
  readonly parameters = new Parameters();
  readonly block: Block;
  readonly start: Float64Array;
  /** Bits of the modal fields that lines have set since somebody cleared it. */
  touched = 0;
  /** G41 or G42 came since somebody cleared it. */
  hasBegunCompensation = false;
  text = '';
  sink!: ExecutionSink;

  /** `readAgain` reads the present line onto a tape. */
  constructor(readonly dialect: Dialect, readAgain: () => Tape) {
    this.block = new Block(dialect, new PatternFinder(dialect), readAgain);
    this.start = r.startRegisters(dialect);
    this.row.set(this.start);
  }

  set(register: number, value: number, touch: number): void {
    this.row[register] = value;
    this.touched |= touch;
  }

  /** F of inverse time feed is of its own line only (NISTIR 6556 §3.5.19), so the one from before counts again in another mode. */
  setFeedMode(mode: number): void {
    const { row } = this;
    const wasInverse = row[r.FEED_MODE] === INVERSE_TIME;
    if (mode === INVERSE_TIME && !wasInverse) {
      row[r.FEED_BEFORE_INVERSE_TIME] = row[r.FEED]!;
      this.set(r.FEED, r.NEVER, TOUCH.feed);
    }
    if (mode !== INVERSE_TIME && wasInverse) this.set(r.FEED, row[r.FEED_BEFORE_INVERSE_TIME]!, TOUCH.feed);
    this.set(r.FEED_MODE, mode, TOUCH.feedMode);
  }

  /** Puts an axis somewhere; NaN for a place that is not known. */
  place(axis: number, value: number): void {
    this.row[axis] = value;
    this.touched |= 1 << axis;
  }

  loseAllPositions(): void {
    this.row.fill(NaN, 0, r.AXIS_COUNT);
    this.touched |= ALL_POSITIONS;
  }

  /** Objects to the word in a row of the tape. */
  object(rule: RuleId, row: number, message: () => string): void {
    const { tape } = this.block;
    this.sink.problem(rule, tape.start[row]!, tape.end[row]!, message);
  }

  /** Objects to a word whose row need not be found where only objections are counted. */
  objectAt(rule: RuleId, findRow: () => number, message: () => string): void {
    const { sink } = this;
    if (this.row[r.SECONDARY] === 1 && RULES_OF_WHAT_IS_BEFORE.has(rule)) return;
    if (sink.count !== undefined) sink.count(rule);
    else this.object(rule, findRow(), message);
  }

  /** Objects to the word of a letter; the message begins with the word. */
  objectTo(rule: RuleId, letter: number, message: () => string): void {
    this.objectAt(rule, () => this.block.rowOf(letter), () => `${this.block.text(this.text, letter)}: ${message()}`);
  }

  /** Objects to the code of a G group that stands on the line. */
  objectToCode(rule: RuleId, group: number, message: () => string): void {
    this.objectAt(rule, () => this.block.gRowOf(group), message);
  }

  /** Whether the value of a letter is 0 or more, or not known; objects if not. */
  isNotNegative(letter: number): boolean {
    if (!(this.block.values[letter]! < 0)) return true;
    this.objectTo('negative-value', letter, () => 'the value must be 0 or more.');
    return false;
  }

  /** The whole number of a letter; NaN, with an objection, if it is none. */
  whole(letter: number): number {
    const value = wholeNumber(this.block.values[letter]!);
    if (Number.isNaN(value) || Number.isInteger(value)) return value;
    this.objectTo('not-integer', letter, () => 'the value must be a whole number.');
    return NaN;
  }
}
