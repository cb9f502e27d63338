import { inverseInvolute } from '../trade/involute.ts';
import { shown } from '../trade/quantity.ts';
import type { GearCut, HobbingJob, Progress } from './gear-cut.ts';
import { cutGear } from './gear-cut.ts';
import type { FlankMeasurement, GearMeasurement } from './gear-report.ts';
import { measureGear, sizeOverBalls } from './gear-report.ts';
import { formHeight } from './hob-tool.ts';
import type { HobTool } from './hob-tool.ts';
import { explainCoupling } from './hobbing-coupling.ts';
import type { HobbingMachine, HobbingMotion } from './hobbing-motion.ts';
import { hobbingMotion } from './hobbing-motion.ts';
import type { HobbingStretch, Obstacle } from './hobbing-stretch.ts';
import type { HobbingSpan } from './motion.ts';
import type { CutFigure, CutFinding, StretchProof } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { ToolStep } from './tool-steps.ts';
import type { WantedGear } from './wanted-gear.ts';

/**
 * Proves one hobbing stretch: the steps of the program are carried out on a
 * virtual blank, the gear is measured, and what differs from the wanted gear is
 * named together with the cause that the motion shows.
 *
 * The verdict comes from the cut shape. The motion is only consulted to say why.
 */
/** Beyond the marks and the numeric error, a span may differ by so much, in mm, before it is called wrong: the rounding of X words. */
const SPAN_ALLOWANCE = 0.004;
const ROOT_ALLOWANCE = 0.01;
const HELIX_ALLOWANCE_DEGREES = 0.02;
const FEED_ALLOWANCE_SHARE = 0.02;
/** Arcs shorter than this, in mm, are what the last revolution of a feed leaves for the retract: no cut to speak of. */
const LEAST_CUT = 0.005;

export function* proveHobbing(stretch: HobbingStretch, steps: readonly ToolStep[], machine: HobbingMachine): Generator<Progress, StretchProof> {
  const motion = hobbingMotion(steps, machine);
  const job: HobbingJob = { ...stretch, spans: motion.spans };
  const standing = standingHob(stretch, motion);
  const beforehand = [...standing, ...indexing(steps), ...collisions(stretch, motion)];
  const cut = yield* cutGear(job);
  const measured = measureGear(cut);
  const context: Judgement = { stretch, motion, machine, cut, measured };
  return {
    findings: inOrder([...beforehand, ...judge(context).filter(({ rule }) => standing.length === 0 || rule !== 'cut-nothing')]),
    figures: figuresOf(context),
    assumptions: [],
  };
}

interface Judgement {
  stretch: HobbingStretch;
  motion: HobbingMotion;
  machine: HobbingMachine;
  cut: GearCut;
  measured: GearMeasurement;
}

function judge(context: Judgement): CutFinding[] {
  const cutting = cuttingSpans(context);
  if (cutting.length === 0) return [cutFinding(firstLine(context), 'cut-nothing', nothingCut(context))];
  const { flanks } = context.measured;
  const shape = flanks ? judgeFlanks(context, flanks, mainSpan(cutting).span.line) : [judgeRuin(context, mainSpan(cutting).span.line)];
  const causes = shape.length > 0 ? explainCoupling(context.stretch, context.machine, cutting.map(({ step }) => step)) : [];
  return [...causes, ...shape, ...rapidCuts(cutting), ...judgeFeed(context, cutting)];
}

interface CuttingSpan {
  span: HobbingSpan;
  step: ToolStep;
}

function cuttingSpans({ cut, motion }: Judgement): CuttingSpan[] {
  return motion.spans.flatMap((span, index) => ((cut.effects[index]?.removed ?? 0) > LEAST_CUT ? [{ span, step: motion.steps[index]! }] : []));
}

/** The cutting span with the longest way along Z: the one that makes the teeth. */
function mainSpan(cutting: readonly CuttingSpan[]): CuttingSpan {
  const way = ({ span }: CuttingSpan): number => (span.rapid ? -1 : Math.abs(span.end.z - span.start.z));
  return cutting.reduce((best, each) => (way(each) > way(best) ? each : best));
}

