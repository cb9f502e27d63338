/**
 * The figures of an internal keyway that a programmer reads: each one a
 * quantity with its working and its source. The numbers themselves are made in
 * keyway-plan.ts and crank.ts; this module only names them and shows how.
 */
import { meanStrokeSpeed, peakStrokeSpeed, strokeSpeedAt } from './crank.ts';
import type { KeywayInput } from './keyway-input.ts';
import { keywayPlan, type KeywayPlan } from './keyway-plan.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { quantity, shown, type Quantity } from './quantity.ts';

export { BOX_CYCLE_DEFAULTS, KEYWAY_DEFAULTS, neededStroke, type KeywayInput } from './keyway-input.ts';
export { keywayPlan, type KeywayPass, type KeywayPlan } from './keyway-plan.ts';

/** Figures that every keyway has. */
export type CommonKeywayQuantityId =
  | 'strokesPerMinute' | 'strokeTime' | 'strokeLength' | 'firstContactX' | 'bottomX' | 'radialDepth' | 'strokes'
  | 'cuttingTime' | 'overallDimension' | 'widthUpper' | 'widthLower' | 'sagitta';

/** Figures of the driven method alone: a static tool cuts at the one speed it is given, and does not feed in X while it cuts. */
export type DrivenKeywayQuantityId = 'meanSpeed' | 'peakSpeed' | 'feedPerMinute';

export type KeywayQuantityId = CommonKeywayQuantityId | DrivenKeywayQuantityId;

export type KeywayQuantities = Record<CommonKeywayQuantityId, Quantity> & Partial<Record<DrivenKeywayQuantityId, Quantity>>;

/**
 * Computes a keyway. Lengths come out in the units of the input, speeds in
 * m/min or ft/min, times in seconds.
 *
 * @throws OutOfRange with the field of `KeywayInput` that is wrong and its range
 */
export function keyway(input: KeywayInput): KeywayQuantities {
  const plan = keywayPlan(input);
  const as = unitsOf(input);
  return {
    ...strokeFigures(input, plan, as),
    ...(input.method === 'driven' ? drivenFigures(input, plan, as) : {}),
    ...positionFigures(input, plan, as),
    ...sectionFigures(input, plan, as),
    ...amountFigures(input, plan),
  };
}

interface UnitNames {
  length: string;
  feed: string;
  speed: string;
}

const GEOMETRY = 'geometry of the cut, derived';
const KINEMATICS = 'kinematics of the stroke, derived';

function unitsOf({ units }: KeywayInput): UnitNames {
  return units === 'mm'
    ? { length: 'mm', feed: 'mm/min', speed: 'm/min' }
    : { length: 'in', feed: 'in/min', speed: 'ft/min' };
}

type Figures<Id extends string> = Record<Id, Quantity>;

function strokeFigures(input: KeywayInput, plan: KeywayPlan, as: UnitNames): Figures<'strokesPerMinute' | 'strokeTime' | 'strokeLength'> {
  return {
    strokesPerMinute: quantity({
      id: 'strokesPerMinute', name: 'strokes per minute', symbol: 'n_s', value: plan.strokesPerMinute, unit: '1/min',
      source: KINEMATICS,
      working: () => input.method === 'driven'
        ? `n_s = tool speed × strokes per revolution = ${shown(input.toolRpm ?? NaN)} × ${shown(input.strokeRatio)} = ${shown(plan.strokesPerMinute)} (${shown(plan.strokesPerMinute / 60, 2)} a second)`
        : `n_s = 60 / seconds per stroke = 60 / ${shown(plan.secondsPerStroke)} = ${shown(plan.strokesPerMinute)}`,
    }),
    strokeTime: quantity({
      id: 'strokeTime', name: 'time of one stroke', symbol: 't_s', value: plan.secondsPerStroke, unit: 's',
      source: KINEMATICS,
      working: () => strokeTimeWorking(plan, as),
    }),
    strokeLength: quantity({
      id: 'strokeLength', name: 'stroke length', symbol: 'S', value: plan.strokeLength, unit: as.length,
      source: 'lead-in and lead-out: common practice',
      working: () => strokeLengthWorking(input, plan),
    }),
  };
}

