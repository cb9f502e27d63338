/** Where on a line a move stands: its first axis word, or all that is written where another line moves. */
import type { Dialect } from './dialect.ts';
import * as r from './registers.ts';
import { scanLine } from './scan.ts';

export function placeOfMove(text: string, { incrementalAxes, fixedFormat }: Dialect): { readonly start: number; readonly end: number } {
  const word = scanLine(text, undefined, fixedFormat).find((item) => item.kind === 'word' && (r.AXES.includes(item.letter) || Object.hasOwn(incrementalAxes, item.letter)));
  if (word !== undefined) return { start: word.start, end: word.end };
  return { start: text.length - text.trimStart().length, end: text.trimEnd().length };
}
