/**
 * Steps of motion as tool radius compensation sees them: what they do in the
 * plane, and whether the path beside them can be told.
 */
import type { Dialect } from './dialect.ts';
import { distanceBetween, type PathPart, type Point, radiusBeside } from './offset-path.ts';
import { planeAxes } from './planes.ts';
import type { RecordedStep } from './recorded-steps.ts';
import * as r from './registers.ts';
import { ARC, FEED_MOVE, RAPID } from './step.ts';
import { travelsIn } from './stepper.ts';
import { offsetToTheLeft } from './tool-radius.ts';

export interface Leg extends RecordedStep {
  /** G41 or G42 is in force. */
  readonly isOn: boolean;
  /** The first move in the plane after G41 or G42 is still to come. */
  readonly isFirst: boolean;
  /** An axis of the plane leaves its place, or may. */
  readonly moves: boolean;
  /** The axes of the plane. */
  readonly a: number;
  readonly b: number;
  /** Factor from programmed numbers of an axis to lengths. */
  scaleOf(axis: number): number;
  /** How far to the left of the path the tool's centre runs, in program units; NaN where not known. */
  readonly offset: number;
  /** The way in the plane of a move that can be compensated. */
  readonly part?: PathPart;
}

const COORDINATE_TOLERANCE = 1e-6;
const NO_RADIUS = 1e-9;

export function legOf(recorded: RecordedStep, dialect: Dialect): Leg {
  const { step, row } = recorded;
  const { a, b } = planeAxes(row[r.PLANE]!);
  const scaleOf = (axis: number): number => (axis === r.X && dialect.diameterProgramming ? 0.5 : 1);
  const leg = {
    ...recorded, a, b, scaleOf, offset: offsetToTheLeft(row, dialect),
    isOn: row[r.RADIUS_COMPENSATION] !== 40, isFirst: (row[r.OFF_PATH]! & r.FIRST_MOVE) !== 0, moves: travelsIn(step, a, b),
  };
  const part = canBeCompensated(leg) ? partOf(leg) : undefined;
  return part === undefined ? leg : { ...leg, part };
}

/** Whether the centre of the tool goes on along the next leg without a break. */
export function isConnected(first: Leg, second: Leg | undefined): second is Leg & { readonly part: PathPart } {
  if (first.part === undefined || second?.part === undefined || second.isFirst || second.offset !== first.offset) return false;
  if (second.row[r.PLANE] !== first.row[r.PLANE] || second.row[r.UNITS] !== first.row[r.UNITS]) return false;
  return hasRoomInside(second.part, second.offset) && distanceBetween(first.part.end, second.part.start) <= COORDINATE_TOLERANCE;
}

/** Whether an arc with the tool on its inside is larger than the tool. */
export function hasRoomInside(part: PathPart, offset: number): boolean {
  return radiusBeside(part, offset) > NO_RADIUS;
}

/** Cycles, threads and probing are no contours; in YZ the sides are not settled. */
function canBeCompensated({ isOn, moves, offset, step, row }: Omit<Leg, 'part'>): boolean {
  if (!isOn || !moves || Number.isNaN(offset) || step.cycle !== 0 || row[r.PLANE] === 19) return false;
  return step.kind === RAPID || (step.kind === FEED_MOVE && row[r.MOTION] === 1) || (step.kind === ARC && step.sweepRadians !== 0);
}

function partOf({ step, a, b, scaleOf }: Omit<Leg, 'part'>): PathPart | undefined {
  const { from, to, sweepRadians } = step;
  const at = (values: Float64Array): Point => ({ a: values[a]! * scaleOf(a), b: values[b]! * scaleOf(b) });
  const start = at(from);
  const end = at(to);
  if (Number.isNaN(start.a + start.b + end.a + end.b)) return undefined;
  if (step.kind !== ARC) return { start, end };
  return { start, end, arc: { centre: { a: step.centreA * scaleOf(a), b: step.centreB * scaleOf(b) }, sweepRadians } };
}
