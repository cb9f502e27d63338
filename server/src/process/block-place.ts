/**
 * Where a block may stand in a program: not where no control would run it, not
 * in the middle of another block, not while hob and work are coupled. Each
 * refusal is one sentence that names the line.
 */
import { scanLine, type Item, type Program } from '../program/index.ts';
import { endOfNote, noteAt } from './program-notes.ts';

/** Why nothing that stands at the beginning of a line is ever run; undefined where it is. */
export function whyNotRun(program: Program, line: number): string | undefined {
  const opening = openingBehind(program, line);
  if (opening !== undefined) return opening;
  if (!program.stateBefore(line).ended) return undefined;
  return 'The program has ended before this place, with M02, M30, a return or the closing percent sign: no control would run the block. It must stand before the end, or behind the program number of a subprogram.';
}

/** Why a block cannot go in at the beginning of a line; undefined where it can. */
export function whyNoBlock(program: Program, line: number): string | undefined {
  return whyNotRun(program, line) ?? openNoteBefore(program, line) ?? couplingAt(program, line);
}

function openNoteBefore(program: Program, line: number): string | undefined {
  const note = line === 0 ? undefined : noteAt(program, line - 1);
  if (!note || note.endLine !== undefined || endOfNote(program, note) !== undefined) return undefined;
  return `The ${note.keyword} note of line ${note.headLine + 1} has no (END ${note.keyword}): nobody can say where its block ends, and another block would stand inside it. Close it first.`;
}

function couplingAt(program: Program, line: number): string | undefined {
  const { sync } = program.stateBefore(line);
  return sync && `Hob and work run in step here, since line ${sync.line + 1}: a block that moves other axes or tools would spoil the teeth. Synchronous running must end before it.`;
}

/** Lines of comments and blank lines that are passed over in search of the head of a program. */
const longestHead = 2000;

/** The percent sign or the program number that opens the program, when it stands on the line or behind it. */
function openingBehind(program: Program, line: number): string | undefined {
  for (let at = 0; at < Math.min(program.lineCount, longestHead); at += 1) {
    const first = scanLine(program.lineText(at).slice(0, longestHead)).find(({ kind }) => kind !== 'comment');
    if (!first) continue;
    if (at >= line) return refusalBefore(first, at);
    if (first.kind !== 'percent') return undefined;
  }
  return undefined;
}

function refusalBefore(first: Item, at: number): string | undefined {
  if (first.kind === 'percent') return `The percent sign of line ${at + 1} opens the program: a block in front of it belongs to no program.`;
  if (first.kind === 'programNumber') return `${first.text} of line ${at + 1} opens the program: a block in front of it belongs to no program.`;
  return undefined;
}
