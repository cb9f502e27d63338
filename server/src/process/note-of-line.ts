/**
 * Whose a line is: the note of the block that it stands in, or the note whose
 * block calls the subprogram that it stands in.
 */
import type { Program } from '../program/index.ts';
import type { ProcessNote } from './note.ts';
import { noteAt, notesIn } from './program-notes.ts';
import { numberOn, subprogramLines } from './subprogram-lines.ts';

/** Lines above a line in which the number of its subprogram is looked for, so that a hover costs little in a long program. */
const longestSubprogram = 1000;

export function noteOwning(program: Program, line: number): ProcessNote | undefined {
  return noteAt(program, line) ?? noteCalling(program, line);
}

/** Looks at the text of other lines only where the line can be of a subprogram and a note above has its number. */
function noteCalling(program: Program, line: number): ProcessNote | undefined {
  if (!program.stateAfter(line).secondary) return undefined;
  const number = numberAbove(program, line);
  const note = number === undefined ? undefined : notesIn(program, line).find(({ entries }) => entries.some(({ name, value }) => name === 'PROGRAM' && Number(value) === number));
  const lines = note && subprogramLines(program, number!);
  return lines && line >= lines.fromLine && line < lines.toLine ? note : undefined;
}

function numberAbove(program: Program, line: number): number | undefined {
  for (let at = line; at >= Math.max(0, line - longestSubprogram); at -= 1) {
    const number = numberOn(program, at);
    if (number !== undefined) return number;
  }
  return undefined;
}
