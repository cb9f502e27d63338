/**
 * Recognises the comments that open and close a process note: `(HOBBING: ...)`
 * and `(END HOBBING)`. What a note says is not known here.
 */

import { COLON, isWhite, letterOf } from './characters.ts';

export interface NoteMark {
  readonly kind: 'noteStart' | 'noteEnd';
  readonly name: string;
}

const NOTE = /^\s*(?:END\s+([A-Z][A-Z-]*)\s*$|([A-Z][A-Z-]*)\s*:)/i;
const LONGEST_NAME = 40;

/** The mark in the inside of a comment, or undefined. */
export function noteMarkOf(comment: string): NoteMark | undefined {
  const match = NOTE.exec(comment.slice(0, LONGEST_NAME));
  if (match === null) return undefined;
  return match[1] !== undefined ? { kind: 'noteEnd', name: match[1].toUpperCase() } : { kind: 'noteStart', name: match[2]!.toUpperCase() };
}

const MAY_END = /^\s*END\s/i;

/** A quick refusal of comments that cannot be a note, before their text is read closely. */
export function mayBeNote(source: string, start: number, end: number): boolean {
  const limit = Math.min(end, start + LONGEST_NAME);
  const first = source.charCodeAt(start);
  if (!isWhite(first) && letterOf(first) === 0) return false;
  for (let at = start; at < limit; at++) {
    if (source.charCodeAt(at) === COLON) return true;
  }
  return MAY_END.test(source.slice(start, limit));
}
