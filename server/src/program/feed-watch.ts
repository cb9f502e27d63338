/**
 * Feeds faster than the machine moves in rapid: a feed a minute that was meant,
 * and a feed a revolution that is in force, or a point that is missing.
 *
 * It knows speeds of axes only where the dialect gives them, and judges at the
 * F word, before its line moves.
 */
import { letterIndex } from './block.ts';
import { AXIS_LETTERS, type Execution } from './execution.ts';
import { unitFactor } from './inch.ts';
import * as r from './registers.ts';
import { shown } from './shown.ts';
import { spindleRpm, syncRatio } from './timing.ts';

const F = letterIndex('F');
const X = letterIndex('X');
const STOPPED = 5;
const PER_MINUTE = 94;
const PER_REVOLUTION = 95;
const ROTARY = [3, 4, 5].reduce((mask, axis) => mask | (1 << AXIS_LETTERS[axis]!), 0);

export class FeedWatch {
  /** Letters that turn something: a feed beside them may count degrees. */
  readonly #rotaryLetters: number;

  private constructor(private readonly execution: Execution, private readonly fastest: number) {
    this.#rotaryLetters = Object.entries(execution.dialect.incrementalAxes).reduce((mask, [letter, axis]) => ('ABC'.includes(axis) ? mask | (1 << letterIndex(letter)) : mask), ROTARY);
  }

  /** Undefined where it is not known how fast X and Z go: Y alone is no measure. */
  static of(execution: Execution): FeedWatch | undefined {
    const { x, y, z } = execution.dialect.rapid ?? {};
    return x === undefined || z === undefined ? undefined : new FeedWatch(execution, Math.max(x, y ?? 0, z));
  }

  check(): void {
    const { block, row, dialect } = this.execution;
    if (!block.has(F) || block.hasOpenCodes || block.matches.length > 0 || (block.seen & this.#rotaryLetters) !== 0) return;
    const perMinute = row[r.FEED_MODE] === PER_MINUTE ? row[r.FEED]! : row[r.FEED_MODE] === PER_REVOLUTION ? row[r.FEED]! * this.#revolutions() : NaN;
    if (perMinute > this.fastest * unitFactor(row, dialect)) this.#object(perMinute);
  }

  /** Revolutions a minute that the feed counts, as for times; the least of the line where the speed changes along it. */
  #revolutions(): number {
    const { row, dialect } = this.execution;
    if (row[r.SYNC_PATTERN]! > 0) return row[r.DRIVEN_SPEED]! * syncRatio(row, dialect);
    if (row[r.DRIVEN_DIRECTION] !== STOPPED) return row[r.DRIVEN_SPEED]!;
    if (row[r.COUPLED_SPEED]! > 0) return row[r.COUPLED_SPEED]!;
    if (row[r.SPINDLE] === STOPPED) return row[r.SUB_DIRECTION] === STOPPED ? NaN : row[r.SUB_SPEED]!;
    return spindleRpm(row, this.#greatestX(), dialect);
  }

  #greatestX(): number {
    const { block, row } = this.execution;
    return block.has(X) && row[r.DISTANCE] === 90 ? Math.max(Math.abs(row[r.X]!), Math.abs(block.values[X]!)) : row[r.X]!;
  }

  #object(perMinute: number): void {
    const { execution } = this;
    const { row, dialect } = execution;
    const units = row[r.UNITS] === 20 ? 'inch' : 'mm';
    const isPerRevolution = row[r.FEED_MODE] === PER_REVOLUTION;
    const much = isPerRevolution ? `${shown(row[r.FEED]!)} ${units} a revolution make ${shown(perMinute)} ${units} a minute` : `${shown(perMinute)} ${units} a minute`;
    execution.objectTo('feed-beyond-rapid', F, () => `${much}: faster than the machine moves in rapid, ${shown(this.fastest * unitFactor(row, dialect))} ${units} a minute at most.`);
  }
}
