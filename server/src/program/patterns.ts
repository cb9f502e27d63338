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
const LETTER_A = 65;
const LETTERS = 26;
/** Nearly all codes are whole numbers below this, which a table tells apart faster than a map. */
const TABLE_NUMBERS = 256;

const noMatches: readonly PatternMatch[] = [];

export class PatternFinder {
  readonly #patterns: readonly WordPattern[];
  /** Indices of patterns by the literal word that gives them away, those with most words first. */
  readonly #byAnchor = new Map<number, number[]>();
  /** Whether the letter and whole number at LETTER * TABLE_NUMBERS + NUMBER give a pattern away. */
  readonly #anchorTable = new Uint8Array(LETTERS * TABLE_NUMBERS);
  /** A bit per letter, A lowest. */
  #anchorLetters = 0;

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
      if (tape.kind(row) === WORD && this.isAnchor(tape.letter(row), tape.value[row]!)) return true;
    }
    return false;
  }

  /** A bit per letter, A lowest, of the words that give patterns away. */
  get anchorLetters(): number {
    return this.#anchorLetters;
  }

  /** Whether the word gives away a pattern. */
  isAnchor(letter: number, value: number): boolean {
    const whole = value | 0;
    return whole === value ? this.isWholeAnchor(letter, whole) : this.#byAnchor.has(anchorKey(letter, value));
  }

  /** The same for a word whose value is a whole number. */
  isWholeAnchor(letter: number, value: number): boolean {
    if ((this.#anchorLetters & (1 << (letter - LETTER_A))) === 0) return false;
    if (value >= 0 && value < TABLE_NUMBERS) return this.#anchorTable[(letter - LETTER_A) * TABLE_NUMBERS + value] === 1;
    return this.#byAnchor.has(anchorKey(letter, value));
  }

  /** All patterns on the line, in the order of their first words. */
  find(tape: Tape): PatternMatch[] {
    const candidates = this.#candidates(tape);
    if (candidates.length === 1) return this.#findOne(candidates[0]!, tape);
    const matches: PatternMatch[] = [];
    for (const index of candidates) {
      const rows = this.#fit(index, tape, matches);
      if (rows !== undefined) matches.push({ index, rows });
    }
    return matches.length < 2 ? matches : matches.sort((a, b) => Math.min(...a.rows) - Math.min(...b.rows));
  }

  #findOne(index: number, tape: Tape): PatternMatch[] {
    const rows = this.#fit(index, tape, noMatches);
    return rows === undefined ? [] : [{ index, rows }];
  }

  #size(index: number): number {
    return this.#patterns[index]!.words.length;
  }

  #register(index: number): void {
    const anchor = this.#patterns[index]!.words.find((word) => word.value !== undefined);
    if (anchor === undefined) return;
    const letter = anchor.letter.toUpperCase().charCodeAt(0);
    const key = anchorKey(letter, anchor.value!);
    this.#anchorLetters |= 1 << (letter - LETTER_A);
    if (Number.isInteger(anchor.value) && anchor.value! >= 0 && anchor.value! < TABLE_NUMBERS) this.#anchorTable[(letter - LETTER_A) * TABLE_NUMBERS + anchor.value!] = 1;
    const existing = this.#byAnchor.get(key);
    if (existing === undefined) this.#byAnchor.set(key, [index]);
    else existing.push(index);
  }

  /** Those that some word gives away, with most words first. */
  #candidates(tape: Tape): number[] {
    const found: number[] = [];
    for (let row = 0; row < tape.count; row++) {
      if (tape.kind(row) === WORD && this.isAnchor(tape.letter(row), tape.value[row]!)) this.#addCandidates(anchorKey(tape.letter(row), tape.value[row]!), found);
    }
    return found.length < 2 ? found : found.sort((a, b) => this.#size(b) - this.#size(a) || a - b);
  }

  #addCandidates(key: number, found: number[]): void {
    for (const index of this.#byAnchor.get(key) ?? []) {
      if (!found.includes(index)) found.push(index);
    }
  }

  /** The rows that fit the pattern's words in the pattern's order and are of no match yet, or undefined. */
  #fit(index: number, tape: Tape, matches: readonly PatternMatch[]): number[] | undefined {
    const rows: number[] = [];
    for (const word of this.#patterns[index]!.words) {
      const row = rowOf(word, tape, matches, rows);
      if (row < 0) return undefined;
      rows.push(row);
    }
    return rows;
  }
}

/** Whether a row belongs to one of the matches. */
export function isMatched(row: number, matches: readonly PatternMatch[]): boolean {
  for (const { rows } of matches) {
    if (rows.includes(row)) return true;
  }
  return false;
}

/** Of several words that fit, the nearest behind the word before it in the pattern: in `S200 G126 S3000` the limit of G126 S{rpm} is 3000. */
function rowOf(word: PatternWord, tape: Tape, matches: readonly PatternMatch[], taken: readonly number[]): number {
  const letter = word.letter.toUpperCase().charCodeAt(0);
  const first = taken.length === 0 ? 0 : taken[taken.length - 1]! + 1;
  for (let count = 0; count < tape.count; count++) {
    const row = (first + count) % tape.count;
    if (tape.kind(row) === WORD && tape.letter(row) === letter && fits(word, tape, row) && !taken.includes(row) && !isMatched(row, matches)) return row;
  }
  return -1;
}

function fits(word: PatternWord, tape: Tape, row: number): boolean {
  return word.value !== undefined ? Math.abs(tape.value[row]! - word.value) < SAME_NUMBER : (tape.flags(row) & VALUELESS) === 0;
}

function anchorKey(letter: number, value: number): number {
  return Math.round(value * 1000) * 128 + letter;
}