function firstLine({ motion }: Judgement): number {
  return motion.steps[0]?.line ?? 0;
}

function nothingCut({ motion, stretch }: Judgement): string {
  const nearest = Math.min(...motion.spans.map((span) => Math.min(Math.abs(span.start.x), Math.abs(span.end.x))));
  const reach = stretch.gear.tipDiameter / 2 + stretch.tool.tipDiameter / 2;
  return `The hob never cuts: its axis comes no nearer than ${shown(nearest, 3)} mm to the work axis, the blank begins at ${shown(reach, 3)} mm, and the teeth lie from Z ${shown(stretch.zLow, 3)} to ${shown(stretch.zHigh, 3)}.`;
}

function rapidCuts(cutting: readonly CuttingSpan[]): CutFinding[] {
  return cutting
    .filter(({ span }) => span.rapid)
    .map(({ span }) => cutFinding(span.line, 'cut-rapid', 'The hob cuts into the blank in a rapid move: the free travel before the teeth is too short, or the depth is reached inside the work.'));
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
  const wanted = wantedRootDiameter(context);
  const excess = flanks.rootDiameter - wanted;
  if (Math.abs(excess) <= ROOT_ALLOWANCE) return [];
  const how = excess > 0 ? 'not deep enough' : 'too deep';
  return [cutFinding(line, 'cut-depth', `The teeth are ${how} by ${shown(Math.abs(excess) / 2, 3)} mm: root diameter ${shown(flanks.rootDiameter, 3)}, ${shown(wanted, 3)} is wanted.`)];
}

function wantedRootDiameter({ stretch, cut }: Judgement): number {
  return 2 * (cut.circles.reference + stretch.gear.profileShift * stretch.gear.normalModule - stretch.tool.addendum);
}

/** The caliper rests on the ridges of the marks, so the span is larger by them and never smaller. */
function judgeSpan({ stretch, cut }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  if (flanks.span === undefined) return [];
  const wanted = wantedSpan(stretch.gear, cut, flanks.spanTeeth);
  const excess = flanks.span - wanted;
  const marks = 2 * (flanks.feedMarkDepth + flanks.generatingMarkDepth);
  if (excess >= -SPAN_ALLOWANCE && excess <= 1.2 * marks + SPAN_ALLOWANCE) return [];
  const how = excess > 0 ? 'too thick' : 'too thin';
  return [cutFinding(line, 'cut-span', `The teeth are ${how}: the span over ${flanks.spanTeeth} teeth comes to ${shown(flanks.span, 4)} mm, ${shown(wanted, 4)} is wanted.`)];
}

/** Base tangent length (ISO 21771), written out here so that the proof leans on no figure of the block. */
function wantedSpan(gear: WantedGear, cut: GearCut, spanTeeth: number): number {
  const alpha = (gear.normalPressureAngleDegrees * Math.PI) / 180;
  const transverse = cut.circles.transversePressureAngleRadians;
  const involute = Math.tan(transverse) - transverse;
  const m = gear.normalModule;
  return m * Math.cos(alpha) * (Math.PI * (spanTeeth - 0.5) + gear.teeth * involute) + 2 * gear.profileShift * m * Math.sin(alpha);
}

function judgeProfile({ stretch }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  const limit = 1.5 * (flanks.feedMarkDepth + flanks.generatingMarkDepth) + 0.004 + 0.0005 * formHeight(stretch.tool);
  const isTooWavy = flanks.generatingMarkDepth > 0.02 * stretch.gear.normalModule;
  if (flanks.profileDeviation <= limit && !isTooWavy) return [];
  return [cutFinding(line, 'cut-profile', `The flanks depart from the involute by ${shown(flanks.profileDeviation, 4)} mm: the hob is too short or too far shifted to finish them, or its setting angle is wrong.`)];
}

