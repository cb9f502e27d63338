import type { Hand } from '../trade/hands.ts';
import type { Units } from '../trade/quantity.ts';
import type { Bore, InsertEdge } from './slot-cut.ts';

/** What a slotting stretch of a program is meant to make and with which insert. Lengths in mm, angles in degrees. */
export interface SlotStretch {
  /** Of the program; findings speak in them. */
  units?: Units;
  bore: Bore;
  form: SlotForm;
  /** C positions of the slots, or of the corners of a polygon, as the machine counts them. */
  anglesDegrees: readonly number[];
  edge: InsertEdge;
  feedPerStroke: number;
  /** Only for a driven unit: its stroke with the sign of the cutting direction along Z, and its strokes for one drive revolution. */
  stroke?: { alongZ: number; perDriveTurn: number };
  /** Only for a blind slot: Z of the wall at the end of its relief groove. */
  reliefWallZ?: number;
  /** 1: growing C turns the work right-handed about +Z. */
  workRotation: Hand;
  rapidPerMinute: number;
}

export type SlotForm = StraightSlot | PointedGroove | Polygon;

/** Limits of the width, and the depth from the bore circle on the middle line. */
export interface StraightSlot {
  kind: 'slot';
  leastWidth: number;
  greatestWidth: number;
  depth: number;
  /** How far the floor may be from a plane; left out where nobody asked. */
  flatness?: number;
}

export interface PointedGroove {
  kind: 'groove';
  includedAngleDegrees: number;
  depth: number;
  /** Half way down from the bore circle. */
  width: number;
}

/** As many sides as there are angles. */
export interface Polygon {
  kind: 'polygon';
  acrossFlats: number;
  /** How far a flat may be from a plane; left out where nobody asked. */
  flatness?: number;
}
