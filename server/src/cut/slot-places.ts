import { radians } from '../trade/angles.ts';
import { shown } from '../trade/quantity.ts';
import { wrapped } from './arcs.ts';
import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { EdgeSweep } from './slot-cut.ts';
import type { DepthAlongBore } from './slot-sections.ts';
import type { SlotStretch } from './slot-stretch.ts';
import type { Told } from './told.ts';

/**
 * What slots, grooves and corners are judged by alike: how many there are, where
 * they stand about the work axis, how far along the bore they reach.
 */
export interface SlotJudgement {
  stretch: SlotStretch;
  sweeps: readonly EdgeSweep[];
  /** The line to name where none is the cause. */
  line: number;
  told: Told;
}

const POSITION_ALLOWANCE_DEGREES = 0.02;
const LENGTH_ALLOWANCE = 0.02;

/** A place about the work axis, from its X axis. */
interface Placed {
  angleDegrees: number;
}

export function judgeCount({ stretch, line }: SlotJudgement, what: string, found: number): CutFinding[] {
  const wanted = stretch.anglesDegrees.length;
  return found === wanted ? [] : [cutFinding(line, 'slot-count', `${found} ${what} are cut, ${wanted} wanted.`)];
}

/** Each slot must lie where one is wanted. Of many that do not, the first is named and the rest counted. */
export function judgePositions(context: SlotJudgement, what: string, slots: readonly Placed[]): CutFinding[] {
  const off = slots.filter((slot) => awayFromWanted(slot, context) > POSITION_ALLOWANCE_DEGREES);
  const [first, ...others] = off.sort((one, other) => lineOf(one, context) - lineOf(other, context));
  if (!first) return [];
  const more = others.length === 0 ? '' : ` ${others.length} more ${others.length === 1 ? 'lies' : 'lie'} wrong.`;
  return [cutFinding(lineOf(first, context), 'slot-position', `A ${what} lies at C ${shown(programmedAngle(first, context.stretch), 3)}; ${wantedAngles(context)} is wanted: off by ${shown(awayFromWanted(first, context), 3)} degrees.${more}`)];
}

function awayFromWanted(slot: Placed, { stretch }: SlotJudgement): number {
  return Math.min(...stretch.anglesDegrees.map((angle) => Math.abs(withinHalfTurn(programmedAngle(slot, stretch) - angle))));
}

function wantedAngles({ stretch: { anglesDegrees } }: SlotJudgement): string {
  if (anglesDegrees.length <= 6) return anglesDegrees.map((angle) => shown(angle, 3)).join(', ');
  return `${shown(anglesDegrees[0]!, 3)} and every ${shown(360 / anglesDegrees.length, 4)} degrees`;
}

function lineOf(slot: Placed, { sweeps, line }: SlotJudgement): number {
  return sweeps.find((sweep) => Math.abs(wrapped(-sweep.workRadians - radians(slot.angleDegrees))) < 0.01)?.line ?? line;
}

export function judgeLength({ stretch: { bore }, line, told }: SlotJudgement, { zLow, zHigh }: DepthAlongBore, name: string): CutFinding[] {
  const missing = Math.max(bore.zHigh - zHigh, zLow - bore.zLow);
  if (missing <= LENGTH_ALLOWANCE) return [];
  return [cutFinding(line, 'slot-length', `The ${name} has its depth from Z ${told.place(zLow)} to ${told.place(zHigh)} only; ${told.place(bore.zLow)} to ${told.place(bore.zHigh)} is wanted. The stroke is too short or misplaced.`)];
}

export function judgeFloorSlope({ stretch, line, told }: SlotJudgement, { floorSlope }: DepthAlongBore, name: string): CutFinding[] {
  if (Math.abs(floorSlope) <= Math.max(0.25 * stretch.feedPerStroke, 0.002)) return [];
  return [cutFinding(line, 'slot-floor', `The bottom of the ${name} rises ${told.size(Math.abs(floorSlope))} from end to end: no strokes without feed finish it.`)];
}

/** The C position that turns the place to the X axis, from -180 to 180 degrees. */
export function programmedAngle({ angleDegrees }: Placed, { workRotation }: SlotStretch): number {
  return withinHalfTurn(-workRotation * angleDegrees);
}

function withinHalfTurn(angle: number): number {
  return angle - 360 * Math.round(angle / 360);
}
