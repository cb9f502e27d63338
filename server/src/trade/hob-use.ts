/**
 * How a hob is used up along its length: the shortest that will do, where to
 * begin, where to end, and the shifts in between with what Y, Z and the work
 * must do for each. It knows no wear: how far to shift is the user's choice.
 */
import { inRange } from './domain.ts';
import type { Gear } from './gear.ts';
import { generatingLength } from './generating-length.ts';
import type { Hand } from './hands.ts';
import type { Hob } from './hob.ts';
import { hobRotationSense, shiftParts, type HobbingSenses, type ShiftParts } from './hobbing-law.ts';
import { OutOfRange } from './quantity.ts';

export interface HobUse {
  /** From the leading end to the pitch point at the start: l_e + m_n. */
  readonly startFromLeadingEnd: number;
  /** From the trailing end to the pitch point at the last position: l_P0 / 2 + 2 m_n. */
  readonly lastFromTrailingEnd: number;
  /** l_e + l_P0 / 2, without any margin. */
  readonly shortestLength: number;
  /** The end at which cutting begins: +1 the +Y end of the hob, -1 the other. */
  readonly leadingEnd: Hand;
}

export interface ShiftPosition extends ShiftParts {
  /** Where the middle of the hob stands, along its axis toward the +Y end, with the pitch point at 0. */
  readonly shift: number;
}

/** Margins at the ends in modules: one to start, two to finish (technical articles on hob position). */
export const START_MARGIN_FACTOR = 1;
export const FINISH_MARGIN_FACTOR = 2;

/** Fine shifts of each part, mm, from memory. A coarse shift is one axial pitch. */
export const FINE_SHIFT_RANGE_MM = { least: 0.1, most: 1 } as const;

export function hobUse(gear: Gear, hob: Hob, climb: boolean, feedDirectionZ: Hand, senses: HobbingSenses): HobUse {
  const zone = generatingLength(gear, hob);
  return {
    startFromLeadingEnd: zone.entrySide + START_MARGIN_FACTOR * gear.normalModule,
    lastFromTrailingEnd: zone.length / 2 + FINISH_MARGIN_FACTOR * gear.normalModule,
    shortestLength: zone.entrySide + zone.length / 2,
    leadingEnd: leadingEnd(hob, climb, feedDirectionZ, senses.hobSide),
  };
}

/**
 * The end of the hob that meets the uncut blank. At the contact the work runs
 * along Y with the sense of -s_h theta, whatever the side of the hob, and what
 * comes in is uncut: so the leading end is where the teeth come from.
 */
export function leadingEnd(hob: Hob, climb: boolean, feedDirectionZ: Hand, hobSide: Hand): Hand {
  return (hob.hand * hobRotationSense(climb, feedDirectionZ, hobSide)) as Hand;
}

/** l_3 - l_e - l_P0 / 2 - 3 m_n. Throws `OutOfRange` for a hob that is too short even for one position. */
export function usableShift(use: HobUse, hobLength: number): number {
  const needed = use.startFromLeadingEnd + use.lastFromTrailingEnd;
  inRange('hobLength', hobLength, { atLeast: needed, atMost: 1e5, reason: 'entry, generating zone and margins must find room on the hob' });
  return hobLength - needed;
}

/** Distance along the axis from one gash to the next on the same start: a shift that puts the next edge in place. */
export const gashStep = (hob: Hob): number => (hob.starts * hob.axialPitch) / hob.gashes;

/**
 * All positions from the start to the end of the usable length, `increment`
 * apart, each with its parts in Y, Z and work rotation.
 */
export function shiftPositions(
  gear: Gear,
  hob: Hob,
  senses: HobbingSenses,
  use: HobUse,
  lengths: { readonly hobLength: number; readonly increment: number },
): ShiftPosition[] {
  const usable = usableShift(use, lengths.hobLength);
  inRange('increment', lengths.increment, { over: 0, atMost: 1e5 });
  const count = Math.floor(usable / lengths.increment + 1e-9) + 1;
  if (count > MOST_POSITIONS) throw new OutOfRange('increment', lengths.increment, `at least ${usable / MOST_POSITIONS}`);
  const start = -use.leadingEnd * (lengths.hobLength / 2 - use.startFromLeadingEnd);
  return Array.from({ length: count }, (_, index) => {
    const shift = start + use.leadingEnd * index * lengths.increment;
    return { shift, ...shiftParts(gear, hob, senses, shift) };
  });
}

const MOST_POSITIONS = 100_000;
