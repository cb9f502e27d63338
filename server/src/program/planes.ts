/** The planes of arcs and cycles, in the registers' numbering of the axes. */
import * as r from './registers.ts';

interface PlaneAxes {
  readonly a: number;
  readonly b: number;
  readonly normal: number;
}

const XY: PlaneAxes = { a: r.X, b: r.Y, normal: r.Z };
const ZX: PlaneAxes = { a: r.Z, b: r.X, normal: r.Y };
const YZ: PlaneAxes = { a: r.Y, b: r.Z, normal: r.X };

/** Those of a fixed cycle: where the machine drills along Z in ZX too, its holes lie in XY there. */
export function cycleAxes(plane: number, drillsAlongZ: boolean): PlaneAxes {
  return plane === 18 && drillsAlongZ ? XY : planeAxes(plane);
}

/** The axes of a plane, counter-clockwise from a to b, and the one that stands on it. */
export function planeAxes(plane: number): PlaneAxes {
  return plane === 18 ? ZX : plane === 19 ? YZ : XY;
}
