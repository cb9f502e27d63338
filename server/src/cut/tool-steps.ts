import { millimetresPerUnit } from '../trade/lengths.ts';
import type { Move, Position, Program } from '../program/index.ts';

/**
 * A stretch of a program as steps of one tool: from where to where, how long,
 * and how the spindles turn meanwhile. Lengths are mm and true distances,
 * whatever the program is written in; C is in degrees as programmed.
 *
 * It reads the program engine's moves and knows no process.
 */
export interface ToolPlace {
  x: number;
  y: number;
  z: number;
  c: number;
}

export interface ToolStep {
  line: number;
  kind: Move['kind'];
  from: ToolPlace;
  to: ToolPlace;
  /** Undefined where program and machine do not say enough. */
  seconds: number | undefined;
  /** Revolutions of the driven-tool drive a minute; positive in its forward direction, 0 when it stands. */
  driveRpm: number;
  /** Main spindle, rev/min, positive clockwise as M03; 0 when it stands or holds an angle. */
  spindleRpm: number;
  /** The same of the sub-spindle, by words of its own; positive in its forward direction. */
  subSpindleRpm: number;
  /** The numbers of the synchronising words in force, and their line. */
  sync?: { slots: Readonly<Record<string, number>>; line: number };
  /** The tool is changed on the line. */
  changesTool: boolean;
  /** The work axis is clamped meanwhile; undefined where it is not known. */
  clamped?: boolean;
}

/**
 * The steps on the lines from `fromLine` to `toLine`, both included, in order.
 * Steps before X and Z are known are left out; Y and C not known yet count as 0.
 */
export function toolSteps(program: Program, fromLine: number, toLine: number): ToolStep[] {
  const moving = new Map<number, Move[]>();
  for (const move of program.moves(fromLine, toLine + 1)) moving.set(move.line, [...(moving.get(move.line) ?? []), move]);
  const steps: ToolStep[] = [];
  for (let line = fromLine; line <= toLine; line += 1) {
    const changesTool = toolChanges(program, line);
    const moves = moving.get(line);
    steps.push(...(moves ? moves.flatMap((move) => stepOf(move, program, changesTool)) : standingStep(program, line, changesTool)));
  }
  return steps;
}

/** Work revolutions for one of the drive, with the sign that the words carry; NaN when they do not say it. */
export function signedRatio(slots: Readonly<Record<string, number>>): number {
  if (slots['ratio'] !== undefined) return slots['ratio'];
  return (slots['starts'] ?? NaN) / (slots['teeth'] ?? NaN);
}

/** Asking for states costs far more than looking for the letter. */
function toolChanges(program: Program, line: number): boolean {
  return /t/i.test(program.lineText(line)) && program.stateBefore(line).tool !== program.stateAfter(line).tool;
}

function stepOf(move: Move, program: Program, changesTool: boolean): ToolStep[] {
  const from = placeOf(move.start, move.units, program);
  const to = placeOf(move.end, move.units, program);
  if (!from || !to) return [];
  return [
    {
      line: move.line,
      kind: move.kind,
      from,
      to,
      seconds: move.seconds,
      driveRpm: signOf(move.driven?.direction) * (move.driven?.rpm ?? 0),
      spindleRpm: move.workAxis ? 0 : signOf(move.spindle.direction) * (move.spindle.endRpm ?? 0),
      subSpindleRpm: move.subSpindle?.axis === false ? signOf(move.subSpindle.direction) * (move.subSpindle.rpm ?? 0) : 0,
      ...syncOf(move, program),
      changesTool,
    },
  ];
}

/** A tool change without a move is a step that goes nowhere. */
function standingStep(program: Program, line: number, changesTool: boolean): ToolStep[] {
  if (!changesTool) return [];
  const state = program.stateAfter(line);
  const place = placeOf(state.position as Position, state.units, program);
  if (!place) return [];
  const sync = state.sync ? { sync: { slots: state.sync.slots, line: state.sync.line } } : {};
  const driveRpm = signOf(state.driven?.direction) * (state.driven?.rpm ?? 0);
  return [{ line, kind: 'dwell', from: place, to: place, seconds: 0, driveRpm, spindleRpm: 0, subSpindleRpm: 0, ...sync, changesTool }];
}

function syncOf(move: Move, program: Program): Pick<ToolStep, 'sync'> {
  if (!move.sync) return {};
  return { sync: { slots: move.sync.slots, line: program.stateAfter(move.line).sync?.line ?? move.line } };
}

function placeOf({ X, Y, Z, C }: Position, units: 'mm' | 'inch', program: Program): ToolPlace | undefined {
  if (X === undefined || Z === undefined) return undefined;
  const length = millimetresPerUnit(units);
  const radius = program.dialect.diameterProgramming ? length / 2 : length;
  return { x: X * radius, y: (Y ?? 0) * length, z: Z * length, c: C ?? 0 };
}

function signOf(direction: 'clockwise' | 'counterclockwise' | 'stopped' | undefined): number {
  return direction === 'clockwise' ? 1 : direction === 'counterclockwise' ? -1 : 0;
}
