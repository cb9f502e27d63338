/**
 * One line sorted into what the interpreter needs: the value of each letter, one
 * code a group, and the objections that need no state (NISTIR 6556 §3.3.5, §3.4).
 *
 * A block is used again for every line and holds numbers only.
 */
import { groupOfG, groupOfM, M_ALONE, NO_GROUP, UNITS_GROUP, ALONE } from './codes.ts';
import type { Dialect } from './dialect.ts';
import { wholeNumber } from './expressions.ts';
import { type PatternFinder, type PatternMatch } from './patterns.ts';
import type { RuleId } from './rules.ts';
import { ASSIGNMENT, PERCENT, PROGRAM_NUMBER, SKIP, type Tape, VALUELESS, WORD } from './tape.ts';

const GROUPS = 14;
const FIRST_LETTER = 65;
const LETTER_G = 71;
const LETTER_M = 77;
const MOST_M_WORDS = 4;
const FIRST_FREE_G = 1000;
const noMatches: readonly PatternMatch[] = [];

/** Takes an objection. The message is made only if somebody wants to read it. */
export interface ProblemSink {
  problem(rule: RuleId, start: number, end: number, message: () => string): void;
}

export const letterIndex = (letter: string): number => letter.charCodeAt(0) - FIRST_LETTER;

export class Block {
  /** Values by letter, A first; NaN when not known. Only letters in `seen` are of this line. */
  readonly values = new Float64Array(26);
  /** Tape rows by letter. */
  readonly rows = new Int32Array(26);
  /** Bit per letter (A lowest) that stands on the line and is not part of a pattern. */
  seen = 0;
  /** Ten times the G number by group, -1 for none. */
  readonly gOfGroup = new Int32Array(GROUPS).fill(-1);
  readonly gRowOfGroup = new Int32Array(GROUPS);
  /** M number by group, -1 for none. */
  readonly mOfGroup = new Int32Array(GROUPS).fill(-1);
  readonly mRowOfGroup = new Int32Array(GROUPS);
  hasCodes = false;
  hasAssignments = false;
  isSkip = false;
  isPercent = false;
  startsProgram = false;
  matches: readonly PatternMatch[] = noMatches;
  tape!: Tape;
  #mWords = 0;
  #anchored = false;
  readonly #inchWords: ReadonlySet<number>;
  readonly #unitsWords: ReadonlySet<number>;

  constructor(private readonly dialect: Dialect, private readonly patterns: PatternFinder) {
    this.#inchWords = new Set(dialect.unitsWords.inch.map(tenfold));
    this.#unitsWords = new Set([...dialect.unitsWords.inch, ...dialect.unitsWords.mm].map(tenfold));
  }

  /** Takes the words of a line. Objections go to `sink`. */
  gather(tape: Tape, sink: ProblemSink): void {
    this.#clear(tape);
    if (!this.patterns.isEmpty) this.#lookForAnchors(tape);
    for (let row = 0; row < tape.count; row++) {
      const kind = tape.kind[row];
      if (kind === WORD) this.#word(row, sink);
      else if (kind === ASSIGNMENT) this.hasAssignments = true;
      else if (kind === SKIP) this.isSkip = true;
      else if (kind === PERCENT) this.isPercent = true;
      else if (kind === PROGRAM_NUMBER && (tape.flags[row]! & VALUELESS) === 0) this.startsProgram = true;
    }
  }

  has(letter: number): boolean {
    return (this.seen & (1 << letter)) !== 0;
  }

  isInchWord(code: number): boolean {
    return this.#inchWords.has(code);
  }

  /** The word's text for a message. */
  text(source: string, letter: number): string {
    const row = this.rows[letter]!;
    return source.slice(this.tape.start[row], this.tape.end[row]);
  }

