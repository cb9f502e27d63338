/**
 * The flatness that is asked of a floor or of flats cut in passes of one insert.
 * All passes end in one plane, so what remains is how the edge itself stands: it
 * leaves its lean over its own length, however many passes there are.
 */
import { radians } from '../trade/angles.ts';
import { edgeTiltFigure } from '../trade/slotting-figures.ts';
import { shown, type Quantity } from '../trade/quantity.ts';
import type { Fields } from './fields.ts';
import type { Problem, Setting } from './process.ts';

export const flatnessField = {
  FLATNESS: { kind: 'number', label: 'Flatness', dimension: 'length', above: 0, most: 10, optional: true, absent: 'not stated', help: 'How far the floor of a keyway, or a flat of a square or a hexagon, may be from a plane. The insert is checked against it, and so is the virtual cut.' },
} as const satisfies Fields;

/** How far aside an edge is taken to stand. A setting that is easily reached by eye and square; no source. */
export const assumedLeanDegrees = 0.1;

/** What the edge leaves. */
export function flatnessFigure(edgeLength: number, { units }: Setting): Quantity {
  return edgeTiltFigure(units, edgeLength, assumedLeanDegrees).floorTilt;
}

/** `insertForEdge` is the width of an insert whose edge has a length. */
export function flatnessProblems(flatness: number | undefined, edgeLength: number, insertForEdge: (edge: number) => number, setting: Setting): Problem[] {
  const left = flatnessFigure(edgeLength, setting).value;
  if (flatness === undefined || left <= flatness * (1 + 1e-9)) return [];
  const widest = insertForEdge(flatness / Math.tan(radians(assumedLeanDegrees)));
  return [{
    parameter: 'FLATNESS', rule: 'flatness', severity: 'warning',
    message: `FLATNESS: ${shown(flatness)} is less than an insert leaves that stands ${assumedLeanDegrees} deg aside: ${shown(left, 4)}. Better an INSERT of at most ${shown(widest, 3)}, which cuts in more passes, or an edge set truer.`,
  }];
}
