/**
 * Indexed slotting as figures to read: squares, hexagons and other polygons,
 * V-shaped serrations, straight-sided splines. One slot is cut per angle, the
 * work stands clamped at it. The geometry is in the file of each shape.
 */
import { slotCatalogue } from './catalogue-keyway.ts';
import { evenlySpacedAnglesDegrees } from './clocking.ts';
import { count } from './domain.ts';
import { figureMaker, type Origin } from './figure-maker.ts';
import { cornerAngleDegrees, cornerCutDepth, flatLength, flatLostToBore } from './polygon-slots.ts';
import { OutOfRange, shown, type Quantity, type Units } from './quantity.ts';
import { grooveContactRadius, halfWidthAtBore, landBetweenGrooves } from './serration-slots.ts';
import { splineSpaceCut, straightSpline } from './straight-splines.ts';

export type SlotShape =
  | { kind: 'polygon'; sides: number; acrossFlats: number; boreDiameter: number }
  | { kind: 'serration'; count: number; boreDiameter: number; floorDiameter: number; includedAngleDegrees: number; tipFlat: number }
  /** ISO 14, in millimetres. */
  | { kind: 'straightSpline'; teeth: number; innerDiameter: number; outerDiameter: number };

export interface IndexedSlotsInput {
  units: Units;
  shape: SlotShape;
  startAngleDegrees: number;
  diameterProgramming: boolean;
}

/** What a block for indexed slots is written from; radii and C angles, no words of a control. */
export interface IndexedSlotsPlan {
  readonly count: number;
  readonly anglesDegrees: readonly number[];
  /** Distance of the edge from the axis at first contact and at full depth. */
  readonly contactRadius: number;
  readonly floorRadius: number;
  /** Width of a flat insert, or undefined for a pointed one. */
  readonly insertWidth: number | undefined;
  /** Included angle of a pointed insert, or undefined for a flat one. */
  readonly insertAngleDegrees: number | undefined;
  /** What an insert must cover: between the points where the slot's sides start. */
  readonly slotWidth: number;
  readonly origin: Origin;
}

export type SlotQuantityId = keyof typeof slotCatalogue;

/** @throws OutOfRange with the field of the shape that is wrong */
export function indexedSlotsPlan(input: IndexedSlotsInput): IndexedSlotsPlan {
  const shape = shapeOf(input);
  return { ...shape, anglesDegrees: evenlySpacedAnglesDegrees(shape.count, input.startAngleDegrees) };
}

/** Lengths in the units of the input, angles in degrees. Throws as `indexedSlotsPlan` does. */
export function indexedSlots(input: IndexedSlotsInput): Record<SlotQuantityId, Quantity> {
  const { count: slots, contactRadius, floorRadius, slotWidth, origin } = indexedSlotsPlan(input);
  const figure = figureMaker(slotCatalogue, input.units);
  const [factor, times, side] = input.diameterProgramming ? [2, '2 x ', 'diameter'] : [1, '', 'radius'];
  const depth = floorRadius - contactRadius;
  return {
    indexAngle: figure('indexAngle', 360 / slots, () =>
      `theta = 360 / ${slots} = ${shown(360 / slots)} deg; slot i stands at start + i x 360 / ${slots}`),
    firstContactX: figure('firstContactX', factor * contactRadius, () =>
      `X_c = ${times}${shown(contactRadius)} = ${shown(factor * contactRadius)} (${side})`, origin),
    bottomX: figure('bottomX', factor * floorRadius, () =>
      `X_f = ${times}${shown(floorRadius)} = ${shown(factor * floorRadius)} (${side})`, origin),
    radialDepth: figure('radialDepth', depth, () => `h = ${shown(floorRadius)} - ${shown(contactRadius)} = ${shown(depth)}`, origin),
    slotWidth: figure('slotWidth', slotWidth, () => `w = ${shown(slotWidth)}, between the points where the sides of the slot start`, origin),
  };
}

type ShapePlan = Omit<IndexedSlotsPlan, 'anglesDegrees'>;

function shapeOf({ shape, units }: IndexedSlotsInput): ShapePlan {
  if (shape.kind === 'polygon') return polygonPlan(shape);
  if (shape.kind === 'serration') return serrationPlan(shape);
  if (units !== 'mm') throw new OutOfRange('units', units, 'mm', 'ISO 14 is metric');
  return splinePlan(shape);
}

function polygonPlan({ sides, acrossFlats, boreDiameter }: Extract<SlotShape, { kind: 'polygon' }>): ShapePlan {
  const depth = cornerCutDepth(sides, acrossFlats, boreDiameter);
  return {
    count: sides,
    contactRadius: boreDiameter / 2,
    floorRadius: boreDiameter / 2 + depth,
    insertWidth: undefined,
    insertAngleDegrees: cornerAngleDegrees(sides),
    slotWidth: cornerWidth(sides, acrossFlats, boreDiameter),
    origin: { source: 'geometry of a regular polygon', standing: 'derived' },
  };
}

/** Chord between the places where the two flats of a corner meet the bore, or the middles of the flats where the bore does not reach them. */
function cornerWidth(sides: number, acrossFlats: number, boreDiameter: number): number {
  const flat = (flatLength(sides, acrossFlats) - flatLostToBore(acrossFlats, boreDiameter)) / 2;
  return 2 * flat * Math.cos(Math.PI / sides);
}

function serrationPlan(shape: Extract<SlotShape, { kind: 'serration' }>): ShapePlan {
  const groove = { ...shape, floorRadius: shape.floorDiameter / 2 };
  landBetweenGrooves(groove, shape.count);
  return {
    count: count('count', shape.count),
    contactRadius: grooveContactRadius(groove),
    floorRadius: groove.floorRadius,
    insertWidth: undefined,
    insertAngleDegrees: shape.includedAngleDegrees,
    slotWidth: 2 * halfWidthAtBore(groove),
    origin: { source: 'geometry of a V groove, dimensions as given', standing: 'derived' },
  };
}

function splinePlan({ teeth, innerDiameter, outerDiameter }: Extract<SlotShape, { kind: 'straightSpline' }>): ShapePlan {
  const spline = straightSpline(teeth, innerDiameter, outerDiameter);
  const { contactRadius } = splineSpaceCut(spline);
  return {
    count: teeth,
    contactRadius,
    floorRadius: outerDiameter / 2,
    insertWidth: spline.width,
    insertAngleDegrees: undefined,
    slotWidth: spline.width,
    origin: { source: 'sizes of ISO 14:1982, geometry', standing: 'derived' },
  };
}