function strokeTimeWorking({ box, strokeLength, strokesPerMinute, secondsPerStroke }: KeywayPlan, as: UnitNames): string {
  if (!box) return `t_s = 60 / n_s = 60 / ${shown(strokesPerMinute)} = ${shown(secondsPerStroke)} s`;
  const stroke = shown(strokeLength);
  return `t_s = 60 × (S / F_cut + S / F_return + 2 r / F_lift) = 60 × (${stroke} / ${shown(box.cutFeed)} + ${stroke} / ${shown(box.returnFeed)}` +
    ` + 2 × ${shown(box.liftOff)} / ${shown(box.liftFeed)}) = ${shown(secondsPerStroke)} s (feeds in ${as.feed}, without acceleration)`;
}

function strokeLengthWorking({ length, leadIn, leadOut, stroke }: KeywayInput, { strokeLength }: KeywayPlan): string {
  const needed = `length + lead-in + lead-out = ${shown(length)} + ${shown(leadIn)} + ${shown(leadOut)} = ${shown(length + leadIn + leadOut)}`;
  return stroke === undefined ? `S = ${needed}` : `S = ${shown(strokeLength)} as set on the unit; needed: ${needed}`;
}

function drivenFigures(input: KeywayInput, plan: KeywayPlan, as: UnitNames): Figures<DrivenKeywayQuantityId> {
  const { strokeLength, strokesPerMinute } = plan;
  const perSpeed = lengthPerSpeedUnit(input.units);
  const mean = meanStrokeSpeed(strokeLength, strokesPerMinute) / perSpeed;
  const peak = peakStrokeSpeed(strokeLength, strokesPerMinute) / perSpeed;
  return {
    meanSpeed: quantity({
      id: 'meanSpeed', name: 'mean cutting speed', symbol: 'v_m', value: mean, unit: as.speed,
      source: 'shaper theory: half the time cuts',
      working: () => `v_m = 2 × S × n_s / ${perSpeed} = 2 × ${shown(strokeLength)} × ${shown(strokesPerMinute)} / ${perSpeed} = ${shown(mean)} ${as.speed}`,
    }),
    peakSpeed: quantity({
      id: 'peakSpeed', name: 'peak cutting speed', symbol: 'v_p', value: peak, unit: as.speed,
      source: KINEMATICS,
      working: () => `v_p = π × S × n_s / ${perSpeed} = π × ${shown(strokeLength)} × ${shown(strokesPerMinute)} / ${perSpeed} = ${shown(peak)} ${as.speed}` +
        ` (${shown(speedAtEntry(input, plan) / perSpeed, 2)} where it enters the work; sinusoidal stroke)`,
    }),
    feedPerMinute: quantity({
      id: 'feedPerMinute', name: 'feed in X', symbol: 'F', value: plan.feedPerMinute, unit: as.feed,
      source: input.xFeedOnDiameter ? `${KINEMATICS}; the card counts F on the diameter` : KINEMATICS,
      working: () => `F = feed per stroke × n_s${input.xFeedOnDiameter ? ' × 2' : ''} = ${shown(input.feedPerStroke)} × ${shown(strokesPerMinute)}` +
        `${input.xFeedOnDiameter ? ' × 2' : ''} = ${shown(plan.feedPerMinute)} ${as.feed} (${input.xFeedOnDiameter ? 'on the diameter' : 'radial'})`,
    }),
  };
}

function speedAtEntry({ length, leadOut }: KeywayInput, { strokeLength, strokesPerMinute }: KeywayPlan): number {
  const beforeTheFace = Math.max(0, strokeLength - length - leadOut);
  return strokeSpeedAt(beforeTheFace, strokeLength, strokesPerMinute);
}

