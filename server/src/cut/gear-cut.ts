import { radians } from '../trade/angles.ts';
import { middleOf } from './arcs.ts';
import type { AngularWindow, SectionPlan } from './gear-section.ts';
import { GearSection } from './gear-section.ts';
import type { SpanEffect } from './hob-cut.ts';
import { cutSection } from './hob-cut.ts';
import type { HobEdges, HobTool } from './hob-tool.ts';
import { formHeight, hobEdges } from './hob-tool.ts';
import { gapNearest, materialShare, teethOnCircle } from './gear-measure.ts';
import type { HobbingSpan } from './motion.ts';
import type { GearCircles, WantedGear } from './wanted-gear.ts';
import { formRadius, gearCircles, spanTeethFor } from './wanted-gear.ts';

/**
 * Which sections of a gear are cut, and how finely: a coarse look all round in
 * three places, then a fine look at the few gaps that are measured.
 *
 * What is wanted decides only where to look. What is found there comes from
 * the motion alone.
 */

/** The job: the wanted gear between two Z places, the hob, its setting, its motion. */
export interface HobbingJob {
  gear: WantedGear;
  /** The end faces of the teeth, in mm; `zLow` is the smaller one. */
  zLow: number;
  zHigh: number;
  tool: HobTool;
  settingRadians: number;
  spans: readonly HobbingSpan[];
  /** Teeth between the anvils of the span caliper; chosen from the gear when left out. */
  spanTeeth?: number;
}

export interface GearCut {
  circles: GearCircles;
  /** All round, coarse: at the low end, in the middle, at the high end. */
  overview: GearSection[];
  /** What every span did to the three coarse sections together. */
  effects: SpanEffect[];
  /** Present when the middle section shows as many gaps as teeth are wanted. */
  detail?: GearDetail;
}

export interface GearDetail {
  spanTeeth: number;
  /** Angle of the first measured gap in the middle section; the second lies `spanTeeth` teeth further. */
  gapAngle: number;
  /** Fine sections spread over one feed mark, so that ridges and valleys are both seen. */
  phases: GearSection[];
  /** The flank along the teeth, on the reference circle and the root. */
  along: GearSection[];
  formRadius: number;
  /** Height of the ridges that the feed leaves in the root, from the sagitta of the hob's circle, in mm. */
  rootMarkDepth: number;
}

/** A fraction of the work, 0 to 1. */
export type Progress = number;

const COARSE = { flankPoints: 3, tipPoints: 2 };
const FINE = { flankPoints: 8, tipPoints: 5 };
const PHASES = 6;
const CIRCLES_OF_A_PHASE = 40;
const SECTIONS_ALONG = 33;
/** The end faces are looked at this share of the face width inside the material, so that they belong to the tooth. */
const END_SHARE = 1e-3;

/** Index of the reference circle in the overview sections. */
export const OVERVIEW_REFERENCE = 1;

export function* cutGear(job: HobbingJob): Generator<Progress, GearCut> {
  const circles = gearCircles(job.gear);
  const rough = hobEdges(job.tool, COARSE);
  const overview: GearSection[] = [];
  const effects: SpanEffect[] = [];
  for (const z of endAndMiddlePlaces(job)) {
    const section = new GearSection({ z, radii: overviewRadii(job, circles) });
    mergeEffects(effects, yield* withProgress(cutSection(section, rough, job.settingRadians, job.spans), 0.1 * overview.length));
    overview.push(section);
  }
  const middle = overview[1]!;
  if (!looksLikeTheGear(middle, job.gear.teeth)) return { circles, overview, effects };
  return { circles, overview, effects, detail: yield* cutDetail(job, circles, middle) };
}

/** Whether the reference circle shows the wanted number of gaps with material between them. */
function looksLikeTheGear(section: GearSection, teeth: number): boolean {
  return teethOnCircle(section, OVERVIEW_REFERENCE) === teeth && materialShare(section, OVERVIEW_REFERENCE) > 0.05;
}

