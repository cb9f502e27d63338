/**
 * A program as its readers see it: lines, items, the modal state at any line,
 * and what is wrong.
 *
 * States are kept at intervals and computed from the nearest one before.
 */
import { type Dialect, openStandardDialect } from './dialect.ts';
import type { ProblemSink } from './block.ts';
import { Interpreter } from './interpreter.ts';
import { type ParameterSnapshot, parameterIn } from './parameters.ts';
import { type Problem, programRules, type RuleId } from './rules.ts';
import { type Item, scanLine } from './scan.ts';
import { MODAL_FIELDS, type ModalField, modalState, type ModalState } from './state.ts';

/** A word pattern of the dialect found on a line. `start` and `end` span its words. */
export interface PatternEvent {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  /** Captured numbers by slot name; NaN where the value is not known. */
  readonly slots: Readonly<Record<string, number>>;
}

export interface Program {
  readonly lineCount: number;
  /** The end of most lines. */
  readonly lineEnding: '\n' | '\r\n' | '\r';
  /** Without the line end. Empty beyond the last line. */
  lineText(line: number): string;
  items(line: number): readonly Item[];
  stateBefore(line: number): ModalState;
  stateAfter(line: number): ModalState;
  /** Problems from `fromLine` up to and without `toLine`. */
  problems(fromLine?: number, toLine?: number): Problem[];
  events(line: number): PatternEvent[];
}

export function readProgram(text: string, dialect: Dialect = openStandardDialect): Program {
  return new WholeProgram(text, dialect);
}
const silent: ProblemSink = { problem() {} };
const INTERVAL = 256;
interface Checkpoint { readonly row: Float64Array; readonly parameters: ParameterSnapshot }

class WholeProgram implements Program {
  readonly #lines: string[];
  readonly #checkpoints: Checkpoint[] = [];
  readonly lineEnding;
  constructor(text: string, private readonly dialect: Dialect) {
    this.#lines = text.split(/\r\n|\n|\r/);
    this.lineEnding = dominantLineEnding(text);
    const first = new Interpreter(dialect);
    this.#checkpoints.push({ row: first.row.slice(), parameters: first.parameters.snapshot() });
  }
  get lineCount(): number { return this.#lines.length; }
  lineText(line: number): string { return this.#lines[line] ?? ''; }
  items(line: number): readonly Item[] {
    const parameters = this.#at(line).parameters;
    return scanLine(this.lineText(line), { get: (index) => parameterIn(parameters, index) });
  }
  stateBefore(line: number): ModalState { return this.#state(Math.max(0, Math.min(line, this.lineCount))); }
  stateAfter(line: number): ModalState { return this.stateBefore(line + 1); }
  problems(fromLine = 0, toLine = this.lineCount): Problem[] {
    const found: Problem[] = [];
    const interpreter = this.#interpreterAt(fromLine);
    for (let line = fromLine; line < Math.min(toLine, this.lineCount); line++) {
      this.#run(interpreter, line, { problem: (rule: RuleId, start, end, message) => found.push({ line, start, end, rule, severity: programRules[rule].severity, message: message() }) });
    }
    return found;
  }
  events(line: number): PatternEvent[] {
    const interpreter = this.#interpreterAt(line);
    this.#run(interpreter, line, silent);
    const { block } = interpreter;
    if (this.lineText(line).trim() === '') return [];
    return block.matches.map((match) => {
      const pattern = this.dialect.patterns[match.index]!;
      const slots: Record<string, number> = {};
      pattern.words.forEach((word, at) => { if (word.slot !== undefined) slots[word.slot] = block.tape.value[match.rows[at]!]!; });
      return { name: pattern.name, start: Math.min(...match.rows.map((row) => block.tape.start[row]!)), end: Math.max(...match.rows.map((row) => block.tape.end[row]!)), slots };
    });
  }
  #state(line: number): ModalState {
    const { row, parameters } = this.#at(line);
    return modalState(row, { dialect: this.dialect, parameters, lineOf: (field) => this.#lineOf(field, line) });
  }
  #lineOf(field: ModalField, before: number): number | undefined {
    const bit = 1 << MODAL_FIELDS.indexOf(field);
    for (let block = Math.floor(Math.max(0, before - 1) / INTERVAL); block >= 0; block--) {
      const interpreter = this.#interpreterAt(block * INTERVAL);
      let found: number | undefined;
      for (let line = block * INTERVAL; line < Math.min(before, (block + 1) * INTERVAL); line++) {
        interpreter.touched = 0;
        this.#run(interpreter, line, silent);
        if ((interpreter.touched & bit) !== 0) found = line;
      }
      if (found !== undefined) return found;
    }
    return undefined;
  }
  #at(line: number): Checkpoint {
    const interpreter = this.#interpreterAt(line);
    return { row: interpreter.row.slice(), parameters: interpreter.parameters.snapshot() };
  }
  #interpreterAt(line: number): Interpreter {
    const interpreter = new Interpreter(this.dialect);
    const wanted = Math.floor(line / INTERVAL);
    const from = Math.min(wanted, this.#checkpoints.length - 1);
    interpreter.row.set(this.#checkpoints[from]!.row);
    interpreter.parameters.restore(this.#checkpoints[from]!.parameters);
    for (let at = from * INTERVAL; at < line; at++) {
      this.#run(interpreter, at, silent);
      if ((at + 1) % INTERVAL === 0 && (at + 1) / INTERVAL === this.#checkpoints.length) this.#checkpoints.push({ row: interpreter.row.slice(), parameters: interpreter.parameters.snapshot() });
    }
    return interpreter;
  }
  #run(interpreter: Interpreter, line: number, sink: ProblemSink): void {
    const text = this.lineText(line);
    interpreter.execute(text, 0, text.length, sink);
  }
}
function dominantLineEnding(text: string): '\n' | '\r\n' | '\r' {
  const sample = text.slice(0, 65536);
  const pairs = sample.match(/\r\n/g)?.length ?? 0;
  const feeds = (sample.match(/\n/g)?.length ?? 0) - pairs;
  const returns = (sample.match(/\r/g)?.length ?? 0) - pairs;
  return pairs > 0 && pairs >= feeds && pairs >= returns ? '\r\n' : returns > feeds ? '\r' : '\n';
}
