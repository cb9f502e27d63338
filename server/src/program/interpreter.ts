/**
 * Carries out a program line by line on a row of registers, in the order of
 * execution of NISTIR 6556 §3.8 (table 8), whatever the order of the words.
 *
 * It knows the language and the dialect, no file and no line numbers: the caller
 * feeds it one line after the other and takes snapshots when it likes.
 */
import { BuilderWords, type SubprogramCall } from './builder.ts';
import * as codes from './codes.ts';
import type { Dialect } from './dialect.ts';
import { lettersThatMove, Execution, type ExecutionSink } from './execution.ts';
import { FeedWatch } from './feed-watch.ts';
import { IdleWords } from './idle-words.ts';
import { LineReader, letterMask } from './lines.ts';
import { LimitWatch } from './machine-limits.ts';
import { Modes } from './modes.ts';
import { Motion } from './motion.ts';
import { mayBeNote, noteMarkOf } from './notes.ts';
import { PlainReader } from './plain.ts';
import * as r from './registers.ts';
import { SpindleWatch } from './spindle-watch.ts';
import { ASSIGNMENT, CLOSED, EXPRESSION, PARENTHESIS_COMMENT, POINTED, PROGRAM_NUMBER, SEMICOLON_COMMENT, type Tape, WORD } from './tape.ts';
import { CharacterWindow } from './window.ts';

const LONGEST_LINE = 256;
const FIRST_LETTER = 65;
const ACTIVE_SYSTEM_PARAMETER = 5220;

/** Whoever can find and execute the lines of a subprogram. */
export interface Caller {
  /** How many subprograms are being executed within one another; 0 in the text itself. */
  readonly depth: number;
  /** Executes a subprogram some times; answers why it cannot, if so. */
  call(program: number, repeats: number): string | undefined;
}

export class Interpreter {
  readonly execution: Execution;
  /** True after a line that returns from a subprogram. */
  hasReturned = false;
  readonly #window = new CharacterWindow();
  readonly #reader: LineReader;
  readonly #plainReader: PlainReader;
  readonly #modes: Modes;
  readonly #builder: BuilderWords;
  readonly #motion: Motion;
  readonly #idleWords: IdleWords;
  readonly #limits: LimitWatch | undefined;
  readonly #feeds: FeedWatch | undefined;
  readonly #spindles: SpindleWatch | undefined;
  readonly #longestLine: number;
  /** Whether programs that stand one behind the other can be told apart by their ends. */
  readonly #knowsEnds: boolean;
  readonly #knowsReturn: boolean;
  readonly #impliedLetters: number;
  /** Bits of D, and of H where it moves no axis: without their codes they are objected to. */
  readonly #lengthAndRadius: number;
  /** Where the present line is in the text. */
  #from = 0;
  #limit = 0;

