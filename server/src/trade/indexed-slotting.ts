/**
 * Cutting indexed slots stroke by stroke: the shape of slots.ts cut with the
 * strokes of stroke-plan.ts. What a block is written from, and its figures.
 * Knows no control: radii and distances from the face, not words.
 */
import { keywayCatalogue } from './catalogue-keyway.ts';
import { inRange, positiveLength } from './domain.ts';
import { figureMaker } from './figure-maker.ts';
import { checkStrokeInput, type StrokeInput } from './keyway-input.ts';
import type { KeywayPass } from './keyway-plan.ts';
import { pointedPasses, type PointedPass } from './polygon-passes.ts';
import { shown, type Quantity } from './quantity.ts';
import { indexedSlots, indexedSlotsPlan, type IndexedSlotsInput, type IndexedSlotsPlan, type SlotQuantityId } from './slots.ts';
import { polygonFigures } from './slotting-figures.ts';
import { straightSplineFigures } from './spline-hub-figures.ts';
import { strokeFigures, type StrokeQuantities } from './stroke-figures.ts';
import { strokePlan, strokesToFeed, type StrokePlan } from './stroke-plan.ts';

export interface IndexedSlottingInput extends IndexedSlotsInput, StrokeInput {
  /** Width of the insert at hand. Left out: it is as wide as the slot asks. */
  insertWidth?: number;
  /** Straight splines: the hub is hardened after cutting. */
  treated?: boolean;
}

export interface IndexedSlottingPlan extends Omit<IndexedSlotsPlan, 'insertWidth'>, StrokePlan {
  /** Width of the insert: as given, or what it has at least, or exactly for a flat one. */
  readonly insertWidth: number;
  /** One pass where the insert has the full form; several where a pointed one is narrower than the corner of a polygon. */
  readonly passes: readonly KeywayPass[];
  readonly totalStrokes: number;
  readonly seconds: number;
}

type ShapeQuantityId = keyof ReturnType<typeof polygonFigures> | keyof ReturnType<typeof straightSplineFigures>;

export type IndexedSlottingQuantities = Record<SlotQuantityId | 'strokes' | 'cuttingTime', Quantity> & StrokeQuantities & Partial<Record<ShapeQuantityId, Quantity>>;

/**
 * Plans the cut. Source: derived.
 *
 * @throws OutOfRange with the field that is wrong and its range
 */
export function indexedSlottingPlan(input: IndexedSlottingInput): IndexedSlottingPlan {
  checkStrokeInput(input);
  const slots = indexedSlotsPlan(input);
  const strokes = strokePlan(input);
  const insertWidth = usedWidth(input, slots);
  const passes = waysOf(input, slots, insertWidth).map((way) => strokesOfPass(input, way));
  const totalStrokes = passes.reduce((sum, pass) => sum + pass.strokes, 0) * slots.count;
  return { ...slots, ...strokes, insertWidth, passes, totalStrokes, seconds: totalStrokes * strokes.secondsPerStroke };
}

/** Lengths in the units of the input, angles in degrees, speeds in m/min or ft/min, times in seconds. Throws as `indexedSlottingPlan` does. */
export function indexedSlotting(input: IndexedSlottingInput): IndexedSlottingQuantities {
  const plan = indexedSlottingPlan(input);
  return { ...strokeFigures(input, plan), ...indexedSlots(input), ...amountFigures(input, plan), ...shapeFigures(input) };
}

/** The ways of the insert in X, the one on the middle line first. */
function waysOf({ shape, feedPerStroke }: IndexedSlottingInput, { contactRadius, floorRadius, slotWidth }: IndexedSlotsPlan, insertWidth: number): PointedPass[] {
  inRange('feedPerStroke', feedPerStroke, { over: 0, atMost: floorRadius - contactRadius, reason: 'all that is cut, on the radius' });
  if (shape.kind !== 'polygon') return [{ offsetY: 0, contactRadius, floorRadius }];
  return pointedPasses({ sides: shape.sides, cornerRadius: floorRadius, boreRadius: contactRadius, slotWidth }, insertWidth);
}

function strokesOfPass({ feedPerStroke, sparkOutStrokes }: IndexedSlottingInput, { offsetY, contactRadius, floorRadius }: PointedPass): KeywayPass {
  const feedStrokes = strokesToFeed(floorRadius - contactRadius, feedPerStroke);
  return { offsetY, contactRadius, startRadius: contactRadius, floorRadius, feedStrokes, strokes: feedStrokes + sparkOutStrokes };
}

/** A flat insert makes the slot as wide as itself, a pointed one must reach from side to side of it; only in a polygon several passes do as well. */
function usedWidth({ shape, insertWidth }: IndexedSlottingInput, { insertWidth: flat, slotWidth }: IndexedSlotsPlan): number {
  const needed = flat ?? slotWidth;
  if (insertWidth === undefined) return needed;
  if (shape.kind === 'polygon') return positiveLength('insertWidth', insertWidth);
  const reason = flat === undefined ? 'the flanks of the insert reach from side to side of the slot' : 'a flat insert is as wide as the slot';
  return inRange('insertWidth', insertWidth, { atLeast: needed * (1 - 1e-9), ...(flat === undefined ? {} : { atMost: needed * (1 + 1e-9) }), reason });
}

function amountFigures(input: IndexedSlottingInput, plan: IndexedSlottingPlan): Record<'strokes' | 'cuttingTime', Quantity> {
  const figure = figureMaker(keywayCatalogue, input.units);
  const strokes = Math.max(...plan.passes.map((pass) => pass.strokes));
  const way = plan.floorRadius - plan.contactRadius;
  const ofSlot = plan.passes.length === 1 ? String(strokes) : `(${plan.passes.map((pass) => pass.strokes).join(' + ')})`;
  return {
    strokes: figure('strokes', strokes, () =>
      `N = ceil(radial way / feed per stroke) + spark-out = ceil(${shown(way)} / ${shown(input.feedPerStroke)}) + ${input.sparkOutStrokes} = ${strokes}; passes to a slot: ${plan.passes.length}, slots: ${plan.count}`),
    cuttingTime: figure('cuttingTime', plan.seconds, () =>
      `t = strokes x slots x seconds per stroke = ${ofSlot} x ${plan.count} x ${shown(plan.secondsPerStroke)} = ${shown(plan.seconds)} s`),
  };
}

function shapeFigures({ shape, units, treated = false }: IndexedSlottingInput): Partial<Record<ShapeQuantityId, Quantity>> {
  if (shape.kind === 'polygon') return polygonFigures({ units, ...shape });
  return shape.kind === 'straightSpline' ? straightSplineFigures(shape.teeth, shape.innerDiameter, shape.outerDiameter, treated) : {};
}