function* cutDetail(job: HobbingJob, circles: GearCircles, middle: GearSection): Generator<Progress, GearDetail> {
  const edges = hobEdges(job.tool, FINE);
  const gap = gapNearest(middle, OVERVIEW_REFERENCE, 0)!;
  const gapAngle = middleOf(gap);
  const form = formRadius(job.gear, circles, formHeight(job.tool));
  const spanTeeth = job.spanTeeth ?? spanTeethFor(job.gear, circles, form);
  const phases: GearSection[] = [];
  for (const plan of phasePlans(job, circles, gapAngle, spanTeeth, form)) {
    phases.push(yield* cutOne(plan, edges, job, 0.3 + (0.3 * phases.length) / PHASES));
  }
  const along: GearSection[] = [];
  for (const plan of alongPlans(job, circles, gapAngle)) {
    along.push(yield* cutOne(plan, edges, job, 0.6 + (0.4 * along.length) / SECTIONS_ALONG));
  }
  return { spanTeeth, gapAngle, phases, along, formRadius: form, rootMarkDepth: rootMarkDepth(job) };
}

function* cutOne(plan: SectionPlan, edges: HobEdges, job: HobbingJob, done: number): Generator<Progress, GearSection> {
  const section = new GearSection(plan);
  yield* withProgress(cutSection(section, edges, job.settingRadians, job.spans), done);
  return section;
}

function* withProgress<T>(work: Generator<void, T>, done: Progress): Generator<Progress, T> {
  for (let step = work.next(); ; step = work.next()) {
    if (step.done) return step.value;
    yield done;
  }
}

function endAndMiddlePlaces(job: HobbingJob): number[] {
  const inside = (job.zHigh - job.zLow) * END_SHARE;
  return [job.zLow + inside, (job.zLow + job.zHigh) / 2, job.zHigh - inside];
}

/** Near the root, on the reference circle, on the tip circle. */
function overviewRadii(job: HobbingJob, circles: GearCircles): number[] {
  const root = circles.reference + job.gear.profileShift * job.gear.normalModule - job.tool.addendum;
  const low = Math.max(root, circles.reference / 4);
  return [low + 0.05 * (circles.reference - low), circles.reference, circles.tip];
}

/** The feed of the slowest span that turns the work, per work revolution; it only decides how the phases are spread. */
function feedPerWorkTurn(job: HobbingJob): number {
  const feeds = job.spans
    .filter((span) => !span.rapid && span.end.z !== span.start.z && span.end.workRadians !== span.start.workRadians)
    .map((span) => Math.abs(((span.end.z - span.start.z) * 2 * Math.PI) / (span.end.workRadians - span.start.workRadians)));
  return feeds.length ? Math.min(...feeds) : 0;
}

function rootMarkDepth(job: HobbingJob): number {
  const alongTooth = feedPerWorkTurn(job) / Math.cos(radians(job.gear.helixAngleDegrees));
  return alongTooth ** 2 / (4 * job.tool.tipDiameter);
}

function phasePlans(job: HobbingJob, circles: GearCircles, gapAngle: number, spanTeeth: number, form: number): SectionPlan[] {
  const feed = Math.min(feedPerWorkTurn(job), (job.zHigh - job.zLow) / 2);
  const middle = (job.zLow + job.zHigh) / 2;
  const windows = [0, spanTeeth].map((teeth) => gapWindow(gapAngle + teeth * circles.pitchRadians, circles));
  return Array.from({ length: PHASES }, (_, index) => ({
    z: middle + (feed * index) / PHASES,
    radii: evenly(form, circles.tip, CIRCLES_OF_A_PHASE),
    windows,
  }));
}

function alongPlans(job: HobbingJob, circles: GearCircles, gapAngle: number): SectionPlan[] {
  const inside = (job.zHigh - job.zLow) * END_SHARE;
  return evenly(job.zLow + inside, job.zHigh - inside, SECTIONS_ALONG).map((z) => ({
    z,
    radii: [circles.reference],
    windows: [gapWindow(gapAngle, circles, 0.5)],
  }));
}

/**
 * Wide enough for every tooth that takes part in one gap, whose tips stand off
 * its middle by less than half a pitch; `wander` pitches more where the gap may
 * lie beside the middle.
 */
function gapWindow(middle: number, circles: GearCircles, wander = 0): AngularWindow {
  return { middle, half: (0.5 + wander) * circles.pitchRadians };
}

function evenly(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, index) => from + ((to - from) * index) / (count - 1));
}

function mergeEffects(into: SpanEffect[], from: readonly SpanEffect[]): void {
  from.forEach((effect, index) => {
    const known = into[index];
    if (known) known.removed = Math.max(known.removed, effect.removed);
    else into.push({ ...effect });
  });
}
