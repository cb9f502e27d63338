/**
 * Lists the objections of the interpreter with their messages, which are made
 * only here: what is kept for every piece of a program is their number by rule.
 */
import type { LineSink } from './execution.ts';
import { programRules, type RuleId } from './rules.ts';
import type { Piece } from './store.ts';

export const RULE_IDS = Object.keys(programRules) as RuleId[];

/** So many of one rule in one piece, some hundred lines, tell everything; a line of millions of slips must not take the memory. */
const MOST_OF_ONE_RULE = 5000;

/** A problem on a row of a piece. Offsets are offsets in the line. */
export interface PieceProblem {
  readonly row: number;
  readonly start: number;
  readonly end: number;
  readonly rule: RuleId;
  readonly message: string;
}

export class ProblemList implements LineSink {
  row = 0;
  readonly problems: PieceProblem[] = [];
  readonly #counts = new Map<RuleId, number>();

  constructor(private readonly piece: Piece) {}

  step(): void {}

  mark(): void {}

  problem(rule: RuleId, start: number, end: number, message: () => string): void {
    const count = (this.#counts.get(rule) ?? 0) + 1;
    this.#counts.set(rule, count);
    if (count > MOST_OF_ONE_RULE) return;
    const lineStart = this.piece.from + this.piece.lineStarts[this.row]!;
    this.problems.push({ row: this.row, start: start - lineStart, end: end - lineStart, rule, message: message() });
  }
}