  constructor(readonly dialect: Dialect, private readonly caller: Caller) {
    this.execution = new Execution(dialect, () => this.#read());
    this.#reader = new LineReader(this.execution.parameters, dialect.fixedFormat, this.#window);
    this.#plainReader = new PlainReader(this.execution.block);
    this.#modes = new Modes(this.execution);
    this.#builder = new BuilderWords(this.execution);
    this.#motion = new Motion(this.execution, this.#modes);
    this.#idleWords = new IdleWords(this.execution);
    this.#limits = LimitWatch.of(this.execution);
    this.#feeds = FeedWatch.of(this.execution);
    this.#spindles = SpindleWatch.of(this.execution);
    this.#knowsReturn = dialect.patterns.some(({ name }) => name === 'subprogramReturn');
    this.#knowsEnds = this.#knowsReturn && dialect.patterns.some(({ name }) => name === 'subprogramCall');
    this.#longestLine = dialect.maxLineLength ?? LONGEST_LINE;
    this.#impliedLetters = letterMask(dialect.fixedFormat?.letters ?? '');
    this.#lengthAndRadius = letterMask('DH') & ~lettersThatMove(r.AXES, dialect);
  }

  /** Lines of a text follow. Offsets given to the sink are offsets in `text`. */
  begin(text: string, sink: ExecutionSink): void {
    this.execution.text = text;
    this.execution.sink = sink;
  }

  /** Reads and executes one line. */
  execute(from: number, limit: number): void {
    this.hasReturned = false;
    this.#from = from;
    this.#limit = limit;
    if (!this.#isPlain()) this.#executeAny(from, limit);
    else if (!this.#isSkipped) this.#run();
  }

  /** Nearly every line is plain: the block holds its words, whose places nobody asks for unless something is wrong. */
  #isPlain(): boolean {
    const { row } = this.execution;
    if (row[r.ENDED] !== r.RUNNING || row[r.OPENING] === 0 || this.#impliedLetters !== 0) return false;
    if (this.#limit - this.#from > this.#longestLine) return false;
    this.#window.show(this.execution.text, this.#from, this.#limit);
    return this.#plainReader.read(this.#window, this.#from, this.#limit);
  }

  #read(): Tape {
    return this.#reader.read(this.execution.text, this.#from, this.#limit);
  }

  #executeAny(from: number, limit: number): void {
    const { execution } = this;
    const { sink } = execution;
    const tape = this.#read();
    execution.block.gather(tape, this.#isIgnored ? silent : sink);
    if (tape.count === 0) return;
    this.#frame();
    if (this.#isIgnored) return;
    if (limit - from > this.#longestLine) this.#tooLong(from, limit);
    if (tape.faults.length > 0) this.#objectToFaults(tape, sink);
    if (this.#impliedLetters !== 0) this.#watchPoints(tape);
    if (execution.block.hasComments) this.#markNotes(tape);
    if (execution.row[r.ENDED] === r.RUNNING && !this.#isSkipped) this.#run();
  }

  get #isSkipped(): boolean {
    return this.execution.block.isSkip && this.dialect.skipBlocks;
  }

  #objectToFaults({ faults }: Tape, sink: ExecutionSink): void {
    for (const { rule, start, end, message } of faults) sink.problem(rule, start, end, () => message);
  }

  /** Everything after the closing percent sign is ignored (NISTIR 6556 §3.1). */
  get #isIgnored(): boolean {
    return this.execution.row[r.ENDED] === r.AFTER_PERCENT;
  }

  /** What opens and closes programs. */
  #frame(): void {
    const { block, row } = this.execution;
    if (block.startsProgram) this.#startProgram();
    if (block.isPercent) this.#percent();
    else if (row[r.OPENING] === 0 && !this.#isCommentOnly()) row[r.OPENING] = 1;
  }

  /** What names a program may stand in front of the percent sign that opens it (ISO 6983-1, from memory); here that is comments. */
  #isCommentOnly(): boolean {
    const { tape } = this.execution.block;
    for (let row = 0; row < tape.count; row++) {
      if (tape.kind(row) !== PARENTHESIS_COMMENT && tape.kind(row) !== SEMICOLON_COMMENT) return false;
    }
    return true;
  }

  #startProgram(): void {
    const { row } = this.execution;
    if (row[r.ENDED] === r.AFTER_END) this.#beginAnother();
    else if (row[r.ENDED] === r.RUNNING && this.#knowsEnds && this.caller.depth === 0) this.#checkEndBefore();
  }

  /** Numbers at the head, one below the other, are of one program. Nothing tells a subprogram without moves from that, but that it is one. */
  #checkEndBefore(): void {
    const { row, block } = this.execution;
    const { tape } = block;
    if (row[r.SECONDARY] !== 1 && Number.isNaN(row[r.MOTION]!)) return;
    const at = Array.from({ length: tape.count }, (_, each) => each).find((each) => tape.kind(each) === PROGRAM_NUMBER) ?? 0;
    this.execution.object('program-runs-on', at, () => 'The program before has no end, so it runs on into this one; M02, M30 or the word that returns must stand before.');
  }

  /** A program number after the end of a program begins another one, whose caller is not known and which counts for nothing by itself. */
  #beginAnother(): void {
    const { execution } = this;
    const opening = execution.row[r.OPENING]!;
    execution.row.set(execution.start);
    execution.row[r.OPENING] = opening;
    execution.row[r.SECONDARY] = 1;
    execution.row[r.FEED] = NaN;
    execution.loseAllPositions();
    execution.touched = -1;
  }

  #percent(): void {
    const { row } = this.execution;
    if (row[r.OPENING] === 0) row[r.OPENING] = 2;
    else if (row[r.OPENING] === 2) row[r.ENDED] = r.AFTER_PERCENT;
    else if (row[r.ENDED] === r.RUNNING) this.execution.object('percent-late', 0, () => 'The first line of the program was no percent sign, so this one neither opens nor closes it.');
  }

  /** NISTIR 6556 table 8, with the builder's words among the standard ones. */
  #run(): void {
    const { block } = this.execution;
    const isBuilders = block.matches.length > 0;
    if ((block.gSeen | block.mSeen | block.seen) !== 0 || isBuilders) {
      if (isBuilders) this.#builder.modes();
      this.#modes.beforeSpindle();
      if (this.#hasModes(block.gSeen, block.mSeen) || (block.seen & this.#lengthAndRadius) !== 0) this.#modes.modes();
      if (isBuilders) this.#switch();
      if (this.#spindles !== undefined) this.#spindles.check();
      if (this.#feeds !== undefined) this.#feeds.check();
      this.#motion.run();
      this.#idleWords.check();
      if (this.#limits !== undefined) this.#limits.check();
      if (block.mSeen !== 0) this.#stop();
    }
    if (block.hasAssignments) this.#assign(block.tape);
    if (isBuilders) this.#flow();
  }

  #switch(): void {
    if (this.#spindles !== undefined) this.#spindles.beforeSwitches();
    this.#builder.switches();
  }

  /** Most lines with codes have a motion code only. */
  #hasModes(gSeen: number, mSeen: number): boolean {
    return (gSeen & ~(1 << codes.MOTION_GROUP)) !== 0 || mSeen !== 0;
  }

  #stop(): void {
    const code = this.execution.block.mOf(codes.STOP_GROUP);
    if (code === 2 || code === 30) this.#modes.end();
  }

  /** Settings take effect after the line; the last one of a parameter wins (NISTIR 6556 §3.3.3). */
  #assign(tape: Tape): void {
    for (let row = 0; row < tape.count; row++) {
      if (tape.kind(row) === ASSIGNMENT && !Number.isNaN(tape.index[row]!)) this.#setParameter(row, tape.index[row]!, tape.value[row]!);
    }
  }