function judgeTravel({ stretch }: Judgement, flanks: FlankMeasurement, line: number): CutFinding[] {
  const middle = (stretch.zLow + stretch.zHigh) / 2;
  const findings = [];
  const high = flanks.shallowPlaces.filter((z) => z > middle);
  const low = flanks.shallowPlaces.filter((z) => z < middle);
  if (high.length) findings.push(cutFinding(line, 'cut-travel', travelMessage(high, flanks, `Z ${shown(stretch.zHigh, 3)}`)));
  if (low.length) findings.push(cutFinding(line, 'cut-travel', travelMessage(low, flanks, `Z ${shown(stretch.zLow, 3)}`)));
  return findings;
}

function travelMessage(places: readonly number[], flanks: FlankMeasurement, end: string): string {
  const from = shown(Math.min(...places), 2);
  const to = shown(Math.max(...places), 2);
  return `The teeth are not finished toward ${end}: from Z ${from} to ${to} up to ${shown(flanks.shallowBy, 3)} mm of depth is missing. The travel is too short there.`;
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

function feedFinding({ feedPerWorkTurn }: HobbingStretch, span: HobbingSpan): CutFinding[] {
  const workTurns = Math.abs(span.end.workRadians - span.start.workRadians) / (2 * Math.PI);
  if (feedPerWorkTurn === undefined || workTurns === 0) return [];
  const feed = Math.abs(span.end.z - span.start.z) / workTurns;
  if (Math.abs(feed / feedPerWorkTurn - 1) <= FEED_ALLOWANCE_SHARE) return [];
  return [cutFinding(span.line, 'cut-feed', `The hob feeds ${shown(feed, 4)} mm for one revolution of the work; the note asks for ${shown(feedPerWorkTurn, 4)}.`)];
}

function methodFinding({ climb }: HobbingStretch, span: HobbingSpan): CutFinding[] {
  const teethUp = span.end.hobRadians > span.start.hobRadians;
  const isClimb = teethUp === span.end.z < span.start.z;
  if (climb === undefined || isClimb === climb) return [];
  const [is, asked] = isClimb ? ['climbs', 'conventional'] : ['cuts conventionally', 'climb'];
  return [cutFinding(span.line, 'cut-method', `The hob ${is}; the note asks for ${asked} hobbing.`)];
}

/** The hob moves while it overlaps the blank and does not turn. */
function standingHob(stretch: HobbingStretch, { spans }: HobbingMotion): CutFinding[] {
  return spans
    .filter((span) => span.end.hobRadians === span.start.hobRadians && movesThrough(span, stretch))
    .slice(0, 1)
    .map((span) => cutFinding(span.line, 'cut-standing-hob', 'The hob moves into the blank without turning.'));
}

function movesThrough(span: HobbingSpan, stretch: HobbingStretch): boolean {
  const moves = span.end.x !== span.start.x || span.end.y !== span.start.y || span.end.z !== span.start.z;
  return moves && overlaps(span, stretch.tool, { name: 'blank', radius: stretch.gear.tipDiameter / 2, zLow: stretch.zLow, zHigh: stretch.zHigh }, stretch.settingRadians);
}

function collisions(stretch: HobbingStretch, { spans }: HobbingMotion): CutFinding[] {
  return (stretch.obstacles ?? []).flatMap((obstacle) => {
    const span = spans.find((each) => overlaps(each, stretch.tool, obstacle, stretch.settingRadians));
    return span ? [cutFinding(span.line, 'cut-collision', `The hob runs into the ${obstacle.name} (diameter ${shown(2 * obstacle.radius, 3)}, Z ${shown(obstacle.zLow, 3)} to ${shown(obstacle.zHigh, 3)}).`)] : [];
  });
}

/** Whether the hob's tip cylinder enters a cylinder about the work axis anywhere on the way; looked at in sixty-four places. */
function overlaps(span: HobbingSpan, tool: HobTool, body: Obstacle, settingRadians: number): boolean {
  for (let step = 0; step <= 64; step += 1) {
    const share = step / 64;
    const x = Math.abs(span.start.x + share * (span.end.x - span.start.x));
    const z = span.start.z + share * (span.end.z - span.start.z);
    const reach = reachAlongWork(tool, body.radius, x, settingRadians);
    if (reach > 0 && z - reach < body.zHigh && z + reach > body.zLow) return true;
  }
  return false;
}

/** How far along Z the swivelled tip cylinder reaches inside a cylinder of the work: the largest over points across it. */
function reachAlongWork(tool: HobTool, bodyRadius: number, x: number, settingRadians: number): number {
  const tip = tool.tipDiameter / 2;
  let reach = 0;
  for (let step = -32; step <= 32; step += 1) {
    const y = (bodyRadius * step) / 32;
    if (Math.abs(y) > (tool.length / 2) * Math.cos(settingRadians)) continue;
    const gap = x - Math.sqrt(bodyRadius ** 2 - y ** 2);
    if (gap >= tip) continue;
    reach = Math.max(reach, Math.sqrt(tip ** 2 - Math.max(gap, 0) ** 2) / Math.cos(settingRadians) + Math.abs(y * Math.tan(settingRadians)));
  }
  return reach;
}

function indexing(steps: readonly ToolStep[]): CutFinding[] {
  return steps.flatMap((step) => {
    if (!step.sync) return [];
    if (step.changesTool) return [cutFinding(step.line, 'cut-index', 'The tool is changed while hob and work are coupled.')];
    const movesAlong = step.kind === 'feed' && step.from.z !== step.to.z;
    if (step.from.c !== step.to.c && !movesAlong) return [cutFinding(step.line, 'cut-index', 'The work is turned by a C word while hob and work are coupled.')];
    return [];
  });
}

function figuresOf(context: Judgement): CutFigure[] {
  const { measured, stretch, cut } = context;
  const { flanks } = measured;
  const figures: CutFigure[] = [{ id: 'teeth', name: 'teeth', value: measured.teeth, unit: 'teeth', wanted: stretch.gear.teeth }];
  if (!flanks) return figures;
  const mm = (id: string, name: string, value: number, wanted?: number): CutFigure => ({ id, name, value, unit: 'mm', ...(wanted === undefined ? {} : { wanted }) });
  return [
    ...figures,
    { id: 'helixAngle', name: 'helix angle, right hand positive', value: flanks.helixAngleDegrees, unit: 'deg', wanted: stretch.gear.helixAngleDegrees },
    ...(flanks.span === undefined ? [] : [mm('span', `span over ${flanks.spanTeeth} teeth`, flanks.span, wantedSpan(stretch.gear, cut, flanks.spanTeeth))]),
    ...overBalls(context),
    mm('rootDiameter', 'root diameter', flanks.rootDiameter, wantedRootDiameter(context)),
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
  return value === undefined ? [] : [{ id: 'overBalls', name: `size over balls of ${shown(ball, 2)} mm`, value, unit: 'mm', wanted: wantedOverBalls(stretch.gear, cut, ball) }];
}

/** Size over two balls (ISO 21771; the same formula is checked against published tables in the trade library's tests). */
function wantedOverBalls(gear: WantedGear, cut: GearCut, ball: number): number {
  const alpha = (gear.normalPressureAngleDegrees * Math.PI) / 180;
  const transverse = cut.circles.transversePressureAngleRadians;
  const halfTooth = (Math.PI / 2 + 2 * gear.profileShift * Math.tan(alpha)) / gear.teeth;
  const involute = halfTooth + ball / (gear.teeth * gear.normalModule * Math.cos(alpha)) - Math.PI / gear.teeth + Math.tan(transverse) - transverse;
  const centre = (2 * cut.circles.base) / Math.cos(inverseInvolute(Math.max(involute, 0)));
  return centre * (gear.teeth % 2 === 0 ? 1 : Math.cos(Math.PI / (2 * gear.teeth))) + ball;
}

/** One finding of a rule on a line is enough. */
function inOrder(findings: CutFinding[]): CutFinding[] {
  const seen = new Set<string>();
  const once = findings.filter(({ line, rule }) => !seen.has(`${line} ${rule}`) && seen.add(`${line} ${rule}`));
  return once.sort((a, b) => a.line - b.line);
}

