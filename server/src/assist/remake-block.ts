/**
 * Making a block anew in place: which lines it replaces, in which layout, and
 * what goes with it. Plain data; the client shows what would be dropped.
 */
import type { MachineCard } from '../machine/card.ts';
import type { Program } from '../program/index.ts';
import { driftInWords } from '../process/drift.ts';
import type { RawValues } from '../process/fields.ts';
import { noteValues, type ProcessNote } from '../process/note.ts';
import { noteOwning } from '../process/note-of-line.ts';
import { endOfNote } from '../process/program-notes.ts';
import { processNamed } from '../process/processes.ts';
import { remake } from '../process/remake.ts';
import type { LinesReplaced } from '../process/remake-subprogram.ts';
import type { NoteAnswer, RemakeAnswer } from '../requests.ts';
import { layoutOfBlock, textAt } from './insert.ts';

/** The note that owns a line, with its end looked up. */
export function closedNoteAt(program: Program, line: number): ProcessNote | undefined {
  const note = noteOwning(program, line);
  if (!note) return undefined;
  const endLine = endOfNote(program, note);
  return endLine === undefined ? note : { ...note, endLine, lastLine: endLine };
}

export function noteAnswer(program: Program, line: number): NoteAnswer | null {
  const note = noteOwning(program, line);
  const process = note && processNamed(note.keyword);
  return process ? { process: process.id, title: process.title, values: { ...noteValues(note) }, line: note.headLine } : null;
}

/** The remade block of the note that owns a line. */
export function remadeAt(program: Program, line: number, card: MachineCard, values?: RawValues): Omit<RemakeAnswer, 'version'> {
  const note = closedNoteAt(program, line);
  if (note?.endLine === undefined) {
    const problem = note ? `(END ${note.keyword}) is missing: nobody can say where the block ends.` : 'No block stands here.';
    return { fromLine: line, toLine: line, text: '', dropped: [], problems: [problem] };
  }
  const [fromLine, toLine] = [note.headLine, note.endLine + 1];
  const { lines, subprogram, dropped, problems } = remake(program, note, card, layoutOfBlock(program, note, card), values);
  const end = program.lineEnding;
  const closing = toLine < program.lineCount ? end : '';
  const text = lines.length === 0 ? '' : lines.join(end) + closing;
  return { fromLine, toLine, text, ...(subprogram ? { subprogram: edited(program, subprogram) } : {}), dropped: dropped.map(driftInWords), problems: problems.map(({ message }) => message) };
}

/** A subprogram at the very end of a text without a line end takes the line end before it along. */
function edited(program: Program, { fromLine, toLine, lines }: LinesReplaced): NonNullable<RemakeAnswer['subprogram']> {
  if (fromLine === toLine) {
    const { line, character, text } = textAt(program, fromLine, lines);
    return { from: { line, character }, to: { line, character }, text };
  }
  const end = program.lineEnding;
  const text = lines.join(end);
  const last = program.lineCount - 1;
  if (toLine <= last) return { from: { line: fromLine, character: 0 }, to: { line: toLine, character: 0 }, text: text === '' ? '' : text + end };
  const from = text === '' && fromLine > 0 ? { line: fromLine - 1, character: program.lineText(fromLine - 1).length } : { line: fromLine, character: 0 };
  return { from, to: { line: last, character: program.lineText(last).length }, text };
}
