/**
 * The modal state at one place of a program as a plain record for readers.
 *
 * It is made from the interpreter's registers on request; nothing in it changes
 * afterwards. `lineOf` looks the origin of a value up in the program it came
 * from and holds until that program is edited.
 */
import type { Dialect } from './dialect.ts';
import { unitsInForce } from './inch.ts';
import { type ParameterSnapshot, parameterIn, setParameters } from './parameters.ts';
import * as r from './registers.ts';

export type Axis = 'X' | 'Y' | 'Z' | 'A' | 'B' | 'C' | 'U' | 'V' | 'W';
export type SpindleDirection = 'clockwise' | 'counterclockwise' | 'stopped';

/** Everything whose origin can be asked for. The order is the order of the bits in a touch mask. */
export const MODAL_FIELDS = [
  'X', 'Y', 'Z', 'A', 'B', 'C', 'U', 'V', 'W', 'units', 'plane', 'distance', 'feedMode', 'speedMode', 'speedLimit', 'motion',
  'tool', 'selectedTool', 'feed', 'speed', 'spindle', 'coolant', 'compensation', 'lengthCompensation', 'workOffset',
  'returnLevel', 'pathMode', 'workAxis', 'driven', 'sync', 'cycle', 'subSpindle',
] as const;
export type ModalField = (typeof MODAL_FIELDS)[number];

/** Words of canned cycles that stay in force, in program units; dwell in seconds. */
export interface CycleWords {
  readonly retract?: number;
  readonly depth?: number;
  readonly dwell?: number;
  readonly peck?: number;
}

export interface SubSpindle {
  readonly direction: SpindleDirection;
  readonly rpm?: number;
  /** It is under position control. The origin of this is that of `workAxis`. */
  readonly axis: boolean;
}

export interface ModalState {
  readonly units: 'mm' | 'inch';
  readonly plane: 17 | 18 | 19;
  readonly distance: 'absolute' | 'incremental';
  readonly feedMode: 'perMinute' | 'perRevolution' | 'inverseTime';
  readonly speedMode: 'rpm' | 'css';
  /** Highest spindle speed that the program allows, rev/min. */
  readonly speedLimit?: number;
  /** The G number of the motion in force; undefined before the first one. */
  readonly motion?: number;
  readonly tool?: number;
  /** The number of the offset in force, where T words hold it. Its origin is that of `tool`. */
  readonly toolOffset?: number;
  /** The tool that the next tool change brings. */
  readonly selectedTool?: number;
  /** The F word in force, in the units of `feedMode`. */
  readonly feed?: number;
  /** The S word in force: rev/min, or m/min (ft/min in inch) when `speedMode` is css. */
  readonly speed?: number;
  readonly spindle: SpindleDirection;
  /** Present while the sub-spindle turns by words of its own, or is an axis. */
  readonly subSpindle?: SubSpindle;
  /** Present while the words of the machine couple both spindles. Its origin is not kept. */
  readonly coupled?: { readonly rpm?: number };
  /** Present where the coupling has ended while it turned them: the spindles that nothing has stopped since. Its origin is not kept. */
  readonly leftTurning?: { readonly main: boolean; readonly sub: boolean };
  /** The M numbers of the coolants that are on. */
  readonly coolant: readonly number[];
  /** Programmed positions (X as programmed: a diameter where the dialect says so). Undefined where not known. */
  readonly position: Readonly<Record<Axis, number | undefined>>;
  readonly compensation: { readonly side: 'off' | 'left' | 'right'; readonly number?: number };
  readonly lengthCompensation: { readonly mode: 'off' | 'plus' | 'minus'; readonly number?: number };
  /** 54 to 59, 59.1 to 59.3. */
  readonly workOffset: number;
  readonly returnLevel?: 'initial' | 'retract';
  readonly pathMode?: number;
  readonly cycle: CycleWords;
  readonly driven?: { readonly rpm?: number; readonly direction: SpindleDirection };
  /** Present while a synchronising word of the machine is in force. `line` is where it stands. */
  readonly sync?: { readonly slots: Readonly<Record<string, number>>; readonly line: number };
  readonly workAxis: boolean;
  /** Every parameter that the program has set and whose value is known. */
  parameterValues(): ReadonlyMap<number, number>;
  /** The value of one parameter, undefined when not known. */
  parameter(index: number): number | undefined;
  /** After M02, M30 or the closing percent sign: nothing is executed. */
  readonly ended: boolean;
  /** Stands after the end of the first program, in a program that runs only where it is called. */
  readonly secondary: boolean;
  /** The 0-based line that set the value in force; undefined when it stands since the start. */
  lineOf(field: ModalField): number | undefined;
}

/** What a state needs beside the registers. */
export interface StateContext {
  readonly dialect: Dialect;
  readonly parameters: ParameterSnapshot;
  lineOf(field: ModalField): number | undefined;
}

/** Takes everything out of the row at once, which may change afterwards. */
export function modalState(row: Float64Array, context: StateContext): ModalState {
  return {
    units: unitsInForce(row),
    plane: row[r.PLANE] as 17 | 18 | 19,
    distance: row[r.DISTANCE] === 91 ? 'incremental' : 'absolute',
    feedMode: feedModeOf(row[r.FEED_MODE]!),
    speedMode: row[r.SPEED_MODE] === 96 ? 'css' : 'rpm',
    ...optional('speedLimit', row[r.SPEED_LIMIT]!),
    ...optional('motion', row[r.MOTION]!),
    ...optional('tool', row[r.TOOL]!),
    ...optional('toolOffset', row[r.TOOL_OFFSET]!),
    ...optional('selectedTool', row[r.SELECTED_TOOL]!),
    ...optional('feed', row[r.FEED] === r.NEVER ? NaN : row[r.FEED]!),
    ...optional('speed', row[r.SPEED]!),
    ...optional('pathMode', row[r.PATH_MODE]!),
    ...rest(row, context),
  };
}

