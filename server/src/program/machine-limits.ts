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
import { type Execution, lettersThatMove } from './execution.ts';
import { INCH_IN_MM, unitFactor, unitsInForce } from './inch.ts';
import { originParameter, systemNumber } from './modes.ts';
import type { PatternMatch } from './patterns.ts';
import { cycleAxes } from './planes.ts';
import * as r from './registers.ts';
import { shown } from './shown.ts';

const S = letterIndex('S');
const NO_CODE = -1;
const ABSOLUTE = 90;
const MACHINE_COORDINATES = 530;
/** Numbers of words are rounded from the very limit at times. */
const SLACK = 1e-9;
/** In the order of their registers. */
const LINEAR_AXES = 'XYZ';

export class LimitWatch {
  readonly #spindleRpm: number;
  readonly #syncDrivenRpm: number;
  /** Least and greatest place of X, of Y and of Z in the units of the dialect, and in the others. */
  readonly #ranges: Float64Array;
  readonly #rangesInOthers: Float64Array;
  readonly #isInch: boolean;
  /** The letters that move each axis, a bit each. */
  readonly #letters: readonly number[];
  readonly #allLetters: number;

  private constructor(private readonly execution: Execution, private readonly limits: MachineLimits) {
    const ranges = [limits.x, limits.y, limits.z].flatMap((range) => [range?.[0] ?? -Infinity, range?.[1] ?? Infinity]);
    this.#isInch = execution.dialect.units === 'inch';
    this.#ranges = Float64Array.from(ranges);
    this.#rangesInOthers = Float64Array.from(ranges, (place) => place * (this.#isInch ? INCH_IN_MM : 1 / INCH_IN_MM));
    this.#spindleRpm = limits.spindleRpm ?? Infinity;
    this.#syncDrivenRpm = limits.syncDrivenRpm ?? Infinity;
    this.#letters = [...LINEAR_AXES].map((axis) => lettersThatMove(axis, execution.dialect));
    this.#allLetters = lettersThatMove(LINEAR_AXES, execution.dialect);
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
    if ((block.seen & this.#allLetters) !== 0 && this.#mayBeOutside()) this.#checkPlaces();
  }

  /** Nearly every line has axis words and stays inside, so this is all that it is asked. Places that are not known are outside of nothing. */
  #mayBeOutside(): boolean {
    const { row } = this.execution;
    const ranges = this.#rangesInForce;
    return row[r.X]! < ranges[0]! || row[r.X]! > ranges[1]! || row[r.Y]! < ranges[2]! || row[r.Y]! > ranges[3]! || row[r.Z]! < ranges[4]! || row[r.Z]! > ranges[5]! || codes.isCycle(row[r.MOTION]!);
  }

  get #rangesInForce(): Float64Array {
    return (this.execution.row[r.UNITS] === 20) === this.#isInch ? this.#ranges : this.#rangesInOthers;
  }

  /** S may be a cutting speed, or of a tool that is yet to be chosen; while the spindle turns by rev/min it is of the spindle. */
  #checkSpindle(): void {
    const { block, row } = this.execution;
    if (!(row[r.SPEED]! > this.#spindleRpm) || row[r.SPEED_MODE] === 96 || row[r.SPINDLE] === r.STOPPED || row[r.WORK_AXIS] === 1) return;
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
      if (name === 'subRapid' || name === 'subFeed') this.#checkSubPlace(match, words);
      const isDriven = name === 'drivenStart' || name === 'drivenReverse';
      const most = this.limits.rpmOf?.[name] ?? Infinity;
      const at = this.#rowOfSlot('rpm', match, words);
      if (at !== NO_CODE && block.tape.value[at]! > most) this.#objectToBuilderSpeed(at, name, most);
      else if (isDriven || name === 'syncOn' || name === 'subSyncOn') {
        if (row[r.SYNC_PATTERN] !== 0 && row[r.DRIVEN_SPEED]! > this.#syncDrivenRpm) this.#objectToSyncSpeed(at === NO_CODE ? match.rows[0]! : at);
      }
    }
  }

  /** By the word alone: where the sub-spindle stands is not kept, so under G91 it is not known. */
  #checkSubPlace(match: PatternMatch, words: ReadonlyArray<{ readonly slot?: string }>): void {
    const { block, dialect, row } = this.execution;
    const at = this.#rowOfSlot('z', match, words);
    const [low, high] = this.limits.subTravel ?? [-Infinity, Infinity];
    if (at === NO_CODE || row[r.DISTANCE] !== ABSOLUTE) return;
    const factor = unitFactor(row, dialect);
    const place = block.tape.value[at]!;
    if (place < low * factor - SLACK || place > high * factor + SLACK) this.#objectToSubPlace(at, low * factor, high * factor);
  }

  #objectToSubPlace(at: number, low: number, high: number): void {
    this.execution.objectAt('place-beyond-machine', () => at, () => `${this.#textAt(at)}: beyond the machine: the sub-spindle goes from ${shown(low)} to ${shown(high)} ${unitsInForce(this.execution.row)}.`);
  }

  /** Where the number of a slot stands; words for a speed limit may name theirs as they like. */
  #rowOfSlot(slot: 'rpm' | 'z', match: PatternMatch, words: ReadonlyArray<{ readonly slot?: string }>): number {
    for (let word = 0; word < words.length; word++) {
      if (words[word]!.slot === slot) return match.rows[word]!;
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
    const { block, row, start } = this.execution;
    const oneShot = block.gOf(codes.ONE_SHOT);
    if ((oneShot !== NO_CODE && oneShot !== MACHINE_COORDINATES) || row[r.WORK_OFFSET] !== start[r.WORK_OFFSET]) return;
    const ranges = this.#rangesInForce;
    const bored = codes.isCycle(row[r.MOTION]!) && row[r.DISTANCE] === 90 ? cycleAxes(row[r.PLANE]!, this.execution.dialect.cyclesDrillAlongZ === true).normal : NO_CODE;
    for (let axis = 0; axis < LINEAR_AXES.length; axis++) {
      if ((block.seen & this.#letters[axis]!) === 0) continue;
      const place = axis === bored ? row[r.CYCLE_DEPTH]! : row[axis]!;
      if (place < ranges[2 * axis]! - SLACK || place > ranges[2 * axis + 1]! + SLACK) this.#objectToPlace(axis, place, ranges);
    }
  }

  #objectToPlace(axis: number, place: number, ranges: Float64Array): void {
    const { execution } = this;
    if (this.#hasOffset(axis)) return;
    const letter = 31 - Math.clz32(execution.block.seen & this.#letters[axis]!);
    execution.objectTo('place-beyond-machine', letter, () => `${r.AXES[axis]} goes to ${shown(place)}, beyond the machine: it must be from ${shown(ranges[2 * axis]!)} to ${shown(ranges[2 * axis + 1]!)} ${unitsInForce(execution.row)}.`);
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
