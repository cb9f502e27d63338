/**
 * What is kept about every piece of a program after it was executed: which modes
 * it sets, how many problems of each rule it has, how long it takes, and where
 * operations may begin. A few numbers a piece, however long the program is.
 */
import { INCH_IN_MM } from './inch.ts';
import type { LineSink, MarkKind } from './execution.ts';
import * as r from './registers.ts';
import { type RuleId } from './rules.ts';
import { RULE_IDS } from './problems.ts';
import { DWELL, RAPID, type Step } from './step.ts';

const RULE_INDEX = new Map<RuleId, number>(RULE_IDS.map((rule, index) => [rule, index]));

/** Sums of time and path. Lengths in mm whatever the program's units, X as a radius. */
export class Sums {
  seconds = 0;
  dwellSeconds = 0;
  rapidLength = 0;
  feedLength = 0;
  steps = 0;
  /** Steps whose time is not known and therefore not in `seconds`. */
  stepsWithoutTime = 0;
  /** Steps whose length is not known and therefore in neither length. */
  stepsWithoutLength = 0;

  add(other: Sums, sign: 1 | -1 = 1): this {
    this.seconds += sign * other.seconds;
    this.dwellSeconds += sign * other.dwellSeconds;
    this.rapidLength += sign * other.rapidLength;
    this.feedLength += sign * other.feedLength;
    this.steps += sign * other.steps;
    this.stepsWithoutTime += sign * other.stepsWithoutTime;
    this.stepsWithoutLength += sign * other.stepsWithoutLength;
    return this;
  }

  set(other: Sums): this {
    this.seconds = other.seconds;
    this.dwellSeconds = other.dwellSeconds;
    this.rapidLength = other.rapidLength;
    this.feedLength = other.feedLength;
    this.steps = other.steps;
    this.stepsWithoutTime = other.stepsWithoutTime;
    this.stepsWithoutLength = other.stepsWithoutLength;
    return this;
  }

  addStep(step: Step, unitInMm: number): void {
    this.steps++;
    if (!Number.isFinite(step.seconds)) this.stepsWithoutTime++;
    else this.seconds += step.seconds;
    if (step.kind === DWELL) this.#addDwell(step);
    else if (!Number.isFinite(step.length)) this.stepsWithoutLength++;
    else if (step.kind === RAPID) this.rapidLength += step.length * unitInMm;
    else this.feedLength += step.length * unitInMm;
  }

  #addDwell(step: Step): void {
    if (Number.isFinite(step.seconds)) this.dwellSeconds += step.seconds;
  }
}

/** A line at which an operation may begin or end. */
export interface Mark {
  readonly row: number;
  readonly kind: MarkKind;
  /** The process name of a note. */
  readonly name: string;
}

export interface PieceResult {
  /** Bits of the modal fields that the piece sets. */
  readonly touched: number;
  /** Tool radius compensation begins in it. */
  readonly hasBegunCompensation: boolean;
  /** How often each rule is broken; undefined when none is. */
  readonly problemCounts: ReadonlyMap<RuleId, number> | undefined;
  /** The kinds of problems, so that most pieces need no closer look. */
  readonly kinds: KindSet;
  readonly sums: Sums;
  readonly marks: readonly Mark[];
  /** Some of the marks are of process notes. */
  readonly hasNotes: boolean;
  /** It executes lines of other pieces. */
  readonly calls: boolean;
}

/** Kinds beyond the rules: characters that are no words, sorted by what they are. */
export const FIRST_CHARACTER_KIND = 64;
const CHARACTER_KINDS = 32;

/**
 * What kind of problem it is, as a number below 96: its rule, and for characters
 * that belong to no word also which character. So a slip of the keys is a kind of
 * its own in a program that is full of another dialect's signs.
 */
export function problemKind(rule: RuleId, firstCharacter: number): number {
  return rule === 'character' ? FIRST_CHARACTER_KIND + (firstCharacter % CHARACTER_KINDS) : RULE_INDEX.get(rule)!;
}

