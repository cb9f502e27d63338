/**
 * Speeds and places beyond what the machine reaches, where its dialect says what
 * that is. Words are judged after their line has acted.
 *
 * It judges what is known: no place in another coordinate system than the one
 * that programs begin with, and none behind an offset, since nobody has said
 * where the machine then stands. Arcs are judged by their ends.
 */
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import type { MachineLimits } from './dialect.ts';
import { AXIS_LETTERS, type Execution } from './execution.ts';
import { unitFactor } from './inch.ts';
import { originParameter, systemNumber } from './modes.ts';
import type { PatternMatch } from './patterns.ts';
import { planeAxes } from './planes.ts';
import * as r from './registers.ts';
import { shown } from './shown.ts';

const S = letterIndex('S');
const STOPPED = 5;
const NO_CODE = -1;
const MACHINE_COORDINATES = 530;
/** Numbers of words are rounded from the very limit at times. */
const SLACK = 1e-9;
const LINEAR_AXES = [r.X, r.Y, r.Z];

export class LimitWatch {
  readonly #spindleRpm: number;
  readonly #syncDrivenRpm: number;
  readonly #low: readonly number[];
  readonly #high: readonly number[];
  /** The letters that move each axis, a bit each. */
  readonly #letters: readonly number[];
  readonly #allLetters: number;

  private constructor(private readonly execution: Execution, private readonly limits: MachineLimits) {
    const { incrementalAxes } = execution.dialect;
    const ranges = [limits.x, limits.y, limits.z];
    this.#spindleRpm = limits.spindleRpm ?? Infinity;
    this.#syncDrivenRpm = limits.syncDrivenRpm ?? Infinity;
    this.#low = ranges.map((range) => (range?.[0] ?? -Infinity) - SLACK);
    this.#high = ranges.map((range) => (range?.[1] ?? Infinity) + SLACK);
    this.#letters = LINEAR_AXES.map((axis) => Object.entries(incrementalAxes).reduce((mask, [letter, moved]) => (moved === r.AXES[axis] ? mask | (1 << letterIndex(letter)) : mask), 1 << AXIS_LETTERS[axis]!));
    this.#allLetters = this.#letters.reduce((all, letters) => all | letters, 0);
  }

  /** Undefined where the dialect says nothing, so that its programs cost nothing. */
  static of(execution: Execution): LimitWatch | undefined {
    const { limits } = execution.dialect;
    return limits && new LimitWatch(execution, limits);
  }

  /** After everything else on a line. */
  check(): void {
    const { block } = this.execution;
    if (block.matches.length > 0) this.#checkBuilderWords();
    if (block.has(S) || block.mSeen !== 0) this.#checkSpindle();
    if ((block.seen & this.#allLetters) !== 0) this.#checkPlaces();
  }

  /** S may be a cutting speed, or of a tool that is yet to be chosen; while the spindle turns by rev/min it is of the spindle. */
  #checkSpindle(): void {
    const { block, row } = this.execution;
    if (!(row[r.SPEED]! > this.#spindleRpm) || row[r.SPEED_MODE] === 96 || row[r.SPINDLE] === STOPPED || row[r.WORK_AXIS] === 1) return;
    if (block.has(S)) this.#objectToSpeed();
    else if (block.mOf(codes.SPINDLE_GROUP) !== NO_CODE) this.#objectToStart();
  }

  #objectToSpeed(): void {
    this.execution.objectTo('speed-beyond-machine', S, () => `beyond the machine: the spindle turns at ${shown(this.#spindleRpm)} rev/min at most.`);
  }

  #objectToStart(): void {
    const { execution } = this;
    const { block, row } = execution;
    execution.objectAt('speed-beyond-machine', () => block.mRowOf(codes.SPINDLE_GROUP), () => `S${shown(row[r.SPEED]!)} is in force, beyond the machine: the spindle turns at ${shown(this.#spindleRpm)} rev/min at most.`);
  }

  #checkBuilderWords(): void {
    const { block, dialect, row } = this.execution;
    for (const match of block.matches) {
      const { name, words } = dialect.patterns[match.index]!;
      const isDriven = name === 'drivenStart' || name === 'drivenReverse';
      const most = this.limits.rpmOf?.[name] ?? Infinity;
      const at = this.#speedRow(match, words);
      if (at !== NO_CODE && block.tape.value[at]! > most) this.#objectToBuilderSpeed(at, name, most);
      else if (isDriven || name === 'syncOn' || name === 'subSyncOn') {
        if (row[r.SYNC_PATTERN] !== 0 && row[r.DRIVEN_SPEED]! > this.#syncDrivenRpm) this.#objectToSyncSpeed(at === NO_CODE ? match.rows[0]! : at);
      }
    }
  }

  /** Where the speed of a match stands; words for a speed limit may name it as they like. */
  #speedRow(match: PatternMatch, words: ReadonlyArray<{ readonly slot?: string }>): number {
    for (let word = 0; word < words.length; word++) {
      if (words[word]!.slot === 'rpm') return match.rows[word]!;
    }
    return NO_CODE;
  }

