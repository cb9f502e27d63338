/**
 * How a pointed insert narrower than the corner of a polygon cuts its flats: in
 * the corner first, then in pairs of passes to either side, its point always on
 * the line of the flat. Needs a real Y axis.
 *
 * Picture: look along the bore, the corner points to +X. A flat falls toward the
 * axis by the tangent of 180 degrees over the number of sides for each length in
 * Y, and so does the outer flank of the insert, which therefore lies in the flat
 * wherever its point does. The inner flank stays inside what is open already.
 * Source of everything here: geometry, derived.
 */
import { OutOfRange, shown } from './quantity.ts';
import { sidePassOffsets } from './side-passes.ts';

export interface CornerToCut {
  sides: number;
  /** Distances from the axis of the corner and of the bore's wall. */
  cornerRadius: number;
  boreRadius: number;
  /** From the end of one flat to the end of the other, across the corner. */
  slotWidth: number;
}

/** One way of the insert's point, in X at an offset in Y. */
export interface PointedPass {
  readonly offsetY: number;
  /** Distance of the point from the axis, in X, when some place of the insert first touches the bore. */
  readonly contactRadius: number;
  readonly floorRadius: number;
}

/**
 * The passes in the order of cutting; one where the insert reaches from end to end.
 *
 * @throws OutOfRange on `boreDiameter` when a side pass would start inside the wall
 */
export function pointedPasses(corner: CornerToCut, insertWidth: number): PointedPass[] {
  const { cornerRadius, boreRadius, slotWidth } = corner;
  if (insertWidth >= slotWidth * (1 - 1e-9)) return [{ offsetY: 0, contactRadius: boreRadius, floorRadius: cornerRadius }];
  if (slotWidth / 2 >= boreRadius) throw new OutOfRange('boreDiameter', 2 * boreRadius, `more than ${shown(slotWidth)}`, 'side passes start inside the bore');
  return sidePassOffsets(slotWidth, insertWidth, insertWidth / 2).map((offsetY) => ({
    offsetY,
    contactRadius: contactOfPass(corner, Math.abs(offsetY), insertWidth / 2),
    floorRadius: cornerRadius - Math.abs(offsetY) * fallOfFlat(corner.sides),
  }));
}

/** How far a flat comes nearer to the axis, in X, for one length in Y away from the corner. */
export function fallOfFlat(sides: number): number {
  return Math.tan(Math.PI / sides);
}

/** Length of one flank of a pointed insert, along the flat that it cuts. */
export function flankLength(sides: number, insertWidth: number): number {
  return insertWidth / 2 / Math.cos(Math.PI / sides);
}

/** The bore bulges between the point and the outer end of the flank, so one of these two touches first. */
function contactOfPass({ sides, boreRadius }: CornerToCut, offset: number, reach: number): number {
  const wallAt = (y: number) => Math.sqrt(boreRadius ** 2 - y ** 2);
  return Math.min(wallAt(offset), wallAt(offset + reach) + reach * fallOfFlat(sides));
}
