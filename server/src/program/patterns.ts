/**
 * Finds the machine's own word patterns on a line.
 *
 * A pattern is recognised by its first literal word, so that a line without one
 * costs nothing. Where two patterns fit, the one with more words wins, and no
 * word is used twice.
 */
import type { Dialect, PatternWord, WordPattern } from './dialect.ts';
import { type Tape, VALUELESS, WORD } from './tape.ts';

/** A pattern that stands on a line, with the rows of its words on the tape. */
export interface PatternMatch {
  /** Index into the dialect's patterns. */
  readonly index: number;
  readonly rows: readonly number[];
}

/** Literal numbers agree to within this; a code such as G59.1 has one decimal. */
const SAME_NUMBER = 1e-6;

export class PatternFinder {
  readonly #patterns: readonly WordPattern[];
  /** Indices of patterns by the literal word that gives them away, those with most words first. */
  readonly #byAnchor = new Map<number, number[]>();
  readonly #anchorLetters = new Set<number>();

  constructor(dialect: Dialect) {
    this.#patterns = dialect.patterns;
    const order = dialect.patterns.map((_, index) => index).sort((a, b) => this.#size(b) - this.#size(a));
    for (const index of order) this.#register(index);
  }

  get isEmpty(): boolean {
    return this.#byAnchor.size === 0;
  }

  /** Whether some word on the line gives away a pattern. */
  isOn(tape: Tape): boolean {
    for (let row = 0; row < tape.count; row++) {
      if (tape.kind(row) === WORD && this.#anchorLetters.has(tape.letter(row)) && this.#byAnchor.has(anchorKey(tape.letter(row), tape.value[row]!))) return true;
    }
    return false;
  }

  /** All patterns on the line, in the order of their first words. */
  find(tape: Tape): PatternMatch[] {
    const used = new Set<number>();
    const candidates = this.#candidates(tape);
    const matches: PatternMatch[] = [];
    for (const index of candidates) {
      const rows = this.#fit(index, tape, used);
      if (rows === undefined) continue;
      for (const row of rows) used.add(row);
      matches.push({ index, rows });
    }
    return matches.sort((a, b) => Math.min(...a.rows) - Math.min(...b.rows));
  }

  #size(index: number): number {
    return this.#patterns[index]!.words.length;
  }

  #register(index: number): void {
    const anchor = this.#patterns[index]!.words.find((word) => word.value !== undefined);
    if (anchor === undefined) return;
    const letter = anchor.letter.toUpperCase().charCodeAt(0);
    const key = anchorKey(letter, anchor.value!);
    this.#anchorLetters.add(letter);
    const existing = this.#byAnchor.get(key);
    if (existing === undefined) this.#byAnchor.set(key, [index]);
    else existing.push(index);
  }

  #candidates(tape: Tape): number[] {
    const found = new Set<number>();
    for (let row = 0; row < tape.count; row++) {
      if (tape.kind(row) !== WORD) continue;
      for (const index of this.#byAnchor.get(anchorKey(tape.letter(row), tape.value[row]!)) ?? []) found.add(index);
    }
    return [...found].sort((a, b) => this.#size(b) - this.#size(a) || a - b);
  }

  /** The rows that fit the pattern's words in the pattern's order, or undefined. */
  #fit(index: number, tape: Tape, used: ReadonlySet<number>): number[] | undefined {
    const rows: number[] = [];
    for (const word of this.#patterns[index]!.words) {
      const row = rowOf(word, tape, used, rows);
      if (row < 0) return undefined;
      rows.push(row);
    }
    return rows;
  }
}

function rowOf(word: PatternWord, tape: Tape, used: ReadonlySet<number>, taken: readonly number[]): number {
  const letter = word.letter.toUpperCase().charCodeAt(0);
  for (let row = 0; row < tape.count; row++) {
    if (tape.kind(row) !== WORD || tape.letter(row) !== letter || used.has(row) || taken.includes(row)) continue;
    if (word.value !== undefined ? Math.abs(tape.value[row]! - word.value) < SAME_NUMBER : (tape.flags(row) & VALUELESS) === 0) return row;
  }
  return -1;
}

function anchorKey(letter: number, value: number): number {
  return Math.round(value * 1000) * 128 + letter;
}
