import type { Hand } from '../trade/hands.ts';
import type { Bore } from './slot-cut.ts';

/** What a slotting stretch of a program is meant to make and with which insert. Lengths in mm. */
export interface SlotStretch {
  bore: Bore;
  /** Limits of the width, and the depth from the bore circle on the middle line. */
  leastWidth: number;
  greatestWidth: number;
  depth: number;
  /** C positions of the slots as the machine counts them, in degrees. */
  anglesDegrees: readonly number[];
  insertWidth: number;
  feedPerStroke: number;
  /** Only for a driven unit: its stroke with the sign of the cutting direction along Z, and its strokes for one drive revolution. */
  stroke?: { alongZ: number; perDriveTurn: number };
  /** 1: growing C turns the work right-handed about +Z. */
  workRotation: Hand;
  rapidPerMinute: number;
}
