/**
 * What is known about each piece of a program, kept up to date through edits.
 *
 * Each piece has the state at its start. After an edit only the touched pieces
 * are executed again, and those after them only until a piece starts with the
 * state that it had before: from there on nothing has changed. Work is done when
 * somebody asks, and no further than the place that was asked about.
 *
 * INVARIANT: a piece that has a state at its start, and is not in the list of
 * pieces to execute, has a result that was computed from that state and from its
 * present text.
 */
import type { Dialect } from './dialect.ts';
import { Interpreter } from './interpreter.ts';
import { type ParameterSnapshot, sameParameters } from './parameters.ts';
import { sameRegisters } from './registers.ts';
import { type PieceProblem, ProblemCounter, ProblemList } from './problems.ts';
import { lineEndInPiece, type Piece, type Splice, type TextStore } from './store.ts';

/** The state before a line. Never written to. */
export interface Checkpoint {
  readonly row: Float64Array;
  readonly parameters: ParameterSnapshot;
}

export interface PieceResult {
  /** Bits of the modal fields that the piece sets. */
  readonly touched: number;
  /** How often each rule is broken; undefined when none is. */
  readonly problemCounts: Uint16Array | undefined;
  /** The problems themselves, made when somebody reads them. */
  problems: readonly PieceProblem[] | undefined;
}

export class Analysis {
  readonly #interpreter: Interpreter;
  readonly #counter = new ProblemCounter();
  #entries: Array<Checkpoint | undefined>;
  #results: Array<PieceResult | undefined>;
  /** Pieces to execute, in order. */
  #open: number[] = [0];
  /** Lines executed since the beginning; for tests that count work instead of time. */
  linesExecuted = 0;

  constructor(private readonly store: TextStore, readonly dialect: Dialect) {
    this.#interpreter = new Interpreter(dialect);
    this.#entries = new Array<Checkpoint | undefined>(store.pieces.length);
    this.#results = new Array<PieceResult | undefined>(store.pieces.length);
    this.#entries[0] = this.#checkpoint();
  }

  /** Takes note of an edit of the store. */
  spliced({ first, removed, inserted }: Splice): void {
    const unknown = new Array<undefined>(inserted).fill(undefined);
    this.#results.splice(first, removed, ...unknown);
    this.#entries.splice(first + 1, removed - 1, ...unknown.slice(1));
    const shift = inserted - removed;
    const before = this.#open.filter((piece) => piece < first);
    const after = this.#open.filter((piece) => piece >= first + removed).map((piece) => piece + shift);
    this.#open = this.#entries[first] === undefined ? [...before, ...after] : [...before, first, ...after];
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

  result(piece: number): PieceResult {
    this.settle(piece + 1);
    return this.#results[piece]!;
  }

  /** The interpreter in the state before `row` of `piece`. Valid until the next call of any method. */
  interpreterAt(piece: number, row: number): Interpreter {
    this.settle(piece);
    const interpreter = this.#restore(piece);
    this.executeRows(this.store.pieces[piece]!, 0, row, this.#counter);
    this.#counter.clear();
    return interpreter;
  }

  /** Executes rows of a piece in the interpreter's present state. */
  executeRows(piece: Piece, from: number, to: number, sink: LineSink): void {
    const { source, lineStarts } = piece;
    for (let row = from; row < to; row++) {
      sink.row = row;
      this.#interpreter.execute(source, piece.from + lineStarts[row]!, lineEndInPiece(piece, row), sink);
    }
    this.linesExecuted += to - from;
  }

  /** The problems of a piece, in the order of its lines. */
  problems(index: number): readonly PieceProblem[] {
    const result = this.result(index);
    if (result.problemCounts === undefined) return [];
    return (result.problems ??= this.#collectProblems(index));
  }

  /** The row of the last line before `end` in the piece that sets one of the fields, or -1. */
  lastTouch(index: number, bits: number, end: number): number {
    this.settle(index);
    const interpreter = this.#restore(index);
    const piece = this.store.pieces[index]!;
    let found = -1;
    for (let row = 0; row < end; row++) {
      interpreter.touched = 0;
      this.executeRows(piece, row, row + 1, this.#counter);
      if ((interpreter.touched & bits) !== 0) found = row;
    }
    this.#counter.clear();
    return found;
  }

  #collectProblems(index: number): readonly PieceProblem[] {
    const piece = this.store.pieces[index]!;
    this.#restore(index);
    const list = new ProblemList(piece);
    this.executeRows(piece, 0, piece.lineStarts.length, list);
    return list.problems;
  }

  #settleNext(): void {
    const index = this.#open.shift()!;
    this.#results[index] = this.#execute(index);
    const next = index + 1;
    if (next >= this.#entries.length) return;
    const entry = this.#entries[next];
    if (entry !== undefined && this.#isCurrent(entry)) {
      if (this.#results[next] === undefined && this.#open[0] !== next) this.#open.unshift(next);
      return;
    }
    this.#entries[next] = this.#checkpoint();
    if (this.#open[0] !== next) this.#open.unshift(next);
  }

  #execute(index: number): PieceResult {
    const piece = this.store.pieces[index]!;
    const interpreter = this.#restore(index);
    interpreter.touched = 0;
    this.executeRows(piece, 0, piece.lineStarts.length, this.#counter);
    return { touched: interpreter.touched, problemCounts: this.#counter.take(), problems: undefined };
  }

  #restore(index: number): Interpreter {
    const entry = this.#entries[index]!;
    this.#interpreter.row.set(entry.row);
    this.#interpreter.parameters.restore(entry.parameters);
    return this.#interpreter;
  }

  #checkpoint(): Checkpoint {
    return { row: this.#interpreter.row.slice(), parameters: this.#interpreter.parameters.snapshot() };
  }

  #isCurrent(entry: Checkpoint): boolean {
    return sameRegisters(entry.row, this.#interpreter.row) && sameParameters(entry.parameters, this.#interpreter.parameters.snapshot());
  }
}

/** A sink that is told which row of a piece is being executed. */
export interface LineSink {
  row: number;
  problem: import('./block.ts').ProblemSink['problem'];
}
