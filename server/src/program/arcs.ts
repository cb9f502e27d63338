/**
 * Geometry of arcs in a plane with coordinates (a, b), counter-clockwise from a
 * to b, by NISTIR 6556 §3.5.3. All lengths are in program units, X as a radius.
 * Knows no words and no machine.
 *
 * An arc is a record that is filled in and used again for the next one: numbers
 * handed from function to function are what a long program would make most
 * garbage of.
 */

export class Arc {
  startA = NaN;
  startB = NaN;
  endA = NaN;
  endB = NaN;
  isCounterclockwise = false;
  centreA = NaN;
  centreB = NaN;
  /** The distance of the centre from the start, and from the end. */
  radius = NaN;
  radiusAtEnd = NaN;
  /** Radians, positive counter-clockwise. A full turn when start and end are the same. */
  sweepRadians = NaN;
  /** Half the distance from start to end, once a radius has been tried. */
  halfChord = NaN;
}

/** Why an arc has no such radius. */
export type Refusal = 'sameEnds' | 'tooSmall';

/** Largest difference of the radii at start and end (NISTIR 6556 §3.5.3.2). */
export const arcTolerance = (units: 'mm' | 'inch'): number => (units === 'mm' ? 0.002 : 0.0002);

/** Whether the radii at both ends differ by more than is allowed. */
export function haveRadiiTooFarApart(arc: Arc, units: 'mm' | 'inch'): boolean {
  return Math.abs(arc.radius - arc.radiusAtEnd) > arcTolerance(units) + ROUNDING;
}

/** Fills in the radii that the centre gives at both ends; NaN where a coordinate is not known. */
export function measureRadii(arc: Arc): void {
  const { centreA, centreB } = arc;
  arc.radius = Math.sqrt((arc.startA - centreA) ** 2 + (arc.startB - centreB) ** 2);
  arc.radiusAtEnd = Math.sqrt((arc.endA - centreA) ** 2 + (arc.endB - centreB) ** 2);
}

/** What sums of increments may be off by rounding, in mm or inch; no control counts steps as small. */
const ROUNDING = 1e-9;

const isSame = (one: number, other: number): boolean => Math.abs(one - other) <= ROUNDING;

/** Fills in the sweep around the centre. Ends that differ by rounding only are one place. */
export function sweepAroundCentre(arc: Arc): void {
  const turn = arc.isCounterclockwise ? 2 * Math.PI : -2 * Math.PI;
  if (isSame(arc.startA, arc.endA) && isSame(arc.startB, arc.endB)) {
    arc.sweepRadians = turn;
    return;
  }
  const fromA = arc.startA - arc.centreA;
  const fromB = arc.startB - arc.centreB;
  const toA = arc.endA - arc.centreA;
  const toB = arc.endB - arc.centreB;
  const difference = Math.atan2(fromA * toB - fromB * toA, fromA * toA + fromB * toB);
  const isRightWay = arc.isCounterclockwise ? difference > 0 : difference < 0;
  arc.sweepRadians = isRightWay ? difference : difference + turn;
}

/**
 * Fills in centre and sweep of the arc with a radius; a negative one asks for the
 * arc of more than half a turn. A chord that is longer than the diameter by less
 * than `tolerance` is a half turn.
 */
export function findCentre(arc: Arc, radius: number, tolerance: number): Refusal | undefined {
  const chordA = arc.endA - arc.startA;
  const chordB = arc.endB - arc.startB;
  const halfChord = Math.sqrt(chordA * chordA + chordB * chordB) / 2;
  const size = Math.abs(radius);
  arc.halfChord = halfChord;
  if (halfChord <= ROUNDING) return 'sameEnds';
  if (halfChord > size + tolerance) return 'tooSmall';
  const height = Math.sqrt(Math.max(0, size * size - halfChord * halfChord));
  const side = arc.isCounterclockwise === radius > 0 ? 1 : -1;
  arc.centreA = arc.startA + chordA / 2 - (side * height * chordB) / (2 * halfChord);
  arc.centreB = arc.startB + chordB / 2 + (side * height * chordA) / (2 * halfChord);
  arc.radius = Math.max(size, halfChord);
  const short = 2 * Math.asin(Math.min(1, halfChord / size));
  const sweep = radius < 0 ? 2 * Math.PI - short : short;
  arc.sweepRadians = arc.isCounterclockwise ? sweep : -sweep;
  return undefined;
}

/**
 * Near a half turn or a full turn the centre of a radius form arc depends badly
 * on small errors: the report calls 0 to 165 and 195 to 345 degrees fine.
 */
export function isSensitive({ sweepRadians }: Arc): boolean {
  const degrees = Math.abs(sweepRadians) * (180 / Math.PI);
  const fine = degrees <= 165 || (degrees >= 195 && degrees <= 345);
  return !fine;
}
