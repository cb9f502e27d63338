/**
 * States within a piece of a program, some lines apart, so that the state at a
 * line is found by executing few lines again. All of a piece's are in one array,
 * because there are many pieces and an object for each state would cost more than
 * what is in it.
 */
import type { ParameterSnapshot, Parameters } from './parameters.ts';
import { REGISTER_COUNT } from './registers.ts';

/** So many lines at most are executed again. */
export const ROWS_BETWEEN_RUNGS = 64;
/** The registers, and the seconds of the moves of the piece so far. */
const NUMBERS_OF_A_RUNG = REGISTER_COUNT + 1;

export class Ladder {
  readonly #numbers: Float64Array;
  readonly #parameters: ParameterSnapshot[] = [];

  /** For a piece of so many lines. */
  constructor(rows: number) {
    this.#numbers = new Float64Array(Math.max(0, Math.ceil(rows / ROWS_BETWEEN_RUNGS) - 1) * NUMBERS_OF_A_RUNG);
  }

  /** Keeps the state before the next multiple of the distance. */
  add(row: Float64Array, parameters: Parameters, seconds: number): void {
    const at = this.#parameters.length * NUMBERS_OF_A_RUNG;
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
    return this.#numbers.subarray(rung * NUMBERS_OF_A_RUNG, rung * NUMBERS_OF_A_RUNG + REGISTER_COUNT);
  }

  parameters(rung: number): ParameterSnapshot {
    return this.#parameters[rung]!;
  }

  seconds(rung: number): number {
    return this.#numbers[rung * NUMBERS_OF_A_RUNG + REGISTER_COUNT]!;
  }
}
