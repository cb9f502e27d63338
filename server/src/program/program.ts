/**
 * A program as its readers see it: lines, items, the modal state at any line,
 * and what is wrong. Line numbers are 0-based.
 *
 * Everything is computed when it is asked for and kept as long as the text
 * before it lets it stand. Files, editors and machines are not known here.
 */
import { Analysis } from './analysis.ts';
import { type Dialect, openStandardDialect } from './dialect.ts';
import { touchBit } from './interpreter.ts';
import { parameterIn } from './parameters.ts';
import { type PieceProblem, ProblemCounter, RULE_IDS } from './problems.ts';
import { type Problem, programRules, type RuleId } from './rules.ts';
import { type Item, scanLine } from './scan.ts';
import { type ModalField, modalState, type ModalState } from './state.ts';
import { type Splice, TextStore } from './store.ts';

/** A word pattern of the dialect found on a line. `start` and `end` span its words. */
export interface PatternEvent {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  /** Captured numbers by slot name; NaN where the value is not known. */
  readonly slots: Readonly<Record<string, number>>;
}

export interface Program {
  readonly dialect: Dialect;
  readonly lineCount: number;
  /** The end of most lines. */
  readonly lineEnding: '\n' | '\r\n' | '\r';
  /** Without the line end. Empty beyond the last line. */
  lineText(line: number): string;
  /** Values of parameters and expressions are those that hold on the line. */
  items(line: number): readonly Item[];
  /** Lines beyond the program count as its end. */
  stateBefore(line: number): ModalState;
  stateAfter(line: number): ModalState;
  /** Problems from `fromLine` up to and without `toLine`, in order. At most `limitPerRule` of one rule. */
  problems(fromLine?: number, toLine?: number, limitPerRule?: number): Problem[];
  /** How often each rule is broken in the whole program. */
  problemCounts(): ReadonlyMap<RuleId, number>;
  events(line: number): PatternEvent[];
  /**
   * Analyses about `lines` more lines of what is not analysed yet, so that a
   * long program can be read in slices. Answers whether all is done.
   */
  advance(lines: number): boolean;
}

/** Reads a text that will not change. */
export function readProgram(text: string, dialect: Dialect = openStandardDialect): Program {
  return new EditableProgram(new TextStore(text), dialect);
}

const LINES_IN_A_PIECE = 256;
const SAMPLE_FOR_LINE_ENDING = 65536;

/** The program in a text store that somebody edits, who must report each edit. */
export class EditableProgram implements Program {
  readonly #analysis: Analysis;

  constructor(private readonly store: TextStore, readonly dialect: Dialect) {
    this.#analysis = new Analysis(store, dialect);
  }

  get lineCount(): number {
    return this.store.lineCount;
  }

  get lineEnding(): '\n' | '\r\n' | '\r' {
    return dominantLineEnding(this.store.slice(0, Math.min(SAMPLE_FOR_LINE_ENDING, this.store.length)));
  }

  /** Lines executed so far; for tests that count work instead of time. */
  get linesExecuted(): number {
    return this.#analysis.linesExecuted;
  }

  /** Must be called after each edit of the store. */
  spliced(splice: Splice): void {
    this.#analysis.spliced(splice);
  }

  lineText(line: number): string {
    return this.store.lineText(line);
  }

  items(line: number): readonly Item[] {
    const text = this.lineText(line);
    if (!text.includes('#')) return scanLine(text);
    const parameters = this.#interpreterBefore(line).parameters.snapshot();
    return scanLine(text, { get: (index) => parameterIn(parameters, index) });
  }

  stateBefore(line: number): ModalState {
    const within = Math.max(0, Math.min(line, this.lineCount));
    const interpreter = this.#interpreterBefore(within);
    const parameters = interpreter.parameters.snapshot();
    return modalState(interpreter.row, { dialect: this.dialect, parameters, lineOf: (field) => this.#lineOf(field, within) });
  }

  stateAfter(line: number): ModalState {
    return this.stateBefore(line + 1);
  }

  problems(fromLine = 0, toLine = this.lineCount, limitPerRule = Infinity): Problem[] {
    const found: Problem[] = [];
    const counts = new Map<RuleId, number>();
    const take = (problem: PieceProblem, line: number): void => {
      const count = counts.get(problem.rule) ?? 0;
      if (line < fromLine || line >= toLine || count >= limitPerRule) return;
      counts.set(problem.rule, count + 1);
      found.push(problemAt(problem, line));
    };
    this.#eachPiece(fromLine, toLine, (piece, firstLine) => {
      if (!this.#hasOpenRule(piece, counts, limitPerRule)) return;
      for (const problem of this.#analysis.problems(piece)) take(problem, firstLine + problem.row);
    });
    return found;
  }

  problemCounts(): ReadonlyMap<RuleId, number> {
    const totals = new Map<RuleId, number>();
    this.#eachPiece(0, this.lineCount, (piece) => {
      const counts = this.#analysis.result(piece).problemCounts;
      counts?.forEach((count, index) => {
        if (count > 0) totals.set(RULE_IDS[index]!, (totals.get(RULE_IDS[index]!) ?? 0) + count);
      });
    });
    return totals;
  }

