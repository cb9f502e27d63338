import { shown } from '../trade/quantity.ts';
import type { FlankMeasurement } from './gear-report.ts';
import { formHeight } from './hob-tool.ts';
import { explainCoupling, uncoupledCuts } from './hobbing-coupling.ts';
import { judgeEntry } from './hobbing-entry.ts';
import type { CuttingSpan, Judgement } from './hobbing-judgement.ts';
import { cuttingSpans, isRadial, mainSpan } from './hobbing-judgement.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import type { HobbingSpan } from './motion.ts';
import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import { toldIn, type Told } from './told.ts';
import { wantedRootDiameter, wantedSpan } from './wanted-sizes.ts';

/**
 * What differs between the cut gear and the wanted one, in words. The verdict
 * comes from the cut shape; the motion is only asked why, and whether it keeps
 * to the feed and the method that the note asks for.
 */

/** Beyond the marks and the numeric error, a span may differ by so much, in mm, before it is called wrong: the rounding of X words. */
const SPAN_ALLOWANCE = 0.004;
const ROOT_ALLOWANCE = 0.01;
const HELIX_ALLOWANCE_DEGREES = 0.02;
const FEED_ALLOWANCE_SHARE = 0.02;

export function hobbingVerdict(context: Judgement): CutFinding[] {
  const cutting = cuttingSpans(context);
  if (cutting.length === 0) return [cutFinding(firstLine(context), 'cut-nothing', nothingCut(context))];
  const { flanks } = context.measured;
  const shape = flanks ? judgeFlanks(context, flanks, mainSpan(cutting).span.line) : [judgeRuin(context, mainSpan(cutting).span.line)];
  const steps = cutting.map(({ step }) => step);
  const causes = shape.length > 0 ? explainCoupling(context.stretch, context.machine, steps) : [];
  return [...uncoupledCuts(steps), ...causes, ...shape, ...rapidCuts(cutting), ...judgeFeed(context, cutting), ...judgeEntry(context.stretch, cutting)];
}

function firstLine({ motion }: Judgement): number {
  return motion.steps[0]?.line ?? 0;
}

function nothingCut({ motion, stretch }: Judgement): string {
  const nearest = Math.min(...motion.spans.map((span) => Math.min(Math.abs(span.start.x), Math.abs(span.end.x))));
  const reach = stretch.gear.tipDiameter / 2 + stretch.tool.tipDiameter / 2;
  const told = toldIn(stretch.units);
  if (!Number.isFinite(nearest)) return 'The hob never cuts: no move of the block takes it along the work.';
  return `The hob never cuts: its axis comes no nearer than ${told.size(nearest)} to the work axis, the blank begins at ${told.size(reach)}, and the teeth lie from Z ${told.place(stretch.zLow)} to ${told.place(stretch.zHigh)}.`;
}

function rapidCuts(cutting: readonly CuttingSpan[]): CutFinding[] {
  return cutting
    .filter(({ span }) => span.rapid)
    .map(({ span }) => cutFinding(span.line, 'cut-rapid', `The hob cuts into the blank in a rapid move: ${isRadial(span) ? 'it goes in radially without a feed, or' : 'the free travel before the teeth is too short, or'} the depth is reached inside the work.`));
}

function judgeRuin({ measured, stretch }: Judgement, line: number): CutFinding {
  const wanted = stretch.gear.teeth;
  if (measured.materialOnReference < 0.02) {
    return cutFinding(line, 'cut-teeth', `The teeth are milled away: nothing is left on the reference circle, where ${wanted} teeth are wanted.`);
  }
  if (measured.teeth === 0) {
    return cutFinding(line, 'cut-teeth', `No teeth are cut down to the reference circle; ${wanted} are wanted.`);
  }
  const left = `${shown(100 * measured.materialOnReference, 0)} % of the reference circle is left`;
  return cutFinding(line, 'cut-teeth', `The cut leaves ${measured.teeth} gaps on the reference circle, ${wanted} are wanted; ${left}.`);
}

function judgeFlanks(context: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  return [
    ...judgeHelix(context, flanks, line),
    ...judgeDepth(context, flanks, line),
    ...judgeSpan(context, flanks, line),
    ...judgeProfile(context, flanks, line),
    ...judgeTravel(context, flanks, line),
  ];
}

function judgeHelix({ stretch }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  const wanted = stretch.gear.helixAngleDegrees;
  const cut = flanks.helixAngleDegrees;
  if (Math.abs(cut - wanted) <= HELIX_ALLOWANCE_DEGREES) return [];
  if (wanted !== 0 && Math.sign(cut) === -Math.sign(wanted)) {
    return [cutFinding(line, 'cut-hand', `The teeth are ${handed(cut)}, ${handed(wanted)} ones are wanted: the helix comes to ${shown(cut, 3)} degrees instead of ${shown(wanted, 3)}.`)];
  }
  return [cutFinding(line, 'cut-helix', `The helix comes to ${shown(cut, 3)} degrees, ${shown(wanted, 3)} is wanted.`)];
}

function handed(angle: number): string {
  return angle > 0 ? 'right-hand' : 'left-hand';
}

