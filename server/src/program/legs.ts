/**
 * Steps of motion as tool radius compensation sees them: what they do in the
 * plane, and whether the path beside them can be told.
 */
import type { Dialect } from './dialect.ts';
import { distanceBetween, type PathPart, radiusBeside } from './offset-path.ts';
import { planeAxes } from './planes.ts';
import type { RecordedStep } from './recorded-steps.ts';
import * as r from './registers.ts';
import { ARC, FEED_MOVE, RAPID, type Step } from './step.ts';
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
  /** Factor from programmed numbers of X to lengths. */
  readonly scaleX: number;
  /** How far to the left of the path the tool's centre runs, in program units; NaN where not known. */
  readonly offset: number;
  /** The way in the plane of a move that can be compensated. */
  readonly part: PathPart | undefined;
}

const COORDINATE_TOLERANCE = 1e-6;
const NO_RADIUS = 1e-9;

export function legOf({ line, step, row }: RecordedStep, dialect: Dialect): Leg {
  const { a, b } = planeAxes(row[r.PLANE]!);
  const scaleX = dialect.diameterProgramming ? 0.5 : 1;
  const isOn = row[r.RADIUS_COMPENSATION] !== 40;
  const moves = travelsIn(step, a, b);
  const offset = isOn ? offsetToTheLeft(row, dialect) : NaN;
  const part = moves && !Number.isNaN(offset) && canBeCompensated(step, row) ? partOf(step, a, b, scaleX) : undefined;
  return { line, step, row, a, b, scaleX, isOn, isFirst: (row[r.OFF_PATH]! & r.FIRST_MOVE) !== 0, moves, offset, part };
}

/** Whether a step moves in its plane while compensation is on. */
export function isCompensatedMove({ step, row }: RecordedStep): boolean {
  return row[r.RADIUS_COMPENSATION] !== 40 && movesInPlane({ step, row });
}

export function movesInPlane({ step, row }: Pick<RecordedStep, 'step' | 'row'>): boolean {
  const { a, b } = planeAxes(row[r.PLANE]!);
  return travelsIn(step, a, b);
}

/** Factor from programmed numbers of an axis to lengths. */
export function scaleOf(axis: number, scaleX: number): number {
  return axis === r.X ? scaleX : 1;
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
function canBeCompensated({ cycle, kind, sweepRadians }: Step, row: Float64Array): boolean {
  if (cycle !== 0 || row[r.PLANE] === 19) return false;
  return kind === RAPID || (kind === FEED_MOVE && row[r.MOTION] === 1) || (kind === ARC && sweepRadians !== 0);
}

function partOf(step: Step, a: number, b: number, scaleX: number): PathPart | undefined {
  const { from, to, sweepRadians } = step;
  const scaleA = scaleOf(a, scaleX);
  const scaleB = scaleOf(b, scaleX);
  const start = { a: from[a]! * scaleA, b: from[b]! * scaleB };
  const end = { a: to[a]! * scaleA, b: to[b]! * scaleB };
  if (Number.isNaN(start.a + start.b + end.a + end.b)) return undefined;
  if (step.kind !== ARC) return { start, end };
  return { start, end, arc: { centre: { a: step.centreA * scaleA, b: step.centreB * scaleB }, sweepRadians } };
}
