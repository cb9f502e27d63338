/**
 * What a tool does on the work while the work turns under it by C: the lead of a
 * helix along Z, the arc around a cylinder, the spiral on a face. Lengths in one
 * unit, angles in degrees. Knows no words.
 */
import { radians } from './angles.ts';

/** A straight move of the tool with an even turn of the work. */
export interface TurnedMove {
  readonly fromRadius: number;
  readonly toRadius: number;
  readonly axialLength: number;
  readonly turnDegrees: number;
}

/** Axial way for one turn: 360 z / C. NaN where nothing turns. */
export function leadOfTurn(axialLength: number, turnDegrees: number): number {
  return turnDegrees === 0 ? NaN : (360 * Math.abs(axialLength)) / Math.abs(turnDegrees);
}

/** Length of the way over the surface: the integral of sqrt(dr² + dz² + (r dC)²), in closed form. */
export function pathOnTurningWork({ fromRadius, toRadius, axialLength, turnDegrees }: TurnedMove): number {
  const turn = radians(turnDegrees);
  const straight = Math.hypot(toRadius - fromRadius, axialLength);
  const [from, to] = [fromRadius * turn, toRadius * turn];
  if (Math.abs(to - from) <= SMALL * Math.max(Math.abs(from), Math.abs(to))) return Math.hypot(straight, (from + to) / 2);
  return (antiderivative(to, straight) - antiderivative(from, straight)) / (to - from);
}

/** Below this share of the radius the difference in the closed form would be mostly rounding. */
const SMALL = 1e-5;

/** Of sqrt(a² + u²). */
function antiderivative(u: number, a: number): number {
  return (u * Math.hypot(a, u) + a * a * Math.asinh(u / a)) / 2;
}