function judgeDepth(context: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  const wanted = wantedRootDiameter(context.stretch.gear, context.cut.circles, context.stretch.tool.addendum);
  const excess = flanks.rootDiameter - wanted;
  if (Math.abs(excess) <= ROOT_ALLOWANCE) return [];
  const how = excess > 0 ? 'not deep enough' : 'too deep';
  const told = toldIn(context.stretch.units);
  return [cutFinding(line, 'cut-depth', `The teeth are ${how} by ${told.size(Math.abs(excess) / 2)}: root diameter ${told.place(flanks.rootDiameter)}, ${told.place(wanted)} is wanted.`)];
}

/** The caliper rests on the ridges of the marks, so the span is larger by them and never smaller. */
function judgeSpan({ stretch, cut }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  if (flanks.span === undefined) return [];
  const wanted = wantedSpan(stretch.gear, cut.circles, flanks.spanTeeth);
  const excess = flanks.span - wanted;
  const marks = 2 * (flanks.feedMarkDepth + Math.max(flanks.generatingMarkDepth, flanks.profileDeviation));
  if (excess >= -SPAN_ALLOWANCE && excess <= 1.2 * marks + SPAN_ALLOWANCE) return [];
  const how = excess > 0 ? 'too thick' : 'too thin';
  const told = toldIn(stretch.units);
  return [cutFinding(line, 'cut-span', `The teeth are ${how}: the span over ${flanks.spanTeeth} teeth comes to ${told.size(flanks.span, 4)}, ${told.place(wanted, 4)} is wanted.`)];
}

function judgeProfile({ stretch }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  const limit = 1.5 * (flanks.feedMarkDepth + flanks.generatingMarkDepth) + 0.004 + 0.0005 * formHeight(stretch.tool);
  const isTooWavy = flanks.generatingMarkDepth > 0.02 * stretch.gear.normalModule;
  if (flanks.profileDeviation <= limit && !isTooWavy) return [];
  return [cutFinding(line, 'cut-profile', `The flanks depart from the involute by ${toldIn(stretch.units).size(flanks.profileDeviation, 4)}: the hob is too short or too far shifted to finish them, or its setting angle is wrong.`)];
}

function judgeTravel({ stretch }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  const middle = (stretch.zLow + stretch.zHigh) / 2;
  const told = toldIn(stretch.units);
  const findings = [];
  const high = flanks.shallowPlaces.filter((z) => z > middle);
  const low = flanks.shallowPlaces.filter((z) => z < middle);
  if (high.length) findings.push(cutFinding(line, 'cut-travel', travelMessage(high, flanks, stretch.zHigh, told)));
  if (low.length) findings.push(cutFinding(line, 'cut-travel', travelMessage(low, flanks, stretch.zLow, told)));
  return findings;
}

function travelMessage(places: readonly number[], flanks: FlankMeasurement, end: number, told: Told): string {
  const from = told.place(Math.min(...places), 2);
  const to = told.place(Math.max(...places), 2);
  return `The teeth are not finished toward Z ${told.place(end)}: from Z ${from} to ${to} up to ${told.size(flanks.shallowBy)} of depth is missing. The travel is too short there.`;
}

/** Feed per work revolution and the sense of the hob against the feed, over every feed that cuts along Z. */
function judgeFeed({ stretch }: Judgement, cutting: readonly CuttingSpan[]): CutFinding[] {
  const findings: CutFinding[] = [];
  for (const { span } of cutting) {
    if (span.rapid || span.end.z === span.start.z) continue;
    findings.push(...feedFinding(stretch, span), ...methodFinding(stretch, span));
  }
  return findings;
}

/** On helical teeth the extra turn of the work is part of its revolutions; whether the feed counts on them or on the plain ones is left open. */
function feedFinding({ feedPerWorkTurn, gear, units }: HobbingStretch, span: HobbingSpan): CutFinding[] {
  const workTurns = Math.abs(span.end.workRadians - span.start.workRadians) / (2 * Math.PI);
  if (feedPerWorkTurn === undefined || workTurns === 0) return [];
  const feed = Math.abs(span.end.z - span.start.z) / workTurns;
  const extraTurn = (feedPerWorkTurn * Math.sin((Math.abs(gear.helixAngleDegrees) * Math.PI) / 180)) / (Math.PI * gear.normalModule * gear.teeth);
  if (Math.abs(feed / feedPerWorkTurn - 1) <= FEED_ALLOWANCE_SHARE + extraTurn) return [];
  const told = toldIn(units);
  return [cutFinding(span.line, 'cut-feed', `The hob feeds ${told.size(feed, 4)} for one revolution of the work; the note asks for ${told.place(feedPerWorkTurn, 4)}.`)];
}

function methodFinding({ climb }: HobbingStretch, span: HobbingSpan): CutFinding[] {
  const teethUp = span.end.hobRadians > span.start.hobRadians;
  const isClimb = teethUp === span.end.z < span.start.z;
  if (climb === undefined || isClimb === climb) return [];
  const [is, asked] = isClimb ? ['climbs', 'conventional'] : ['cuts conventionally', 'climb'];
  return [cutFinding(span.line, 'cut-method', `The hob ${is}; the note asks for ${asked} hobbing.`)];
}