function rest(row: Float64Array, context: StateContext): Omit<ModalState, 'units' | 'plane' | 'distance' | 'feedMode' | 'speedMode'> {
  return {
    spindle: directionOf(row[r.SPINDLE]!),
    coolant: coolantsOf(row[r.COOLANT]!),
    position: positionOf(row),
    compensation: { side: row[r.RADIUS_COMPENSATION] === 41 ? 'left' : row[r.RADIUS_COMPENSATION] === 42 ? 'right' : 'off', ...optional('number', row[r.RADIUS_NUMBER] === r.NEVER ? NaN : row[r.RADIUS_NUMBER]!) },
    lengthCompensation: { mode: row[r.LENGTH_COMPENSATION] === 43 ? 'plus' : row[r.LENGTH_COMPENSATION] === 44 ? 'minus' : 'off', ...optional('number', row[r.LENGTH_NUMBER]!) },
    workOffset: row[r.WORK_OFFSET]!,
    ...(Number.isNaN(row[r.RETURN_LEVEL]) ? {} : { returnLevel: row[r.RETURN_LEVEL] === 98 ? 'initial' as const : 'retract' as const }),
    cycle: cycleOf(row),
    ...drivenOf(row),
    ...subSpindleOf(row),
    ...leftTurning(row),
    ...syncOf(row, context),
    workAxis: row[r.WORK_AXIS] === 1,
    parameterValues: () => new Map(setParameters(context.parameters)),
    parameter: (index) => known(parameterIn(context.parameters, index)),
    ended: row[r.ENDED] !== r.RUNNING,
    secondary: row[r.SECONDARY] === 1,
    lineOf: (field) => context.lineOf(field),
  };
}

function cycleOf(row: Float64Array): CycleWords {
  return {
    ...optional('retract', row[r.CYCLE_RETRACT]!), ...optional('depth', row[r.CYCLE_DEPTH]!),
    ...optional('dwell', row[r.CYCLE_DWELL]!), ...optional('peck', row[r.CYCLE_PECK]!),
  };
}

function drivenOf(row: Float64Array): Pick<ModalState, 'driven'> {
  if (row[r.DRIVEN_DIRECTION] === 5) return {};
  return { driven: { direction: directionOf(row[r.DRIVEN_DIRECTION]!), ...optional('rpm', row[r.DRIVEN_SPEED]!) } };
}

/** The sub-spindle and the coupling of both, where they are not at rest. */
export function subSpindleOf(row: Float64Array): { readonly subSpindle?: SubSpindle; readonly coupled?: { readonly rpm?: number } } {
  const axis = row[r.SUB_AXIS] === 1;
  const turns = row[r.SUB_DIRECTION] !== 5;
  return {
    ...(axis || turns ? { subSpindle: { direction: directionOf(row[r.SUB_DIRECTION]!), ...(turns ? optional('rpm', row[r.SUB_SPEED]!) : {}), axis } } : {}),
    ...(row[r.COUPLED] === 1 ? { coupled: optional('rpm', row[r.COUPLED_SPEED]!) } : {}),
  };
}

function leftTurning(row: Float64Array): Pick<ModalState, 'leftTurning'> {
  const spindles = row[r.CARRIED_ALONG]!;
  if (row[r.COUPLED] === 1 || spindles === 0) return {};
  return { leftTurning: { main: (spindles & r.MAIN_SPINDLE) !== 0, sub: (spindles & r.SUB_SPINDLE) !== 0 } };
}

function syncOf(row: Float64Array, context: StateContext): Pick<ModalState, 'sync'> {
  const pattern = context.dialect.patterns[row[r.SYNC_PATTERN]! - 1];
  if (pattern === undefined) return {};
  return { sync: { slots: syncSlots(row, context.dialect), get line() { return context.lineOf('sync') ?? 0; } } };
}

/** The captured numbers of the sync words in force, by slot name. */
export function syncSlots(row: Float64Array, dialect: Dialect): Record<string, number> {
  const slots: Record<string, number> = {};
  let place = r.SYNC_SLOTS;
  for (const word of dialect.patterns[row[r.SYNC_PATTERN]! - 1]?.words ?? []) {
    if (word.slot !== undefined && place < r.SYNC_SLOTS + r.SYNC_SLOT_COUNT) slots[word.slot] = row[place++]!;
  }
  return slots;
}

function positionOf(row: Float64Array): Record<Axis, number | undefined> {
  const position: Partial<Record<Axis, number | undefined>> = {};
  for (let register = 0; register < r.AXIS_COUNT; register++) position[r.AXES[register] as Axis] = known(row[register]!);
  return position as Record<Axis, number | undefined>;
}

function coolantsOf(bits: number): number[] {
  return [7, 8, 50, 51].filter((_, bit) => (bits & (1 << bit)) !== 0);
}

function feedModeOf(code: number): ModalState['feedMode'] {
  return code === 95 ? 'perRevolution' : code === 93 ? 'inverseTime' : 'perMinute';
}

export function directionOf(code: number): SpindleDirection {
  return code === 3 ? 'clockwise' : code === 4 ? 'counterclockwise' : 'stopped';
}

function known(value: number): number | undefined {
  return Number.isNaN(value) ? undefined : value;
}

function optional<K extends string>(key: K, value: number): { [P in K]?: number } {
  return Number.isNaN(value) ? {} : { [key]: value } as { [P in K]?: number };
}
