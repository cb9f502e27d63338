/**
 * Length and time of the moves of a block as figures to read. The lengths and
 * times come from whoever knows the program; this module only adds and names
 * them.
 */
import { unitOf } from './catalogue.ts';
import { pathCatalogue } from './catalogue-path.ts';
import { figureMaker } from './figure-maker.ts';
import { shown, type Quantity, type Units } from './quantity.ts';
import { leadOfTurn, pathOnTurningWork, type TurnedMove } from './turned-path.ts';

export interface PathInput {
  units: Units;
  /** Of each move, in `units`; undefined where it is not known. */
  lengths: readonly (number | undefined)[];
  /** Of each move; undefined where it is not known. */
  seconds: readonly (number | undefined)[];
  /** From the start of the program to these moves. */
  secondsBefore: number;
}

export type PathQuantityId = keyof typeof pathCatalogue;

/** The figures that are known; a sum of which one part is not known is left out. */
export function pathFigures({ units, lengths, seconds, secondsBefore }: PathInput): Quantity[] {
  const figure = figureMaker(pathCatalogue, units);
  const [length, time] = [sum(lengths), sum(seconds)];
  return [
    ...(length === undefined ? [] : [figure('moveLength', length, () => sumWorking(lengths, length, unitOf('length', units)))]),
    ...(time === undefined ? [] : [figure('moveTime', time, () => sumWorking(seconds, time, 's'))]),
    ...(time === undefined ? [] : [figure('elapsed', secondsBefore + time, () => `${shown(secondsBefore, 2)} before + ${shown(time, 3)} = ${shown(secondsBefore + time, 2)} s, without moves whose time is not known`)]),
  ];
}

/** What a tool on the centre line, at Y 0, does on the work while C turns it. Without `seconds` the feed is left out. */
export function turnedPathFigures(move: TurnedMove, seconds: number | undefined, units: Units): Quantity[] {
  const figure = figureMaker(pathCatalogue, units);
  const { fromRadius, toRadius, axialLength, turnDegrees } = move;
  const path = pathOnTurningWork(move);
  const turn = shown(Math.abs(turnDegrees));
  const radius = fromRadius === toRadius ? shown(fromRadius) : `${shown(fromRadius)} to ${shown(toRadius)}`;
  const lead = leadOfTurn(axialLength, turnDegrees);
  return [
    ...(axialLength === 0 || Number.isNaN(lead) ? [] : [figure('helixLead', lead, () => `360 z / C = 360 x ${shown(Math.abs(axialLength))} / ${turn} = ${shown(lead)}`)]),
    figure('workPath', path, () => `tool at Y 0, radius ${radius}, ${shown(Math.abs(axialLength))} along the axis, ${turn} degrees of turn: ${shown(path)}`),
    ...(seconds === undefined || seconds === 0 ? [] : [figure('workFeed', (60 * path) / seconds, () => `60 x ${shown(path)} / ${shown(seconds)} = ${shown((60 * path) / seconds)}`)]),
  ];
}

function sum(parts: readonly (number | undefined)[]): number | undefined {
  return parts.some((part) => part === undefined) ? undefined : parts.reduce<number>((total, part) => total + (part ?? 0), 0);
}

function sumWorking(parts: readonly (number | undefined)[], total: number, unit: string): string {
  const [only] = parts;
  if (parts.length === 1) return `${shown(only ?? NaN)} ${unit}`;
  return `sum of ${parts.length} moves = ${shown(total)} ${unit}`;
}
