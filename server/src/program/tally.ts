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
export const FIRST_CHARACTER_KIND = 96;
const CHARACTER_KINDS = 32;

/**
 * What kind of problem it is, as a number below 128: its rule, and for characters
 * that belong to no word also which character. So a slip of the keys is a kind of
 * its own in a program that is full of another dialect's signs.
 */
export function problemKind(rule: RuleId, firstCharacter: number): number {
  return rule === 'character' ? FIRST_CHARACTER_KIND + (firstCharacter % CHARACTER_KINDS) : RULE_INDEX.get(rule)!;
}

/** A set of problem kinds as bits, in four plain numbers because there is one for nearly every piece. */
export class KindSet {
  #first = 0;
  #second = 0;
  #third = 0;
  #fourth = 0;

  add(kind: number): void {
    const bit = 1 << (kind & 31);
    if (kind < 32) this.#first |= bit;
    else if (kind < 64) this.#second |= bit;
    else if (kind < 96) this.#third |= bit;
    else this.#fourth |= bit;
  }

  /** Whether some kind of this set is missing in the other. */
  hasMoreThan(other: KindSet): boolean {
    return ((this.#first & ~other.#first) | (this.#second & ~other.#second) | (this.#third & ~other.#third) | (this.#fourth & ~other.#fourth)) !== 0;
  }
}

const noMarks: readonly Mark[] = [];
const noKinds = new KindSet();

/**
 * Whoever executes lines and wants no moves or messages does so with a tally, even for the sake of the registers
 * alone: code that has met one kind of sink runs faster than code that has met many.
 */
export class Tally implements LineSink {
  row = 0;
  calls = false;
  #sums = new Sums();
  #marks: Mark[] | undefined;
  #hasNotes = false;
  /** How often each rule is broken, in the order of RULE_IDS. */
  readonly #counts = new Int32Array(RULE_IDS.length);
  #hasProblems = false;
  #kinds = noKinds;
  /** The text that the offsets of problems are offsets in. */
  source = '';

  /** `sumsAtMarks` takes what everything comes to before each mark. */
  constructor(private readonly registers: Float64Array, private readonly sumsAtMarks?: Sums[]) {}

  /** Of what was tallied since the last time. */
  get seconds(): number {
    return this.#sums.seconds;
  }

  problem(rule: RuleId, start: number): void {
    if (rule === 'character') this.#addKind(problemKind(rule, this.source.charCodeAt(start)));
    this.count(rule);
  }

  count(rule: RuleId): void {
    const index = RULE_INDEX.get(rule)!;
    if (this.#counts[index]!++ === 0 && rule !== 'character') this.#addKind(index);
    this.#hasProblems = true;
  }

  step(step: Step): void {
    if (this.registers[r.SECONDARY] === 0) this.#sums.addStep(step, this.registers[r.UNITS] === 20 ? INCH_IN_MM : 1);
  }

  mark(kind: MarkKind, name: string): void {
    if (kind === 'noteStart' || kind === 'noteEnd') this.#hasNotes = true;
    (this.#marks ??= []).push({ row: this.row, kind, name });
    this.sumsAtMarks?.push(new Sums().set(this.#sums));
  }

  /** What was tallied since the last time; begins again. */
  take({ touched, hasBegunCompensation }: Pick<PieceResult, 'touched' | 'hasBegunCompensation'>): PieceResult {
    const problemCounts = this.#hasProblems ? countsByRule(this.#counts) : undefined;
    const result: PieceResult = { touched, hasBegunCompensation, problemCounts, kinds: this.#kinds, sums: this.#sums, marks: this.#marks ?? noMarks, hasNotes: this.#hasNotes, calls: this.calls };
    this.restart();
    return result;
  }

  /** Forgets what was tallied since the last time. */
  restart(): void {
    this.#sums = new Sums();
    this.#marks = undefined;
    this.#hasNotes = false;
    this.calls = false;
    this.#kinds = noKinds;
    if (this.#hasProblems) this.#counts.fill(0);
    this.#hasProblems = false;
  }

  #addKind(kind: number): void {
    if (this.#kinds === noKinds) this.#kinds = new KindSet();
    this.#kinds.add(kind);
  }
}

function countsByRule(counts: Int32Array): ReadonlyMap<RuleId, number> {
  const byRule = new Map<RuleId, number>();
  for (let index = 0; index < counts.length; index++) {
    if (counts[index]! > 0) byRule.set(RULE_IDS[index]!, counts[index]!);
  }
  return byRule;
}
