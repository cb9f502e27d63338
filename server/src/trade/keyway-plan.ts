/**
 * The geometry and the order of cutting of one or several equal keyways: what a
 * block is written from. Knows no control: radii, not X words, and distances
 * from the face, not Z words.
 */
import { evenlySpacedAnglesDegrees } from './clocking.ts';
import { checkKeywayInput, type KeywayInput } from './keyway-input.ts';
import { keywaySection, type KeywaySection } from './keyway-section.ts';
import { OutOfRange, shown } from './quantity.ts';
import { sidePassOffsets } from './side-passes.ts';
import { cornerContactRadius, slotArea } from './slot-geometry.ts';
import { strokePlan, strokesToFeed, type StrokePlan } from './stroke-plan.ts';

/** One pass at one offset in Y, from the clearance to the floor. */
export interface KeywayPass {
  readonly offsetY: number;
  /** Distance of the edge from the axis when its outer corner touches the bore. */
  readonly contactRadius: number;
  /** Where the X feed of this pass starts: the contact less the clearance. */
  readonly startRadius: number;
  /** Distance of the edge from the axis at the end of the feed. */
  readonly floorRadius: number;
  /** Strokes with feed, without spark-out. */
  readonly feedStrokes: number;
  /** Strokes with feed and spark-out. */
  readonly strokes: number;
}

export interface KeywayPlan extends KeywaySection, StrokePlan {
  readonly insertWidth: number;
  /** Width aimed at: the middle of the limits when side passes make the width, else the nominal width. */
  readonly aimedWidth: number;
  readonly passes: readonly KeywayPass[];
  /** C positions of all keyways, each from the start angle at once so that no rounding adds up. */
  readonly anglesDegrees: readonly number[];
  readonly totalStrokes: number;
  readonly seconds: number;
  readonly volume: number;
}

/**
 * Plans the cut.
 *
 * @throws OutOfRange with the field of `KeywayInput` that is wrong and its range
 * Source: derived from geometry and kinematics; sizes and limits from the standards that the section names.
 */
export function keywayPlan(input: KeywayInput): KeywayPlan {
  checkKeywayInput(input);
  const section = keywaySection(input);
  const insertWidth = checkedInsertWidth(input, section);
  const cover = coverage(section, insertWidth);
  checkFeedAgainstCut(input, section);
  const strokes = strokePlan(input);
  const passes = cover.offsets.map((offsetY) => planPass(input, section, insertWidth, offsetY));
  const strokesOfOne = passes.reduce((sum, pass) => sum + pass.strokes, 0);
  const totalStrokes = strokesOfOne * checkedCount(input, section);
  return {
    ...section,
    insertWidth,
    aimedWidth: cover.aimedWidth,
    passes,
    anglesDegrees: evenlySpacedAnglesDegrees(input.count, input.startAngleDegrees),
    ...strokes,
    totalStrokes,
    seconds: totalStrokes * strokes.secondsPerStroke,
    volume: slotArea(section.boreRadius, section.width, section.floorRadius) * input.length * input.count,
  };
}

function checkedInsertWidth(input: KeywayInput, { width }: KeywaySection): number {
  const insertWidth = input.insertWidth ?? width;
  if (insertWidth <= width) return insertWidth;
  throw new OutOfRange('insertWidth', insertWidth, `more than 0 and at most ${shown(width)}`, 'an insert wider than the keyway cuts it too wide');
}

/**
 * A full-form insert leaves its own width. A narrower one makes the width by its
 * offsets, which then aim at the middle of the limits.
 */
function coverage(section: KeywaySection, insertWidth: number): { aimedWidth: number; offsets: number[] } {
  if (insertWidth === section.width) return { aimedWidth: insertWidth, offsets: [0] };
  const middle = section.width + (section.widthUpperDeviation + section.widthLowerDeviation) / 2;
  const aimedWidth = Math.max(insertWidth, middle);
  return { aimedWidth, offsets: sidePassOffsets(aimedWidth, insertWidth) };
}

function checkFeedAgainstCut({ feedPerStroke }: KeywayInput, { depth, sagitta }: KeywaySection): void {
  const radialDepth = depth + sagitta;
  if (feedPerStroke <= radialDepth) return;
  throw new OutOfRange('feedPerStroke', feedPerStroke, `more than 0 and at most ${shown(radialDepth)}`, 'all that is cut, on the radius');
}

function planPass(input: KeywayInput, section: KeywaySection, insertWidth: number, offsetY: number): KeywayPass {
  const contactRadius = cornerContactRadius(section.boreRadius, Math.abs(offsetY) + insertWidth / 2);
  const startRadius = contactRadius - (input.clearance ?? 0);
  if (startRadius < 0) throw new OutOfRange('clearance', input.clearance, `at most ${shown(contactRadius)}`, 'the edge would start beyond the axis');
  const feedStrokes = strokesToFeed(section.floorRadius - startRadius, input.feedPerStroke);
  return { offsetY, contactRadius, startRadius, floorRadius: section.floorRadius, feedStrokes, strokes: feedStrokes + input.sparkOutStrokes };
}

function checkedCount({ count }: KeywayInput, { width, boreRadius }: KeywaySection): number {
  const angleOfOne = 2 * Math.asin(width / 2 / boreRadius);
  const most = Math.max(1, Math.floor((2 * Math.PI) / angleOfOne));
  if (count <= most) return count;
  throw new OutOfRange('count', count, `at least 1 and at most ${most}`, 'more keyways of this width run into one another');
}
