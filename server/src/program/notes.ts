/**
 * Recognises the comments that open and close a process note: `(HOBBING: ...)`
 * and `(END HOBBING)`. What a note says is not known here.
 */

export interface NoteMark {
  readonly kind: 'noteStart' | 'noteEnd';
  readonly name: string;
}

const NOTE = /^\s*(?:END\s+([A-Z][A-Z-]*)\s*$|([A-Z][A-Z-]*)\s*:)/;
const LONGEST_NAME = 40;
const LETTER_A = 65;
const LETTER_Z = 90;

/** The mark in the inside of a comment, or undefined. */
export function noteMarkOf(comment: string): NoteMark | undefined {
  const match = NOTE.exec(comment.slice(0, LONGEST_NAME));
  if (match === null) return undefined;
  return match[1] !== undefined ? { kind: 'noteEnd', name: match[1] } : { kind: 'noteStart', name: match[2]! };
}

/** A quick refusal of comments that cannot be a note, before their text is copied. */
export function mayBeNote(source: string, start: number, end: number): boolean {
  const limit = Math.min(end, start + LONGEST_NAME);
  const first = source.charCodeAt(start);
  if (first !== 32 && (first < LETTER_A || first > LETTER_Z)) return false;
  if (source.startsWith('END ', start)) return true;
  for (let at = start; at < limit; at++) {
    if (source.charCodeAt(at) === 58) return true;
  }
  return false;
}
