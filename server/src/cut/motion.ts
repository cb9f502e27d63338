import type { Hand } from '../trade/hands.ts';

/**
 * How hob and work stand to each other from one instant to the next.
 *
 * Right-handed X, Y, Z with Z along the work axis, all lengths in mm and true
 * distances (never diameters), all angles in radians. The module knows no
 * program: whoever reads one turns its moves into these spans.
 *
 * The hob's rotation is positive when its teeth move toward +Z where they meet
 * the work. The work's rotation is positive by the right-hand rule about +Z.
 * The setting angle is positive when, seen from the hob toward the work with
 * +Z up, the hob axis is turned clockwise.
 */
export interface HobbingInstant {
  hobRadians: number;
  workRadians: number;
  /** Hob centre; x is negative for a hob on the -X side. */
  x: number;
  y: number;
  z: number;
}

/** A stretch of time in which every one of the five values changes in proportion to the hob's rotation or to time. */
export interface HobbingSpan {
  start: HobbingInstant;
  end: HobbingInstant;
  /** The line of the program that caused it. */
  line: number;
  rapid: boolean;
}

/** The side of the work on which the hob stands: +1 for +X. */
export function hobSideOf(span: HobbingSpan): Hand {
  return span.start.x + span.end.x >= 0 ? 1 : -1;
}

/** The same span turned half a turn about Z when the hob stands at -X, so that the cut need only know a hob at +X. */
export function seenFromPlusX(span: HobbingSpan): HobbingSpan {
  if (hobSideOf(span) === 1) return span;
  return { ...span, start: halfTurned(span.start), end: halfTurned(span.end) };
}

/** Whether nothing but the two rotations changes. */
export function isDwell(span: HobbingSpan): boolean {
  return span.start.x === span.end.x && span.start.y === span.end.y && span.start.z === span.end.z;
}

function halfTurned(instant: HobbingInstant): HobbingInstant {
  return { ...instant, x: -instant.x, y: -instant.y, workRadians: instant.workRadians + Math.PI };
}
