import type { ModalState, Program } from '../program/index.ts';

/**
 * A stretch of a program as steps of one tool: from where to where, how long,
 * and how the driven tool turns meanwhile. Lengths are mm and true distances,
 * whatever the program is written in; C is in degrees as programmed.
 *
 * It reads the program engine's states and knows no process.
 */
export interface ToolPlace {
  x: number;
  y: number;
  z: number;
  c: number;
}

export interface ToolStep {
  line: number;
  kind: 'rapid' | 'feed' | 'dwell';
  from: ToolPlace;
  to: ToolPlace;
  /** Undefined for a rapid move when the machine's rapid speeds are not known. */
  seconds: number | undefined;
  /** Revolutions of the driven-tool drive a minute; positive in its forward direction, 0 when it stands. */
  driveRpm: number;
  /** Main spindle, rev/min, positive clockwise as M03; 0 when it stands or holds an angle. */
  spindleRpm: number;
  /** The numbers of the synchronising words in force, and their line. */
  sync?: { slots: Readonly<Record<string, number>>; line: number };
  /** The step also changes the tool. */
  changesTool: boolean;
  /** A C word stands on the line. */
  indexes: boolean;
}

/** The steps on the lines from `fromLine` to `toLine`, both included, in order. Places not known yet count as 0 for Y and C. */
export function toolSteps(program: Program, fromLine: number, toLine: number): ToolStep[] {
  const steps: ToolStep[] = [];
  for (let line = fromLine; line <= toLine; line += 1) {
    const step = stepOnLine(program, line);
    if (step) steps.push(step);
  }
  return steps;
}

function stepOnLine(program: Program, line: number): ToolStep | undefined {
  const before = program.stateBefore(line);
  const after = program.stateAfter(line);
  const from = placeOf(before, program);
  const to = placeOf(after, program);
  if (!from || !to) return undefined;
  const dwell = dwellSeconds(program, line);
  const changesTool = before.tool !== after.tool;
  const indexes = before.position.C !== after.position.C;
  if (dwell === undefined && isSamePlace(from, to) && !changesTool && !indexes) return undefined;
  const kind = dwell !== undefined ? 'dwell' : after.motion === 0 ? 'rapid' : 'feed';
  return {
    line,
    kind,
    from,
    to,
    seconds: dwell ?? secondsOf(kind === 'rapid', from, to, after, program),
    driveRpm: driveRpm(after),
    spindleRpm: spindleRpm(after),
    ...(before.sync && after.sync ? { sync: before.sync } : {}),
    changesTool,
    indexes,
  };
}

function placeOf(state: ModalState, program: Program): ToolPlace | undefined {
  const { X, Y, Z, C } = state.position;
  if (X === undefined || Z === undefined) return undefined;
  const length = state.units === 'inch' ? 25.4 : 1;
  const radius = program.dialect.diameterProgramming ? length / 2 : length;
  return { x: X * radius, y: (Y ?? 0) * length, z: Z * length, c: C ?? 0 };
}

function isSamePlace(a: ToolPlace, b: ToolPlace): boolean {
  return a.x === b.x && a.y === b.y && a.z === b.z && a.c === b.c;
}

function dwellSeconds(program: Program, line: number): number | undefined {
  const event = program.events(line).find(({ name }) => name === 'dwell');
  const seconds = event?.slots['seconds'];
  return seconds !== undefined && Number.isFinite(seconds) ? seconds : undefined;
}

function secondsOf(isRapid: boolean, from: ToolPlace, to: ToolPlace, state: ModalState, program: Program): number | undefined {
  return isRapid ? rapidSeconds(from, to, program) : feedSeconds(from, to, state, program);
}

/** Each axis at its own speed; the slowest decides (common practice, no source). */
function rapidSeconds(from: ToolPlace, to: ToolPlace, program: Program): number | undefined {
  const { rapid, units } = program.dialect;
  if (!rapid) return undefined;
  const length = units === 'inch' ? 25.4 : 1;
  const minutes = (distance: number, speed: number | undefined): number => (distance === 0 ? 0 : speed ? Math.abs(distance) / (speed * length) : NaN);
  const turn = rapid.c && to.c !== from.c ? Math.abs(to.c - from.c) / rapid.c : 0;
  const all = Math.max(minutes(to.x - from.x, rapid.x), minutes(to.y - from.y, rapid.y), minutes(to.z - from.z, rapid.z), turn);
  return Number.isFinite(all) ? 60 * all : undefined;
}

function feedSeconds(from: ToolPlace, to: ToolPlace, state: ModalState, program: Program): number | undefined {
  if (state.feed === undefined || state.feed <= 0) return undefined;
  const length = state.units === 'inch' ? 25.4 : 1;
  const onDiameter = program.dialect.xFeedOnDiameter ? 2 : 1;
  const distance = Math.hypot((to.x - from.x) * onDiameter, to.y - from.y, to.z - from.z);
  const perMinute = state.feedMode === 'perRevolution' ? state.feed * length * workRpm(state) : state.feed * length;
  return perMinute > 0 ? (60 * distance) / perMinute : undefined;
}

/** Revolutions on which a feed per revolution counts: the coupled work's, else the main spindle's. */
function workRpm(state: ModalState): number {
  const { sync } = state;
  if (!sync) return Math.abs(spindleRpm(state));
  return Math.abs(driveRpm(state) * signedRatio(sync.slots));
}

/** Work revolutions for one of the drive, with the sign that the words carry; NaN when they do not say it. */
export function signedRatio(slots: Readonly<Record<string, number>>): number {
  if (slots['ratio'] !== undefined) return slots['ratio'];
  return (slots['starts'] ?? NaN) / (slots['teeth'] ?? NaN);
}

function driveRpm(state: ModalState): number {
  const { driven } = state;
  if (!driven || driven.direction === 'stopped') return 0;
  return (driven.direction === 'clockwise' ? 1 : -1) * (driven.rpm ?? 0);
}

function spindleRpm(state: ModalState): number {
  if (state.workAxis || state.spindle === 'stopped' || state.speedMode === 'css') return 0;
  return (state.spindle === 'clockwise' ? 1 : -1) * (state.speed ?? 0);
}