function positionFigures(input: KeywayInput, plan: KeywayPlan, as: UnitNames): Figures<'firstContactX' | 'bottomX' | 'radialDepth' | 'sagitta'> {
  const factor = input.diameterProgramming ? 2 : 1;
  const side = input.diameterProgramming ? ' (diameter)' : ' (radius)';
  const { boreRadius, width, cornerContactRadius, floorRadius, sagitta, depth } = plan;
  const twice = input.diameterProgramming ? '2 × ' : '';
  return {
    firstContactX: quantity({
      id: 'firstContactX', name: `X of first contact${side}`, symbol: 'X_c', value: factor * cornerContactRadius, unit: as.length,
      source: GEOMETRY,
      working: () => `X_c = ${twice}√((D/2)² − (b/2)²) = ${twice}√(${shown(boreRadius)}² − ${shown(width / 2)}²) = ${shown(factor * cornerContactRadius)}: the corners touch first`,
    }),
    bottomX: quantity({
      id: 'bottomX', name: `X of the floor${side}`, symbol: 'X_f', value: factor * floorRadius, unit: as.length,
      source: GEOMETRY,
      working: () => `X_f = ${twice}(D/2 + t2) = ${twice}(${shown(boreRadius)} + ${shown(depth)}) = ${shown(factor * floorRadius)}`,
    }),
    radialDepth: quantity({
      id: 'radialDepth', name: 'radial depth of cut at the corner', symbol: 'h', value: depth + sagitta, unit: as.length,
      source: GEOMETRY,
      working: () => `h = t2 + sagitta = ${shown(depth)} + ${shown(sagitta)} = ${shown(depth + sagitta)}`,
    }),
    sagitta: quantity({
      id: 'sagitta', name: 'sagitta of the bore over the width', symbol: 'Y_s', value: sagitta, unit: as.length,
      source: GEOMETRY,
      working: () => `Y_s = D/2 − √((D/2)² − (b/2)²) = ${shown(boreRadius)} − ${shown(cornerContactRadius)} = ${shown(sagitta)}`,
    }),
  };
}

function sectionFigures(input: KeywayInput, plan: KeywayPlan, as: UnitNames): Figures<'overallDimension' | 'widthUpper' | 'widthLower'> {
  const { width, depth, widthUpperDeviation, widthLowerDeviation, fitSource, source } = plan;
  return {
    overallDimension: quantity({
      id: 'overallDimension', name: 'overall dimension, bore and keyway', symbol: 'M', value: input.boreDiameter + depth, unit: as.length,
      source,
      working: () => `M = D + t2 = ${shown(input.boreDiameter)} + ${shown(depth)} = ${shown(input.boreDiameter + depth)}${toleranceText(plan)}`,
    }),
    widthUpper: quantity({
      id: 'widthUpper', name: 'largest width of the keyway', symbol: 'b_max', value: width + widthUpperDeviation, unit: as.length,
      source: fitSource,
      working: () => `b_max = b + upper deviation of ${input.fit} = ${shown(width)} + (${signed(widthUpperDeviation)}) = ${shown(width + widthUpperDeviation)}`,
    }),
    widthLower: quantity({
      id: 'widthLower', name: 'smallest width of the keyway', symbol: 'b_min', value: width + widthLowerDeviation, unit: as.length,
      source: fitSource,
      working: () => `b_min = b + lower deviation of ${input.fit} = ${shown(width)} + (${signed(widthLowerDeviation)}) = ${shown(width + widthLowerDeviation)}`,
    }),
  };
}

function amountFigures(input: KeywayInput, plan: KeywayPlan): Figures<'strokes' | 'cuttingTime'> {
  const strokes = mostStrokes(plan);
  return {
    strokes: quantity({
      id: 'strokes', name: 'strokes of one pass', symbol: 'N', value: strokes, unit: '',
      source: KINEMATICS,
      working: () => strokesWorking(input, plan),
    }),
    cuttingTime: quantity({
      id: 'cuttingTime', name: 'cutting time', symbol: 't', value: plan.seconds, unit: 's',
      source: KINEMATICS,
      working: () => `t = strokes × keyways × seconds per stroke = ${passesInWords(plan)} × ${input.count} × ${shown(plan.secondsPerStroke)} = ${shown(plan.seconds)} s`,
    }),
  };
}

/** The deepest pass counts: passes nearer to the centre line have less to cut. */
function mostStrokes({ passes }: KeywayPlan): number {
  return Math.max(...passes.map(({ strokes }) => strokes));
}

function strokesWorking(input: KeywayInput, plan: KeywayPlan): string {
  const deepest = plan.passes.find(({ strokes }) => strokes === mostStrokes(plan));
  const contact = plan.floorRadius - (deepest?.startRadius ?? NaN);
  const clearance = input.clearance ? `, ${shown(input.clearance)} of it air` : '';
  return `N = ⌈radial way / feed per stroke⌉ + spark-out = ⌈${shown(contact)} / ${shown(input.feedPerStroke)}⌉ + ${input.sparkOutStrokes}` +
    ` = ${mostStrokes(plan)}${clearance}; passes to a keyway: ${plan.passes.length}, keyways: ${input.count}`;
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
