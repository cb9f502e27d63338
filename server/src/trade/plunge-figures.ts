/** What radial entry adds to the figures of a hobbing operation. Axial entry has none of it. */
import { gearFigure } from './catalogue-gear.ts';
import type { HobbingPlan, TimedHobbingCut } from './hobbing-plan.ts';
import type { PlungeInput } from './hobbing-plunge.ts';
import { shown, type Quantity } from './quantity.ts';

export type PlungeFigureId = 'radialFeedPerMinute' | 'radialTravel' | 'plungeTime';

/** Seconds of radial feed and spark-out, all cuts together; 0 for axial entry. */
export function plungeSecondsOf(cuts: readonly TimedHobbingCut[]): number {
  return sum(cuts.map(({ plunge }) => (plunge === undefined ? 0 : plunge.seconds + plunge.sparkOutSeconds)));
}

export function plungeFigures(plan: HobbingPlan): Partial<Record<PlungeFigureId, Quantity>> {
  const { cuts, input, workRpm, gear } = plan;
  if (input.plunge === undefined) return {};
  const { radialFeedPerWorkRevolution: feed } = input.plunge;
  const travel = sum(cuts.map(({ plunge }) => plunge?.travel ?? 0));
  const seconds = plungeSecondsOf(cuts);
  return {
    radialFeedPerMinute: gearFigure('radialFeedPerMinute', feed * workRpm, gear.units, () => `f_r n_w = ${shown(feed)} x ${shown(workRpm)} = ${shown(feed * workRpm)}`),
    radialTravel: gearFigure('radialTravel', travel, gear.units, () =>
      `h + cuts x clearance / 2 = ${shown(gear.wholeDepth)} + ${cuts.length} x ${shown(input.clearance)} / 2 = ${shown(travel)}`),
    plungeTime: gearFigure('plungeTime', seconds, gear.units, () => timeWorking(plan, input.plunge as PlungeInput, travel, seconds)),
  };
}

function timeWorking({ cuts, workRpm }: HobbingPlan, plunge: PlungeInput, travel: number, seconds: number): string {
  const { radialFeedPerWorkRevolution: feed, sparkOutWorkRevolutions: sparkOut } = plunge;
  return `60 x (L_r / f_r + cuts x spark-out) / n_w = 60 x (${shown(travel)} / ${shown(feed)} + ${cuts.length} x ${shown(sparkOut)}) / ${shown(workRpm)} = ${shown(seconds, 3)}`;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, each) => total + each, 0);
}
