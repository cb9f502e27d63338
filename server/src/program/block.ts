/**
 * One line sorted into what the interpreter needs: the value of each letter, one
 * code a group, and the objections that need no state (NISTIR 6556 §3.3.5, §3.4).
 *
 * A block is used again for every line and holds numbers only.
 */
import { ALONE, groupOfG, groupOfM, M_ALONE, NO_GROUP, UNITS_GROUP } from './codes.ts';
import type { Dialect } from './dialect.ts';
import { wholeNumber } from './expressions.ts';
import { isMatched, type PatternFinder, type PatternMatch } from './patterns.ts';
import { AXES } from './registers.ts';
import type { RuleId } from './rules.ts';
import {
  ASSIGNMENT, HOLE, PARENTHESIS_COMMENT, PERCENT, PROGRAM_NUMBER, SEMICOLON_COMMENT, SKIP, type Tape, VALUELESS, WORD,
} from './tape.ts';

const GROUPS = 14;
const FIRST_LETTER = 65;
const LETTER_G = 71;
const LETTER_M = 77;
const LETTER_N = 78;
const MOST_M_WORDS = 4;
const FIRST_FREE_NUMBER = 100;
const HAS_COMMENTS = 1;
const HAS_ASSIGNMENTS = 2;
const IS_SKIP = 4;
const IS_PERCENT = 8;
const STARTS_PROGRAM = 16;
const HAS_OPEN_CODES = 32;
const HAS_UNKNOWN_G = 64;
const noMatches: readonly PatternMatch[] = [];

/** Takes an objection. The message is made only if somebody wants to read it. */
export interface ProblemSink {
  problem(rule: RuleId, start: number, end: number, message: () => string): void;
  /** Takes an objection to a word without its place, in whoever never looks at places. */
  count?(rule: RuleId): void;
}

export const letterIndex = (letter: string): number => letter.charCodeAt(0) - FIRST_LETTER;

export class Block {
  /** Values by letter, A first; NaN when not known. Only letters in `seen` are of this line. */
  readonly values = new Float64Array(26);
  /** Bit per letter (A lowest) that stands on the line and is not part of a pattern. */
  seen = 0;
  /** Bit per axis, in the order of AXES, whose own letter stands on the line. */
  axes = 0;
  /** Bit per group of which a G or an M code stands on the line. */
  gSeen = 0;
  mSeen = 0;
  matches: readonly PatternMatch[] = noMatches;
  /** Where the value of a word is put before it is taken: a number handed to a function would be garbage a moment later. */
  readonly incoming = new Float64Array(1);
  /** Bits of what is on the line beside words, which a line has seldom and every line must forget. */
  #framing = 0;
  #tape!: Tape;
  #isPlaced = true;
  #mWords = 0;
  /** Tape rows by letter. */
  readonly #rows = new Int32Array(26);
  readonly #gCodes = new Int32Array(GROUPS);
  readonly #gRows = new Int32Array(GROUPS);
  readonly #mCodes = new Int32Array(GROUPS);
  readonly #mRows = new Int32Array(GROUPS);
  readonly #gGroups: Uint8Array;
  /** The axis of each letter as a bit, in the order of AXES; 0 for letters that send none to a place. */
  readonly axisBits: Int32Array;
  readonly #inchWords: ReadonlySet<number>;
  readonly #patterns: PatternFinder | undefined;
  /** A bit per letter that some pattern is given away by. */
  readonly #anchorLetters: number;
  /** These, and the letters of codes: a word of any other letter needs nothing but a place for its value. */
  readonly lettersToLookAt: number;

  /** `readAgain` reads the present line onto a tape, for a block whose words were taken one by one. */
  constructor(private readonly dialect: Dialect, patterns: PatternFinder, private readonly readAgain: () => Tape) {
    const { inch, mm } = dialect.unitsWords;
    this.#inchWords = new Set(inch.map(tenfold));
    this.#gGroups = groupsWithUnits([...inch, ...mm].map(tenfold));
    for (const word of Object.keys(dialect.replaced ?? {})) this.#gGroups[tenfold(Number(word.slice(1)))] = NO_GROUP;
    this.axisBits = axisBits(dialect);
    this.#patterns = patterns.isEmpty ? undefined : patterns;
    this.#anchorLetters = patterns.anchorLetters;
    this.lettersToLookAt = patterns.anchorLetters | (1 << (LETTER_G - FIRST_LETTER)) | (1 << (LETTER_M - FIRST_LETTER));
  }

