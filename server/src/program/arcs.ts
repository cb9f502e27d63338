/**
 * Geometry of arcs in a plane with coordinates (a, b), counter-clockwise from a
 * to b, by NISTIR 6556 §3.5.3. All lengths are in program units, X as a radius.
 * Knows no words and no machine.
 */

export interface Arc {
  readonly centreA: number;
  readonly centreB: number;
  readonly radius: number;
  /** Radians, positive counter-clockwise. A full turn when start and end are the same. */
  readonly sweepRadians: number;
}

export interface ArcEnds {
  readonly startA: number;
  readonly startB: number;
  readonly endA: number;
  readonly endB: number;
  readonly counterclockwise: boolean;
}

export type Refusal = { readonly refused: 'sameEnds' | 'tooSmall'; readonly halfChord: number };

/** Largest difference of the radii at start and end (NISTIR 6556 §3.5.3.2). */
export const arcTolerance = (units: 'mm' | 'inch'): number => (units === 'mm' ? 0.002 : 0.0002);

/** The radius that a centre gives at the start; NaN where a coordinate is not known. */
export function radiusAtStart(ends: ArcEnds, centreA: number, centreB: number): number {
  return distance(ends.startA - centreA, ends.startB - centreB);
}

/** The radius that a centre gives at the end; NaN where a coordinate is not known. */
export function radiusAtEnd(ends: ArcEnds, centreA: number, centreB: number): number {
  return distance(ends.endA - centreA, ends.endB - centreB);
}

/** The arc around a centre whose radii at both ends agree. */
export function arcAround(ends: ArcEnds, centreA: number, centreB: number): Arc {
  const radius = radiusAtStart(ends, centreA, centreB);
  return { centreA, centreB, radius, sweepRadians: sweepBetween(ends, centreA, centreB) };
}

/**
 * The arc with a known radius; a negative one asks for the arc of more than half
 * a turn. A chord that is longer than the diameter by less than `tolerance` is a
 * half turn.
 */
export function arcWithRadius(ends: ArcEnds, radius: number, tolerance: number): Arc | Refusal {
  const { startA, startB, endA, endB, counterclockwise } = ends;
  const chordA = endA - startA;
  const chordB = endB - startB;
  const halfChord = distance(chordA, chordB) / 2;
  if (halfChord === 0) return { refused: 'sameEnds', halfChord };
  const size = Math.abs(radius);
  if (halfChord > size + tolerance) return { refused: 'tooSmall', halfChord };
  const height = Math.sqrt(Math.max(0, size * size - halfChord * halfChord));
  const side = counterclockwise === radius > 0 ? 1 : -1;
  const centreA = startA + chordA / 2 - (side * height * chordB) / (2 * halfChord);
  const centreB = startB + chordB / 2 + (side * height * chordA) / (2 * halfChord);
  return { centreA, centreB, radius: Math.max(size, halfChord), sweepRadians: radiusSweep(ends, size, halfChord, radius < 0) };
}

/**
 * Near a half turn or a full turn the centre of a radius form arc depends badly
 * on small errors: the report calls 0 to 165 and 195 to 345 degrees fine.
 */
export function isSensitive(sweepRadians: number): boolean {
  const degrees = Math.abs(sweepRadians) * (180 / Math.PI);
  const fine = degrees <= 165 || (degrees >= 195 && degrees <= 345);
  return !fine;
}

function sweepBetween(ends: ArcEnds, centreA: number, centreB: number): number {
  const turn = ends.counterclockwise ? 2 * Math.PI : -2 * Math.PI;
  if (ends.startA === ends.endA && ends.startB === ends.endB) return turn;
  const from = Math.atan2(ends.startB - centreB, ends.startA - centreA);
  const to = Math.atan2(ends.endB - centreB, ends.endA - centreA);
  const difference = to - from;
  const isRightWay = ends.counterclockwise ? difference > 0 : difference < 0;
  return isRightWay ? difference : difference + turn;
}

function radiusSweep(ends: ArcEnds, size: number, halfChord: number, long: boolean): number {
  const short = 2 * Math.asin(Math.min(1, halfChord / size));
  const sweep = long ? 2 * Math.PI - short : short;
  return ends.counterclockwise ? sweep : -sweep;
}

/** Much faster than `Math.hypot`; coordinates of programs are far from overflow. */
function distance(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}
