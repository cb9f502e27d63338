/**
 * A program as its readers see it: lines, items, the modal state at any line,
 * and what is wrong. Line numbers are 0-based.
 *
 * Everything is computed when it is asked for and kept as long as the text
 * before it lets it stand. Files, editors and machines are not known here.
 */
import { Analysis } from './analysis.ts';
import { type Dialect, openStandardDialect } from './dialect.ts';
import { type Execution, TOUCH } from './execution.ts';
import type { ParameterValues } from './expressions.ts';
import { unitsInForce } from './inch.ts';
import { type Move, MoveList, moveOf } from './moves.ts';
import { placeOfMove } from './move-place.ts';
import { type Operation, type PlacedMark, type Stretch, stretchesBetween, type Totals, totalsOf } from './operations.ts';
import { PatternFinder } from './patterns.ts';
import { parameterIn } from './parameters.ts';
import type { PieceProblem } from './problems.ts';
import * as r from './registers.ts';
import { type Problem, programRules, type RuleId } from './rules.ts';
import { type Item, scanItemAt, scanLine, tapeOf } from './scan.ts';
import { MODAL_FIELDS, type ModalField, modalState, type ModalState } from './state.ts';
import { LINES_PER_PIECE, type Splice, TextStore } from './store.ts';
import { SubprogramIndex } from './subprograms.ts';
import { KindSet, type Mark, problemKind, Sums } from './tally.ts';
import { ToolPaths } from './tool-paths.ts';

/** A word pattern of the dialect found on a line. `start` and `end` span its words. */
export interface PatternEvent {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  /** Captured numbers by slot name; NaN where the value is not known. */
  readonly slots: Readonly<Record<string, number>>;
}

/** A comment such as `(HOBBING: ...)` or `(END HOBBING)`: any name in capitals, whether a process has it or not. */
export interface PlacedNoteMark {
  readonly line: number;
  readonly kind: 'noteStart' | 'noteEnd';
  readonly name: string;
}

/** A line at which something begins or ends: a program, the work of a tool, synchronous running, a process note. */
export interface Landmark {
  readonly line: number;
  readonly kind: 'programNumber' | 'tool' | 'sync' | 'noteStart' | 'noteEnd';
  /** The process name of a note; else empty. */
  readonly name: string;
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
  /** The item at a character of a line, or else the one that ends there. On a very long line far cheaper than all items. */
  itemAt(line: number, character: number): Item | undefined;
  /** Lines beyond the program count as its end. */
  stateBefore(line: number): ModalState;
  stateAfter(line: number): ModalState;
  /** Problems from `fromLine` up to and without `toLine`, in order. At most `limitPerKind` of one rule, and of one character that is no word. */
  problems(fromLine?: number, toLine?: number, limitPerKind?: number): Problem[];
  /** How often each rule is broken in the whole program. */
  problemCounts(): ReadonlyMap<RuleId, number>;
  events(line: number): PatternEvent[];
  /**
   * Every step of motion from `fromLine` up to and without `toLine`, cycles and calls taken
   * apart. Subprograms also show their moves where they stand, marked as secondary.
   */
  moves(fromLine?: number, toLine?: number): Iterable<Move>;
  totals(): Totals;
  /** Seconds from the program's start to the start of `line`, as far as they are known. */
  secondsBefore(line: number): number;
  /** With `noteNames`, only notes of these names divide the program and are named; other comments may look like notes. */
  operations(noteNames?: readonly string[]): Operation[];
  /** The comments that open or close a process note, from `fromLine` up to and without `toLine`, in order. */
  noteMarks(fromLine?: number, toLine?: number): PlacedNoteMark[];
  /** The landmarks from `fromLine` up to and without `toLine` in order, found piece by piece, so that whoever has enough may stop. */
  landmarks(fromLine?: number, toLine?: number): Iterable<Landmark>;
  /** The last such comment with one of the names, on a line or before it. Reads nothing behind the line. */
  noteMarkBefore(line: number, names: readonly string[]): PlacedNoteMark | undefined;
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

/** Many who ask for moves have seen enough after the first few. */
const FEW_ROWS = 16;
const SAMPLE_FOR_LINE_ENDING = 65536;

/** The program in a text store that somebody edits, who must report each edit. */
export class EditableProgram implements Program {
  readonly #analysis: Analysis;
  readonly #patterns: PatternFinder;
  readonly #numbers: SubprogramIndex;
  readonly #paths: ToolPaths;
  #lastState: { readonly line: number; readonly state: ModalState } | undefined;

