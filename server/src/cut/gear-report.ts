import { degrees } from '../trade/angles.ts';
import type { Hand } from '../trade/hands.ts';
import { middleOf, wrapped } from './arcs.ts';
import type { GearCut, GearDetail } from './gear-cut.ts';
import { OVERVIEW_REFERENCE } from './gear-cut.ts';
import type { FlankPoint, GapFlanks } from './gear-measure.ts';
import {
  ballCentreRadius,
  flanksOfGap,
  gapNearest,
  largestPitchDeviation,
  lineThrough,
  materialShare,
  profileDeviations,
  teethOnCircle,
  transverseSpan,
} from './gear-measure.ts';
import type { GearSection } from './gear-section.ts';

/**
 * The figures that an inspection of the cut gear would give. All of them come
 * from the cut shape; the wanted gear lends only the base circle against which
 * the profile is traced, as on an inspection machine.
 */
export interface GearMeasurement {
  /** Gaps counted on the reference circle in the middle of the face. */
  teeth: number;
  /** Share of the reference circle that is still material, 0 to 1. */
  materialOnReference: number;
  /** Largest pitch deviation on the reference circle, in mm of arc. */
  pitchDeviation: number;
  flanks?: FlankMeasurement;
}

/** What can only be measured when there are teeth. Lengths in mm, angles in degrees. */
export interface FlankMeasurement {
  /** Signed, on the reference cylinder: positive for a right-hand gear. */
  helixAngleDegrees: number;
  /** Hand of the helix; 0 when the teeth are straight. */
  hand: Hand | 0;
  /** Signed lead; Infinity for straight teeth. */
  lead: number;
  /** Angle of one gap's middle in the middle section, about the work axis from the X axis of the work. */
  gapAngleDegrees: number;
  spanTeeth: number;
  /** Base tangent length over `spanTeeth` teeth, normal to the flanks, over the ridges; undefined when no caliper fits. */
  span?: number;
  rootDiameter: number;
  tipDiameter: number;
  /** Total profile deviation of the worse flank, form and slope together. */
  profileDeviation: number;
  /** Total deviation of the worse flank from its own mean helix. */
  helixDeviation: number;
  /** Depth of the marks along the teeth, normal to the flank. */
  feedMarkDepth: number;
  /** Depth of the marks across the profile, normal to the flank, at the bottom of the feed marks. */
  generatingMarkDepth: number;
  /** Places along Z where the gap is shallower than in the middle, if any. */
  shallowPlaces: number[];
  /** The deepest stock, in mm of radius, that stands in a shallow place. */
  shallowBy: number;
}

export function measureGear(cut: GearCut): GearMeasurement {
  const middle = cut.overview[1]!;
  return {
    teeth: teethOnCircle(middle, OVERVIEW_REFERENCE),
    materialOnReference: materialShare(middle, OVERVIEW_REFERENCE),
    pitchDeviation: largestPitchDeviation(middle, OVERVIEW_REFERENCE) * cut.circles.reference,
    ...(cut.detail ? { flanks: measureFlanks(cut, cut.detail) } : {}),
  };
}

/** Size over two balls in opposite (or nearly opposite) gaps, in mm; undefined when the ball does not rest on the flanks. */
export function sizeOverBalls(cut: GearCut, ballDiameter: number): number | undefined {
  if (!cut.detail) return undefined;
  const { lead } = measureFlanks(cut, cut.detail);
  const centres = cut.detail.phases.map((section) =>
    ballCentreRadius(flanksOfGap(section, gapAngleIn(section, cut.detail!), cut.circles.pitchRadians), ballDiameter, lead),
  );
  if (centres.some((centre) => centre === undefined)) return undefined;
  const centre = Math.max(...(centres as number[]));
  const { teeth } = measureGear(cut);
  const aside = teeth % 2 === 0 ? 1 : Math.cos(Math.PI / (2 * teeth));
  return 2 * centre * aside + ballDiameter;
}

