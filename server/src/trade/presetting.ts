/**
 * Offsets of a slotting tool from readings on a presetting device.
 *
 * Picture: the device looks along Z at the edge of a tool that points to +X.
 * Readings are positions of the edge; the gauge point is where the tool's holder
 * is said to be, such as the middle of its seat. One unit of length; radii, not
 * diameters, go in. Source: derived.
 */
import { inRange } from './domain.ts';

export interface EdgeReadings {
  /** Distance of the edge from the gauge point along X, a radius. */
  edgeX: number;
  /** Y of the two ends of the edge from the gauge point. */
  lowerCornerY: number;
  upperCornerY: number;
  /** Foremost point of the insert along Z from the gauge point. */
  frontZ: number;
}

export interface PresetOffsets {
  /** As the offset table counts X: doubled where it holds diameters. */
  readonly x: number;
  /** Of the middle of the edge. */
  readonly y: number;
  readonly z: number;
  readonly insertWidth: number;
}

/** Offsets for the tool table. Throws `OutOfRange` on a reading that is not a length, or corners in the wrong order. */
export function presetOffsets(readings: EdgeReadings, offsetsAreDiameters: boolean): PresetOffsets {
  const { edgeX, lowerCornerY, upperCornerY, frontZ } = readings;
  for (const [name, value] of Object.entries(readings)) inRange(name, value as number, { atLeast: -1e5, atMost: 1e5 });
  inRange('upperCornerY', upperCornerY, { over: lowerCornerY });
  return {
    x: offsetsAreDiameters ? 2 * edgeX : edgeX,
    y: (lowerCornerY + upperCornerY) / 2,
    z: frontZ,
    insertWidth: upperCornerY - lowerCornerY,
  };
}
