/**
 * Room for rows of registers that are kept, many to an array: an array of its own for
 * each piece of a long program is most of what keeping them costs.
 */
import { REGISTER_COUNT } from './registers.ts';

/** Few enough that a shelf with one row in use wastes little. */
const ROWS_ON_A_SHELF = 64;

export class RowShelf {
  #shelf = new Float64Array(0);
  #next = 0;

  /** Room for one more row. */
  next(): Float64Array {
    if (this.#next === this.#shelf.length) this.#begin();
    return this.#shelf.subarray(this.#next, (this.#next += REGISTER_COUNT));
  }

  #begin(): void {
    this.#shelf = new Float64Array(ROWS_ON_A_SHELF * REGISTER_COUNT);
    this.#next = 0;
  }
}
