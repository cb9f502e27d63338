/**
 * The figures of an internal keyway that a programmer reads: each one a
 * quantity with its working and its source. The numbers themselves are made in
 * keyway-plan.ts; this module only names them and shows how.
 */
import { keywayCatalogue } from './catalogue-keyway.ts';
import { figureMaker, type FigureMaker } from './figure-maker.ts';
import type { KeywayInput } from './keyway-input.ts';
import { keywayPlan, type KeywayPlan } from './keyway-plan.ts';
import { shown, type Quantity } from './quantity.ts';
import { strokeFigures, type DrivenQuantityId } from './stroke-figures.ts';

export { BOX_CYCLE_DEFAULTS, type KeywayInput } from './keyway-input.ts';
export { keywayPlan, type KeywayPass, type KeywayPlan } from './keyway-plan.ts';

export type KeywayQuantityId = keyof typeof keywayCatalogue;

/** Figures that every keyway has. */
export type CommonKeywayQuantityId = Exclude<KeywayQuantityId, DrivenQuantityId>;

export type KeywayQuantities = Figures<CommonKeywayQuantityId> & Partial<Figures<DrivenQuantityId>>;

/**
 * Computes a keyway. Lengths come out in the units of the input, speeds in
 * m/min or ft/min, times in seconds.
 *
 * @throws OutOfRange with the field of `KeywayInput` that is wrong and its range
 */
export function keyway(input: KeywayInput): KeywayQuantities {
  const plan = keywayPlan(input);
  const figure = figureMaker(keywayCatalogue, input.units);
  return {
    ...strokeFigures(input, plan),
    ...positionFigures(input, plan, figure),
    ...sectionFigures(input, plan, figure),
    ...amountFigures(input, plan, figure),
  };
}

type Figures<Id extends string> = Record<Id, Quantity>;
type Maker = FigureMaker<KeywayQuantityId>;

function positionFigures(
  { diameterProgramming }: KeywayInput, plan: KeywayPlan, figure: Maker,
): Figures<'firstContactX' | 'bottomX' | 'radialDepth' | 'sagitta'> {
  const { boreRadius, width, cornerContactRadius: contact, floorRadius, sagitta, depth } = plan;
  const [factor, twice, side] = diameterProgramming ? [2, '2 x ', 'diameter'] : [1, '', 'radius'];
  const halves = `${shown(boreRadius)}^2 - ${shown(width / 2)}^2`;
  return {
    firstContactX: figure('firstContactX', factor * contact, () =>
      `X_c = ${twice}sqrt((D/2)^2 - (b/2)^2) = ${twice}sqrt(${halves}) = ${shown(factor * contact)} (${side}): the corners touch first`),
    bottomX: figure('bottomX', factor * floorRadius, () =>
      `X_f = ${twice}(D/2 + t2) = ${twice}(${shown(boreRadius)} + ${shown(depth)}) = ${shown(factor * floorRadius)} (${side})`),
    radialDepth: figure('radialDepth', depth + sagitta, () =>
      `h = t2 + sagitta = ${shown(depth)} + ${shown(sagitta)} = ${shown(depth + sagitta)}`),
    sagitta: figure('sagitta', sagitta, () =>
      `Y_s = D/2 - sqrt((D/2)^2 - (b/2)^2) = ${shown(boreRadius)} - ${shown(contact)} = ${shown(sagitta)}`),
  };
}

function sectionFigures({ boreDiameter, fit }: KeywayInput, plan: KeywayPlan, figure: Maker): Figures<'overallDimension' | 'widthUpper' | 'widthLower'> {
  const { width, depth, widthUpperDeviation: upper, widthLowerDeviation: lower, fitOrigin, sizeOrigin } = plan;
  return {
    overallDimension: figure('overallDimension', boreDiameter + depth, () =>
      `M = D + t2 = ${shown(boreDiameter)} + ${shown(depth)} = ${shown(boreDiameter + depth)}${toleranceText(plan)}`, sizeOrigin),
    widthUpper: figure('widthUpper', width + upper, () =>
      `b_max = b + upper deviation of ${fit} = ${shown(width)} + (${signed(upper)}) = ${shown(width + upper)}`, fitOrigin),
    widthLower: figure('widthLower', width + lower, () =>
      `b_min = b + lower deviation of ${fit} = ${shown(width)} + (${signed(lower)}) = ${shown(width + lower)}`, fitOrigin),
  };
}

function amountFigures(input: KeywayInput, plan: KeywayPlan, figure: Maker): Figures<'strokes' | 'cuttingTime'> {
  const product = () => `${passesInWords(plan)} x ${input.count} x ${shown(plan.secondsPerStroke)}`;
  return {
    strokes: figure('strokes', mostStrokes(plan), () => strokesWorking(input, plan)),
    cuttingTime: figure('cuttingTime', plan.seconds, () =>
      `t = strokes x keyways x seconds per stroke = ${product()} = ${shown(plan.seconds)} s`),
  };
}

/** The deepest pass counts: passes nearer to the centre line have less to cut. */
function mostStrokes({ passes }: KeywayPlan): number {
  return Math.max(...passes.map(({ strokes }) => strokes));
}

function strokesWorking({ clearance, feedPerStroke, sparkOutStrokes, count }: KeywayInput, plan: KeywayPlan): string {
  const deepest = plan.passes.find(({ strokes }) => strokes === mostStrokes(plan));
  const way = plan.floorRadius - (deepest?.startRadius ?? NaN);
  const air = clearance ? `, ${shown(clearance)} of the way is air` : '';
  return `N = ceil(radial way / feed per stroke) + spark-out = ceil(${shown(way)} / ${shown(feedPerStroke)}) + ${sparkOutStrokes}` +
    ` = ${mostStrokes(plan)}${air}; passes to a keyway: ${plan.passes.length}, keyways: ${count}`;
}

function passesInWords({ passes }: KeywayPlan): string {
  return passes.length === 1 ? String(passes[0]?.strokes) : `(${passes.map(({ strokes }) => strokes).join(' + ')})`;
}

function toleranceText({ depthUpperDeviation }: KeywayPlan): string {
  return depthUpperDeviation === undefined ? '' : ` (+${shown(depthUpperDeviation)} / 0)`;
}

function signed(value: number): string {
  return value > 0 ? `+${shown(value)}` : shown(value);
}
