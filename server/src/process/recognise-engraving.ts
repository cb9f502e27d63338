/**
 * Recognises engraving: a tool driven at an engraver's speed goes down, draws
 * short lines at one shallow depth, and comes up again, several times, while the
 * work does not turn by itself. The lines lie on a face (X with Y or C) or on a
 * cylinder (Z with Y or C), and do not all run the same way, as the slots of a
 * pattern would.
 *
 * What is one deep outline, drilling, milling at several depths or under tool
 * radius compensation is no engraving; nor is a sign of one or two strokes,
 * which could be anything.
 */
import type { MachineCard } from '../machine/card.ts';
import type { Dialect, ModalState, Move } from '../program/index.ts';
import { millimetresPerUnit } from '../trade/lengths.ts';
import { shown } from '../trade/quantity.ts';
import { engraverSpeedInWords } from './engraver-speed.ts';
import { axesMoved, isFeed, placesOf, workStands, type Place } from './moves-in-work.ts';
import type { Recognised, Recogniser } from './recognised.ts';

/** All common practice, no source. */
const leastStrokes = 3;
const leastLines = 6;
const leastDirections = 2;
const longestLineMm = 20;
/** From the place of approach to the depth of the letters. */
const mostDropMm = 2.5;

const samePlaceMm = 1e-3;
const directionBinDegrees = 10;

/** The axis along which the tool goes down, where its lines lie, and from which side it comes. */
interface Depth {
  axis: 'Z' | 'X';
  at: number;
  approach: number;
}

export class EngravingRecogniser implements Recogniser {
  #depth: Depth | undefined;
  #isDown = false;
  #drop = 0;
  #strokes = 0;
  #lines = 0;
  #longest = 0;
  readonly #directions = new Set<number>();
  #firstLine = 0;
  #lastLine = 0;
  #rpm = NaN;

  constructor(private readonly card: MachineCard, private readonly dialect: Dialect, private readonly stateBefore: (line: number) => ModalState) {}

  take(move: Move): boolean {
    if (move.kind === 'dwell') return true;
    if (isFeed(move) && !this.#isDriven(move)) return false;
    if (this.#depth && this.#isDown) return this.#whileDown(move, this.#depth);
    return !isFeed(move) || this.#plunge(move);
  }

  #isDriven(move: Move): boolean {
    const rpm = move.driven?.rpm;
    if (rpm === undefined || !workStands(move) || engraverSpeedInWords(rpm, this.card) === undefined) return false;
    this.#rpm = rpm;
    return true;
  }

  #plunge(move: Move): boolean {
    const axis = axesMoved(move);
    if (move.kind !== 'feed' || (axis !== 'Z' && axis !== 'X')) return false;
    const { from, to } = placesOf(move, this.dialect);
    const drop = along(axis, from) - along(axis, to);
    if (!(Math.abs(drop) <= mostDropMm) || !this.#isAtDepth({ axis, at: along(axis, to), approach: Math.sign(drop) })) return false;
    if (this.#strokes === 0) this.#firstLine = move.line;
    this.#drop = Math.max(this.#drop, Math.abs(drop));
    this.#isDown = true;
    return true;
  }

  #isAtDepth(depth: Depth): boolean {
    this.#depth ??= depth;
    return this.#depth.axis === depth.axis && this.#depth.approach === depth.approach && Math.abs(this.#depth.at - depth.at) < samePlaceMm;
  }

  #whileDown(move: Move, depth: Depth): boolean {
    const axes = axesMoved(move);
    if (axes === '') return true;
    return axes === depth.axis ? this.#up(move, depth) : this.#draw(move, axes, depth.axis);
  }

  /** Off the work again, the way that the tool came. */
  #up(move: Move, { axis, at, approach }: Depth): boolean {
    const { to } = placesOf(move, this.dialect);
    this.#isDown = false;
    this.#strokes += 1;
    this.#lastLine = move.line;
    return (along(axis, to) - at) * approach > 0;
  }

  #draw(move: Move, axes: string, down: 'Z' | 'X'): boolean {
    if ((move.kind !== 'feed' && move.kind !== 'arc') || axes.includes(down) || !/^[XYZC]+$/.test(axes)) return false;
    const { across, around } = lineOn(down, placesOf(move, this.dialect));
    const length = Math.max(Math.hypot(across, around), (move.length ?? NaN) * millimetresPerUnit(move.units));
    if (!(length <= longestLineMm)) return false;
    this.#lines += 1;
    this.#longest = Math.max(this.#longest, length);
    this.#directions.add(directionOf(across, around));
    return true;
  }

  result(): Recognised | undefined {
    const depth = this.#depth;
    if (!depth || this.#isDown || this.#strokes < leastStrokes || this.#lines < leastLines || this.#directions.size < leastDirections) return undefined;
    if (this.stateBefore(this.#lastLine).compensation.side !== 'off') return undefined;
    return {
      kind: 'engraving', fromLine: this.#firstLine, toLine: this.#lastLine + 1,
      seen: [
        `The tool is driven with ${shown(this.#rpm)} rev/min, ${engraverSpeedInWords(this.#rpm, this.card) ?? ''}.`,
        `${this.#strokes} strokes of ${this.#lines} lines, none longer than ${shown(this.#longest, 3)} mm, all at ${depth.axis === 'Z' ? 'Z' : 'a radius of'} ${shown(depth.at, 3)} mm, at most ${shown(this.#drop, 3)} mm below where they are approached.`,
      ],
    };
  }
}

function along(axis: 'Z' | 'X', { radius, z }: Place): number {
  return axis === 'Z' ? z : radius;
}

/** A line on the face or the cylinder, laid out flat. */
function lineOn(down: 'Z' | 'X', { from, to }: { from: Place; to: Place }): { across: number; around: number } {
  const turned = ((to.c - from.c) * Math.PI) / 180 * Math.abs(from.radius);
  return { across: down === 'Z' ? to.radius - from.radius : to.z - from.z, around: to.y - from.y + turned };
}

/** One of some directions, without regard to which end comes first. */
function directionOf(across: number, around: number): number {
  const bins = 180 / directionBinDegrees;
  const bin = Math.round((Math.atan2(around, across) * 180) / Math.PI / directionBinDegrees);
  return ((bin % bins) + bins) % bins;
}
