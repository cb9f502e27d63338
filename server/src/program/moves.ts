/**
 * Moves as plain records for readers: every step of motion that a program makes,
 * with cycles and subprograms taken apart.
 */
import type { Dialect } from './dialect.ts';
import type { Execution, LineSink } from './execution.ts';
import { unitsInForce } from './inch.ts';
import { planeAxes } from './planes.ts';
import * as r from './registers.ts';
import { type Axis, directionOf, type SpindleDirection, type SubSpindle, subSpindleOf, syncSlots } from './state.ts';
import { ARC, DWELL, FEED_MOVE, RAPID, type Step, THREAD, UNKNOWN } from './step.ts';
import { spindleRpm, syncRatio } from './timing.ts';

/** `unknown`: no motion code says how the axes move, or its path is not computed here. */
export type MoveKind = 'rapid' | 'feed' | 'arc' | 'thread' | 'dwell' | 'unknown';

/** Programmed coordinates of the axes that are known. X is a diameter where the dialect says so. */
export type Position = Readonly<Partial<Record<Axis, number>>>;

export interface Move {
  /** The line of the program that makes the move; a called subprogram's moves are those of the call. */
  readonly line: number;
  readonly kind: MoveKind;
  /** The G number of the fixed cycle that the move is a step of. */
  readonly cycle?: number;
  readonly start: Position;
  readonly end: Position;
  /** Of an arc that could be computed. Centre in programmed coordinates. */
  readonly arc?: { readonly centre: Position; readonly sweepDegrees: number };
  readonly units: 'mm' | 'inch';
  /** Path of the linear axes in `units`, X as a radius; undefined where a position is not known. */
  readonly length?: number;
  /** How far rotary axes turn, degrees. */
  readonly rotation: Readonly<Partial<Record<'A' | 'B' | 'C', number>>>;
  /** The F word in force; of a thread only where it is its lead. Not given for rapids, dwells and moves of unknown kind. */
  readonly feed?: number;
  readonly feedMode: 'perMinute' | 'perRevolution' | 'inverseTime';
  /** Ideal time; undefined where the program and the dialect do not say enough. */
  readonly seconds?: number;
  /** Main spindle, rev/min at the start and at the end of the move. */
  readonly spindle: { readonly direction: SpindleDirection; readonly startRpm?: number; readonly endRpm?: number };
  readonly driven?: { readonly direction: SpindleDirection; readonly rpm?: number };
  /** While the sub-spindle turns by words of its own, or is an axis. */
  readonly subSpindle?: SubSpindle;
  /** While both spindles run coupled. */
  readonly coupled?: { readonly rpm?: number };
  /** While the work turns in step with the driven tool; `workRpm` where the slots tell the ratio. */
  readonly sync?: { readonly slots: Readonly<Record<string, number>>; readonly workRpm?: number };
  /** The work spindle is an axis. */
  readonly workAxis: boolean;
  /** Stands after the end of the first program: such moves are made where they are called, and count in no total. */
  readonly secondary?: true;
  /** Made under G41 or G42: the side of the contour, seen along the way, on which the tool is. */
  readonly compensation?: 'left' | 'right';
  /** Start and end are places of the centre of a tool with this radius, in `units`; without it they are as programmed. */
  readonly toolRadius?: number;
  /** An arc around an outside corner, which no word of the program asks for. */
  readonly corner?: true;
}

/** What a move is made from. */
interface MoveSource {
  readonly step: Step;
  readonly row: Float64Array;
  readonly line: number;
  readonly toolRadius?: number;
  readonly isCorner?: true;
}

const KIND_NAMES: Readonly<Record<number, MoveKind>> = { [RAPID]: 'rapid', [FEED_MOVE]: 'feed', [ARC]: 'arc', [THREAD]: 'thread', [DWELL]: 'dwell', [UNKNOWN]: 'unknown' };
const ROTARY = [['A', 3], ['B', 4], ['C', 5]] as const;

/** Collects the moves of lines; `firstLine` is the line of row 0. */
export class MoveList implements LineSink {
  row = 0;
  readonly moves: Move[] = [];

  constructor(private readonly execution: Execution, private readonly firstLine: number) {}

  problem(): void {}

  count(): void {}

  mark(): void {}

