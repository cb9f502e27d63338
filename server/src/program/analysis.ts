/**
 * What is known about each piece of a program, kept up to date through edits.
 *
 * Each piece has the state at its start. After an edit only the touched pieces
 * are executed again, and those after them only until a piece starts with the
 * state that it had before: from there on nothing has changed. Work is done when
 * somebody asks, and no further than the place that was asked about.
 *
 * INVARIANT: a piece that has a state at its start, and is not in the list of
 * pieces to execute, has a result that was computed from that state and from the
 * present text. A piece that calls subprograms is executed again after every edit.
 */
import type { Dialect } from './dialect.ts';
import type { Execution, ExecutionSink, LineSink, MarkKind } from './execution.ts';
import { type Caller, Interpreter } from './interpreter.ts';
import { type ParameterSnapshot, sameParameters } from './parameters.ts';
import { type PieceProblem, ProblemList } from './problems.ts';
import { Ladder, ROWS_BETWEEN_RUNGS, RungShelf } from './ladder.ts';
import * as r from './registers.ts';
import type { RuleId } from './rules.ts';
import { RowShelf } from './row-shelf.ts';
import { MODAL_FIELDS } from './state.ts';
import type { Step } from './step.ts';
import { beforeLineEnd, lineEndInPiece, type Piece, type Splice, type TextStore } from './store.ts';
import { SubprogramIndex, type TextPlace } from './subprograms.ts';
import { type PieceResult, type Sums, Tally } from './tally.ts';

/** The state before a line. Those of pieces are never written to, those of looks by the next look. */
interface Checkpoint {
  readonly row: Float64Array;
  readonly parameters: ParameterSnapshot;
}

/** What is known before a row of a piece. */
interface Look {
  readonly piece: number;
  readonly row: number;
  readonly state: Checkpoint;
  /** Of the moves of the piece before the row, as far as they are known. */
  readonly seconds: number;
}

/** For each modal field the last row of a piece before a row that sets it, or -1. */
interface Touches {
  readonly piece: number;
  readonly before: number;
  readonly rows: Int32Array;
}

const DEEPEST_CALL = 8;
/** Lines that one line of the program may execute elsewhere. */
const MOST_CALLED_LINES = 100_000;
/** Problems that are kept with their messages, some 20 MB of them. */
const MOST_KEPT_PROBLEMS = 100_000;

export class Analysis implements Caller {
  depth = 0;
  /** Lines executed since the beginning; for tests that count work instead of time. */
  linesExecuted = 0;
  readonly #interpreter: Interpreter;
  readonly #execution: Execution;
  readonly #tally: Tally;
  /** For lines that are executed for the sake of what holds at them. */
  readonly #lookTally: Tally;
  readonly #subprograms: SubprogramIndex;
  readonly #entries: Array<Checkpoint | undefined>;
  readonly #rows = new RowShelf();
  readonly #rungs = new RungShelf();
  readonly #results: Array<PieceResult | undefined>;
  /** Of each piece that has a result. */
  readonly #ladders: Array<Ladder | undefined>;
  /** Problems with messages by result, so that they go when the result goes. */
  readonly #problems = new Map<PieceResult, readonly PieceProblem[]>();
  #keptProblems = 0;
  /** Pieces to execute, in order. */
  #open: number[] = [0];
  /** Where somebody looked last, so that looking again at the same place costs nothing. */
  #looks: readonly Look[] = [];
  /** The registers of those looks; nobody else keeps them. */
  readonly #rowsOfLooks: readonly [Float64Array, Float64Array] = [new Float64Array(r.REGISTER_COUNT), new Float64Array(r.REGISTER_COUNT)];
  #lastTouches: Touches | undefined;
  /** Rows that last set each modal field, of whole pieces. */
  readonly #touchRows = new WeakMap<PieceResult, Int32Array>();
  /** Of each piece the seconds before it and the last piece before it that has notes, -1 for none; right up to the piece `#summed`. */
  #seconds: Float64Array = new Float64Array(1);
  #notePieces = Int32Array.of(-1);
  #summed = 0;
  #hasCalls = false;
  #sink: LineSink;
  #calledLines = 0;

  constructor(private readonly store: TextStore, readonly dialect: Dialect) {
    this.#interpreter = new Interpreter(dialect, this);
    this.#execution = this.#interpreter.execution;
    this.#tally = new Tally(this.#execution.row);
    this.#lookTally = new Tally(this.#execution.row);
    this.#sink = this.#tally;
    this.#subprograms = new SubprogramIndex(store);
    this.#entries = new Array<Checkpoint | undefined>(store.pieces.length);
    this.#results = new Array<PieceResult | undefined>(store.pieces.length);
    this.#ladders = new Array<Ladder | undefined>(store.pieces.length);
    this.#entries[0] = this.#checkpoint();
  }

