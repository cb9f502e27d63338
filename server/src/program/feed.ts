/**
 * What a move at feed needs beside its path. Knows no words: whoever asks says
 * which of them to object to.
 */
import * as r from './registers.ts';
import { shown } from './shown.ts';

const INVERSE_TIME = 93;
const PER_REVOLUTION = 95;

/** Whether the F word in force was given as feed of the other kind, or as the lead of a thread: 0.2 a revolution is not 0.2 a minute. */
export function isFeedOfOtherMode(row: Float64Array): boolean {
  const given = row[r.FEED_MODE_OF_WORD]!;
  return given !== row[r.FEED_MODE] && row[r.FEED_MODE] !== INVERSE_TIME && !Number.isNaN(given) && !Number.isNaN(row[r.FEED]!);
}

/** Says what `isFeedOfOtherMode` finds. */
export function otherModeInWords(row: Float64Array): string {
  if (row[r.FEED_MODE_OF_WORD] === r.LEAD_OF_THREAD) return `the last F word, F${shown(row[r.FEED]!)}, was the lead of a thread; what a control makes of it as a feed is not settled.`;
  const [given, now] = row[r.FEED_MODE] === PER_REVOLUTION ? ['a minute', 'a revolution'] : ['a revolution', 'a minute'];
  return `the feed counts ${now} here, and the last F word, F${shown(row[r.FEED]!)}, was given ${given}; what a control makes of that is not settled.`;
}

/** What turns by the revolutions that a feed per revolution counts. */
export const WORK_IN_STEP = 1;
export const DRIVEN_TOOL = 2;
export const COUPLED_SPINDLES = 3;
export const SUB_SPINDLE = 4;
export const MAIN_SPINDLE = 5;
export const NOTHING = 0;

/**
 * In sync the work; with a driven tool running the tool; of coupled spindles both;
 * else the main spindle, or the sub-spindle while the main one stands (all but the
 * first common practice, no source).
 */
export function turnedByFeed(row: Float64Array): number {
  if (row[r.SYNC_PATTERN]! > 0) return WORK_IN_STEP;
  if (row[r.DRIVEN_DIRECTION] !== r.STOPPED) return DRIVEN_TOOL;
  if (row[r.COUPLED_SPEED]! > 0) return COUPLED_SPINDLES;
  if (row[r.SPINDLE] !== r.STOPPED) return MAIN_SPINDLE;
  return row[r.SUB_DIRECTION] === r.STOPPED ? NOTHING : SUB_SPINDLE;
}

/** Whether nothing turns that a feed per revolution could count: spindles, the driven tool, or the work in step with it. */
export function nothingTurns(row: Float64Array): boolean {
  return row[r.SPINDLE] === r.STOPPED && row[r.DRIVEN_DIRECTION] === r.STOPPED && row[r.SYNC_PATTERN] === 0 && row[r.SUB_DIRECTION] === r.STOPPED && row[r.COUPLED] !== 1;
}