/** A set of problem kinds as bits, in three plain numbers because there is one for nearly every piece. */
export class KindSet {
  #first = 0;
  #second = 0;
  #third = 0;

  add(kind: number): void {
    const bit = 1 << (kind & 31);
    if (kind < 32) this.#first |= bit;
    else if (kind < 64) this.#second |= bit;
    else this.#third |= bit;
  }

  /** Whether some kind of this set is missing in the other. */
  hasMoreThan(other: KindSet): boolean {
    return ((this.#first & ~other.#first) | (this.#second & ~other.#second) | (this.#third & ~other.#third)) !== 0;
  }
}

const noMarks: readonly Mark[] = [];
const noKinds = new KindSet();

export class Tally implements LineSink {
  row = 0;
  calls = false;
  #sums = new Sums();
  #marks: Mark[] | undefined;
  #hasNotes = false;
  #counts: Map<RuleId, number> | undefined;
  /** The rule that was broken last and how often so far, which is not in the map yet. */
  #lastRule: RuleId | undefined;
  #lastCount = 0;
  #kinds = noKinds;
  /** The text that the offsets of problems are offsets in. */
  source = '';

  constructor(private readonly registers: Float64Array) {}

  /** Of what was tallied since the last time. */
  get seconds(): number {
    return this.#sums.seconds;
  }

  problem(rule: RuleId, start: number): void {
    if (rule === 'character') this.#addKind(problemKind(rule, this.source.charCodeAt(start)));
    this.count(rule);
  }

  /** Programs that break a rule mostly break it line after line, so the map is asked for each run of one rule only. */
  count(rule: RuleId): void {
    if (rule !== this.#lastRule) this.#beginToCount(rule);
    this.#lastCount++;
  }

  #beginToCount(rule: RuleId): void {
    this.#putCount();
    const count = this.#counts?.get(rule);
    if (count === undefined && rule !== 'character') this.#addKind(RULE_INDEX.get(rule)!);
    this.#lastRule = rule;
    this.#lastCount = count ?? 0;
  }

  #putCount(): void {
    if (this.#lastRule !== undefined) (this.#counts ??= new Map<RuleId, number>()).set(this.#lastRule, this.#lastCount);
    this.#lastRule = undefined;
  }

  step(step: Step): void {
    addCounted(this.#sums, step, this.registers);
  }

  mark(kind: MarkKind, name: string): void {
    if (kind === 'noteStart' || kind === 'noteEnd') this.#hasNotes = true;
    (this.#marks ??= []).push({ row: this.row, kind, name });
  }

  /** What was tallied since the last time; begins again. */
  take({ touched, hasBegunCompensation }: Pick<PieceResult, 'touched' | 'hasBegunCompensation'>): PieceResult {
    this.#putCount();
    const result: PieceResult = { touched, hasBegunCompensation, problemCounts: this.#counts, kinds: this.#kinds, sums: this.#sums, marks: this.#marks ?? noMarks, hasNotes: this.#hasNotes, calls: this.calls };
    this.#sums = new Sums();
    this.#marks = undefined;
    this.#hasNotes = false;
    this.calls = false;
    this.#counts = undefined;
    this.#kinds = noKinds;
    return result;
  }

  #addKind(kind: number): void {
    if (this.#kinds === noKinds) this.#kinds = new KindSet();
    this.#kinds.add(kind);
  }
}

/** Sums up a piece again and notes what it comes to before each mark. */
export class SumsAtMarks implements LineSink {
  row = 0;
  readonly atMarks: Sums[] = [];
  readonly #sums = new Sums();

  constructor(private readonly registers: Float64Array) {}

  problem(): void {}

  count(): void {}

  step(step: Step): void {
    addCounted(this.#sums, step, this.registers);
  }

  mark(): void {
    this.atMarks.push(new Sums().set(this.#sums));
  }
}

/** What follows the end of the first program counts for nothing. */
function addCounted(sums: Sums, step: Step, registers: Float64Array): void {
  if (registers[r.SECONDARY] === 0) sums.addStep(step, registers[r.UNITS] === 20 ? INCH_IN_MM : 1);
}
