/**
 * Where a composed block goes: units and modes at the line, numbering and line
 * ends of the program. The result is the text to insert, as plain data.
 */
import type { MachineCard } from '../machine/card.ts';
import { speaksOfSubprograms } from '../machine/subprograms.ts';
import type { Program } from '../program/index.ts';
import { whyNoBlock } from '../process/block-place.ts';
import type { RawValues } from '../process/fields.ts';
import { composeText, type CommentStyle, type Layout, type Numbering } from '../process/layout.ts';
import type { ProcessNote } from '../process/note.ts';
import type { Problem, Process, Setting } from '../process/process.ts';
import { endOfNote, noteAt, settingAt } from '../process/program-notes.ts';
import { isBeforeEnd, placeForSubprogram, programNumbersIn } from '../process/subprogram-lines.ts';

export interface Insertion {
  line: number;
  character: number;
  /** The whole text with line ends; empty when the block cannot be made. */
  text: string;
  /** The subprogram that the block calls, and the place where it goes; undefined where it calls none. */
  subprogram?: TextAt;
  problems: Problem[];
}

/** Text that goes in at a place. */
export interface TextAt extends Place {
  text: string;
}

/** A place in a program, 0-based. */
export interface Place {
  line: number;
  character: number;
}

/** Composes a process for a place in a program. */
export function insertionAt(program: Program, place: Place, process: Process, raw: RawValues, card: MachineCard): Insertion {
  const line = lineFor(program, place);
  const refusal = whyNoBlock(program, line);
  if (refusal !== undefined) return { ...textAt(program, line, []), problems: [{ rule: 'block-place', severity: 'error', message: refusal }] };
  const setting = { ...settingAt(program.stateBefore(line), card), ...freshAt(program, line, raw, card) };
  const { lines, subprogram, problems } = composeText(process, process.settled(raw, setting), setting, layoutAt(program, line, card));
  if (subprogram.length === 0) return { ...textAt(program, line, lines), problems };
  const behindEnd = placeForSubprogram(program);
  if (behindEnd === undefined) return { ...textAt(program, line, []), problems: [...problems, withoutEnd] };
  return { ...textAt(program, line, lines), subprogram: textAt(program, behindEnd, subprogram), problems };
}

const withoutEnd: Problem = {
  parameter: 'PROGRAM', rule: 'bad-value', severity: 'error', message: 'PROGRAM: the program has no end behind which a subprogram may stand. Leave PROGRAM out, or end the program first.',
};

/** To look for program numbers takes the whole text, so it is done only where a block may have one. */
function freshAt(program: Program, line: number, raw: RawValues, card: MachineCard): Pick<Setting, 'fresh'> {
  if (!speaksOfSubprograms(card) && raw['PROGRAM'] === undefined) return {};
  return { fresh: { programNumbers: programNumbersIn(program), mayCall: placeForSubprogram(program) !== undefined && isBeforeEnd(program, line) } };
}

/** The setting that a block at this place would have, for live results. */
export function settingFor(program: Program, place: Place, card: MachineCard): Setting {
  return settingAt(program.stateBefore(lineFor(program, place)), card);
}

/** Why no block can go in at a place, and whether one would go behind the block that the place is in. */
export function judgePlace(program: Program, place: Place): { refusal?: string; behindBlock: boolean } {
  const line = lineFor(program, place);
  const refusal = whyNoBlock(program, line);
  return { ...(refusal === undefined ? {} : { refusal }), behindBlock: line !== wantedLine(program, place) };
}

/**
 * The line in front of which the block goes: the cursor's own line when it is
 * blank or the cursor stands at its start, the next one otherwise. Inside another
 * block the place moves behind that block, so that no block is torn.
 */
function lineFor(program: Program, place: Place): number {
  const wanted = wantedLine(program, place);
  const note = noteAt(program, wanted);
  const end = note && endOfNote(program, note);
  return note && end !== undefined && note.headLine < wanted ? end + 1 : wanted;
}