  constructor(private readonly store: TextStore, readonly dialect: Dialect) {
    this.#analysis = new Analysis(store, dialect);
    this.#numbers = new SubprogramIndex(store);
    this.#patterns = new PatternFinder(dialect);
    this.#paths = new ToolPaths(store, this.#analysis, dialect);
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
    this.#lastState = undefined;
    this.#analysis.spliced(splice);
    this.#paths.edited();
  }

  lineText(line: number): string {
    return this.store.lineText(line);
  }

  items(line: number): readonly Item[] {
    const text = this.lineText(line);
    return scanLine(text, this.#valuesFor(text, line), this.dialect.fixedFormat);
  }

  itemAt(line: number, character: number): Item | undefined {
    const text = this.lineText(line);
    return scanItemAt(text, character, this.#valuesFor(text, line), this.dialect.fixedFormat);
  }

  /** The parameters that count on a line; looked up only where the line asks for one. */
  #valuesFor(text: string, line: number): ParameterValues | undefined {
    if (!text.includes('#')) return undefined;
    const parameters = this.#executionBefore(line).parameters.snapshot();
    return { get: (index) => parameterIn(parameters, index) };
  }

  /** Whoever explains a word asks for the state around its line several times. */
  stateBefore(line: number): ModalState {
    const within = Math.max(0, Math.min(line, this.lineCount));
    if (this.#lastState?.line !== within) this.#lastState = { line: within, state: this.#stateBefore(within) };
    return this.#lastState.state;
  }

  #stateBefore(within: number): ModalState {
    const execution = this.#executionBefore(within);
    const parameters = execution.parameters.snapshot();
    return modalState(execution.row, { dialect: this.dialect, parameters, lineOf: (field) => this.#lineOf(field, within) });
  }

  stateAfter(line: number): ModalState {
    return this.stateBefore(line + 1);
  }

  problems(fromLine = 0, toLine = this.lineCount, limitPerKind = Infinity): Problem[] {
    const found: Problem[] = [];
    const counts = new Map<number, number>();
    const full = new KindSet();
    const take = (problem: PieceProblem, line: number): void => {
      const kind = problemKind(problem.rule, problem.rule === 'character' ? this.lineText(line).charCodeAt(problem.start) : 0);
      const count = (counts.get(kind) ?? 0) + 1;
      if (line < fromLine || line >= toLine || count > limitPerKind) return;
      counts.set(kind, count);
      if (count === limitPerKind) full.add(kind);
      found.push(problemAt(problem, line));
    };
    for (const [piece, firstLine] of this.#piecesBetween(fromLine, toLine)) {
      for (const problem of this.#problemsIn(piece, full)) take(problem, firstLine + problem.row);
    }
    if (toLine >= this.lineCount) found.push(...this.#problemsOfTheEnd());
    return found;
  }

  /** The problems of a piece in order, of kinds that are not full. */
  #problemsIn(piece: number, full: KindSet): readonly PieceProblem[] {
    const ofLines = this.#analysis.result(piece).kinds.hasMoreThan(full) ? this.#analysis.problems(piece) : [];
    if (!this.#leavesPath(piece) || !this.#paths.summary(piece).kinds.hasMoreThan(full)) return ofLines;
    const ofPath = this.#problemsOfPath(piece);
    return [...ofLines, ...ofPath].sort((first, second) => first.row - second.row || first.start - second.start);
  }

  #problemsOfPath(piece: number): PieceProblem[] {
    const firstLine = this.store.linesBefore(piece);
    return this.#paths.path(piece, 0, this.store.pieces[piece]!.lineStarts.length).problems.map(({ line, rule, message }) => {
      const { start, end } = placeOfMove(this.lineText(line), this.dialect);
      return { row: line - firstLine, start, end, rule, message: `${this.lineText(line).slice(start, end)}: ${message}` };
    });
  }

  problemCounts(): ReadonlyMap<RuleId, number> {
    const totals = new Map<RuleId, number>();
    const add = (rule: RuleId, count: number): unknown => count > 0 && totals.set(rule, (totals.get(rule) ?? 0) + count);
    for (const [piece] of this.#piecesBetween(0, this.lineCount)) {
      this.#analysis.result(piece).problemCounts?.forEach((count, rule) => add(rule, count));
      if (this.#paths.areKnown) this.#paths.summary(piece).counts.forEach((count, rule) => add(rule, count));
    }
    for (const problem of this.#problemsOfTheEnd()) add(problem.rule, 1);
    return totals;
  }

  events(line: number): PatternEvent[] {
    if (line < 0 || line >= this.lineCount || this.dialect.patterns.length === 0) return [];
    const text = this.lineText(line);
    const tape = tapeOf(text, this.#executionBefore(line).parameters, this.dialect.fixedFormat);
    return this.#patterns.find(tape).map(({ index, rows }) => {
      const { name, words } = this.dialect.patterns[index]!;
      const slots = words.flatMap((word, at) => (word.slot === undefined ? [] : [[word.slot, tape.value[rows[at]!]!] as const]));
      const start = Math.min(...rows.map((row) => tape.start[row]!));
      const end = Math.max(...rows.map((row) => tape.end[row]!));
      return { name, start, end, slots: Object.fromEntries(slots) };
    });
  }

  *moves(fromLine = 0, toLine = this.lineCount): Iterable<Move> {
    for (const [piece, firstLine] of this.#piecesBetween(fromLine, toLine)) {
      const from = Math.max(0, fromLine - firstLine);
      const to = Math.min(toLine - firstLine, this.store.pieces[piece]!.lineStarts.length);
      if (this.#leavesPath(piece)) {
        yield* this.#paths.path(piece, from, to).steps.map((step) => moveOf(step, this.dialect));
        continue;
      }
      yield* this.#movesOfRows(piece, firstLine, from, Math.min(from + FEW_ROWS, to));
      yield* this.#movesOfRows(piece, firstLine, from + FEW_ROWS, to);
    }
  }

  #movesOfRows(piece: number, firstLine: number, from: number, to: number): readonly Move[] {
    if (from >= to) return [];
    const list = new MoveList(this.#analysis.executionAt(piece, from), firstLine);
    this.#analysis.executeRows(piece, from, to, list);
    return list.moves;
  }

  totals(): Totals {
    return { ...totalsOf(this.#sumsBefore(this.store.pieces.length), this.#unitsAtEnd()), ...this.#compensatedPath() };
  }

  secondsBefore(line: number): number {
    const within = Math.max(0, Math.min(line, this.lineCount));
    const piece = this.store.pieceAtLine(Math.min(within, this.lineCount - 1));
    const row = within - this.store.linesBefore(piece);
    return this.#analysis.secondsBefore(piece, row) + this.#differencesBefore(piece).add(this.#differenceIn(piece, row)).seconds;
  }

  operations(noteNames?: readonly string[]): Operation[] {
    const units = this.#unitsAtEnd();
    const all = this.#sumsBefore(this.store.pieces.length);
    const stretches = stretchesBetween(this.#marks(noteNames), this.lineCount, all);
    return stretches.map((stretch) => this.#operation(stretch, units));
  }

  noteMarks(fromLine = 0, toLine = this.lineCount): PlacedNoteMark[] {
    const last = Math.min(toLine, this.lineCount) - 1;
    if (last < fromLine) return [];
    const first = this.store.pieceAtLine(Math.max(0, fromLine));
    const marks: PlacedNoteMark[][] = [];
    let piece = this.#analysis.lastPieceWithNotes(this.store.pieceAtLine(last));
    for (; piece >= first; piece = this.#analysis.lastPieceWithNotes(piece - 1)) marks.push(this.#noteMarksIn(piece, this.store.linesBefore(piece)));
    return marks.reverse().flat().filter(({ line }) => fromLine <= line && line < toLine);
  }

  *landmarks(fromLine = 0, toLine = this.lineCount): Iterable<Landmark> {
    for (const [piece, firstLine] of this.#piecesBetween(fromLine, toLine)) {
      for (const landmark of this.#landmarksIn(piece, firstLine)) if (fromLine <= landmark.line && landmark.line < toLine) yield landmark;
    }
  }

  noteMarkBefore(line: number, names: readonly string[]): PlacedNoteMark | undefined {
    const within = Math.max(0, Math.min(line, this.lineCount - 1));
    let piece = this.#analysis.lastPieceWithNotes(this.store.pieceAtLine(within));
    for (; piece >= 0; piece = this.#analysis.lastPieceWithNotes(piece - 1)) {
      const found = this.#noteMarksIn(piece, this.store.linesBefore(piece)).findLast((mark) => mark.line <= line && names.includes(mark.name));
      if (found !== undefined) return found;
    }
    return undefined;
  }

  advance(lines: number): boolean {
    const pieces = Math.max(1, Math.ceil(lines / LINES_PER_PIECE));
    return this.#analysis.advance(pieces) && (!this.#paths.areKnown || this.#paths.advance(pieces));
  }

  /** What only the whole program shows (NISTIR 6556 §3.1). Stands on the last line that is not blank. */
  #problemsOfTheEnd(): Problem[] {
    const { row } = this.#executionBefore(this.lineCount);
    const opening = row[r.OPENING];
    const ended = row[r.ENDED];
    if (opening === 2 && ended !== r.AFTER_PERCENT) return [this.#problemAtEnd('percent-open', 'The program opens with a percent sign; a second one must close it.')];
    if (opening === 1 && ended === r.RUNNING) return [this.#problemAtEnd('end-missing', `The program has no end: ${this.#ends()}.`)];
    return [];
  }

  /** A file that holds a subprogram alone ends with the word that returns, if the machine says which it is. */
  #ends(): string {
    const ends = 'M02, M30, or a percent sign on the first and on the last line';
    if (this.dialect.patterns.some(({ name }) => name === 'subprogramReturn')) return `${ends}; a subprogram ends with the word that returns`;
    const mayBeSubprogram = this.#numbers.rowsIn(0).length > 0;
    return mayBeSubprogram ? `${ends}. If it is a subprogram, the machine card must say which word returns` : ends;
  }

  #problemAtEnd(rule: RuleId, message: string): Problem {
    let line = this.lineCount - 1;
    while (line > 0 && this.lineText(line).trim() === '') line--;
    return problemAt({ row: 0, start: 0, end: this.lineText(line).length, rule, message }, line);
  }

  /** Looks back piece by piece for the last line before `before` that set the field. */
  #lineOf(field: ModalField, before: number): number | undefined {
    if (before === 0) return undefined;
    const bit = TOUCH[field];
    const last = this.store.pieceAtLine(before - 1);
    for (let index = last; index >= 0; index--) {
      if (index < last && (this.#analysis.result(index).touched & bit) === 0) continue;
      const end = Math.min(before - this.store.linesBefore(index), this.store.pieces[index]!.lineStarts.length);
      const row = this.#analysis.lastTouch(index, MODAL_FIELDS.indexOf(field), end);
      if (row >= 0) return this.store.linesBefore(index) + row;
    }
    return undefined;
  }

  #executionBefore(line: number): Execution {
    const within = Math.max(0, Math.min(line, this.lineCount));
    const index = this.store.pieceAtLine(Math.min(within, this.lineCount - 1));
    return this.#analysis.executionAt(index, within - this.store.linesBefore(index));
  }

  #operation({ fromLine, toLine, note, sums }: Stretch, units: 'mm' | 'inch'): Operation {
    const { row } = this.#executionBefore(fromLine + 1);
    const tool = row[r.TOOL]!;
    return {
      fromLine, toLine, ...(Number.isNaN(tool) ? {} : { tool }), ...(note === undefined ? {} : { note }),
      sync: row[r.SYNC_PATTERN] !== 0, totals: totalsOf(sums, units),
    };
  }

  #marks(noteNames: readonly string[] | undefined): PlacedMark[] {
    const marks: PlacedMark[] = [];
    const before = new Sums();
    for (const [piece, firstLine] of this.#piecesBetween(0, this.lineCount)) {
      const sumsAtMarks = this.#analysis.sumsAtMarks(piece);
      this.#analysis.result(piece).marks.forEach((mark, index) => {
        if (noteNames !== undefined && isNoteMark(mark) && !noteNames.includes(mark.name)) return;
        marks.push({ line: firstLine + mark.row, kind: mark.kind, name: mark.name, before: new Sums().set(before).add(sumsAtMarks[index]!).add(this.#differenceIn(piece, mark.row)) });
      });
      before.add(this.#analysis.result(piece).sums).add(this.#differenceIn(piece));
    }
    return marks;
  }

  #landmarksIn(piece: number, firstLine: number): Landmark[] {
    const numbers = this.#numbers.rowsIn(piece).map((row): Landmark => ({ line: firstLine + row, kind: 'programNumber', name: '' }));
    const marks = this.#analysis.result(piece).marks.map(({ row, kind, name }): Landmark => ({ line: firstLine + row, kind, name }));
    return numbers.length === 0 ? marks : [...numbers, ...marks].sort((first, second) => first.line - second.line);
  }

  #noteMarksIn(piece: number, firstLine: number): PlacedNoteMark[] {
    return this.#analysis.result(piece).marks.filter(isNoteMark).map(({ row, kind, name }) => ({ line: firstLine + row, kind, name }));
  }

  #sumsBefore(piece: number): Sums {
    const sums = this.#differencesBefore(piece);
    for (let index = 0; index < piece; index++) sums.add(this.#analysis.result(index).sums);
    return sums;
  }

  /** What tool radius compensation changes before a piece. */
  #differencesBefore(piece: number): Sums {
    const sums = new Sums();
    if (!this.#paths.areKnown) return sums;
    for (let index = 0; index < piece; index++) sums.add(this.#differenceIn(index));
    return sums;
  }

  #differenceIn(piece: number, beforeRow = Infinity): Sums {
    const sums = new Sums();
    if (!this.#leavesPath(piece)) return sums;
    for (const difference of this.#paths.summary(piece).differences) {
      if (difference.row < beforeRow) sums.add(difference.sums);
    }
    return sums;
  }

  #leavesPath(piece: number): boolean {
    return this.#paths.areKnown && this.#paths.mayLeavePath(piece);
  }

  #compensatedPath(): Pick<Totals, 'compensatedPath'> {
    let moves = 0;
    let ofCentre = 0;
    for (const [piece] of this.#piecesBetween(0, this.lineCount)) {
      const summary = this.#paths.summary(piece);
      moves += summary.moves;
      ofCentre += summary.movesOfCentre;
    }
    if (moves === 0) return {};
    return { compensatedPath: ofCentre === 0 ? 'programmed' : ofCentre === moves ? 'toolCentre' : 'mixed' };
  }

  #unitsAtEnd(): 'mm' | 'inch' {
    return unitsInForce(this.#executionBefore(this.lineCount).row);
  }

  *#piecesBetween(fromLine: number, toLine: number): Iterable<readonly [piece: number, firstLine: number]> {
    const last = Math.min(toLine, this.lineCount);
    if (fromLine >= last) return;
    for (let index = this.store.pieceAtLine(Math.max(0, fromLine)); index < this.store.pieces.length; index++) {
      const firstLine = this.store.linesBefore(index);
      if (firstLine >= last) return;
      yield [index, firstLine];
    }
  }
}

function isNoteMark(mark: Mark): mark is Mark & { kind: PlacedNoteMark['kind'] } {
  return mark.kind === 'noteStart' || mark.kind === 'noteEnd';
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