  /** Takes note of an edit of the store. */
  spliced({ first, removed, inserted }: Splice): void {
    this.#forgetLooks();
    this.#summed = Math.min(this.#summed, first);
    const unknown = new Array<undefined>(inserted).fill(undefined);
    for (const result of this.#results.splice(first, removed, ...unknown)) {
      if (result !== undefined) this.#forget(result);
    }
    this.#ladders.splice(first, removed, ...unknown);
    this.#entries.splice(first + 1, removed - 1, ...unknown.slice(1));
    const shift = inserted - removed;
    const before = this.#open.filter((piece) => piece < first);
    const after = this.#open.filter((piece) => piece >= first + removed).map((piece) => piece + shift);
    this.#open = this.#entries[first] === undefined ? [...before, ...after] : [...before, first, ...after];
    if (this.#hasCalls) this.#openCallers();
  }

  /** Executes what is open before `piece`, so that the state at its start is right. */
  settle(piece: number): void {
    while (this.#open.length > 0 && this.#open[0]! < piece) this.#settleNext();
  }

  /** Executes at most `pieces` pieces; answers whether nothing is left to execute. */
  advance(pieces: number): boolean {
    for (let count = 0; count < pieces && this.#open.length > 0; count++) this.#settleNext();
    return this.#open.length === 0;
  }

  /** What is kept about a piece, up to date. */
  result(piece: number): PieceResult {
    this.settle(piece + 1);
    return this.#results[piece]!;
  }

  /** A register at the start of a piece. */
  registerBefore(piece: number, register: number): number {
    this.settle(piece);
    return this.#entries[piece]!.row[register]!;
  }

  /** The execution in the state before `row` of `piece`. Valid until the next call of any method. */
  executionAt(piece: number, row: number): Execution {
    this.#restore(this.#lookAt(piece, row).state);
    return this.#execution;
  }

  #lookAt(piece: number, row: number): Look {
    this.settle(piece);
    const near = this.#looks.findLast((look) => look.piece === piece && look.row <= row);
    if (near?.row === row) return near;
    const kept = this.#keptBefore(piece, row);
    return this.#lookFrom(near !== undefined && near.row > kept.row ? near : kept, row);
  }

  /** The last place at or before the row whose state is kept. Of a piece that is still to be executed that is its beginning. */
  #keptBefore(piece: number, row: number): Look {
    const ladder = this.#open[0] === piece ? undefined : this.#ladders[piece];
    const rung = ladder?.below(row) ?? -1;
    if (ladder === undefined || rung < 0) return { piece, row: 0, state: this.#entries[piece]!, seconds: 0 };
    return { piece, row: ladder.rowOf(rung), state: { row: ladder.registers(rung), parameters: ladder.parameters(rung) }, seconds: ladder.seconds(rung) };
  }

  /** Keeps what is before the row and before the one above it, since readers ask for both sides of a line. */
  #lookFrom(near: Look, row: number): Look {
    const { piece } = near;
    this.#restore(near.state);
    const tally = this.#lookTally;
    tally.restart();
    const above = Math.max(near.row, row - 1);
    const [rowAbove, rowHere] = this.#rowsOfLooks;
    this.executeRows(piece, near.row, above, tally);
    const before: Look = { piece, row: above, state: this.#checkpointIn(rowAbove), seconds: near.seconds + tally.seconds };
    this.executeRows(piece, above, row, tally);
    const look: Look = { piece, row, state: this.#checkpointIn(rowHere), seconds: near.seconds + tally.seconds };
    this.#looks = [before, look];
    return look;
  }

  #forgetLooks(): void {
    this.#looks = [];
    this.#lastTouches = undefined;
  }

  /** Seconds of all moves before a row, as far as they are known. */
  secondsBefore(piece: number, row: number): number {
    this.#sumUpTo(piece);
    return this.#seconds[piece]! + this.#lookAt(piece, row).seconds;
  }

  /** Executes rows of a piece in the present state. */
  executeRows(index: number, from: number, to: number, sink: LineSink): void {
    const piece = this.store.pieces[index]!;
    const { source, lineStarts, feedsOnly } = piece;
    this.#sink = sink;
    this.linesExecuted += Math.max(0, to - from);
    this.#interpreter.begin(source, sink);
    let next = piece.from + (from < to ? lineStarts[from]! : 0);
    for (let row = from; row < to; row++) {
      const start = next;
      next = piece.from + (row + 1 < lineStarts.length ? lineStarts[row + 1]! : piece.length);
      sink.row = row;
      const limit = feedsOnly && row + 1 < lineStarts.length ? next - 1 : beforeLineEnd(source, next, start);
      this.#interpreter.execute(start, limit);
    }
  }

  /** The problems of a piece, in the order of its lines. */
  problems(index: number): readonly PieceProblem[] {
    const result = this.result(index);
    if (result.problemCounts === undefined) return [];
    const known = this.#problems.get(result);
    if (known !== undefined) return known;
    this.#restore(this.#entries[index]!);
    const list = new ProblemList(this.store.pieces[index]!);
    this.executeRows(index, 0, this.store.pieces[index]!.lineStarts.length, list);
    this.#remember(result, list.problems);
    return list.problems;
  }

  /** The sums of a piece before each of its marks; kept by nobody, because few ask and marks can be many. */
  sumsAtMarks(index: number): readonly Sums[] {
    if (this.result(index).marks.length === 0) return [];
    this.#restore(this.#entries[index]!);
    const sums: Sums[] = [];
    this.executeRows(index, 0, this.store.pieces[index]!.lineStarts.length, new Tally(this.#execution.row, sums));
    return sums;
  }

  /** The row of the last line before `end` in the piece that sets a modal field, or -1. */
  lastTouch(index: number, field: number, end: number): number {
    const isWhole = end === this.store.pieces[index]!.lineStarts.length;
    return (isWhole ? this.#touchRowsOf(index) : this.#touchRowsBefore(index, end))[field]!;
  }

  #touchRowsOf(index: number): Int32Array {
    const result = this.result(index);
    const known = this.#touchRows.get(result);
    if (known !== undefined) return known;
    const rows = this.#findTouches(index, this.store.pieces[index]!.lineStarts.length);
    this.#touchRows.set(result, rows);
    return rows;
  }

  #touchRowsBefore(piece: number, before: number): Int32Array {
    this.settle(piece);
    const known = this.#lastTouches;
    if (known?.piece === piece && known.before === before) return known.rows;
    const rows = this.#findTouches(piece, before);
    this.#lastTouches = { piece, before, rows };
    return rows;
  }

  /** Executes rows of a piece and notes which fields they set. */
  #findTouches(piece: number, before: number): Int32Array {
    const execution = this.#execution;
    const rows = new Int32Array(MODAL_FIELDS.length).fill(-1);
    const tally = this.#lookTally;
    tally.restart();
    this.#restore(this.#entries[piece]!);
    for (let row = 0; row < before; row++) {
      execution.touched = 0;
      this.executeRows(piece, row, row + 1, tally);
      for (let touched = execution.touched; touched !== 0; touched &= touched - 1) rows[31 - Math.clz32(touched & -touched)] = row;
    }
    return rows;
  }

  /** For the interpreter: executes a subprogram of this text. */
  call(program: number, repeats: number): string | undefined {
    this.#tally.calls = true;
    this.#hasCalls = true;
    if (Number.isNaN(program) || Number.isNaN(repeats)) return 'The number of the subprogram or of its repeats is not known.';
    if (!Number.isInteger(repeats) || repeats < 1) return `The repeats must be a whole number of at least 1, not ${repeats}.`;
    const place = this.#subprograms.find(program);
    if (place === undefined) return `Program ${program} is not in this file.`;
    if (this.depth === 0) this.#calledLines = 0;
    if (this.depth >= DEEPEST_CALL) return `Subprograms are called more than ${DEEPEST_CALL} deep.`;
    this.depth++;
    const isComplete = this.#repeat(place, repeats);
    this.depth--;
    return isComplete ? undefined : `Program ${program} runs for more than ${MOST_CALLED_LINES} lines, or calls too deeply.`;
  }

  #repeat(place: TextPlace, repeats: number): boolean {
    for (let count = 0; count < repeats; count++) {
      if (!this.#executeCalled(place)) return false;
    }
    return true;
  }

  /** Executes lines from the program number on until a return, an end, or the end of the text. */
  #executeCalled({ piece: first, row: firstRow }: TextPlace): boolean {
    const sink = new CalledSink(this.#sink);
    const { pieces } = this.store;
    for (let index = first; index < pieces.length; index++) {
      const piece = pieces[index]!;
      for (let row = index === first ? firstRow : 0; row < piece.lineStarts.length; row++) {
        if (++this.#calledLines > MOST_CALLED_LINES) return false;
        this.#executeRow(piece, row, sink);
        if (sink.isRefused) return false;
        if (this.#interpreter.hasReturned || this.#execution.row[r.ENDED] !== r.RUNNING) return true;
      }
    }
    return true;
  }

  #executeRow(piece: Piece, row: number, sink: ExecutionSink): void {
    this.linesExecuted++;
    this.#interpreter.begin(piece.source, sink);
    this.#interpreter.execute(piece.from + piece.lineStarts[row]!, lineEndInPiece(piece, row));
  }

  #settleNext(): void {
    const index = this.#open.shift()!;
    const before = this.#results[index];
    if (before !== undefined) this.#forget(before);
    this.#results[index] = this.#execute(index);
    this.#summed = Math.min(this.#summed, index);
    this.#forgetLooks();
    const next = index + 1;
    if (next >= this.#entries.length) return;
    const entry = this.#entries[next];
    const isSettled = entry !== undefined && this.#isCurrent(entry);
    if (!isSettled) this.#entries[next] = this.#checkpoint();
    if ((!isSettled || this.#results[next] === undefined) && this.#open[0] !== next) this.#open.unshift(next);
  }

  #execute(index: number): PieceResult {
    this.#restore(this.#entries[index]!);
    const piece = this.store.pieces[index]!;
    const tally = this.#tally;
    this.#execution.touched = 0;
    this.#execution.hasBegunCompensation = false;
    tally.calls = false;
    tally.source = piece.source;
    this.#ladders[index] = this.#climb(index, piece.lineStarts.length);
    return tally.take(this.#execution);
  }

  /** Executes a piece and keeps some of the states in between. */
  #climb(index: number, rows: number): Ladder {
    const { row, parameters } = this.#execution;
    const ladder = new Ladder(rows, this.#rungs);
    for (let next = 0; next < rows; next += ROWS_BETWEEN_RUNGS) {
      if (next > 0) ladder.add(row, parameters, this.#tally.seconds);
      this.executeRows(index, next, Math.min(next + ROWS_BETWEEN_RUNGS, rows), this.#tally);
    }
    return ladder;
  }

  /** The last piece at or before this one that has the comments of process notes, -1 for none. */
  lastPieceWithNotes(piece: number): number {
    this.#sumUpTo(piece + 1);
    return this.#notePieces[piece + 1]!;
  }

  #sumUpTo(piece: number): void {
    this.settle(piece);
    this.#makeRoom(piece);
    for (; this.#summed < piece; this.#summed++) {
      const result = this.#results[this.#summed]!;
      this.#seconds[this.#summed + 1] = this.#seconds[this.#summed]! + result.sums.seconds;
      this.#notePieces[this.#summed + 1] = result.hasNotes ? this.#summed : this.#notePieces[this.#summed]!;
    }
  }

  #makeRoom(piece: number): void {
    if (this.#seconds.length > piece) return;
    const seconds = new Float64Array(piece * 2 + 1);
    const notePieces = new Int32Array(piece * 2 + 1);
    seconds.set(this.#seconds);
    notePieces.set(this.#notePieces);
    this.#seconds = seconds;
    this.#notePieces = notePieces;
  }

  #restore(entry: Checkpoint): void {
    this.#execution.row.set(entry.row);
    this.#execution.parameters.restore(entry.parameters);
  }

  #checkpoint(): Checkpoint {
    return this.#checkpointIn(this.#rows.next());
  }

  #checkpointIn(row: Float64Array): Checkpoint {
    row.set(this.#execution.row);
    return { row, parameters: this.#execution.parameters.snapshot() };
  }

  #isCurrent(entry: Checkpoint): boolean {
    return r.sameRegisters(entry.row, this.#execution.row) && sameParameters(entry.parameters, this.#execution.parameters.snapshot());
  }

  /** The text of a subprogram may have changed anywhere. */
  #openCallers(): void {
    const callers = this.#results.flatMap((result, index) => (result?.calls === true ? [index] : []));
    this.#open = [...new Set([...this.#open, ...callers])].sort((a, b) => a - b);
  }

  #remember(result: PieceResult, problems: readonly PieceProblem[]): void {
    this.#problems.set(result, problems);
    this.#keptProblems += problems.length;
    for (const oldest of this.#problems.keys()) {
      if (this.#keptProblems <= MOST_KEPT_PROBLEMS || oldest === result) break;
      this.#forget(oldest);
    }
  }

  #forget(result: PieceResult): void {
    this.#keptProblems -= this.#problems.get(result)?.length ?? 0;
    this.#problems.delete(result);
  }
}

/** Lends the steps of called lines to the sink of the line that calls. Their problems belong to their own lines. */
class CalledSink implements ExecutionSink {
  /** A call among the called lines could not be followed. */
  isRefused = false;

  constructor(private readonly sink: ExecutionSink) {}

  problem(rule: RuleId): void {
    this.isRefused ||= rule === 'subprogram';
  }

  /** Only the place of a call is refused, and calls are objected to with their places. */
  count(): void {}

  step(step: Step): void {
    this.sink.step(step);
  }

  mark(kind: MarkKind, name: string): void {
    this.sink.mark(kind, name);
  }
}
