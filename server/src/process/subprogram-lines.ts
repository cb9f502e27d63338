/**
 * Subprograms in a program: which numbers it holds or calls, where the one of a
 * block stands, and where a new one may go. It knows no process; whose lines
 * they are is told by the number in the block's note.
 */
import type { Program } from '../program/index.ts';

/** The lines of a program that run when its number is called. */
export interface SubprogramLines {
  fromLine: number;
  /** Behind its return; where it has none, the next program number or the end of the text. */
  toLine: number;
  returns: boolean;
  /** The number stands in the file more than once. */
  isTwice: boolean;
}

/** The lines of the subprogram with a number; undefined where the program does not hold it. */
export function subprogramLines(program: Program, number: number): SubprogramLines | undefined {
  const starts = programStarts(program);
  const [first, second] = starts.filter((start) => start.number === number);
  if (!first) return undefined;
  const next = starts.find(({ line }) => line > first.line)?.line ?? program.lineCount;
  const returning = firstReturn(program, first.line, next);
  return { fromLine: first.line, toLine: returning === undefined ? next : returning + 1, returns: returning !== undefined, isTwice: second !== undefined };
}

/** The comment by which the lines of a subprogram say that a note made them. It has no space, so that no line end tears it. */
export function markOfNote(number: number): string {
  return `PROGRAM=${number}`;
}

/** Whether the lines say that they were made from a note with this number. */
export function areOfNote(program: Program, { fromLine, toLine }: SubprogramLines, number: number): boolean {
  for (let line = fromLine; line < toLine; line += 1) {
    if (program.items(line).some((item) => item.kind === 'comment' && item.text.split(/\s/).includes(markOfNote(number)))) return true;
  }
  return false;
}

/** Every number that the program holds or calls: what it calls may be kept in the control. */
export function programNumbersIn(program: Program): Set<number> {
  return new Set([...programStarts(program).map(({ number }) => number), ...calledNumbers(program)]);
}

/**
 * The line in front of which a subprogram goes: behind all that follows the end
 * of the program, but before a closing percent sign. Undefined where the program
 * has no end yet, since the lines would then run without being called.
 */
export function placeForSubprogram(program: Program): number | undefined {
  let last = program.lineCount - 1;
  while (last > 0 && program.lineText(last).trim() === '') last -= 1;
  const line = program.items(last).some(({ kind }) => kind === 'percent') ? last : last + 1;
  return program.stateBefore(line).ended ? line : undefined;
}

/** Whether a line is of the main program: no program has ended before it. */
export function isBeforeEnd(program: Program, line: number): boolean {
  const others = programStarts(program).filter((start) => start.line < line);
  return [...others.map((start) => start.line), line].every((each) => !program.stateBefore(each).ended);
}

function programStarts(program: Program): { line: number; number: number }[] {
  const found: { line: number; number: number }[] = [];
  for (const { kind, line } of program.landmarks()) if (kind === 'programNumber') found.push({ line, number: numberOn(program, line) ?? NaN });
  return found;
}

/** The program number with which a line opens. Looked for in the text first: to read a line costs far more, and most have none. */
export function numberOn(program: Program, line: number): number | undefined {
  if (!/^[\t ]*\/?\d?[\t ]*[O:]/i.test(program.lineText(line).slice(0, longestIndent))) return undefined;
  const item = program.items(line).find(({ kind }) => kind === 'programNumber');
  return item?.kind === 'programNumber' ? item.value : undefined;
}

/** White space beyond this before a program number is no indent: to look through it would cost the square of its length. */
const longestIndent = 100;

function firstReturn(program: Program, fromLine: number, toLine: number): number | undefined {
  for (let line = fromLine; line < toLine; line += 1) if (returnsOn(program, line)) return line;
  return undefined;
}

function returnsOn(program: Program, line: number): boolean {
  return mayHold(program, line, 'subprogramReturn') && program.events(line).some(({ name }) => name === 'subprogramReturn');
}

function calledNumbers(program: Program): number[] {
  const found: number[] = [];
  for (let line = 0; line < program.lineCount; line += 1) {
    if (!mayHold(program, line, 'subprogramCall')) continue;
    for (const { name, slots } of program.events(line)) if (name === 'subprogramCall') found.push(slots['program'] ?? NaN);
  }
  return found;
}

/** A quick refusal: the first literal number of the machine's words is not in the text of the line. */
function mayHold(program: Program, line: number, pattern: string): boolean {
  const words = program.dialect.patterns.find(({ name }) => name === pattern)?.words ?? [];
  const literal = words.find(({ value }) => value !== undefined)?.value;
  return literal !== undefined && program.lineText(line).includes(String(literal));
}
