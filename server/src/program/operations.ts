/**
 * Splits a program into operations at tool changes, at the notes of processes,
 * and where the work begins or ends to turn in step with a driven tool.
 */
import { INCH_IN_MM } from './inch.ts';
import { type Mark, Sums } from './tally.ts';

/** Sums of time and path; lengths in `units`, X as a radius. */
export interface Totals {
  readonly units: 'mm' | 'inch';
  readonly seconds: number;
  readonly dwellSeconds: number;
  readonly rapidLength: number;
  readonly feedLength: number;
  readonly moves: number;
  /** Moves whose time is not known and not in `seconds`. */
  readonly movesWithoutTime: number;
  /** Moves whose length is not known and in neither length. */
  readonly movesWithoutLength: number;
  /**
   * Of the moves under tool radius compensation: whose path is counted, the programmed one because no radius
   * is known, that of the centre of the tool, or some of each. Left out where there are none.
   */
  readonly compensatedPath?: 'programmed' | 'toolCentre' | 'mixed';
}

export interface Operation {
  readonly fromLine: number;
  /** The line after the last one. */
  readonly toLine: number;
  /** Undefined before the first tool change, or where the tool is not known. */
  readonly tool?: number;
  /** The process name of the note that the operation stands in. */
  readonly note?: string;
  /** The work turns in step with a driven tool. */
  readonly sync: boolean;
  readonly totals: Totals;
}

/** A mark with its place in the whole program and the sums of everything before it. */
export interface PlacedMark {
  readonly line: number;
  readonly kind: Mark['kind'];
  readonly name: string;
  readonly before: Sums;
}

export interface Stretch {
  readonly fromLine: number;
  readonly toLine: number;
  readonly note: string | undefined;
  readonly sums: Sums;
}


/** Stretches between marks, without those that hold no line. A note's end belongs to the note. */
export function stretchesBetween(marks: readonly PlacedMark[], lineCount: number, all: Sums): Stretch[] {
  const stretches: Stretch[] = [];
  let fromLine = 0;
  let before = new Sums();
  let note: string | undefined;
  const cut = (line: number, sums: Sums): void => {
    if (line > fromLine) stretches.push({ fromLine, toLine: line, note, sums: new Sums().set(sums).add(before, -1) });
    fromLine = Math.max(fromLine, line);
    before = sums;
  };
  for (const mark of marks) {
    cut(mark.kind === 'noteEnd' ? mark.line + 1 : mark.line, mark.before);
    if (mark.kind === 'noteStart') note = mark.name;
    else if (mark.kind === 'noteEnd') note = undefined;
  }
  cut(lineCount, all);
  return stretches;
}

export function totalsOf(sums: Sums, units: 'mm' | 'inch'): Totals {
  const factor = units === 'inch' ? 1 / INCH_IN_MM : 1;
  return {
    units, seconds: sums.seconds, dwellSeconds: sums.dwellSeconds,
    rapidLength: sums.rapidLength * factor, feedLength: sums.feedLength * factor,
    moves: sums.steps, movesWithoutTime: sums.stepsWithoutTime, movesWithoutLength: sums.stepsWithoutLength,
  };
}