  step(step: Step): void {
    this.moves.push(moveOf({ step, row: this.execution.row, line: this.firstLine + this.row }, this.execution.dialect));
  }
}

/** F of a thread is its lead in any feed mode. */
function feedModeOf({ kind }: Step, row: Float64Array): Move['feedMode'] {
  if (kind === THREAD || row[r.FEED_MODE] === 95) return 'perRevolution';
  return row[r.FEED_MODE] === 93 ? 'inverseTime' : 'perMinute';
}

/** The step of a line in the modes of a row. */
export function moveOf({ step, row, line, toolRadius, isCorner }: MoveSource, dialect: Dialect): Move {
  const isAtFeed = step.kind === THREAD ? row[r.FEED_MODE_OF_WORD] === r.LEAD_OF_THREAD : step.kind !== RAPID && step.kind !== DWELL && step.kind !== UNKNOWN;
  return {
    line, kind: KIND_NAMES[step.kind]!, ...optional('cycle', step.cycle === 0 ? NaN : step.cycle),
    start: positionOf(step.from, step.axes, row), end: positionOf(step.to, step.axes, row), ...arcOf(step),
    units: unitsInForce(row), ...optional('length', step.length), rotation: rotationOf(step),
    ...optional('feed', isAtFeed && row[r.FEED] !== r.NEVER ? row[r.FEED]! : NaN), feedMode: feedModeOf(step, row),
    ...optional('seconds', step.seconds), ...spindlesOf(step, row, dialect), workAxis: row[r.WORK_AXIS] === 1,
    ...(row[r.SECONDARY] === 1 ? { secondary: true as const } : {}),
    ...(row[r.RADIUS_COMPENSATION] === 40 ? {} : { compensation: row[r.RADIUS_COMPENSATION] === 41 ? 'left' as const : 'right' as const }),
    ...optional('toolRadius', toolRadius ?? NaN), ...(isCorner === true ? { corner: true as const } : {}),
  };
}

function spindlesOf(step: Step, row: Float64Array, dialect: Dialect): Pick<Move, 'spindle' | 'driven' | 'subSpindle' | 'coupled' | 'sync'> {
  const startRpm = optional('startRpm', spindleRpm(row, step.from[r.X]!, dialect));
  const endRpm = optional('endRpm', spindleRpm(row, step.to[r.X]!, dialect));
  const drivenRpm = row[r.DRIVEN_SPEED]!;
  return {
    spindle: { direction: directionOf(row[r.SPINDLE]!), ...startRpm, ...endRpm },
    ...(row[r.DRIVEN_DIRECTION] === 5 ? {} : { driven: { direction: directionOf(row[r.DRIVEN_DIRECTION]!), ...optional('rpm', drivenRpm) } }),
    ...subSpindleOf(row),
    ...(row[r.SYNC_PATTERN] === 0 ? {} : { sync: { slots: syncSlots(row, dialect), ...optional('workRpm', drivenRpm * syncRatio(row, dialect)) } }),
  };
}

function arcOf(step: Step): Pick<Move, 'arc'> {
  if (step.kind !== ARC || step.sweepRadians === 0) return {};
  const { a, b } = planeAxes(step.plane);
  const centre = { [r.AXES[a]!]: step.centreA, [r.AXES[b]!]: step.centreB } as Position;
  return { arc: { centre, sweepDegrees: step.sweepRadians * (180 / Math.PI) } };
}

function rotationOf(step: Step): Move['rotation'] {
  const turns = ROTARY.filter(([, axis]) => (step.axes & (1 << axis)) !== 0 && !Number.isNaN(step.to[axis]! - step.from[axis]!));
  return Object.fromEntries(turns.map(([name, axis]) => [name, step.to[axis]! - step.from[axis]!]));
}

/** Axes that take no part are where the execution has them. */
function positionOf(values: Float64Array, axes: number, row: Float64Array): Position {
  const position: Partial<Record<Axis, number>> = {};
  for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
    const value = (axes & (1 << axis)) === 0 ? row[axis]! : values[axis]!;
    if (!Number.isNaN(value)) position[r.AXES[axis] as Axis] = value;
  }
  return position;
}

function optional<K extends string>(key: K, value: number): { [P in K]?: number } {
  return Number.isFinite(value) ? { [key]: value } as { [P in K]?: number } : {};
}
