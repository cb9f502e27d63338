/**
 * What a move at feed needs beside its path. Knows no words: whoever asks says
 * which of them to object to.
 */
import * as r from './registers.ts';

const STOPPED = 5;

/** Whether nothing turns that a feed per revolution could count: spindles, the driven tool, or the work in step with it. */
export function nothingTurns(row: Float64Array): boolean {
  return row[r.SPINDLE] === STOPPED && row[r.DRIVEN_DIRECTION] === STOPPED && row[r.SYNC_PATTERN] === 0 && row[r.SUB_DIRECTION] === STOPPED && row[r.COUPLED] !== 1;
}
