/** The planes of arcs and cycles, in the registers' numbering of the axes. */
import * as r from './registers.ts';

/** The axes of a plane, counter-clockwise from a to b, and the one that stands on it. */
export function planeAxes(plane: number): { a: number; b: number; normal: number } {
  if (plane === 18) return { a: r.Z, b: r.X, normal: r.Y };
  if (plane === 19) return { a: r.Y, b: r.Z, normal: r.X };
  return { a: r.X, b: r.Y, normal: r.Z };
}
