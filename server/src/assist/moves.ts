/** The moves and operations of a program as data and as a table for a terminal. */
import type { MachineCard } from '../machine/card.ts';
import { recognisedOperations, type RecognisedOperation } from '../process/recognition.ts';
import type { Move, Position, Program, Totals } from '../program/index.ts';
import { figure } from './figures.ts';

export interface MovesTable {
  /** Lines are 1-based, as everywhere on the command line. */
  moves: (Omit<Move, 'line'> & { line: number })[];
  /** `toLine` is the last line of the operation, or of what it looks like. */
  operations: RecognisedOperation[];
  totals: Totals;
  text: string;
}

export function movesTable(program: Program, card: MachineCard): MovesTable {
  const moves = [...program.moves()].map((move) => ({ ...move, line: move.line + 1 }));
  const operations = recognisedOperations(program, card).map(fromOne);
  const totals = program.totals();
  return { moves, operations, totals, text: [...moves.map(moveText), ...operations.map(operationText), totalsText(totals)].join('\n') };
}

/** Lines counted from 1: what was the line behind the last one is then the last one. */
function fromOne({ looksLike, ...operation }: RecognisedOperation): RecognisedOperation {
  const seen = looksLike ? { looksLike: { ...looksLike, fromLine: looksLike.fromLine + 1 } } : {};
  return { ...operation, fromLine: operation.fromLine + 1, ...seen };
}

function operationText({ fromLine, toLine, tool, note, looksLike, totals }: RecognisedOperation): string {
  const what = [
    ...(tool === undefined ? [] : [`tool ${tool}`]),
    ...(note === undefined ? [] : [`note ${note}`]),
    ...(looksLike ? [`looks like ${looksLike.kind}, lines ${looksLike.fromLine} to ${looksLike.toLine}`] : []),
  ];
  return [`operation  lines ${fromLine} to ${toLine}`, ...what, `${totals.moves} moves`, secondsText(totals)].join('  ');
}

function secondsText({ seconds, movesWithoutTime }: Totals): string {
  return `${figure(seconds)} s${movesWithoutTime === 0 ? '' : `, without ${movesWithoutTime} moves whose time is not known`}`;
}

function moveText(move: Move): string {
  const path = [`${placeText(move.start)} -> ${placeText(move.end)}`, ...(move.length === undefined ? [] : [`${figure(move.length)} ${move.units}`])];
  const speeds = [compensationText(move), feedText(move), spindleText(move), subSpindleText(move), coupledText(move), drivenText(move), syncText(move)].filter((part) => part !== '');
  const time = move.seconds === undefined ? 'time not known' : `${figure(move.seconds)} s`;
  return [`${move.line}`, move.kind, ...path, time, ...speeds].join('  ');
}

function placeText(place: Position): string {
  const known = Object.entries(place).filter(([, value]) => value !== undefined);
  return known.length === 0 ? '?' : known.map(([axis, value]) => `${axis}${figure(value ?? 0)}`).join(' ');
}

const compensatedPaths = {
  programmed: 'of the programmed path: under radius compensation no tool diameter is known',
  toolCentre: 'under radius compensation of the path of the centre of the tool',
  mixed: 'under radius compensation of the path of the centre of the tool, and of the programmed path where that is not known',
} as const;

const feedModes = { perMinute: '/min', perRevolution: '/rev', inverseTime: ' inverse time' } as const;

function feedText({ feed, feedMode }: Move): string {
  return feed === undefined ? '' : `F${figure(feed)}${feedModes[feedMode]}`;
}

function compensationText({ compensation, toolRadius, units, corner }: Move): string {
  if (compensation === undefined) return '';
  const path = toolRadius === undefined ? 'programmed path' : `${corner === true ? 'corner of the' : 'the'} centre of radius ${figure(toolRadius)} ${units}`;
  return `tool ${compensation}: ${path}`;
}

function spindleText({ spindle }: Move): string {
  if (spindle.direction === 'stopped' || spindle.startRpm === undefined) return '';
  const end = spindle.endRpm === undefined || spindle.endRpm === spindle.startRpm ? '' : `..${figure(spindle.endRpm)}`;
  return `spindle ${figure(spindle.startRpm)}${end} rev/min ${spindle.direction}`;
}

function subSpindleText({ subSpindle }: Move): string {
  if (!subSpindle || subSpindle.direction === 'stopped') return '';
  return `sub-spindle ${speedText(subSpindle.rpm)} ${subSpindle.direction}`;
}

function coupledText({ coupled }: Move): string {
  return coupled ? `both spindles coupled ${speedText(coupled.rpm)}` : '';
}

function speedText(rpm: number | undefined): string {
  return `${rpm === undefined ? '?' : figure(rpm)} rev/min`;
}

function drivenText({ driven }: Move): string {
  if (!driven) return '';
  return `driven tool ${speedText(driven.rpm)} ${driven.direction}`;
}

function syncText({ sync }: Move): string {
  if (!sync) return '';
  return `synchronous ${sync.workRpm === undefined ? '' : `work ${figure(sync.workRpm)} rev/min`}`.trim();
}

function totalsText(totals: Totals): string {
  const { units, rapidLength, feedLength, moves, compensatedPath } = totals;
  return `total  ${moves} moves  rapid ${figure(rapidLength)} ${units}  feed ${figure(feedLength)} ${units}  ${secondsText(totals)}${compensatedPath === undefined ? '' : `  ${compensatedPaths[compensatedPath]}`}`;
}
