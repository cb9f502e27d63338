/**
 * A helix cut with C and Z together. Lengths in one unit, angles in degrees.
 * Source: elementary, published.
 */
import { degrees } from './angles.ts';
import { positiveLength } from './domain.ts';

/** Turn of the work for a unit of length along the axis: 360 / lead. */
export function degreesPerLength(lead: number): number {
  return 360 / positiveLength('lead', lead);
}

/** Angle between the helix and the axis: atan(pi D / lead). */
export function helixAngleFromAxisDegrees(diameter: number, lead: number): number {
  return degrees(Math.atan((Math.PI * positiveLength('diameter', diameter)) / positiveLength('lead', lead)));
}

/** Length of the helix over a length along the axis. */
export function helixPathLength(diameter: number, lead: number, axialLength: number): number {
  const around = (Math.PI * positiveLength('diameter', diameter)) / positiveLength('lead', lead);
  return positiveLength('length', axialLength) * Math.hypot(1, around);
}