  #setParameter(row: number, index: number, value: number): void {
    if (index === ACTIVE_SYSTEM_PARAMETER && !(Number.isNaN(value) || (Number.isInteger(value) && value >= 1 && value <= 9))) {
      this.execution.object('parameter-index', row, () => `#${index} must be a whole number from 1 to 9, not ${value}.`);
      return;
    }
    this.execution.parameters.set(index, value);
  }

  /** Calls, returns and jumps, last of all on a line. */
  #flow(): void {
    const { execution } = this;
    const { jump } = this.#builder;
    if (jump !== undefined) execution.object('jump', jump.rows[0]!, () => 'This jump is not followed: what comes after is read as if it were not taken.');
    const call = this.#builder.call();
    if (this.#builder.returns) this.#return();
    else if (call !== undefined) this.#call(call);
  }

  /** Read in the order of the text, a return ends the subprogram and nothing follows from it. */
  #return(): void {
    this.hasReturned = true;
    if (this.caller.depth === 0) this.execution.row[r.ENDED] = r.AFTER_END;
  }

  #call({ program, repeats, match, refusal: unexplained }: SubprogramCall): void {
    const { execution } = this;
    const { tape } = execution.block;
    const { sink, text } = execution;
    const start = Math.min(...match.rows.map((row) => tape.start[row]!));
    const end = Math.max(...match.rows.map((row) => tape.end[row]!));
    const refusal = unexplained ?? this.caller.call(program, repeats) ?? this.#withoutReturn(program);
    this.begin(text, sink);
    this.hasReturned = false;
    if (refusal === undefined) return;
    execution.loseAllPositions();
    sink.problem('subprogram', start, end, () => `${refusal} Where the axes stand afterwards is not known; modes are read as if it changed none.`);
  }

  /** The text ended before the subprogram returned: a control stops there, and what follows the call is read all the same. */
  #withoutReturn(program: number): string | undefined {
    const { row } = this.execution;
    if (this.hasReturned || row[r.ENDED] === r.AFTER_END) return undefined;
    row[r.ENDED] = r.RUNNING;
    return `Program ${program} does not return: the text ends first${this.#knowsReturn ? '' : ', and the machine card has no word for it (subprogramReturn)'}.`;
  }

  /** The notes of processes are comments, which act on nothing but the list of operations. */
  #markNotes(tape: Tape): void {
    const { text, sink } = this.execution;
    for (let row = 0; row < tape.count; row++) {
      const kind = tape.kind(row);
      if (kind !== PARENTHESIS_COMMENT && kind !== SEMICOLON_COMMENT) continue;
      const start = tape.start[row]! + 1;
      const end = kind === SEMICOLON_COMMENT || (tape.flags(row) & CLOSED) === 0 ? tape.end[row]! : tape.end[row]! - 1;
      const note = mayBeNote(text, start, end) ? noteMarkOf(text.slice(start, end)) : undefined;
      if (note !== undefined) sink.mark(note.kind, note.name);
    }
  }

  #tooLong(from: number, limit: number): void {
    const whose = this.dialect.maxLineLength === undefined ? 'RS274/NGC' : 'the control';
    this.execution.sink.problem('line-too-long', from + this.#longestLine, limit, () => `The line has ${limit - from} characters; ${whose} reads at most ${this.#longestLine}.`);
  }

  /** Numbers with and without a point on one letter are legal and differ by a power of ten. */
  #watchPoints(tape: Tape): void {
    for (let row = 0; row < tape.count; row++) {
      if (tape.kind(row) !== WORD || (tape.flags(row) & EXPRESSION) !== 0) continue;
      const bit = 1 << (tape.letter(row) - FIRST_LETTER);
      if ((this.#impliedLetters & bit) !== 0 && tape.value[row] !== 0) this.#watchPoint(row, bit, (tape.flags(row) & POINTED) !== 0);
    }
  }

  #watchPoint(at: number, bit: number, pointed: boolean): void {
    const { row, block, text } = this.execution;
    const other = row[pointed ? r.POINTLESS_LETTERS : r.POINTED_LETTERS]!;
    const own = pointed ? r.POINTED_LETTERS : r.POINTLESS_LETTERS;
    const isNewMixture = (other & bit) !== 0 && (!pointed || (row[own]! & bit) === 0);
    row[own] = row[own]! | bit;
    if (!isNewMixture) return;
    const { tape } = block;
    const word = text.slice(tape.start[at], tape.end[at]);
    this.execution.object('implied-point', at, () => `${word} is read as ${tape.value[at]}: this program writes the letter both with and without a decimal point.`);
  }
}

const silent: ExecutionSink = { problem() {}, count() {}, step() {}, mark() {} };
