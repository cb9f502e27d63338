import { sizeOverBalls } from './gear-report.ts';
import type { Judgement } from './hobbing-judgement.ts';
import type { CutFigure } from './rules.ts';
import { toldIn } from './told.ts';
import { wantedOverBalls, wantedRootDiameter, wantedSpan } from './wanted-sizes.ts';

/** The measured figures of a hobbing stretch, each beside what was wanted where something was. */

export function hobbingFigures(context: Judgement): CutFigure[] {
  const { measured, stretch, cut } = context;
  const { flanks } = measured;
  const figures: CutFigure[] = [{ id: 'teeth', name: 'teeth', value: measured.teeth, unit: 'teeth', wanted: stretch.gear.teeth }];
  if (!flanks) return figures;
  const mm = (id: string, name: string, value: number, wanted?: number): CutFigure => ({ id, name, value, unit: 'mm', ...(wanted === undefined ? {} : { wanted }) });
  return [
    ...figures,
    { id: 'helixAngle', name: 'helix angle, right hand positive', value: flanks.helixAngleDegrees, unit: 'deg', wanted: stretch.gear.helixAngleDegrees },
    ...(flanks.span === undefined ? [] : [mm('span', `span over ${flanks.spanTeeth} teeth`, flanks.span, wantedSpan(stretch.gear, cut.circles, flanks.spanTeeth))]),
    ...overBalls(context),
    mm('rootDiameter', 'root diameter', flanks.rootDiameter, wantedRootDiameter(stretch.gear, cut.circles, stretch.tool.addendum)),
    mm('tipDiameter', 'tip diameter', flanks.tipDiameter, stretch.gear.tipDiameter),
    mm('pitchDeviation', 'largest pitch deviation', measured.pitchDeviation),
    mm('profileDeviation', 'total profile deviation', flanks.profileDeviation),
    mm('helixDeviation', 'total helix deviation', flanks.helixDeviation),
    mm('feedMarkDepth', 'depth of the feed marks', flanks.feedMarkDepth),
    mm('generatingMarkDepth', 'depth of the generating marks', flanks.generatingMarkDepth),
    { id: 'gapAngle', name: 'direction of a tooth gap in the middle of the face', value: flanks.gapAngleDegrees, unit: 'deg' },
  ];
}

/** Balls of 1.75 modules, in whole hundredths of a mm (rule of thumb of the technical references). */
function overBalls({ cut, stretch }: Judgement): CutFigure[] {
  const ball = Math.round(175 * stretch.gear.normalModule) / 100;
  const value = sizeOverBalls(cut, ball);
  return value === undefined ? [] : [{ id: 'overBalls', name: `size over balls of ${toldIn(stretch.units).size(ball)}`, value, unit: 'mm', wanted: wantedOverBalls(stretch.gear, cut.circles, ball) }];
}
