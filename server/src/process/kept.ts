/**
 * Marks of intention: a comment on a line that says which words of the note's
 * block it knowingly does not follow.
 *
 *   G01 Z-22.156 F16.0 (KEPT F14.21)       F16.0 stands on purpose instead of F14.21
 *   M07 (KEPT +M07)                         M07 stands there on purpose
 *   G00 X50.0 (KEPT -M08)                   M08 is left out on purpose, here or behind this line
 *
 * A mark holds what the note gave at the time. When the note gives something
 * else later, the mark no longer covers it, and the difference shows again.
 */
import type { Item } from '../program/index.ts';

export interface KeptWords {
  /** What the note gave for a word that stands differently. */
  changed: ReadonlySet<string>;
  added: ReadonlySet<string>;
  omitted: ReadonlySet<string>;
}

const mark = /^\s*KEPT((?:\s+[-+]?[A-Z<][^\s()]*)+)\s*$/;

/** Whether a comment's text is a mark of intention. */
export function isKeptMark(text: string): boolean {
  return mark.test(text);
}

export function readKept(items: readonly Item[]): KeptWords {
  const words = items.flatMap((item) => (item.kind === 'comment' ? (mark.exec(item.text)?.[1]?.trim().split(/\s+/) ?? []) : []));
  return {
    changed: new Set(words.filter((word) => !/^[-+]/.test(word))),
    added: new Set(words.filter((word) => word.startsWith('+')).map((word) => word.slice(1))),
    omitted: new Set(words.filter((word) => word.startsWith('-')).map((word) => word.slice(1))),
  };
}

/** The text of the comment that keeps so many words. */
export function writeKept({ changed, added, omitted }: KeptWords): string {
  return ['KEPT', ...changed, ...[...added].map((word) => `+${word}`), ...[...omitted].map((word) => `-${word}`)].join(' ');
}