  #clear(tape: Tape): void {
    this.tape = tape;
    this.seen = 0;
    if (this.hasCodes) {
      this.gOfGroup.fill(-1);
      this.mOfGroup.fill(-1);
      this.hasCodes = false;
    }
    this.hasAssignments = false;
    this.isSkip = false;
    this.isPercent = false;
    this.startsProgram = false;
    this.matches = noMatches;
    this.#mWords = 0;
    this.#anchored = false;
  }

  #lookForAnchors(tape: Tape): void {
    for (let row = 0; row < tape.count && !this.#anchored; row++) {
      this.#anchored = tape.kind[row] === WORD && this.patterns.isAnchor(tape.letter[row]!, tape.value[row]!);
    }
    if (this.#anchored) this.matches = this.patterns.find(tape);
  }

  #consumed(row: number): boolean {
    return this.#anchored && this.matches.some((match) => match.rows.includes(row));
  }

  #word(row: number, sink: ProblemSink): void {
    const letter = this.tape.letter[row]!;
    if (letter === LETTER_M) this.#countM(row, sink);
    if (this.#consumed(row)) return;
    if (letter === LETTER_G) this.#preparatory(row, sink);
    else if (letter === LETTER_M) this.#miscellaneous(row, sink);
    else this.#addressed(letter - FIRST_LETTER, row, sink);
  }

  #addressed(index: number, row: number, sink: ProblemSink): void {
    const bit = 1 << index;
    const tape = this.tape;
    if ((this.seen & bit) !== 0) {
      const letter = String.fromCharCode(index + FIRST_LETTER);
      sink.problem('word-twice', tape.start[row]!, tape.end[row]!, () => `${letter} stands twice on this line; a letter other than G and M may stand once.`);
      return;
    }
    this.seen |= bit;
    this.values[index] = tape.value[row]!;
    this.rows[index] = row;
  }

  #preparatory(row: number, sink: ProblemSink): void {
    const value = this.tape.value[row]!;
    if (Number.isNaN(value)) return;
    const code = wholeNumber(value * 10);
    if (!Number.isInteger(code)) return this.#notInteger(row, sink, 'G', 'a whole number, or one with a single decimal');
    const group = this.#unitsWords.has(code) ? UNITS_GROUP : groupOfG(code);
    if (group === NO_GROUP || code < 0) return this.#unknown(row, sink, `G${value}`);
    if (group === ALONE) return;
    this.hasCodes = true;
    this.#claim(this.gOfGroup, this.gRowOfGroup, group, code, row, sink);
  }

  #miscellaneous(row: number, sink: ProblemSink): void {
    const value = this.tape.value[row]!;
    if (Number.isNaN(value)) return;
    const code = wholeNumber(value);
    if (!Number.isInteger(code)) return this.#notInteger(row, sink, 'M', 'a whole number');
    const group = groupOfM(code);
    if (group === NO_GROUP || code < 0) return this.#unknown(row, sink, `M${code}`);
    if (group === M_ALONE) return;
    this.hasCodes = true;
    this.#claim(this.mOfGroup, this.mRowOfGroup, group, code, row, sink);
  }

  /** The first code of a group acts; a second one is an error. */
  #claim(codes: Int32Array, rows: Int32Array, group: number, code: number, row: number, sink: ProblemSink): void {
    if (codes[group] === -1) {
      codes[group] = code;
      rows[group] = row;
      return;
    }
    const { start, end } = this.tape;
    const first = rows[group]!;
    sink.problem('group-conflict', start[row]!, end[row]!, () => `This code and the one at column ${start[first]! - start[0]! + 1} belong to one modal group; only one of a group may stand on a line.`);
  }

  #countM(row: number, sink: ProblemSink): void {
    if (++this.#mWords !== MOST_M_WORDS + 1) return;
    sink.problem('too-many-m', this.tape.start[row]!, this.tape.end[row]!, () => `This is the fifth M word of the line; at most ${MOST_M_WORDS} may stand on one.`);
  }

  #notInteger(row: number, sink: ProblemSink, letter: string, allowed: string): void {
    sink.problem('not-integer', this.tape.start[row]!, this.tape.end[row]!, () => `${letter}${this.tape.value[row]!} must be ${allowed}.`);
  }

  #unknown(row: number, sink: ProblemSink, code: string): void {
    if (this.dialect.meanings[code] !== undefined) return;
    const why = Math.abs(this.tape.value[row]!) * 10 >= FIRST_FREE_G ? 'is outside the two-digit tables' : 'has no meaning in the open definitions';
    sink.problem('unknown-code', this.tape.start[row]!, this.tape.end[row]!, () => `${code} ${why}, and the machine card does not explain it.`);
  }
}

const tenfold = (number: number): number => Math.round(number * 10);
