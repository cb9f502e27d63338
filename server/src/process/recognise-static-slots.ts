/**
 * Recognises slots that the axes cut with a standing tool: while the work stands
 * and no tool is driven, Z strokes over the same way again and again, and X has
 * gone on by a small step in one direction before each stroke. Another C or Y
 * begins another slot or pass, which must be of the same kind.
 *
 * That the work stands must be said by the program, not only not be denied: the
 * spindle is under position control, or its stop stands before the strokes.
 */
import type { Dialect, ModalState, Move } from '../program/index.ts';
import { shown } from '../trade/quantity.ts';
import { axesMoved, isFeed, placesOf, workStands, type Place } from './moves-in-work.ts';
import type { Recognised, Recogniser } from './recognised.ts';

/** Fewer strokes or steps may be anything, and a shaving thicker than this is none. Common practice, no source. */
const leastStrokes = 5;
const leastSteps = 3;
const mostStepMm = 0.5;
const samePlaceMm = 1e-3;
const sameAngleDegrees = 1e-3;

/** The strokes at one C and Y. */
interface Slot {
  at: Place;
  radius: number;
  /** 1 while X steps away from zero, -1 toward it, 0 before the first step. */
  direction: number;
  steps: number;
  strokes: number;
}

export class StaticSlotRecogniser implements Recogniser {
  #slot: Slot | undefined;
  #slots = 0;
  #strokes = 0;
  #firstLine = 0;
  #lastLine = 0;
  #fromZ = NaN;
  #toZ = NaN;
  #largestStep = 0;

  /** `stateBefore` gives the state before a line; it is asked once. */
  constructor(private readonly dialect: Dialect, private readonly stateBefore: (line: number) => ModalState) {}

  take(move: Move): boolean {
    if (!isFeed(move)) return true;
    if (move.kind !== 'feed' || move.driven !== undefined || !workStands(move)) return false;
    const moved = axesMoved(move);
    if (moved === 'X' || moved === '') return true;
    return moved === 'Z' && this.#alongZ(move);
  }

  #alongZ(move: Move): boolean {
    const { from, to } = placesOf(move, this.dialect);
    if (this.#strokes === 0) this.#begin(move, from, to);
    const isBack = (to.z - from.z) * (this.#toZ - this.#fromZ) < 0;
    if (isBack) return true;
    if (!isSame(from.z, this.#fromZ) || !isSame(to.z, this.#toZ)) return false;
    this.#strokes += 1;
    this.#lastLine = move.line;
    return this.#stroke(from);
  }

  #begin(move: Move, from: Place, to: Place): void {
    this.#firstLine = move.line;
    this.#fromZ = from.z;
    this.#toZ = to.z;
  }

  #stroke(at: Place): boolean {
    const slot = this.#slot;
    if (slot && Math.abs(at.c - slot.at.c) < sameAngleDegrees && isSame(at.y, slot.at.y)) return this.#goOn(slot, at.radius);
    if (slot && !isWhole(slot)) return false;
    this.#slots += 1;
    this.#slot = { at, radius: at.radius, direction: 0, steps: 0, strokes: 1 };
    return !Number.isNaN(at.radius);
  }

  #goOn(slot: Slot, radius: number): boolean {
    const step = radius - slot.radius;
    slot.strokes += 1;
    slot.radius = radius;
    if (Math.abs(step) < samePlaceMm) return true;
    if (Math.abs(step) > mostStepMm + samePlaceMm || slot.direction * step < 0) return false;
    slot.direction = Math.sign(step);
    slot.steps += 1;
    this.#largestStep = Math.max(this.#largestStep, Math.abs(step));
    return true;
  }

  result(): Recognised | undefined {
    if (this.#slot === undefined || !isWhole(this.#slot) || !this.#isSaidToStand()) return undefined;
    return {
      kind: 'keyway', fromLine: this.#firstLine, toLine: this.#lastLine + 1,
      seen: [
        `${this.#strokes} strokes along Z, each from ${shown(this.#fromZ, 3)} to ${shown(this.#toZ, 3)} mm, while work and tool stand${this.#slots === 1 ? '' : `, at ${this.#slots} places of C and Y`}.`,
        `X goes on in one direction between them, by at most ${shown(this.#largestStep, 3)} mm.`,
      ],
    };
  }

  #isSaidToStand(): boolean {
    const state = this.stateBefore(this.#firstLine);
    return state.workAxis || state.subSpindle?.axis === true || state.lineOf('spindle') !== undefined;
  }
}

function isWhole({ strokes, steps }: Slot): boolean {
  return strokes >= leastStrokes && steps >= leastSteps;
}

function isSame(first: number, second: number): boolean {
  return Math.abs(first - second) < samePlaceMm;
}