function measureFlanks(cut: GearCut, detail: GearDetail): FlankMeasurement {
  const helix = measureHelix(cut, detail);
  const span = measureSpan(cut, detail, helix.lead);
  return {
    ...helix,
    gapAngleDegrees: degrees(wrapped(detail.gapAngle)),
    spanTeeth: detail.spanTeeth,
    ...(span === undefined ? {} : { span }),
    ...measureProfile(cut, detail, helix.lead === Infinity ? 0 : (2 * Math.PI) / helix.lead),
    ...measureDepth(cut, detail),
  };
}

function measureHelix(cut: GearCut, detail: GearDetail) {
  const { reference, baseHelixRadians, base } = cut.circles;
  const places = detail.along.map((section) => section.z);
  const lower = unwrappedEdges(cut, detail, 'start');
  const upper = unwrappedEdges(cut, detail, 'end');
  const low = lineThrough(places, lower);
  const high = lineThrough(places, upper);
  const turnPerLength = (low.slope + high.slope) / 2;
  const helixAngleDegrees = degrees(Math.atan(turnPerLength * reference));
  const toNormal = base * Math.cos(baseHelixRadians);
  return {
    helixAngleDegrees,
    hand: handOf(helixAngleDegrees),
    lead: turnPerLength === 0 ? Infinity : (2 * Math.PI) / turnPerLength,
    helixDeviation: Math.max(low.spread, high.spread) * toNormal,
    feedMarkDepth: feedMarkDepth(cut, detail, turnPerLength) * toNormal,
  };
}

/** Straight teeth show a helix angle of nothing but rounding and the marks. */
function handOf(helixAngleDegrees: number): Hand | 0 {
  if (Math.abs(helixAngleDegrees) < 0.02) return 0;
  return helixAngleDegrees > 0 ? 1 : -1;
}

/** The gap's edge on the reference circle from section to section; a step of a whole tooth means another gap was seen. */
function unwrappedEdges(cut: GearCut, detail: GearDetail, edge: 'start' | 'end'): number[] {
  const pitch = cut.circles.pitchRadians;
  let previous = detail.gapAngle;
  return detail.along.map((section) => {
    const arc = gapNearest(section, 0, detail.gapAngle);
    const angle = arc ? arc[edge] : previous;
    previous += angle - previous - pitch * Math.round((angle - previous) / pitch);
    return previous;
  });
}

/** Over one feed, with the helix taken off: how much further the flank stands on a ridge than in a valley, as an angle. */
function feedMarkDepth(cut: GearCut, detail: GearDetail, turnPerLength: number): number {
  const first = detail.phases[0]!;
  const edges = detail.phases.map((section) => {
    const arc = gapNearest(section, nearestCircle(section, cut.circles.reference), gapAngleIn(section, detail));
    return arc ? arc.start - turnPerLength * (section.z - first.z) : 0;
  });
  return Math.max(...edges) - Math.min(...edges);
}

function nearestCircle(section: GearSection, radius: number): number {
  const distances = section.radii.map((candidate) => Math.abs(candidate - radius));
  return distances.indexOf(Math.min(...distances));
}

/** The middle of the measured gap in a section a little off the middle section. */
function gapAngleIn(section: GearSection, detail: GearDetail, teethFurther = 0, pitch = 0): number {
  const arc = gapNearest(section, section.radii.length >> 1, detail.gapAngle + teethFurther * pitch);
  return arc ? middleOf(arc) : detail.gapAngle;
}

/** The caliper rests on the ridges, so the largest value over one feed counts. */
function measureSpan(cut: GearCut, detail: GearDetail, lead: number): number | undefined {
  const spans = detail.phases.map((section) => spanIn(section, cut, detail)).filter((span) => span !== undefined);
  if (spans.length === 0) return undefined;
  return Math.max(...spans) * Math.cos(Math.atan((2 * Math.PI * cut.circles.base) / lead));
}

