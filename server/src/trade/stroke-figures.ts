/**
 * Strokes of a slotting tool as figures to read, whatever the section of the
 * slot. The numbers are made in stroke-plan.ts and crank.ts; this module only
 * names them and shows how.
 */
import { unitOf } from './catalogue.ts';
import { keywayCatalogue } from './catalogue-keyway.ts';
import { meanStrokeSpeed, peakStrokeSpeed, strokeSpeedAt } from './crank.ts';
import { figureMaker, type FigureMaker } from './figure-maker.ts';
import type { StrokeInput } from './keyway-input.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { shown, type Quantity } from './quantity.ts';
import type { StrokePlan } from './stroke-plan.ts';

/**
 * Figures of the driven method alone: a static tool cuts at the one speed it is
 * given, and does not feed in X while it cuts.
 */
export type DrivenQuantityId = 'meanSpeed' | 'peakSpeed' | 'feedPerMinute';

type Figures<Id extends string> = Record<Id, Quantity>;

export type StrokeQuantities = Figures<'strokesPerMinute' | 'strokeTime' | 'strokeLength'> & Partial<Figures<DrivenQuantityId>>;

/**
 * The figures of strokes. Lengths come out in the units of the input, speeds in
 * m/min or ft/min, times in seconds.
 */
export function strokeFigures(input: StrokeInput, plan: StrokePlan): StrokeQuantities {
  const figure = figureMaker(keywayCatalogue, input.units);
  return {
    strokesPerMinute: figure('strokesPerMinute', plan.strokesPerMinute, () => strokeRateWorking(input, plan)),
    strokeTime: figure('strokeTime', plan.secondsPerStroke, () => strokeTimeWorking(input, plan)),
    strokeLength: figure('strokeLength', plan.strokeLength, () => strokeLengthWorking(input, plan)),
    ...(input.method === 'driven' ? drivenFigures(input, plan, figure) : {}),
  };
}

function strokeRateWorking({ method, toolRpm, strokeRatio }: StrokeInput, { strokesPerMinute, secondsPerStroke }: StrokePlan): string {
  if (method === 'static') return `n_s = 60 / seconds per stroke = 60 / ${shown(secondsPerStroke)} = ${shown(strokesPerMinute)}`;
  const rate = `${shown(toolRpm ?? NaN)} x ${shown(strokeRatio)} = ${shown(strokesPerMinute)}`;
  return `n_s = tool speed x strokes per revolution = ${rate} (${shown(strokesPerMinute / 60, 2)} a second)`;
}

function strokeTimeWorking({ units }: StrokeInput, { box, strokeLength, strokesPerMinute, secondsPerStroke }: StrokePlan): string {
  if (!box) return `t_s = 60 / n_s = 60 / ${shown(strokesPerMinute)} = ${shown(secondsPerStroke)} s`;
  const stroke = shown(strokeLength);
  const ways = `${stroke} / ${shown(box.cutFeed)} + ${stroke} / ${shown(box.returnFeed)} + 2 x ${shown(box.liftOff)} / ${shown(box.liftFeed)}`;
  const feeds = `feeds in ${unitOf('lengthPerMinute', units)}, without acceleration`;
  return `t_s = 60 x (S / F_cut + S / F_return + 2 r / F_lift) = 60 x (${ways}) = ${shown(secondsPerStroke)} s (${feeds})`;
}

function strokeLengthWorking({ length, leadIn, leadOut, stroke }: StrokeInput, { strokeLength }: StrokePlan): string {
  const needed = `length + lead-in + lead-out = ${shown(length)} + ${shown(leadIn)} + ${shown(leadOut)} = ${shown(length + leadIn + leadOut)}`;
  return stroke === undefined ? `S = ${needed}` : `S = ${shown(strokeLength)} as set on the unit; needed: ${needed}`;
}

function drivenFigures(input: StrokeInput, plan: StrokePlan, figure: FigureMaker<keyof typeof keywayCatalogue>): Figures<DrivenQuantityId> {
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

function speedAtEntry({ length, leadOut }: StrokeInput, { strokeLength, strokesPerMinute }: StrokePlan): number {
  const beforeTheFace = Math.max(0, strokeLength - length - leadOut);
  return strokeSpeedAt(beforeTheFace, strokeLength, strokesPerMinute);
}

function feedWorking({ feedPerStroke, xFeedOnDiameter, units }: StrokeInput, { strokesPerMinute, feedPerMinute }: StrokePlan): string {
  const [twice, side] = xFeedOnDiameter ? [' x 2', 'on the diameter, as the card says'] : ['', 'radial'];
  const product = `${shown(feedPerStroke)} x ${shown(strokesPerMinute)}${twice}`;
  return `F = feed per stroke x n_s${twice} = ${product} = ${shown(feedPerMinute)} ${unitOf('lengthPerMinute', units)} (${side})`;
}
