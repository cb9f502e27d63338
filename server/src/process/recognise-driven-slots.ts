/**
 * Recognises slots that a driven stroke unit cuts: while the tool is driven, the
 * only feeds are straight ones of X away from the axis, with Y, Z and C standing
 * and the work not turning, each over several strokes of the card's stroke unit
 * and each followed by a rapid back to where it began.
 *
 * Drilling and milling from outside feed X toward the axis, so they are no
 * slots. A slot on the outside of the work looks like drilling, and so it is not
 * recognised. Without a stroke unit in the machine card nothing is.
 */
import type { ToolUnit } from '../machine/card.ts';
import type { Dialect, Move } from '../program/index.ts';
import { shown } from '../trade/quantity.ts';
import { axesMoved, isFeed, placesOf, workStands } from './moves-in-work.ts';
import type { Recognised, Recogniser } from './recognised.ts';

type StrokeUnit = Extract<ToolUnit, { kind: 'stroke' }>;

/** Fewer strokes cut no slot, and a stroke that takes more is no stroke. Common practice, no source. */
const leastStrokes = 5;
const mostFeedPerStrokeMm = 0.5;
const samePlaceMm = 1e-3;

interface Plunge {
  startRadius: number;
  radius: number;
  strokes: number;
  line: number;
}

export class DrivenSlotRecogniser implements Recogniser {
  #open: Plunge | undefined;
  #count = 0;
  #firstLine = 0;
  #lastLine = 0;
  #deepest = 0;
  #mostPerStroke = 0;
  #rpm = NaN;

  constructor(private readonly unit: StrokeUnit, private readonly dialect: Dialect) {}

  take(move: Move): boolean {
    if (move.kind === 'dwell') return true;
    if (isFeed(move)) return this.#feed(move);
    return this.#open === undefined || this.#back(move, this.#open);
  }

  #feed(move: Move): boolean {
    const rpm = move.driven?.rpm;
    if (rpm === undefined || move.kind !== 'feed' || axesMoved(move) !== 'X' || !workStands(move)) return false;
    if (rpm * this.unit.ratio > (this.unit.maxStrokesPerMinute ?? Infinity)) return false;
    const { from, to } = placesOf(move, this.dialect);
    const isOutward = Math.abs(to.radius) > Math.abs(from.radius) && from.radius * to.radius >= 0;
    const strokes = ((move.seconds ?? NaN) / 60) * rpm * this.unit.ratio;
    if (!isOutward || Number.isNaN(strokes)) return false;
    this.#rpm = rpm;
    this.#open = { startRadius: this.#open?.startRadius ?? from.radius, radius: to.radius, strokes: (this.#open?.strokes ?? 0) + strokes, line: this.#open?.line ?? move.line };
    return true;
  }

  /** Back at rapid in X alone, at least to where the feed began. */
  #back(move: Move, plunge: Plunge): boolean {
    const { to } = placesOf(move, this.dialect);
    const depth = Math.abs(plunge.radius - plunge.startRadius);
    const isBack = axesMoved(move) === 'X' && (plunge.radius - to.radius) * Math.sign(plunge.radius - plunge.startRadius) >= depth - samePlaceMm;
    const perStroke = depth / plunge.strokes;
    if (!isBack || plunge.strokes < leastStrokes || perStroke > mostFeedPerStrokeMm) return false;
    if (this.#count === 0) this.#firstLine = plunge.line;
    this.#lastLine = move.line;
    this.#count += 1;
    this.#deepest = Math.max(this.#deepest, depth);
    this.#mostPerStroke = Math.max(this.#mostPerStroke, perStroke);
    this.#open = undefined;
    return true;
  }

  result(): Recognised | undefined {
    if (this.#count === 0 || this.#open !== undefined) return undefined;
    return {
      kind: 'keyway', fromLine: this.#firstLine, toLine: this.#lastLine + 1,
      seen: [
        `The tool is driven with ${shown(this.#rpm)} rev/min: ${shown(this.#rpm * this.unit.ratio, 1)} strokes a minute on the stroke unit of the card, ${this.unit.name}.`,
        `${this.#count === 1 ? 'One feed' : `${this.#count} feeds`} of X away from the axis with Y, Z and C standing, ${shown(this.#deepest, 3)} mm deep, ${shown(this.#mostPerStroke, 3)} mm a stroke, and rapid back.`,
      ],
    };
  }
}