  /** Takes the words of a line. Objections go to `sink`. */
  gather(tape: Tape, sink: ProblemSink): void {
    this.#clear();
    this.#tape = tape;
    this.#isPlaced = true;
    if (this.#patterns?.isOn(tape) === true) this.matches = this.#patterns.find(tape);
    const isAnchored = this.matches.length > 0;
    const { count } = tape;
    for (let row = 0; row < count; row++) {
      if (tape.kind(row) !== WORD) this.#frame(tape, row);
      else if (!isAnchored || !isMatched(row, this.matches)) this.#word(tape.letter(row), row, sink);
      else if (tape.letter(row) === LETTER_M) this.#countM(row, sink);
    }
  }

  /** Begins a line whose words are taken one by one, without their places. */
  begin(): void {
    this.#clear();
    this.#isPlaced = false;
  }

  /**
   * Takes a word of a letter to look at: the letter in upper case, its value from `incoming`.
   * False for one that is part of a pattern or objected to: such a line must be gathered from a tape.
   */
  take(letter: number): boolean {
    const index = letter - FIRST_LETTER;
    if ((this.#anchorLetters & (1 << index)) !== 0 && this.#isAnchor(letter, this.incoming[0]!)) return false;
    return letter === LETTER_G || letter === LETTER_M ? this.#takeCode(letter) : this.#takeLetter(index);
  }

  #isAnchor(letter: number, value: number): boolean {
    const whole = value | 0;
    return whole === value ? this.#patterns!.isWholeAnchor(letter, whole) : this.#patterns!.isAnchor(letter, value);
  }

  /** The words of the line with their places. */
  get tape(): Tape {
    if (!this.#isPlaced) this.gather(this.readAgain(), silent);
    return this.#tape;
  }

  /** Notes that a block delete mark stands before the words. */
  takeSkip(): void {
    this.#framing |= IS_SKIP;
  }

  get hasAssignments(): boolean {
    return (this.#framing & HAS_ASSIGNMENTS) !== 0;
  }

  get hasComments(): boolean {
    return (this.#framing & HAS_COMMENTS) !== 0;
  }

  /** A code stands on the line of which the open definitions do not say which words it takes. */
  get hasOpenCodes(): boolean {
    return (this.#framing & HAS_OPEN_CODES) !== 0;
  }

  /** One of them is a G code that neither the definitions nor the machine's words say how to follow. */
  get hasUnknownG(): boolean {
    return (this.#framing & HAS_UNKNOWN_G) !== 0;
  }

  get isSkip(): boolean {
    return (this.#framing & IS_SKIP) !== 0;
  }

  get isPercent(): boolean {
    return (this.#framing & IS_PERCENT) !== 0;
  }

  get startsProgram(): boolean {
    return (this.#framing & STARTS_PROGRAM) !== 0;
  }

  get hasCodes(): boolean {
    return (this.gSeen | this.mSeen) !== 0;
  }

  has(letter: number): boolean {
    return (this.seen & (1 << letter)) !== 0;
  }

  /** Ten times the number of the G code of a group on the line, -1 for none. */
  gOf(group: number): number {
    return (this.gSeen & (1 << group)) === 0 ? -1 : this.#gCodes[group]!;
  }

  /** The number of the M code of a group on the line, -1 for none. */
  mOf(group: number): number {
    return (this.mSeen & (1 << group)) === 0 ? -1 : this.#mCodes[group]!;
  }

  /** The row on the tape of a letter that is on the line. */
  rowOf(letter: number): number {
    return this.tape && this.#rows[letter]!;
  }

  /** Where the code of a group stands that is on the line. */
  gRowOf(group: number): number {
    return this.tape && this.#gRows[group]!;
  }

  mRowOf(group: number): number {
    return this.tape && this.#mRows[group]!;
  }

  isInchWord(code: number): boolean {
    return this.#inchWords.has(code);
  }

  /** The word's text for a message. */
  text(source: string, letter: number): string {
    const row = this.rowOf(letter);
    return source.slice(this.#tape.start[row], this.#tape.end[row]);
  }

  #clear(): void {
    this.seen = 0;
    this.axes = 0;
    this.gSeen = 0;
    this.mSeen = 0;
    this.#framing = 0;
    this.matches = noMatches;
    this.#mWords = 0;
  }

  /** Everything that is no word. */
  #frame(tape: Tape, row: number): void {
    switch (tape.kind(row)) {
      case PARENTHESIS_COMMENT:
      case SEMICOLON_COMMENT: this.#framing |= HAS_COMMENTS; break;
      case ASSIGNMENT: this.#framing |= HAS_ASSIGNMENTS; break;
      case SKIP: this.#framing |= IS_SKIP; break;
      case HOLE: this.#framing |= HAS_OPEN_CODES; break;
      case PERCENT: this.#framing |= IS_PERCENT; break;
      case PROGRAM_NUMBER: if ((tape.flags(row) & VALUELESS) === 0) this.#framing |= STARTS_PROGRAM;
    }
  }

  #word(letter: number, row: number, sink: ProblemSink): void {
    if (letter === LETTER_G) return this.#preparatory(row, sink);
    if (letter === LETTER_M) return this.#miscellaneous(row, sink);
    if (letter === LETTER_N) return this.#lateSequence(row, sink);
    const index = letter - FIRST_LETTER;
    this.incoming[0] = this.#tape.value[row]!;
    if (!this.#takeLetter(index)) return this.#twice(index, row, sink);
    this.#rows[index] = row;
  }

  /** False for a letter that stands on the line already. */
  #takeLetter(index: number): boolean {
    const bit = 1 << index;
    if ((this.seen & bit) !== 0) return false;
    this.seen |= bit;
    this.axes |= this.axisBits[index]!;
    this.values[index] = this.incoming[0]!;
    return true;
  }

  /** Where N stands behind a word it numbers nothing; only a word of the machine may have one there. */
  #lateSequence(row: number, sink: ProblemSink): void {
    sink.problem('sequence-number', this.#tape.start[row]!, this.#tape.end[row]!, () => 'A sequence number must stand first on its line, after a slash at most.');
  }

  #twice(index: number, row: number, sink: ProblemSink): void {
    const letter = String.fromCharCode(index + FIRST_LETTER);
    sink.problem('word-twice', this.#tape.start[row]!, this.#tape.end[row]!, () => `${letter} stands twice on this line; a letter other than G and M may stand once.`);
  }

  #preparatory(row: number, sink: ProblemSink): void {
    const value = this.#tape.value[row]!;
    if (Number.isNaN(value)) return;
    const code = wholeNumber(value * 10);
    const group = this.#gGroups[code] ?? NO_GROUP;
    if (group === NO_GROUP || group === ALONE) this.#framing |= HAS_OPEN_CODES;
    if (group === NO_GROUP) return this.#unknownG(row, code, sink);
    if (group === ALONE) return;
    if (!this.#takeGOf(group, code)) return this.#conflict(this.#gRows[group]!, row, sink);
    this.#gRows[group] = row;
  }

  /** Numbers that are whole as they stand, which is nearly all, never leave the integers. */
  #takeCode(letter: number): boolean {
    const value = letter === LETTER_G ? this.incoming[0]! * 10 : this.incoming[0]!;
    const code = value | 0;
    if (code !== value) return letter === LETTER_G ? this.#takeG(wholeNumber(value)) : this.#takeM(wholeNumber(value));
    return letter === LETTER_G ? this.#takeG(code) : this.#takeM(code);
  }

  #takeG(code: number): boolean {
    const group = this.#gGroups[code] ?? NO_GROUP;
    if (group === ALONE) this.#framing |= HAS_OPEN_CODES;
    return group === ALONE || (group !== NO_GROUP && this.#takeGOf(group, code));
  }

  /** False if a code of the group stands on the line already. */
  #takeGOf(group: number, code: number): boolean {
    const bit = 1 << group;
    if ((this.gSeen & bit) !== 0) return false;
    this.gSeen |= bit;
    this.#gCodes[group] = code;
    return true;
  }

  #miscellaneous(row: number, sink: ProblemSink): void {
    this.#countM(row, sink);
    const value = this.#tape.value[row]!;
    if (Number.isNaN(value)) return;
    const code = wholeNumber(value);
    const group = groupOfM(code);
    if (group === NO_GROUP || group === M_ALONE) this.#framing |= HAS_OPEN_CODES;
    if (group === NO_GROUP) return this.#unknownM(row, code, sink);
    if (group === M_ALONE) return;
    if (!this.#takeMOf(group, code)) return this.#conflict(this.#mRows[group]!, row, sink);
    this.#mRows[group] = row;
  }

  #takeM(code: number): boolean {
    const group = groupOfM(code);
    const isOneTooMany = ++this.#mWords > MOST_M_WORDS;
    if (group === M_ALONE) this.#framing |= HAS_OPEN_CODES;
    return !isOneTooMany && (group === M_ALONE || (group !== NO_GROUP && this.#takeMOf(group, code)));
  }

  /** False if a code of the group stands on the line already. */
  #takeMOf(group: number, code: number): boolean {
    const bit = 1 << group;
    if ((this.mSeen & bit) !== 0) return false;
    this.mSeen |= bit;
    this.#mCodes[group] = code;
    return true;
  }

  /** The first code of a group acts; a second one is an error. */
  #conflict(first: number, row: number, sink: ProblemSink): void {
    const { start, end } = this.#tape;
    sink.problem('group-conflict', start[row]!, end[row]!, () => `This code and the one at character ${start[first]! - start[0]! + 1} of the block belong to one modal group; only one of a group may stand on a line.`);
  }

  #countM(row: number, sink: ProblemSink): void {
    if (++this.#mWords !== MOST_M_WORDS + 1) return;
    sink.problem('too-many-m', this.#tape.start[row]!, this.#tape.end[row]!, () => `This is the fifth M word of the line; at most ${MOST_M_WORDS} may stand on one.`);
  }

  #unknownG(row: number, code: number, sink: ProblemSink): void {
    this.#framing |= HAS_UNKNOWN_G;
    if (!Number.isInteger(code)) return this.#notInteger(row, sink, 'G', 'a whole number, or one with a single decimal');
    this.#unknown(row, sink, `G${this.#tape.value[row]!}`);
  }

  #unknownM(row: number, code: number, sink: ProblemSink): void {
    if (!Number.isInteger(code)) return this.#notInteger(row, sink, 'M', 'a whole number');
    this.#unknown(row, sink, `M${code}`);
  }

  #notInteger(row: number, sink: ProblemSink, letter: string, allowed: string): void {
    sink.problem('not-integer', this.#tape.start[row]!, this.#tape.end[row]!, () => `${letter}${this.#tape.value[row]!} must be ${allowed}.`);
  }

  /** A meaning may be keyed with one digit or with two: M8 and M08 are one code. */
  #unknown(row: number, sink: ProblemSink, code: string): void {
    const { meanings } = this.dialect;
    if (meanings[code] !== undefined || meanings[`${code.charAt(0)}${code.slice(1).padStart(2, '0')}`] !== undefined) return;
    const other = this.dialect.replaced?.[code];
    if (other !== undefined) return sink.problem('unknown-code', this.#tape.start[row]!, this.#tape.end[row]!, () => `${code} sets nothing here: the machine card has ${other} for what the open definitions mean by it.`);
    if (this.#patterns?.isAnchor(code.charCodeAt(0), this.#tape.value[row]!) === true) return sink.problem('unknown-code', this.#tape.start[row]!, this.#tape.end[row]!, () => `${code} is a word of the machine card only together with others, which are not all on this line.`);
    const why = Math.abs(this.#tape.value[row]!) >= FIRST_FREE_NUMBER ? 'is outside the two-digit tables' : 'is left open by the definitions';
    sink.problem('unknown-code', this.#tape.start[row]!, this.#tape.end[row]!, () => `${code} ${why}, and the machine card does not explain it.`);
  }
}

const silent: ProblemSink = { problem() {}, count() {} };

const tenfold = (number: number): number => Math.round(number * 10);

/** Ten times a number of three digits, for machines that have words of their own. */
const G_TABLE_SIZE = 10_000;

function groupsWithUnits(unitsWords: readonly number[]): Uint8Array {
  const groups = Uint8Array.from({ length: G_TABLE_SIZE }, (_, code) => groupOfG(code));
  for (const code of unitsWords) groups[code] = UNITS_GROUP;
  return groups;
}

/** The axis bit of each letter; letters that move another axis incrementally have none of their own. */
function axisBits(dialect: Dialect): Int32Array {
  const bits = new Int32Array(26);
  [...AXES].forEach((axis, at) => {
    if (dialect.incrementalAxes[axis] === undefined) bits[letterIndex(axis)] = 1 << at;
  });
  return bits;
}