  events(line: number): PatternEvent[] {
    if (line < 0 || line >= this.lineCount || this.dialect.patterns.length === 0) return [];
    const interpreter = this.#interpreterBefore(line);
    const { piece, row } = this.#place(line);
    this.#analysis.executeRows(piece, row, row + 1, new ProblemCounter());
    const { matches, tape } = interpreter.block;
    if (tape === undefined || scanLine(this.lineText(line)).length === 0) return [];
    const lineStart = piece.from + piece.lineStarts[row]!;
    return matches.map(({ index, rows }) => {
      const pattern = this.dialect.patterns[index]!;
      const slots = pattern.words.flatMap((word, at) => (word.slot === undefined ? [] : [[word.slot, tape.value[rows[at]!]!] as const]));
      const start = Math.min(...rows.map((at) => tape.start[at]!)) - lineStart;
      const end = Math.max(...rows.map((at) => tape.end[at]!)) - lineStart;
      return { name: pattern.name, start, end, slots: Object.fromEntries(slots) };
    });
  }

  advance(lines: number): boolean {
    return this.#analysis.advance(Math.max(1, Math.ceil(lines / LINES_IN_A_PIECE)));
  }

  #hasOpenRule(piece: number, counts: ReadonlyMap<RuleId, number>, limit: number): boolean {
    const inPiece = this.#analysis.result(piece).problemCounts;
    return inPiece !== undefined && inPiece.some((count, index) => count > 0 && (counts.get(RULE_IDS[index]!) ?? 0) < limit);
  }

  /** Looks back piece by piece for the last line before `before` that set the field. */
  #lineOf(field: ModalField, before: number): number | undefined {
    if (before === 0) return undefined;
    const bit = touchBit(field);
    const last = this.store.pieceAtLine(before - 1);
    for (let index = last; index >= 0; index--) {
      if (index < last && (this.#analysis.result(index).touched & bit) === 0) continue;
      const end = Math.min(before - this.store.linesBefore(index), this.store.pieces[index]!.lineStarts.length);
      const row = this.#analysis.lastTouch(index, bit, end);
      if (row >= 0) return this.store.linesBefore(index) + row;
    }
    return undefined;
  }

  #interpreterBefore(line: number): ReturnType<Analysis['interpreterAt']> {
    const within = Math.max(0, Math.min(line, this.lineCount));
    const index = this.store.pieceAtLine(Math.min(within, this.lineCount - 1));
    return this.#analysis.interpreterAt(index, within - this.store.linesBefore(index));
  }

  #place(line: number): { piece: TextStore['pieces'][number]; row: number } {
    const index = this.store.pieceAtLine(line);
    return { piece: this.store.pieces[index]!, row: line - this.store.linesBefore(index) };
  }

  #eachPiece(fromLine: number, toLine: number, visit: (piece: number, firstLine: number) => void): void {
    const last = Math.min(toLine, this.lineCount);
    if (fromLine >= last) return;
    for (let index = this.store.pieceAtLine(Math.max(0, fromLine)); index < this.store.pieces.length; index++) {
      const firstLine = this.store.linesBefore(index);
      if (firstLine >= last) return;
      visit(index, firstLine);
    }
  }
}

function problemAt({ start, end, rule, message }: PieceProblem, line: number): Problem {
  return { line, start, end, rule, severity: programRules[rule].severity, message };
}

function dominantLineEnding(text: string): '\n' | '\r\n' | '\r' {
  const pairs = text.match(/\r\n/g)?.length ?? 0;
  const feeds = (text.match(/\n/g)?.length ?? 0) - pairs;
  const returns = (text.match(/\r/g)?.length ?? 0) - pairs;
  if (pairs > 0 && pairs >= feeds && pairs >= returns) return '\r\n';
  return returns > feeds ? '\r' : '\n';
}
