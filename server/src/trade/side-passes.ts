/**
 * How an insert narrower than the slot covers its width: a pass on the centre
 * line, then pairs of passes to either side, the flanks last. Needs a real Y
 * axis, so that every pass cuts the same plane floor; turning the work instead
 * would tilt floor and flanks. Knows nothing of strokes.
 */
import { inRange, positiveLength } from './domain.ts';
import { leanOver } from './small-angles.ts';

/**
 * Neighbouring passes overlap by at least this share of the insert's width.
 * Common practice, no source; geometry alone asks for any overlap above 0.
 */
export const LEAST_OVERLAP_SHARE = 0.1;

/**
 * Offsets of the passes in Y, in the order of cutting: 0, then - and + pairs
 * outward. One pass when the insert is as wide as the slot.
 *
 * @param reach How far one pass covers beyond the one nearer to the middle: the
 *   whole insert where its edge is straight, half of it where it is pointed.
 * @throws OutOfRange on `insertWidth` when it is wider than the slot
 */
export function sidePassOffsets(slotWidth: number, insertWidth: number, reach = insertWidth): number[] {
  positiveLength('width', slotWidth);
  inRange('insertWidth', insertWidth, {
    over: 0, atMost: slotWidth * (1 + 1e-12), reason: 'an insert wider than the keyway cuts it too wide',
  });
  const outermost = Math.max(0, (slotWidth - insertWidth) / 2);
  if (outermost === 0) return [0];
  const pairs = pairsToCover(outermost, insertWidth, reach);
  return [0, ...Array.from({ length: pairs }, (_, i) => (outermost * (i + 1)) / pairs).flatMap((y) => [-y, y])];
}

/** Step in the floor that an edge out of square by an angle leaves between the outermost passes. Source: derived. */
export function floorStep(slotWidth: number, insertWidth: number, squarenessErrorDegrees: number): number {
  inRange('squarenessErrorDegrees', squarenessErrorDegrees, { atLeast: -45, atMost: 45 });
  return leanOver(inRange('slotWidth', slotWidth, { atLeast: insertWidth, atMost: 1e5 }) - insertWidth, squarenessErrorDegrees);
}

function pairsToCover(outermost: number, insertWidth: number, reach: number): number {
  inRange('insertWidth', insertWidth, { atLeast: outermost / 1000, reason: 'at most about a thousand passes to either side' });
  const widestStep = reach * (1 - LEAST_OVERLAP_SHARE);
  return Math.max(1, Math.ceil(outermost / widestStep - 1e-9));
}
