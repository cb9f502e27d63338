/**
 * Tells what the operations of a program are by what its moves do, whether a note
 * stands there or not. Nothing is guessed: what could be two things, or breaks
 * one rule of the only thing it could be, has no kind.
 *
 * It reads moves when it is asked, keeps nothing, and stops at the first move
 * that rules everything out, so that long plain milling costs a move or two. What
 * each kind is, is in the file of its recogniser.
 */
import { toolUnit, type MachineCard } from '../machine/card.ts';
import type { Operation, Program } from '../program/index.ts';
import { processKeywords } from './processes.ts';
import { DrivenSlotRecogniser } from './recognise-driven-slots.ts';
import { EngravingRecogniser } from './recognise-engraving.ts';
import { HobbingRecogniser } from './recognise-hobbing.ts';
import { StaticSlotRecogniser } from './recognise-static-slots.ts';
import type { Recognised, Recogniser } from './recognised.ts';

export interface RecognisedOperation extends Operation {
  readonly looksLike?: Recognised;
}

/** The operations of a program in order, with what they look like. */
export function recognisedOperations(program: Program, card: MachineCard): RecognisedOperation[] {
  return program.operations(processKeywords).map((operation) => {
    const looksLike = recognise(program, card, operation.fromLine, operation.toLine);
    return looksLike ? { ...operation, looksLike } : operation;
  });
}

/**
 * What the tool that a line calls is used for, up to the next tool change.
 * Undefined where the tool works on more than `mostLines` lines, so that asking
 * costs the same in programs of any length.
 */
export function workOfTool(program: Program, card: MachineCard, line: number, mostLines: number): Recognised[] | undefined {
  const parts = [line];
  for (const { line: at, kind, name } of program.landmarks(line + 1, line + mostLines)) {
    if (name !== '' && !processKeywords.includes(name)) continue;
    parts.push(kind === 'noteEnd' ? at + 1 : at);
    if (kind === 'tool' || kind === 'programNumber') return partsOf(program, card, parts);
  }
  return line + mostLines < program.lineCount ? undefined : partsOf(program, card, [...parts, program.lineCount]);
}

function partsOf(program: Program, card: MachineCard, bounds: readonly number[]): Recognised[] {
  return bounds.slice(1).flatMap((toLine, index) => recognise(program, card, bounds[index]!, toLine) ?? []);
}

function recognise(program: Program, card: MachineCard, fromLine: number, toLine: number): Recognised | undefined {
  let open = recognisersFor(program, card);
  for (const move of program.moves(fromLine, toLine)) {
    if (move.secondary) continue;
    open = open.filter((each) => each.take(move));
    if (open.length === 0) return undefined;
  }
  const found = open.flatMap((each) => each.result() ?? []);
  return found.length === 1 ? found[0] : undefined;
}

function recognisersFor(program: Program, card: MachineCard): Recogniser[] {
  const { dialect } = program;
  const stateBefore = program.stateBefore.bind(program);
  const strokeUnit = toolUnit(card, 'stroke');
  return [
    new HobbingRecogniser(dialect),
    ...(strokeUnit ? [new DrivenSlotRecogniser(strokeUnit, dialect)] : []),
    new StaticSlotRecogniser(dialect, stateBefore),
    new EngravingRecogniser(card, dialect, stateBefore),
  ];
}
