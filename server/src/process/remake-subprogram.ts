/**
 * What becomes of a block's subprogram when the block is made anew: changed in
 * its place, put behind the end of the program, or taken out. It never touches a
 * subprogram that another note of the program names too, or that is of no note.
 */
import type { Program } from '../program/index.ts';
import type { ProcessNote } from './note.ts';
import { notesIn } from './program-notes.ts';
import type { Problem } from './process.ts';
import { areOfNote, placeForSubprogram, subprogramLines, type SubprogramLines } from './subprogram-lines.ts';

/** Lines of the program, the last one not included, and what stands there instead. */
export interface LinesReplaced {
  fromLine: number;
  toLine: number;
  lines: string[];
}

/** `before` is the number that the note gave until now, `after` the one that it gives; undefined for none. */
export function replaceSubprogram(program: Program, note: ProcessNote, before: number | undefined, after: number | undefined, lines: string[]): { replaced?: LinesReplaced; problems: Problem[] } {
  const own = before === undefined ? undefined : ownLines(program, before);
  if (own && !own.returns) return { problems: [unknownEnd(before ?? NaN)] };
  if (after !== undefined && !(own && after === before) && subprogramLines(program, after)) return { problems: [taken(after)] };
  const mayGo = own && !namedElsewhere(program, note, before ?? NaN);
  if (own && mayGo) return { replaced: { fromLine: own.fromLine, toLine: own.toLine, lines }, problems: [] };
  if (own && after === before) return { problems: [shared(before ?? NaN)] };
  if (after === undefined) return { problems: [] };
  const place = placeForSubprogram(program);
  return place === undefined ? { problems: [noEnd(after)] } : { replaced: { fromLine: place, toLine: place, lines }, problems: [] };
}

/** The lines with a number that a note made; undefined for lines that it did not make. */
function ownLines(program: Program, number: number): SubprogramLines | undefined {
  const lines = subprogramLines(program, number);
  return lines && areOfNote(program, lines, number) ? lines : undefined;
}

function namedElsewhere(program: Program, note: ProcessNote, number: number): boolean {
  return notesIn(program).some(({ headLine, entries }) => headLine !== note.headLine && entries.some(({ name, value }) => name === 'PROGRAM' && Number(value) === number));
}

function problem(message: string): Problem {
  return { parameter: 'PROGRAM', rule: 'bad-value', severity: 'error', message };
}

function taken(number: number): Problem {
  return problem(`PROGRAM: ${number} is another program of this file: it must be another number.`);
}

function shared(number: number): Problem {
  return problem(`PROGRAM: ${number} stands in another note too, whose block calls the same lines: it must be another number.`);
}

function noEnd(number: number): Problem {
  return problem(`PROGRAM: ${number} cannot be put in: the program has no end behind which a subprogram may stand.`);
}

function unknownEnd(number: number): Problem {
  return { parameter: 'PROGRAM', rule: 'subprogram-open', severity: 'error', message: `PROGRAM: ${number} has no return, so nobody can say where its lines end.` };
}
