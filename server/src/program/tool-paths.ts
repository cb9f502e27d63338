/**
 * Paths of the tool's centre, stretch by stretch, for programs on which somebody
 * keeps editing.
 *
 * What compensation makes of a move depends on the moves beside it, so a stretch
 * is executed from the last move before it to the first one behind it. What is
 * kept of a piece is a few numbers, and stands as long as all pieces that were
 * looked at have the results that they had: results are never changed, only
 * replaced (see `analysis.ts`).
 */
import type { Analysis } from './analysis.ts';
import { type CentrePath, centrePath, type CentreStep } from './compensation.ts';
import type { Dialect } from './dialect.ts';
import { INCH_IN_MM } from './inch.ts';
import { isCompensatedMove, movesInPlane } from './legs.ts';
import { type RecordedStep, StepRecorder } from './recorded-steps.ts';
import * as r from './registers.ts';
import type { RuleId } from './rules.ts';
import type { Step } from './step.ts';
import type { TextStore } from './store.ts';
import { KindSet, type PieceResult, problemKind, Sums } from './tally.ts';

/** What compensation changes in a piece. */
export interface PathSummary {
  /** What the rows with changes have more than the programmed path. */
  readonly differences: ReadonlyArray<{ readonly row: number; readonly sums: Sums }>;
  readonly counts: ReadonlyMap<RuleId, number>;
  readonly kinds: KindSet;
  /** Moves in the plane under G41 and G42, and those of them whose path is that of the centre. */
  readonly moves: number;
  readonly movesOfCentre: number;
}

interface Kept {
  readonly summary: PathSummary;
  /** Results of the pieces that were looked at, of which the piece itself is the one at `before`. */
  readonly results: readonly PieceResult[];
  readonly before: number;
}

interface Stretch {
  readonly path: CentrePath;
  readonly firstPiece: number;
  readonly lastPiece: number;
}

const FIRST_LOOK_BACK = 16;
/** So many times as long as reading a piece takes making its path. */
const COST_OF_PATH = 10;
const AXES_OFF_PATH = 0b111;
const noSummary: PathSummary = { differences: [], counts: new Map(), kinds: new KindSet(), moves: 0, movesOfCentre: 0 };

export class ToolPaths {
  readonly #kept = new WeakMap<PieceResult, Kept>();
  /** All pieces before it have been looked at since the last edit. */
  #next = 0;

  constructor(private readonly store: TextStore, private readonly analysis: Analysis, private readonly dialect: Dialect) {}

  /** Whether the machine gives diameters at all; without them every path is the programmed one. */
  get areKnown(): boolean {
    return this.dialect.toolDiameters !== undefined && this.dialect.toolDiameters.size > 0;
  }

  /** Whether lines of a piece may be made off the programmed path. */
  mayLeavePath(piece: number): boolean {
    if (this.analysis.registerBefore(piece, r.RADIUS_COMPENSATION) !== 40 || this.analysis.registerBefore(piece, r.OFF_PATH) !== 0) return true;
    return this.analysis.result(piece).hasBegunCompensation;
  }

  /** The path of rows of a piece, with lines of the whole program. */
  path(piece: number, fromRow: number, toRow: number): CentrePath {
    const firstLine = this.store.linesBefore(piece);
    return within(this.#stretch(piece, fromRow, toRow).path, firstLine + fromRow, firstLine + toRow);
  }

  /** Must be called after each edit. */
  edited(): void {
    this.#next = 0;
  }

  /** Looks at what is not known yet, in the time that reading about so many pieces takes; answers whether all is known. */
  advance(pieces: number): boolean {
    for (let left = pieces; left > 0 && this.#next < this.store.pieces.length; this.#next++) {
      if (!this.mayLeavePath(this.#next) || this.#keptOf(this.#next) !== undefined) continue;
      this.summary(this.#next);
      left -= COST_OF_PATH;
    }
    return this.#next >= this.store.pieces.length;
  }

  summary(piece: number): PathSummary {
    if (!this.mayLeavePath(piece)) return noSummary;
    const kept = this.#keptOf(piece);
    if (kept !== undefined) return kept.summary;
    const { path, firstPiece, lastPiece } = this.#stretch(piece, 0, this.store.pieces[piece]!.lineStarts.length);
    const firstLine = this.store.linesBefore(piece);
    const summary = this.#summaryOf(within(path, firstLine, firstLine + this.store.pieces[piece]!.lineStarts.length), firstLine);
    const results = Array.from({ length: lastPiece - firstPiece + 1 }, (_, index) => this.analysis.result(firstPiece + index));
    this.#kept.set(this.analysis.result(piece), { summary, results, before: piece - firstPiece });
    return summary;
  }

  #summaryOf({ steps, problems }: CentrePath, firstLine: number): PathSummary {
    const counts = new Map<RuleId, number>();
    const kinds = new KindSet();
    for (const { rule } of problems) {
      counts.set(rule, (counts.get(rule) ?? 0) + 1);
      kinds.add(problemKind(rule, 0));
    }
    return { differences: differencesOf(steps, firstLine), counts, kinds, ...countsOfMoves(steps) };
  }

  #keptOf(piece: number): Kept | undefined {
    const kept = this.#kept.get(this.analysis.result(piece));
    return kept !== undefined && this.#stands(kept, piece) ? kept : undefined;
  }

  #stands({ results, before }: Kept, piece: number): boolean {
    const first = piece - before;
    if (first < 0 || first + results.length > this.store.pieces.length) return false;
    return results.every((result, index) => this.analysis.result(first + index) === result);
  }

  #stretch(piece: number, fromRow: number, toRow: number): Stretch {
    const from = this.store.linesBefore(piece) + fromRow;
    const to = this.store.linesBefore(piece) + toRow;
    const before = this.#stepsBefore(from);
    const own = this.#record(from, to);
    const after = this.#stepsAfter(to);
    const lastPiece = this.store.pieceAtLine(Math.max(to, after.toLine) - 1);
    return { path: centrePath([...before.steps, ...own, ...after.steps], this.dialect), firstPiece: this.store.pieceAtLine(before.fromLine), lastPiece };
  }

