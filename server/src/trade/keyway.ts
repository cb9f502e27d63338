/**
 * The figures of an internal keyway that a programmer reads: each one a
 * quantity with its working and its source. The numbers themselves are made in
 * keyway-plan.ts and crank.ts; this module only names them and shows how.
 */
import { unitOf } from './catalogue.ts';
import { keywayCatalogue } from './catalogue-keyway.ts';
import { meanStrokeSpeed, peakStrokeSpeed, strokeSpeedAt } from './crank.ts';
import { figureMaker, type FigureMaker } from './figure-maker.ts';
import type { KeywayInput } from './keyway-input.ts';
import { keywayPlan, type KeywayPlan } from './keyway-plan.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { shown, type Quantity } from './quantity.ts';

export { BOX_CYCLE_DEFAULTS, type KeywayInput } from './keyway-input.ts';
export { keywayPlan, type KeywayPass, type KeywayPlan } from './keyway-plan.ts';

/**
 * Figures of the driven method alone: a static tool cuts at the one speed it is
 * given, and does not feed in X while it cuts.
 */
export type DrivenKeywayQuantityId = 'meanSpeed' | 'peakSpeed' | 'feedPerMinute';

export type KeywayQuantityId = keyof typeof keywayCatalogue;

/** Figures that every keyway has. */
export type CommonKeywayQuantityId = Exclude<KeywayQuantityId, DrivenKeywayQuantityId>;

export type KeywayQuantities = Figures<CommonKeywayQuantityId> & Partial<Figures<DrivenKeywayQuantityId>>;

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
    ...strokeFigures(input, plan, figure),
    ...(input.method === 'driven' ? drivenFigures(input, plan, figure) : {}),
    ...positionFigures(input, plan, figure),
    ...sectionFigures(input, plan, figure),
    ...amountFigures(input, plan, figure),
  };
}

type Figures<Id extends string> = Record<Id, Quantity>;
type Maker = FigureMaker<KeywayQuantityId>;

function strokeFigures(input: KeywayInput, plan: KeywayPlan, figure: Maker): Figures<'strokesPerMinute' | 'strokeTime' | 'strokeLength'> {
  return {
    strokesPerMinute: figure('strokesPerMinute', plan.strokesPerMinute, () => strokeRateWorking(input, plan)),
    strokeTime: figure('strokeTime', plan.secondsPerStroke, () => strokeTimeWorking(input, plan)),
    strokeLength: figure('strokeLength', plan.strokeLength, () => strokeLengthWorking(input, plan)),
  };
}

function strokeRateWorking({ method, toolRpm, strokeRatio }: KeywayInput, { strokesPerMinute, secondsPerStroke }: KeywayPlan): string {
  if (method === 'static') return `n_s = 60 / seconds per stroke = 60 / ${shown(secondsPerStroke)} = ${shown(strokesPerMinute)}`;
  const rate = `${shown(toolRpm ?? NaN)} x ${shown(strokeRatio)} = ${shown(strokesPerMinute)}`;
  return `n_s = tool speed x strokes per revolution = ${rate} (${shown(strokesPerMinute / 60, 2)} a second)`;
}

function strokeTimeWorking({ units }: KeywayInput, { box, strokeLength, strokesPerMinute, secondsPerStroke }: KeywayPlan): string {
  if (!box) return `t_s = 60 / n_s = 60 / ${shown(strokesPerMinute)} = ${shown(secondsPerStroke)} s`;
  const stroke = shown(strokeLength);
  const ways = `${stroke} / ${shown(box.cutFeed)} + ${stroke} / ${shown(box.returnFeed)} + 2 x ${shown(box.liftOff)} / ${shown(box.liftFeed)}`;
  const feeds = `feeds in ${unitOf('lengthPerMinute', units)}, without acceleration`;
  return `t_s = 60 x (S / F_cut + S / F_return + 2 r / F_lift) = 60 x (${ways}) = ${shown(secondsPerStroke)} s (${feeds})`;
}

function strokeLengthWorking({ length, leadIn, leadOut, stroke }: KeywayInput, { strokeLength }: KeywayPlan): string {
  const needed = `length + lead-in + lead-out = ${shown(length)} + ${shown(leadIn)} + ${shown(leadOut)} = ${shown(length + leadIn + leadOut)}`;
  return stroke === undefined ? `S = ${needed}` : `S = ${shown(strokeLength)} as set on the unit; needed: ${needed}`;
}

function drivenFigures(input: KeywayInput, plan: KeywayPlan, figure: Maker): Figures<DrivenKeywayQuantityId> {
  const { strokeLength, strokesPerMinute, feedPerMinute } = plan;
  const perSpeed = lengthPerSpeedUnit(input.units);
  const speed = unitOf('cuttingSpeed', input.units);
  const product = `${shown(strokeLength)} x ${shown(strokesPerMinute)} / ${perSpeed}`;
  const mean = meanStrokeSpeed(strokeLength, strokesPerMinute) / perSpeed;
  const peak = peakStrokeSpeed(strokeLength, strokesPerMinute) / perSpeed;
  return {
    meanSpeed: figure('meanSpeed', mean, () => `v_m = 2 x S x n_s / ${perSpeed} = 2 x ${product} = ${shown(mean)} ${speed}`),
    peakSpeed: figure('peakSpeed', peak, () =>
      `v_p = pi x S x n_s / ${perSpeed} = pi x ${product} = ${shown(peak)} ${speed}` +
      ` (${shown(speedAtEntry(input, plan) / perSpeed, 2)} where it enters the work; sinusoidal stroke)`),
    feedPerMinute: figure('feedPerMinute', feedPerMinute, () => feedWorking(input, plan)),
  };
}

function speedAtEntry({ length, leadOut }: KeywayInput, { strokeLength, strokesPerMinute }: KeywayPlan): number {
  const beforeTheFace = Math.max(0, strokeLength - length - leadOut);
  return strokeSpeedAt(beforeTheFace, strokeLength, strokesPerMinute);
}

function feedWorking({ feedPerStroke, xFeedOnDiameter, units }: KeywayInput, { strokesPerMinute, feedPerMinute }: KeywayPlan): string {
  const [twice, side] = xFeedOnDiameter ? [' x 2', 'on the diameter, as the card says'] : ['', 'radial'];
  const product = `${shown(feedPerStroke)} x ${shown(strokesPerMinute)}${twice}`;
  return `F = feed per stroke x n_s${twice} = ${product} = ${shown(feedPerMinute)} ${unitOf('lengthPerMinute', units)} (${side})`;
}

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
