/**
 * Figures that a plain word of a program comes to, outside any process: what S
 * and F mean at the diameter where they act, and how long a move takes.
 */
import type { Dialect, Item, ModalState, Program } from '../program/index.ts';
import { cutting, type CuttingInput } from '../trade/cutting.ts';
import { pathFigures, turnedPathFigures } from '../trade/path-figures.ts';
import { OutOfRange, type Quantity } from '../trade/quantity.ts';

/** The figures of a word, the leading one first. Empty where nothing follows from what the program says. */
export function wordFigures(program: Program, line: number, item: Item, dialect: Dialect): Quantity[] {
  if (item.kind !== 'word') return [];
  const state = program.stateAfter(line);
  switch (item.letter) {
    case 'S': return speedFigures(program, line, item.value, state, dialect);
    case 'F': return [...feedFigures(item.value, state, dialect), ...moveFigures(program, line)];
    default: return [...moveFigures(program, line), ...turnedFigures(program, line, dialect)];
  }
}

/** What the moves of a line come to. A line that moves nothing has no figures. */
function moveFigures(program: Program, line: number): Quantity[] {
  const moves = [...program.moves(line, line + 1)];
  if (moves.length === 0) return [];
  return pathFigures({
    units: moves[0]?.units ?? 'mm',
    lengths: moves.map((move) => move.length),
    seconds: moves.map((move) => move.seconds),
    secondsBefore: program.secondsBefore(line),
  });
}

/**
 * Of a straight move while the main spindle, as an axis, turns the work under the tool; none where the tool stands beside the centre in Y.
 * A move has a length only where the ways of its axes are known, so an axis whose place is not known does not move here.
 */
function turnedFigures(program: Program, line: number, dialect: Dialect): Quantity[] {
  const [move, ...others] = [...program.moves(line, line + 1)];
  const turnDegrees = move?.rotation.C;
  if (move?.length === undefined || others.length > 0 || !turnDegrees || (move.kind !== 'feed' && move.kind !== 'rapid') || move.sync !== undefined) return [];
  const { start, end } = move;
  if (start.X === undefined || end.X === undefined || (start.Y ?? 0) !== 0 || (end.Y ?? 0) !== 0) return [];
  const toRadius = dialect.diameterProgramming ? 0.5 : 1;
  const axialLength = (end.Z ?? 0) - (start.Z ?? 0);
  return turnedPathFigures({ fromRadius: start.X * toRadius, toRadius: end.X * toRadius, axialLength, turnDegrees }, move.seconds, move.units);
}

function speedFigures(program: Program, line: number, speed: number | undefined, state: ModalState, dialect: Dialect): Quantity[] {
  if (speed === undefined) return [];
  const names = program.events(line).map(({ name }) => name);
  if (names.includes('drivenStart') || names.includes('drivenReverse')) return figures({ units: state.units, rpm: speed }, ['rpm']);
  if (names.includes('subStart') || names.includes('subReverse')) return figures({ units: state.units, rpm: speed, ...diameterOf(state, dialect) }, ['cuttingSpeed', 'rpm']);
  if (names.includes('speedLimit') || speed !== state.speed) return [];
  return figures(turning(state, dialect), state.speedMode === 'css' ? ['rpm', 'cuttingSpeed'] : ['cuttingSpeed', 'rpm']);
}

function feedFigures(feed: number | undefined, state: ModalState, dialect: Dialect): Quantity[] {
  if (feed === undefined || state.feedMode === 'inverseTime') return [];
  const perMinute = state.feedMode === 'perMinute';
  const feeding = perMinute ? { feedPerMinute: feed } : { feedPerRevolution: feed };
  return figures({ ...turning(state, dialect), ...feeding }, perMinute ? ['feedPerRev', 'feedPerMinute'] : ['feedPerMinute', 'feedPerRev']);
}

/** The speed of the spindle that turns and the diameter at which the tool stands, as far as the program says. */
function turning(state: ModalState, dialect: Dialect): CuttingInput {
  const { units, spindle, speedMode, speedLimit } = state;
  return {
    units,
    ...speedOf(state),
    ...diameterOf(state, dialect),
    ...(spindle !== 'stopped' && speedMode === 'css' && speedLimit !== undefined ? { clampRpm: speedLimit } : {}),
  };
}

/** The sub-spindle's speed counts while the main spindle stands. */
function speedOf({ spindle, speed, speedMode, subSpindle }: ModalState): Pick<CuttingInput, 'rpm' | 'cuttingSpeed'> {
  if (spindle === 'stopped') return subSpindle?.rpm === undefined || subSpindle.rpm === 0 ? {} : { rpm: subSpindle.rpm };
  if (speed === undefined || speed === 0) return {};
  return speedMode === 'css' ? { cuttingSpeed: speed } : { rpm: speed };
}

function diameterOf({ position: { X: x } }: ModalState, { diameterProgramming }: Dialect): Pick<CuttingInput, 'diameter'> {
  return x === undefined || x === 0 ? {} : { diameter: Math.abs(diameterProgramming ? x : 2 * x) };
}

function figures(input: CuttingInput, wanted: readonly string[]): Quantity[] {
  const all = computed(input);
  return wanted.map((id) => all[id]).filter((each) => each !== undefined);
}

/** A program may hold any number; what the trade library refuses has no figure, and the checks speak of it. */
function computed(input: CuttingInput): Partial<Record<string, Quantity>> {
  try {
    return cutting(input);
  } catch (error) {
    if (error instanceof OutOfRange) return {};
    throw error;
  }
}