function spanIn(section: GearSection, cut: GearCut, detail: GearDetail): number | undefined {
  const { pitchRadians } = cut.circles;
  const gap = (teeth: number): GapFlanks => flanksOfGap(section, gapAngleIn(section, detail, teeth, pitchRadians), pitchRadians);
  return transverseSpan(gap(0).upper, gap(detail.spanTeeth).lower);
}

function measureProfile(cut: GearCut, detail: GearDetail, turnPerLength: number) {
  const sides = (['lower', 'upper'] as const).map((side) => flankTraces(cut, detail, side, turnPerLength));
  return {
    profileDeviation: Math.max(...sides.flatMap((side) => side.traces.map((trace) => spreadOf(trace)))),
    generatingMarkDepth: Math.max(...sides.map((side) => lineThrough(side.places, deepestOf(side.traces)).spread)),
  };
}

interface FlankTraces {
  /** Roll lengths of the traced points, the same for every trace. */
  places: number[];
  /** Deviations normal to the flank, one trace for every section of the feed mark. */
  traces: number[][];
}

function flankTraces(cut: GearCut, detail: GearDetail, side: 'lower' | 'upper', turnPerLength: number): FlankTraces {
  const { base, baseHelixRadians, pitchRadians } = cut.circles;
  const first = detail.phases[0]!;
  const flanks = detail.phases.map((section) =>
    turned(flanksOfGap(section, gapAngleIn(section, detail), pitchRadians)[side], -turnPerLength * (section.z - first.z)),
  );
  const common = Math.min(...flanks.map((flank) => flank.length));
  return {
    places: flanks[0]!.slice(0, common).map((point) => Math.sqrt(Math.max(point.radius ** 2 - base ** 2, 0))),
    traces: flanks.map((flank) =>
      profileDeviations(flank.slice(0, common), base, side).map((value) => value * Math.cos(baseHelixRadians)),
    ),
  };
}

function turned(flank: readonly FlankPoint[], angle: number): FlankPoint[] {
  return flank.map((point) => ({ radius: point.radius, angle: point.angle + angle }));
}

/** The bottom of the feed marks: at every radius the deepest that any section of one feed shows. What waves there, the gashes left. */
function deepestOf(traces: readonly number[][]): number[] {
  return traces[0]!.map((_, index) => Math.min(...traces.map((trace) => trace[index]!)));
}

function spreadOf(values: readonly number[]): number {
  return values.length ? Math.max(...values) - Math.min(...values) : 0;
}

function measureDepth(cut: GearCut, detail: GearDetail) {
  const depths = detail.along.map((section) => section.deepestRadius);
  const root = Math.min(...depths);
  const limit = root + allowedRise(cut, detail, root);
  const shallow = shallowEnds(depths, limit);
  return {
    rootDiameter: 2 * root,
    tipDiameter: 2 * outermostMaterial(cut),
    shallowPlaces: shallow.map((index) => detail.along[index]!.z),
    shallowBy: shallow.length ? Math.max(...shallow.map((index) => depths[index]!)) - root : 0,
  };
}

/** Missing travel shows at the ends and from there on without a gap; what rises and falls in between are marks. */
function shallowEnds(depths: readonly number[], limit: number): number[] {
  const firstDeep = depths.findIndex((depth) => depth <= limit);
  const lastDeep = depths.findLastIndex((depth) => depth <= limit);
  return depths.map((_, index) => index).filter((index) => index < firstDeep || index > lastDeep);
}

/** Never called missing depth, in mm: it is what the numbers of a cut may be off. */
const LEAST_ALLOWED_RISE = 0.002;

/** What the feed marks lift the root, with a margin, and a thousandth of the depth. */
function allowedRise(cut: GearCut, detail: GearDetail, root: number): number {
  return LEAST_ALLOWED_RISE + 1.3 * detail.rootMarkDepth + 1e-3 * Math.max(cut.circles.tip - root, 0);
}

function outermostMaterial(cut: GearCut): number {
  const middle = cut.overview[1]!;
  const circle = middle.radii.findLastIndex((_, index) => materialShare(middle, index) > 1e-6);
  return circle < 0 ? 0 : middle.radii[circle]!;
}
