/**
 * What can be typed at a place of a program, as plain data. Inside a comment that
 * is what a process note may hold; outside, only what stands behind a G or an M.
 */
import { scanLine, type Program } from '../program/index.ts';
import { codeSuggestions } from './code-suggestions.ts';
import { noteSuggestions } from './note-suggestions.ts';
import type { Suggestion, SuggestionSetting } from './suggestion.ts';

/** Lines beyond this length hold no note that anybody types. */
const longestLine = 2000;

/** What fits in front of `character` of `line`, the likeliest first. Empty in most places of a program. */
export function suggestionsAt(program: Program, line: number, character: number, setting: SuggestionSetting): Suggestion[] {
  const text = line < program.lineCount ? program.lineText(line) : '';
  if (text.length > longestLine || character > text.length) return [];
  const items = scanLine(text);
  const comment = items.find((item) => item.kind === 'comment' && item.start < character && (character < item.end || (character === item.end && !closes(text, item))));
  if (comment?.kind !== 'comment') return codeSuggestions(program, line, character, setting);
  const opensLine = items.every((item) => item === comment || item.kind === 'sequence' || item.kind === 'skip');
  const end = closes(text, comment) ? comment.end - 1 : comment.end;
  return noteSuggestions(program, { line, character, start: comment.start + 1, end, opensLine }, setting.card);
}

/** A comment in parentheses that has its closing one. */
function closes(text: string, { start, end, closed }: { start: number; end: number; closed: boolean }): boolean {
  return closed && text.charAt(start) === '(' && text.charAt(end - 1) === ')';
}