  #objectToBuilderSpeed(at: number, name: string, most: number): void {
    this.execution.objectAt('speed-beyond-machine', () => at, () => `${this.#textAt(at)}: beyond the machine: ${subjects[name] ?? 'it'} ${shown(most)} rev/min at most.`);
  }

  #objectToSyncSpeed(at: number): void {
    const speed = this.execution.row[r.DRIVEN_SPEED]!;
    this.execution.objectAt('speed-beyond-machine', () => at, () => `${this.#textAt(at)}: the driven tool turns at ${shown(speed)} rev/min in step with the work, beyond the machine: it must be ${shown(this.#syncDrivenRpm)} at most.`);
  }

  #textAt(at: number): string {
    const { block: { tape }, text } = this.execution;
    return text.slice(tape.start[at], tape.end[at]);
  }

  #checkPlaces(): void {
    const { block, row, start, dialect } = this.execution;
    const oneShot = block.gOf(codes.ONE_SHOT);
    if ((oneShot !== NO_CODE && oneShot !== MACHINE_COORDINATES) || row[r.WORK_OFFSET] !== start[r.WORK_OFFSET]) return;
    const factor = unitFactor(row, dialect);
    const bored = codes.isCycle(row[r.MOTION]!) && row[r.DISTANCE] === 90 ? planeAxes(row[r.PLANE]!).normal : NO_CODE;
    for (let axis = 0; axis < LINEAR_AXES.length; axis++) {
      if ((block.seen & this.#letters[axis]!) === 0) continue;
      const place = axis === bored ? row[r.CYCLE_DEPTH]! : row[axis]!;
      if (place < this.#low[axis]! * factor || place > this.#high[axis]! * factor) this.#objectToPlace(axis, place, factor);
    }
  }

  #objectToPlace(axis: number, place: number, factor: number): void {
    const { execution } = this;
    if (this.#hasOffset(axis)) return;
    const letter = 31 - Math.clz32(execution.block.seen & this.#letters[axis]!);
    const [low, high] = [this.#low[axis]! * factor, this.#high[axis]! * factor].map((limit) => shown(limit));
    execution.objectTo('place-beyond-machine', letter, () => `${r.AXES[axis]} goes to ${shown(place)}, beyond the machine: it must be from ${low} to ${high} ${execution.row[r.UNITS] === 20 ? 'inch' : 'mm'}.`);
  }

  /** G92 or G10 has moved the zero, or an axis counts from a zero that nobody knows. */
  #hasOffset(axis: number): boolean {
    const { row, parameters } = this.execution;
    return row[r.AXIS_OFFSETS + axis] !== 0 || !Number.isNaN(parameters.get(originParameter(systemNumber(row[r.WORK_OFFSET]!), axis)));
  }
}

const subjects: Readonly<Record<string, string>> = {
  drivenStart: 'the driven tools turn at', drivenReverse: 'the driven tools turn at', subStart: 'the sub-spindle turns at', subReverse: 'the sub-spindle turns at',
  spindleSyncOn: 'both spindles turn at', speedLimit: 'the spindle turns at',
};