  /** As much before a line as tells where the tool stands there. */
  #stepsBefore(line: number): { steps: readonly RecordedStep[]; fromLine: number } {
    for (let count = FIRST_LOOK_BACK, from = line; ; count *= 4) {
      const steps = this.#record(from, line, true);
      if (from === 0 || this.#isOnPath(from) || this.#tellsPlace(steps)) return { steps, fromLine: from };
      from = Math.max(0, line - count);
    }
  }

  #isOnPath(line: number): boolean {
    return line >= this.store.lineCount || (this.#rowBefore(line)[r.OFF_PATH]! & AXES_OFF_PATH) === 0;
  }

  /** Whether the last compensated move shows where it ends: only a first move needs to know where it begins. */
  #tellsPlace(steps: readonly RecordedStep[]): boolean {
    const last = steps.findLast(isCompensatedMove);
    return last !== undefined && ((last.row[r.OFF_PATH]! & r.FIRST_MOVE) === 0 || (last.row[r.OFF_PATH]! & AXES_OFF_PATH) === 0);
  }

  /** Up to the first move behind a line, as long as compensation stays on. */
  #stepsAfter(line: number): { steps: readonly RecordedStep[]; toLine: number } {
    let toLine = line;
    for (let count = 1; toLine < this.store.lineCount && this.#rowBefore(toLine)[r.RADIUS_COMPENSATION] !== 40; count *= 2) {
      const fromLine = toLine;
      toLine = Math.min(this.store.lineCount, fromLine + count);
      const steps = this.#record(fromLine, toLine, true);
      if (steps.some(movesInPlane)) return { steps, toLine };
    }
    return { steps: [], toLine };
  }

  #rowBefore(line: number): Float64Array {
    const piece = this.store.pieceAtLine(line);
    return this.analysis.executionAt(piece, line - this.store.linesBefore(piece)).row;
  }

  /** `onlyNeighbours`: without steps that leave the tool where it is in the plane, which neighbours of a stretch tell nothing by. */
  #record(fromLine: number, toLine: number, onlyNeighbours = false): readonly RecordedStep[] {
    const steps: RecordedStep[] = [];
    for (let line = fromLine; line < toLine;) {
      const piece = this.store.pieceAtLine(line);
      const firstLine = this.store.linesBefore(piece);
      const toRow = Math.min(toLine - firstLine, this.store.pieces[piece]!.lineStarts.length);
      const recorder = new StepRecorder(this.analysis.executionAt(piece, line - firstLine), firstLine, steps, onlyNeighbours ? tellsOfPlace : all);
      this.analysis.executeRows(piece, line - firstLine, toRow, recorder);
      line = firstLine + toRow;
    }
    return steps;
  }
}

const all = (): boolean => true;

/** Off compensation every axis may come back to its place. */
function tellsOfPlace(step: Step, row: Float64Array): boolean {
  return row[r.RADIUS_COMPENSATION] === 40 || movesInPlane({ step, row });
}

function within({ steps, problems }: CentrePath, fromLine: number, toLine: number): CentrePath {
  const isWithin = ({ line }: { line: number }): boolean => line >= fromLine && line < toLine;
  return { steps: steps.filter(isWithin), problems: problems.filter(isWithin) };
}

/** Rows that are made as programmed differ in nothing; lines outside the first program count for nothing. */
function differencesOf(steps: readonly CentreStep[], firstLine: number): PathSummary['differences'] {
  const byRow = new Map<number, Sums>();
  for (const { line, step, of, row, isCorner } of steps) {
    if (step === of.step || row[r.SECONDARY] === 1) continue;
    const sums = byRow.get(line - firstLine) ?? new Sums();
    const unitInMm = row[r.UNITS] === 20 ? INCH_IN_MM : 1;
    sums.addStep(step, unitInMm);
    if (!isCorner) sums.add(sumsOfStep(of, unitInMm), -1);
    byRow.set(line - firstLine, sums);
  }
  return [...byRow].map(([row, sums]) => ({ row, sums }));
}

function sumsOfStep({ step }: RecordedStep, unitInMm: number): Sums {
  const sums = new Sums();
  sums.addStep(step, unitInMm);
  return sums;
}

function countsOfMoves(steps: readonly CentreStep[]): Pick<PathSummary, 'moves' | 'movesOfCentre'> {
  const moves = steps.filter((step) => step.isCorner === undefined && step.row[r.SECONDARY] === 0 && isCompensatedMove(step.of));
  return { moves: moves.length, movesOfCentre: moves.filter(({ toolRadius }) => toolRadius !== undefined).length };
}
