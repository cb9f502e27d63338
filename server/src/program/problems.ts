/**
 * Two ways to take the objections of the interpreter: count them by rule, which
 * is what is kept for every piece of a program, or list them with messages.
 */
import type { ProblemSink } from './block.ts';
import { programRules, type RuleId } from './rules.ts';
import type { Piece } from './store.ts';

export const RULE_IDS = Object.keys(programRules) as RuleId[];
const RULE_INDEX = new Map<RuleId, number>(RULE_IDS.map((rule, index) => [rule, index]));
const MOST_COUNTED = 65535;

/** A problem on a row of a piece. Offsets are offsets in the line. */
export interface PieceProblem {
  readonly row: number;
  readonly start: number;
  readonly end: number;
  readonly rule: RuleId;
  readonly message: string;
}

export class ProblemCounter implements ProblemSink {
  row = 0;
  #counts: Uint16Array | undefined;

  problem(rule: RuleId): void {
    const index = RULE_INDEX.get(rule)!;
    this.#counts ??= new Uint16Array(RULE_IDS.length);
    if (this.#counts[index]! < MOST_COUNTED) this.#counts[index]!++;
  }

  /** The counts so far, undefined for none; begins again. */
  take(): Uint16Array | undefined {
    const counts = this.#counts;
    this.#counts = undefined;
    return counts;
  }

  clear(): void {
    this.#counts = undefined;
  }
}

export class ProblemList implements ProblemSink {
  row = 0;
  readonly problems: PieceProblem[] = [];

  constructor(private readonly piece: Piece) {}

  problem(rule: RuleId, start: number, end: number, message: () => string): void {
    const lineStart = this.piece.from + this.piece.lineStarts[this.row]!;
    this.problems.push({ row: this.row, start: start - lineStart, end: end - lineStart, rule, message: message() });
  }
}
