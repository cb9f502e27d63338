/**
 * What the recognition of operations asks of a single move: which axes it moves,
 * where on the work it goes, and whether the work stands meanwhile. Lengths are
 * mm and X is a radius, whatever the program is written in. It knows no process.
 */
import type { Axis, Dialect, Move } from '../program/index.ts';
import { millimetresPerUnit } from '../trade/lengths.ts';

export interface Place {
  radius: number;
  y: number;
  z: number;
  /** Degrees, as programmed. */
  c: number;
}

/** Places that are not known yet are NaN, which agrees with nothing; Y and C, which a program may leave at zero, are 0. */
export function placesOf(move: Move, dialect: Dialect): { from: Place; to: Place } {
  return { from: placeOf(move.start, move, dialect), to: placeOf(move.end, move, dialect) };
}

function placeOf({ X = NaN, Y = 0, Z = NaN, C = 0 }: Move['start'], { units }: Move, { diameterProgramming }: Dialect): Place {
  const length = millimetresPerUnit(units);
  return { radius: X * (diameterProgramming ? length / 2 : length), y: Y * length, z: Z * length, c: C };
}

const allAxes: readonly Axis[] = ['A', 'B', 'C', 'U', 'V', 'W', 'X', 'Y', 'Z'];

/** The axes that a move changes, in the order of the alphabet, as one word such as "CX"; also those of which it is not known from where. */
export function axesMoved({ start, end }: Move): string {
  let moved = '';
  for (const axis of allAxes) {
    if (start[axis] !== end[axis]) moved += axis;
  }
  return moved;
}

/** Cuts at a feed; threads and arcs too, and a move that may be anything. */
export function isFeed({ kind }: Move): boolean {
  return kind !== 'rapid' && kind !== 'dwell';
}

/** Neither spindle turns the work, and work and tool are not coupled. */
export function workStands({ spindle, workAxis, subSpindle, coupled, sync }: Move): boolean {
  const mainTurns = spindle.direction !== 'stopped' && !workAxis;
  const subTurns = subSpindle !== undefined && subSpindle.direction !== 'stopped' && !subSpindle.axis;
  return !mainTurns && !subTurns && coupled === undefined && sync === undefined;
}
