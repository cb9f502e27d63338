/**
 * States within a piece of a program, some lines apart, so that the state at a
 * line is found by executing few lines again. Those of many pieces are in one
 * array, because an array for each state would cost more than what is in it.
 */
import type { ParameterSnapshot, Parameters } from './parameters.ts';
import { REGISTER_COUNT } from './registers.ts';

/** So many lines at most are executed again. */
export const ROWS_BETWEEN_RUNGS = 64;
/** The registers, and the seconds of the moves of the piece so far. */
const NUMBERS_OF_A_RUNG = REGISTER_COUNT + 1;
/** Few enough that a shelf with the ladder of one piece in use wastes little. */
const RUNGS_ON_A_SHELF = 256;

/** Where rungs are kept, those of many pieces in one array. */
export class RungShelf {
  #numbers = new Float64Array(0);
  #used = 0;

  /** An array with room for some rungs next to one another, and where they begin in it. */
  room(rungs: number): readonly [numbers: Float64Array, from: number] {
    const size = rungs * NUMBERS_OF_A_RUNG;
    if (this.#used + size > this.#numbers.length) this.#begin(size);
    const from = this.#used;
    this.#used += size;
    return [this.#numbers, from];
  }

  #begin(size: number): void {
    this.#numbers = new Float64Array(Math.max(size, RUNGS_ON_A_SHELF * NUMBERS_OF_A_RUNG));
    this.#used = 0;
  }
}

export class Ladder {
  readonly #numbers: Float64Array;
  readonly #from: number;
  readonly #parameters: ParameterSnapshot[] = [];

  /** For a piece of so many lines. */
  constructor(rows: number, shelf: RungShelf) {
    [this.#numbers, this.#from] = shelf.room(Math.max(0, Math.ceil(rows / ROWS_BETWEEN_RUNGS) - 1));
  }

  /** Keeps the state before the next multiple of the distance. */
  add(row: Float64Array, parameters: Parameters, seconds: number): void {
    const at = this.#placeOf(this.#parameters.length);
    this.#numbers.set(row, at);
    this.#numbers[at + REGISTER_COUNT] = seconds;
    this.#parameters.push(parameters.snapshot());
  }

  /** The number of the last rung at or before a row of the piece, -1 where the beginning of the piece is nearer. */
  below(row: number): number {
    return Math.min(Math.floor(row / ROWS_BETWEEN_RUNGS), this.#parameters.length) - 1;
  }

  rowOf(rung: number): number {
    return (rung + 1) * ROWS_BETWEEN_RUNGS;
  }

  registers(rung: number): Float64Array {
    const at = this.#placeOf(rung);
    return this.#numbers.subarray(at, at + REGISTER_COUNT);
  }

  parameters(rung: number): ParameterSnapshot {
    return this.#parameters[rung]!;
  }

  seconds(rung: number): number {
    return this.#numbers[this.#placeOf(rung) + REGISTER_COUNT]!;
  }

  #placeOf(rung: number): number {
    return this.#from + rung * NUMBERS_OF_A_RUNG;
  }
}
