/**
 * Feeds that tell of the other feed mode, or of a point that is missing: faster
 * than the machine moves in rapid, as 120 a revolution are, or hardly any, as
 * 0.1 a minute is.
 *
 * It knows speeds of axes only where the dialect gives them, and judges at the
 * F word, before its line moves.
 */
import { letterIndex } from './block.ts';
import { type Execution, lettersThatMove } from './execution.ts';
import { MAIN_SPINDLE, turnedByFeed } from './feed.ts';
import { INCH_IN_MM, unitFactor, unitsInForce } from './inch.ts';
import * as r from './registers.ts';
import { shown } from './shown.ts';
import { spindleRpm, steadyRpm } from './timing.ts';

const F = letterIndex('F');
const X = letterIndex('X');
const PER_MINUTE = 94;
const PER_REVOLUTION = 95;
/** Less than this a revolution, mm, rubs and cuts nothing (own rule); fine chip loads are some ten times as much. */
const LEAST_PER_REVOLUTION = 0.0005;

export class FeedWatch {
  /** Letters that turn something: a feed beside them may count degrees. */
  readonly #rotaryLetters: number;
  readonly #linearLetters: number;

  private constructor(private readonly execution: Execution, private readonly fastest: number) {
    this.#rotaryLetters = lettersThatMove('ABC', execution.dialect);
    this.#linearLetters = lettersThatMove('XYZ', execution.dialect);
  }

  /** How fast a machine is, X and Z tell together: Y alone is no measure. Where the dialect says nothing of turning, its programs cost nothing. */
  static of(execution: Execution): FeedWatch | undefined {
    const { diameterProgramming, rapid, xFeedOnDiameter } = execution.dialect;
    const { x, y, z } = rapid ?? {};
    if (x !== undefined && z !== undefined) return new FeedWatch(execution, Math.max(x * (xFeedOnDiameter ? 2 : 1), y ?? 0, z));
    return diameterProgramming ? new FeedWatch(execution, Infinity) : undefined;
  }

  check(): void {
    const { block, row, dialect } = this.execution;
    if (!block.has(F) || block.hasOpenCodes || block.matches.length > 0 || (block.seen & this.#rotaryLetters) !== 0) return;
    const perMinute = row[r.FEED_MODE] === PER_MINUTE ? row[r.FEED]! : row[r.FEED_MODE] === PER_REVOLUTION ? row[r.FEED]! * this.#revolutions() : NaN;
    if (perMinute > this.fastest * unitFactor(row, dialect)) this.#object(perMinute);
    else if (row[r.FEED_MODE] === PER_MINUTE && perMinute > 0 && (block.seen & this.#linearLetters) !== 0) this.#checkLeast(perMinute);
  }

  #checkLeast(perMinute: number): void {
    const { row } = this.execution;
    const perRevolution = perMinute / this.#revolutions();
    if (perRevolution < LEAST_PER_REVOLUTION / (row[r.UNITS] === 20 ? INCH_IN_MM : 1)) this.#objectToLeast(perRevolution);
  }

  #objectToLeast(perRevolution: number): void {
    const { execution } = this;
    const units = unitsInForce(execution.row);
    execution.objectTo('feed-hardly-any', F, () => `${shown(execution.row[r.FEED]!)} ${units} a minute make ${perRevolution.toPrecision(2)} ${units} a revolution, which cuts nothing; the feed is per minute here.`);
  }

  /** Revolutions a minute that the feed counts, as for times; the least of the line where the speed changes along it. NaN where not known, and in the middle under constant cutting speed. */
  #revolutions(): number {
    const { row, dialect } = this.execution;
    const turned = turnedByFeed(row);
    if (turned !== MAIN_SPINDLE) return steadyRpm(turned, row, dialect);
    const rpm = spindleRpm(row, this.#greatestX(), dialect);
    return rpm === Infinity ? NaN : rpm;
  }

  #greatestX(): number {
    const { block, row } = this.execution;
    return block.has(X) && row[r.DISTANCE] === 90 ? Math.max(Math.abs(row[r.X]!), Math.abs(block.values[X]!)) : row[r.X]!;
  }

  #object(perMinute: number): void {
    const { execution } = this;
    const { row, dialect } = execution;
    const units = unitsInForce(row);
    const isPerRevolution = row[r.FEED_MODE] === PER_REVOLUTION;
    const much = isPerRevolution ? `${shown(row[r.FEED]!)} ${units} a revolution make ${shown(perMinute)} ${units} a minute` : `${shown(perMinute)} ${units} a minute`;
    execution.objectTo('feed-beyond-rapid', F, () => `${much}: faster than the machine moves in rapid, ${shown(this.fastest * unitFactor(row, dialect))} ${units} a minute at most.`);
  }
}
