/**
 * Everything a program has said so far, as one row of numbers.
 *
 * A row is copied at checkpoints and compared to see whether an edit still
 * matters, so it holds nothing that depends on where in the file a line stands:
 * which line set a value is found by looking back, never stored. NaN means "not
 * known". Parameters are kept beside the row because there may be thousands.
 */
import type { Dialect } from './dialect.ts';

/** The linear and rotary axes in the order of their registers. */
export const AXES = 'XYZABCUVW';
export const AXIS_COUNT = 9;

export const X = 0;
export const Y = 1;
export const Z = 2;
export const C = 5;
/** 0 to 8 are the programmed positions of AXES. */
export const UNITS = 9;
export const PLANE = 10;
export const DISTANCE = 11;
export const FEED_MODE = 12;
export const SPEED_MODE = 13;
export const SPEED_LIMIT = 14;
export const MOTION = 15;
export const TOOL = 16;
export const SELECTED_TOOL = 17;
export const FEED = 18;
export const SPEED = 19;
export const SPINDLE = 20;
/** Sum of 1 for M07, 2 for M08, 4 for M50, 8 for M51. */
export const COOLANT = 21;
export const RADIUS_COMPENSATION = 22;
export const RADIUS_NUMBER = 23;
export const LENGTH_COMPENSATION = 24;
export const LENGTH_NUMBER = 25;
export const WORK_OFFSET = 26;
export const RETURN_LEVEL = 27;
export const PATH_MODE = 28;
export const OVERRIDES = 29;
export const WORK_AXIS = 30;
export const DRIVEN_DIRECTION = 31;
export const DRIVEN_SPEED = 32;
/** Number of the syncOn pattern in the dialect plus one; 0 when not in sync. */
export const SYNC_PATTERN = 33;
/** First of the captured numbers of the sync words. */
export const SYNC_SLOTS = 34;
export const SYNC_SLOT_COUNT = 8;
/** The words of a cycle that stay in force within a run of cycles. */
export const CYCLE_RETRACT = 42;
export const CYCLE_DEPTH = 43;
export const CYCLE_DWELL = 44;
export const CYCLE_PECK = 45;
/** Offsets I, J, K of the G87 cycle. */
export const CYCLE_OFFSETS = 46;
/** 0 running, 1 after the program's end, 2 after the closing percent sign. */
export const ENDED = 50;
/** 0 nothing read, 1 the first line was no percent sign, 2 it was. */
export const OPENING = 51;
/** Offsets of G92, one for each axis. */
export const AXIS_OFFSETS = 52;
/** Bits of letters that have been written with and without a point, where a fixed format makes that matter. */
export const POINTED_LETTERS = 61;
export const POINTLESS_LETTERS = 49;
/** 1 in what follows the end of the first program: subprograms, which run only where they are called. */
export const SECONDARY = 62;
/** The offset in force and the one that the next tool change brings, where T words hold both. */
export const TOOL_OFFSET = 63;
export const SELECTED_OFFSET = 64;
export const SUB_DIRECTION = 65;
export const SUB_SPEED = 66;
/** 1 while the sub-spindle is an axis. */
export const SUB_AXIS = 67;
/** 1 while both spindles run coupled, and their speed. */
export const COUPLED = 68;
export const COUPLED_SPEED = 69;
/**
 * Bits of the axes, 1 for X, 2 for Y and 4 for Z, that stand off their programmed places by the radius of the
 * tool, and FIRST_MOVE between G41 or G42 and the first move in the plane.
 */
export const OFF_PATH = 70;
/** Bits of the spindles that turned while they were coupled and that no word of their own has stopped since. */
export const CARRIED_ALONG = 71;
/** The F word that counts again when inverse time feed ends. */
export const FEED_BEFORE_INVERSE_TIME = 72;
/** The feed mode in which the F word in force was given: 94 or 95, or LEAD_OF_THREAD; NaN where there is none. */
export const FEED_MODE_OF_WORD = 73;
/** Bits of the spindles whose axes are clamped. */
export const CLAMPED = 74;
/** Bits of the spindles whose chucks words have opened and none has closed since. */
export const OPEN_CHUCKS = 75;
export const REGISTER_COUNT = 76;

/** In OFF_PATH. */
export const FIRST_MOVE = 8;

/** In FEED_MODE_OF_WORD: the word stood on the line of a thread. */
export const LEAD_OF_THREAD = 33;

/** In CARRIED_ALONG, CLAMPED and OPEN_CHUCKS. */
export const MAIN_SPINDLE = 1;
export const SUB_SPINDLE = 2;

/** In SPINDLE, DRIVEN_DIRECTION and SUB_DIRECTION, beside 3 and 4. */
export const STOPPED = 5;

export const RUNNING = 0;
export const AFTER_END = 1;
export const AFTER_PERCENT = 2;

/** In FEED and RADIUS_NUMBER: no such word yet, which is not the same as one whose value is not known. */
export const NEVER = -1;

/** The row before the first line. Modes are those that NISTIR 6556 §3.6.1 restores at a program's end. */
export function startRegisters(dialect: Dialect): Float64Array {
  const row = new Float64Array(REGISTER_COUNT).fill(NaN, 0, AXIS_COUNT);
  const start = dialect.start ?? {};
  row[UNITS] = dialect.units === 'inch' ? 20 : 21;
  row[PLANE] = start.plane ?? 17;
  row[DISTANCE] = 90;
  row[FEED_MODE] = start.feedMode === 'perRevolution' ? 95 : 94;
  row[SPEED_MODE] = 97;
  row[RADIUS_COMPENSATION] = 40;
  row[LENGTH_COMPENSATION] = 49;
  row[WORK_OFFSET] = 54;
  row[OVERRIDES] = 48;
  row[SPINDLE] = STOPPED;
  row[DRIVEN_DIRECTION] = STOPPED;
  row[SUB_DIRECTION] = STOPPED;
  row[FEED] = NEVER;
  for (const register of UNKNOWN_AT_START) row[register] = NaN;
  if (start.returnLevel !== undefined) row[RETURN_LEVEL] = start.returnLevel === 'initial' ? 98 : 99;
  for (const [axis, value] of Object.entries(start.position ?? {})) row[AXES.indexOf(axis)] = value;
  return row;
}

const UNKNOWN_AT_START = [
  SPEED_LIMIT, MOTION, TOOL, SELECTED_TOOL, SPEED, RADIUS_NUMBER, LENGTH_NUMBER, RETURN_LEVEL, PATH_MODE, DRIVEN_SPEED,
  TOOL_OFFSET, SELECTED_OFFSET, FEED_MODE_OF_WORD, SUB_SPEED, COUPLED_SPEED,
  CYCLE_RETRACT, CYCLE_DEPTH, CYCLE_DWELL, CYCLE_PECK, CYCLE_OFFSETS, CYCLE_OFFSETS + 1, CYCLE_OFFSETS + 2,
];

/** NaN equals NaN; anything else compares as a number. */
export function sameRegisters(a: Float64Array, b: Float64Array): boolean {
  for (let register = 0; register < REGISTER_COUNT; register++) {
    const left = a[register]!;
    const right = b[register]!;
    if (left !== right && (left === left || right === right)) return false;
  }
  return true;
}
