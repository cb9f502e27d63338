/**
 * The outside diameter that DIN 8002 (1955) gives a hob of a module: a first
 * guess for a tool that is not yet chosen. Turret hobs are often smaller, so the
 * diameter stays a free input everywhere else.
 */
import { inRange } from './domain.ts';

/** Millimetres. `module` in millimetres, over 0 up to 9: the next row of the scan cannot be read. */
export function usualHobDiameter(module: number): number {
  inRange('module', module, { over: 0, atMost: 9, reason: 'larger modules are not legible in the copy that was read' });
  const row = DIAMETER_BY_MODULE.find(([upTo]) => module <= upTo);
  return row?.[1] ?? NaN;
}

/** Module up to and including, outside diameter, both in millimetres. */
const DIAMETER_BY_MODULE: readonly (readonly [upTo: number, diameter: number])[] = [
  [1.4, 50], [1.8, 56], [2.24, 63], [2.8, 70], [3.55, 80], [4.5, 90], [5.6, 100], [7.1, 110], [9, 125],
];