function wantedLine(program: Program, { line, character }: Place): number {
  const inLine = character > 0 && program.lineText(line).trim() !== '';
  return Math.min(line + (inLine ? 1 : 0), program.lineCount);
}

/** Behind a last line without a line end, the line end goes in front of the block instead of behind it. */
export function textAt(program: Program, line: number, lines: readonly string[]): TextAt {
  const end = program.lineEnding;
  if (line < program.lineCount) return { line, character: 0, text: lines.length === 0 ? '' : lines.join(end) + end };
  const last = program.lineCount - 1;
  return { line: last, character: program.lineText(last).length, text: lines.length === 0 ? '' : end + lines.join(end) };
}

function layoutAt(program: Program, line: number, card: MachineCard): Layout {
  const numbering = numberingAt(program, line, card);
  return { comment: commentStyle(program, line, card), maxLineLength: card.maxLineLength, ...(numbering ? { numbering } : {}) };
}

/** The layout that an existing block has: its own numbers and its note's comment style. */
export function layoutOfBlock(program: Program, note: ProcessNote, card: MachineCard): Layout {
  const own: number[] = [];
  for (let line = note.headEndLine + 1; line < (note.endLine ?? 0); line += 1) own.push(...[sequenceNumber(program, line)].filter((each) => each !== undefined));
  const [first, second] = own;
  const step = first !== undefined && second !== undefined && second > first ? second - first : (card.sequenceNumbers?.step ?? 10);
  const numbering = first === undefined ? {} : { numbering: { first, step, ...nextNumber(program, (note.endLine ?? 0) + 1) } };
  return { comment: commentStyleOf(program, note), maxLineLength: card.maxLineLength, ...numbering };
}

/** The style of a note's own comments, which its block keeps. */
export function commentStyleOf(program: Program, note: ProcessNote): CommentStyle {
  const head = program.items(note.headLine).find((item) => item.kind === 'comment');
  return head?.kind === 'comment' && head.style === 'semicolon' ? 'semicolon' : 'parentheses';
}

/** Lines that are looked at in each direction for the habits of a program. */
const habitReach = 400;

/** The style of the nearest comment before the place; the card's where the program has none. */
function commentStyle(program: Program, line: number, card: MachineCard): Layout['comment'] {
  for (let at = line - 1; at >= Math.max(0, line - habitReach); at -= 1) {
    const comment = program.items(at).find((item) => item.kind === 'comment');
    if (comment?.kind === 'comment') return comment.style === 'semicolon' ? 'semicolon' : 'parentheses';
  }
  return card.comment;
}

/**
 * Numbers go on from the program's. Where the program has none, the card says
 * whether the block has any.
 */
function numberingAt(program: Program, line: number, card: MachineCard): Numbering | undefined {
  const [last, beforeLast] = numbersBefore(program, line);
  if (last === undefined) return card.sequenceNumbers && { first: card.sequenceNumbers.start, step: card.sequenceNumbers.step, ...nextNumber(program, line) };
  const step = card.sequenceNumbers?.step ?? (beforeLast !== undefined && last > beforeLast ? last - beforeLast : 10);
  return { first: last + step, step, ...nextNumber(program, line) };
}

function numbersBefore(program: Program, line: number): number[] {
  const numbers: number[] = [];
  for (let at = line - 1; at >= Math.max(0, line - habitReach) && numbers.length < 2; at -= 1) {
    const number = sequenceNumber(program, at);
    if (number !== undefined) numbers.push(number);
  }
  return numbers;
}

function nextNumber(program: Program, line: number): { before?: number } {
  for (let at = line; at < Math.min(program.lineCount, line + habitReach); at += 1) {
    const number = sequenceNumber(program, at);
    if (number !== undefined) return { before: number };
  }
  return {};
}

function sequenceNumber(program: Program, line: number): number | undefined {
  const item = program.items(line).find((each) => each.kind === 'sequence');
  return item?.kind === 'sequence' ? item.value : undefined;
}
