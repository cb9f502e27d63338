/**
 * Carries out a program line by line on a row of registers, in the order of
 * execution of NISTIR 6556 §3.8 (table 8), whatever the order of the words.
 *
 * It knows the language and the dialect, no file and no line numbers: the caller
 * feeds it one line after the other and takes snapshots when it likes.
 */
import { Block, letterIndex, type ProblemSink } from './block.ts';
import * as codes from './codes.ts';
import type { Dialect, WordPattern } from './dialect.ts';
import { wholeNumber } from './expressions.ts';
import { LineReader } from './lines.ts';
import { Parameters } from './parameters.ts';
import { PatternFinder } from './patterns.ts';
import * as r from './registers.ts';
import { MODAL_FIELDS, type ModalField } from './state.ts';
import type { Tape } from './tape.ts';

const D = letterIndex('D');
const F = letterIndex('F');
const H = letterIndex('H');
const P = letterIndex('P');
const Q = letterIndex('Q');
const R = letterIndex('R');
const S = letterIndex('S');
const T = letterIndex('T');
const AXIS_LETTERS = Int32Array.from([...r.AXES].map(letterIndex));
const INCH_IN_MM = 25.4;
const LINEAR_AXES = [0, 1, 2, 6, 7, 8];

export const touchBit = (field: ModalField): number => 1 << MODAL_FIELDS.indexOf(field);

const TOUCH = Object.fromEntries(MODAL_FIELDS.map((field) => [field, touchBit(field)])) as Record<ModalField, number>;

export class Interpreter {
  readonly row = new Float64Array(r.REGISTER_COUNT);
  readonly parameters = new Parameters();
  readonly block: Block;
  /** Bits of the modal fields that lines have set since somebody cleared it. */
  touched = 0;
  readonly #reader: LineReader;
  readonly #start: Float64Array;
  /** The axis that each letter moves incrementally, -1 for none. */
  readonly #incremental = new Int32Array(26).fill(-1);
  readonly #incrementalLetters: number;
  #text = '';
  #sink!: ProblemSink;

  constructor(readonly dialect: Dialect) {
    this.block = new Block(dialect, new PatternFinder(dialect));
    this.#reader = new LineReader(this.parameters);
    this.#start = r.startRegisters(dialect);
    this.row.set(this.#start);
    for (const [letter, axis] of Object.entries(dialect.incrementalAxes)) this.#incremental[letterIndex(letter)] = r.AXES.indexOf(axis);
    this.#incrementalLetters = Object.keys(dialect.incrementalAxes).reduce((mask, letter) => mask | (1 << letterIndex(letter)), 0);
  }

  /** Reads one line without executing it. */
  readOnly(text: string, from: number, limit: number): Tape {
    return this.#reader.read(text, from, limit);
  }

  /** Reads and executes one line. Offsets given to the sink are offsets in `text`. */
  execute(text: string, from: number, limit: number, sink: ProblemSink): void {
    this.#text = text;
    this.#sink = sink;
    const tape = this.#reader.read(text, from, limit);
    if (tape.count === 0) return;
    const block = this.block;
    block.gather(tape, sink);
    if (block.startsProgram) this.#programNumber();
    if (block.isPercent) this.#percent();
    else if (this.row[r.OPENING] === 0) this.row[r.OPENING] = 1;
    if (this.row[r.ENDED] === r.AFTER_PERCENT) return;
    for (const fault of tape.faults) sink.problem(fault.rule, fault.start, fault.end, () => fault.message);
    if (this.row[r.ENDED] !== r.RUNNING || (block.isSkip && this.dialect.skipBlocks)) return;
    if (block.hasCodes || block.seen !== 0 || block.matches.length > 0) this.#run();
    if (block.hasAssignments) this.#assign(tape);
  }

  /** A program number after the end of a program begins another one, whose caller is not known. */
  #programNumber(): void {
    if (this.row[r.ENDED] !== r.AFTER_END) return;
    const opening = this.row[r.OPENING]!;
    this.row.set(this.#start);
    this.row[r.OPENING] = opening;
    this.touched = -1;
  }

  #percent(): void {
    const row = this.row;
    if (row[r.OPENING] === 0) row[r.OPENING] = 2;
    else if (row[r.OPENING] === 2) row[r.ENDED] = r.AFTER_PERCENT;
    else if (row[r.ENDED] === r.RUNNING) this.#object('percent-late', 0, () => 'The first line of the program was no percent sign, so this one neither opens nor closes it.');
  }

  #assign(tape: Tape): void {
    for (let row = 0; row < tape.count; row++) {
      if (tape.index[row] !== undefined && tape.kind[row] === 8 && !Number.isNaN(tape.index[row])) this.parameters.set(tape.index[row]!, tape.value[row]!);
    }
  }

  /** NISTIR 6556 table 8. */
  #run(): void {
    const block = this.block;
    if (block.matches.length > 0) this.#machineModes();
    if (block.hasCodes) this.#feedMode();
    this.#feed();
    this.#speed();
    this.#tool();
    if (block.hasCodes) this.#modes();
    if (block.matches.length > 0) this.#machineSwitches();
    this.#axisWords();
    if (block.hasCodes) this.#stop();
  }

  #feedMode(): void {
    this.#modal(codes.FEED_MODE_GROUP, r.FEED_MODE, TOUCH.feedMode);
    this.#modal(codes.SPEED_MODE_GROUP, r.SPEED_MODE, TOUCH.speedMode);
  }

  #feed(): void {
    if (!this.#takes(F, TOUCH.feed)) return;
    if (this.#notNegative(F)) this.row[r.FEED] = this.block.values[F]!;
  }

  #speed(): void {
    if (!this.#takes(S, TOUCH.speed)) return;
    if (this.#notNegative(S)) this.row[r.SPEED] = this.block.values[S]!;
  }

  #tool(): void {
    const block = this.block;
    if (this.#takes(T, TOUCH.selectedTool) && this.#notNegative(T)) {
      this.row[r.SELECTED_TOOL] = this.#whole(T);
      if (this.dialect.toolChange === 'T') this.#changeTool();
    }
    if (block.hasCodes && block.mOfGroup[codes.TOOL_GROUP] !== -1) this.#changeTool();
  }

  #changeTool(): void {
    this.row[r.TOOL] = this.row[r.SELECTED_TOOL]!;
    this.touched |= TOUCH.tool;
  }

  #modes(): void {
    this.#spindle();
    this.#coolant();
    this.#miscellaneousModal(codes.OVERRIDE_GROUP, r.OVERRIDES, 0);
    this.#modal(codes.PLANE_GROUP, r.PLANE, TOUCH.plane);
    this.#units();
    this.#radiusCompensation();
    this.#lengthCompensation();
    this.#workOffset();
    this.#modal(codes.PATH_GROUP, r.PATH_MODE, TOUCH.pathMode);
    this.#modal(codes.DISTANCE_GROUP, r.DISTANCE, TOUCH.distance);
    this.#modal(codes.RETURN_GROUP, r.RETURN_LEVEL, TOUCH.returnLevel);
  }

  #modal(group: number, register: number, touch: number): boolean {
    const code = this.block.gOfGroup[group]!;
    if (code === -1) return false;
    this.row[register] = code / 10;
    this.touched |= touch;
    return true;
  }

  #miscellaneousModal(group: number, register: number, touch: number): void {
    const code = this.block.mOfGroup[group]!;
    if (code === -1) return;
    this.row[register] = code;
    this.touched |= touch;
  }

  #spindle(): void {
    const code = this.block.mOfGroup[codes.SPINDLE_GROUP]!;
    if (code === -1) return;
    this.touched |= TOUCH.spindle;
    this.row[r.SPINDLE] = code === 19 ? 5 : code >= 13 ? code - 10 : code;
    if (code === 13 || code === 14) this.#setCoolant(this.row[r.COOLANT]! | 2);
  }

  #coolant(): void {
    const code = this.block.mOfGroup[codes.COOLANT_GROUP]!;
    if (code === -1) return;
    const bit = code === 7 ? 1 : code === 8 ? 2 : code === 50 ? 4 : 8;
    this.#setCoolant(code === 9 ? 0 : this.row[r.COOLANT]! | bit);
  }

  #setCoolant(bits: number): void {
    this.row[r.COOLANT] = bits;
    this.touched |= TOUCH.coolant;
  }

  /** The position is re-expressed; every other stored number keeps its figures (NISTIR 6556 §2.1.2.9). */
  #units(): void {
    const code = this.block.gOfGroup[codes.UNITS_GROUP]!;
    if (code === -1) return;
    const inch = this.block.isInchWord(code);
    const wasInch = this.row[r.UNITS] === 20;
    this.row[r.UNITS] = inch ? 20 : 21;
    this.touched |= TOUCH.units;
    if (inch === wasInch) return;
    const factor = inch ? 1 / INCH_IN_MM : INCH_IN_MM;
    for (const axis of LINEAR_AXES) this.row[axis]! *= factor;
  }

  #radiusCompensation(): void {
    if (!this.#modal(codes.RADIUS_GROUP, r.RADIUS_COMPENSATION, TOUCH.compensation)) return;
    const off = this.row[r.RADIUS_COMPENSATION] === 40;
    if (off) this.row[r.RADIUS_NUMBER] = NaN;
    else if (this.block.has(D)) this.row[r.RADIUS_NUMBER] = this.#whole(D);
  }

  #lengthCompensation(): void {
    if (!this.#modal(codes.LENGTH_GROUP, r.LENGTH_COMPENSATION, TOUCH.lengthCompensation)) return;
    const off = this.row[r.LENGTH_COMPENSATION] === 49;
    this.row[r.LENGTH_NUMBER] = off || !this.block.has(H) ? NaN : this.#whole(H);
  }

  /** Where another origin lies is not in the text, so the position is not known after the change. */
  #workOffset(): void {
    const before = this.row[r.WORK_OFFSET];
    if (!this.#modal(codes.OFFSET_GROUP, r.WORK_OFFSET, TOUCH.workOffset)) return;
    if (this.row[r.WORK_OFFSET] !== before) this.#loseAllPositions();
  }

  #loseAllPositions(): void {
    this.row.fill(NaN, 0, r.AXIS_COUNT);
    this.touched |= POSITION_BITS;
  }

  #axisWords(): void {
    const block = this.block;
    const oneShot = block.hasCodes ? block.gOfGroup[codes.ONE_SHOT]! : -1;
    const motion = block.hasCodes ? block.gOfGroup[codes.MOTION_GROUP]! : -1;
    if (motion !== -1) this.#setMotion(motion / 10);
    if (oneShot === 40) return this.#dwell();
    if (oneShot !== -1 && codes.usesAxisWords(oneShot)) return this.#oneShot(oneShot, motion);
    const axes = this.#axisMask();
    if (axes === 0) return motion > 0 && motion !== 800 ? this.#motionWithoutAxis(motion) : undefined;
    if (Number.isNaN(this.row[r.MOTION]) || this.row[r.MOTION] === 80) this.#axisWithoutMotion();
    if (oneShot === 530) this.#moveInMachineCoordinates();
    else this.#move();
  }

  #setMotion(motion: number): void {
    if (!codes.isCycle(motion) || !codes.isCycle(this.row[r.MOTION]!)) this.#forgetCycle();
    this.row[r.MOTION] = motion;
    this.touched |= TOUCH.motion;
  }

  #forgetCycle(): void {
    for (let register = r.CYCLE_RETRACT; register <= r.CYCLE_INITIAL; register++) this.row[register] = NaN;
    this.touched |= TOUCH.cycle;
  }

  /** Bits of the axes that the line moves, in the order of AXES. */
  #axisMask(): number {
    const block = this.block;
    let mask = 0;
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if (block.has(AXIS_LETTERS[axis]!)) mask |= 1 << axis;
    }
    return mask | (block.seen & this.#incrementalLetters);
  }

  #move(): void {
    const row = this.row;
    if (codes.isCycle(row[r.MOTION]!)) return this.#cycle();
    this.#takePositions();
  }

  #takePositions(): void {
    const block = this.block;
    const incremental = this.row[r.DISTANCE] === 91;
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      const letter = AXIS_LETTERS[axis]!;
      if (!block.has(letter) || this.#incremental[letter] !== -1) continue;
      this.#place(axis, incremental ? this.row[axis]! + block.values[letter]! : block.values[letter]!);
    }
    if ((block.seen & this.#incrementalLetters) !== 0) this.#takeIncrements();
  }

  #takeIncrements(): void {
    for (let letter = 0; letter < 26; letter++) {
      const axis = this.#incremental[letter]!;
      if (axis !== -1 && this.block.has(letter)) this.#place(axis, this.row[axis]! + this.block.values[letter]!);
    }
  }

  #place(axis: number, value: number): void {
    this.row[axis] = value;
    this.touched |= 1 << axis;
  }

  /** G53 counts from the machine's own zero, whose distance from the program's is not in the text. */
  #moveInMachineCoordinates(): void {
    this.#takePositions();
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if (this.block.has(AXIS_LETTERS[axis]!)) this.#place(axis, NaN);
    }
  }

  #cycle(): void {
    this.#keepCycleWords();
    this.#takePositions();
  }

  #keepCycleWords(): void {
    const { block, row } = this;
    if (block.has(R)) row[r.CYCLE_RETRACT] = block.values[R]!;
    if (block.has(P)) row[r.CYCLE_DWELL] = block.values[P]!;
    if (block.has(Q)) row[r.CYCLE_PECK] = block.values[Q]!;
    this.touched |= TOUCH.cycle;
  }

  #oneShot(code: number, motion: number): void {
    const block = this.block;
    if (motion > 0 && this.#axisMask() !== 0 && motion !== 800) {
      this.#object('one-shot-and-motion', block.gRowOfGroup[codes.ONE_SHOT]!, () => `G${code / 10} uses the axis words itself, so no motion code may stand beside it.`);
      return;
    }
    if (code === 280 || code === 300) this.#returnHome();
    else if (code === 920) this.#presetPosition();
  }

  /** The home position is not in the text. Without axis words all axes go. */
  #returnHome(): void {
    const mask = this.#axisMask();
    if (mask === 0) return this.#loseAllPositions();
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if ((mask & (1 << axis)) !== 0) this.#place(axis, NaN);
    }
  }

  #presetPosition(): void {
    const block = this.block;
    if (this.#axisMask() === 0) {
      this.#object('word-missing', block.gRowOfGroup[codes.ONE_SHOT]!, () => 'G92 needs at least one axis word.');
      return;
    }
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      const letter = AXIS_LETTERS[axis]!;
      if (!block.has(letter)) continue;
      this.row[r.AXIS_OFFSETS + axis]! += this.row[axis]! - block.values[letter]!;
      this.#place(axis, block.values[letter]!);
    }
  }

  #dwell(): void {
    if (this.block.has(P)) this.#notNegative(P);
  }

  #motionWithoutAxis(motion: number): void {
    this.#object('motion-without-axis', this.block.gRowOfGroup[codes.MOTION_GROUP]!, () => `G${motion / 10} needs at least one axis word on its line.`);
  }

  #axisWithoutMotion(): void {
    this.#object('axis-without-motion', 0, () => 'There are axis words, but no motion code is in force.');
  }

  #stop(): void {
    const code = this.block.mOfGroup[codes.STOP_GROUP]!;
    if (code === 2 || code === 30) this.#end();
  }

  /** What M02 and M30 put back (NISTIR 6556 §3.6.1). */
  #end(): void {
    const row = this.row;
    row[r.ENDED] = r.AFTER_END;
    if (row[r.WORK_OFFSET] !== 54) this.#loseAllPositions();
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      row[axis]! += row[r.AXIS_OFFSETS + axis]!;
      row[r.AXIS_OFFSETS + axis] = 0;
    }
    row[r.WORK_OFFSET] = 54;
    row[r.PLANE] = 17;
    row[r.DISTANCE] = 90;
    row[r.FEED_MODE] = 94;
    row[r.OVERRIDES] = 48;
    row[r.RADIUS_COMPENSATION] = 40;
    row[r.RADIUS_NUMBER] = NaN;
    row[r.SPINDLE] = 5;
    row[r.COOLANT] = 0;
    this.#setMotion(1);
    this.touched |= END_BITS;
  }

  /** Patterns that change how F and S are read come before both. */
  #machineModes(): void {
    for (const match of this.block.matches) {
      const pattern = this.dialect.patterns[match.index]!;
      if (pattern.name === 'feedPerMinute') this.#set(r.FEED_MODE, 94, TOUCH.feedMode);
      else if (pattern.name === 'feedPerRevolution') this.#set(r.FEED_MODE, 95, TOUCH.feedMode);
      else if (pattern.name === 'speedLimit') this.#set(r.SPEED_LIMIT, this.#firstSlot(pattern, match.rows), TOUCH.speedLimit);
    }
  }

  #machineSwitches(): void {
    for (const match of this.block.matches) this.#machineSwitch(this.dialect.patterns[match.index]!, match.index, match.rows);
  }

  #machineSwitch(pattern: WordPattern, index: number, rows: readonly number[]): void {
    switch (pattern.name) {
      case 'syncOn': return this.#syncOn(pattern, index, rows);
      case 'syncOff': return this.#set(r.SYNC_PATTERN, 0, TOUCH.sync);
      case 'workAxisOn': return this.#set(r.WORK_AXIS, 1, TOUCH.workAxis);
      case 'workAxisOff': return this.#set(r.WORK_AXIS, 0, TOUCH.workAxis);
      case 'drivenStart': return this.#driven(3, pattern, rows);
      case 'drivenReverse': return this.#driven(4, pattern, rows);
      case 'drivenStop': return this.#driven(5, pattern, rows);
    }
  }

  #syncOn(pattern: WordPattern, index: number, rows: readonly number[]): void {
    this.#set(r.SYNC_PATTERN, index + 1, TOUCH.sync);
    let place = r.SYNC_SLOTS;
    pattern.words.forEach((word, at) => {
      if (word.slot !== undefined && place < r.SYNC_SLOTS + r.SYNC_SLOT_COUNT) this.row[place++] = this.block.tape.value[rows[at]!]!;
    });
  }

  #driven(direction: number, pattern: WordPattern, rows: readonly number[]): void {
    this.#set(r.DRIVEN_DIRECTION, direction, TOUCH.driven);
    const at = pattern.words.findIndex((word) => word.slot === 'rpm');
    if (at >= 0) this.row[r.DRIVEN_SPEED] = this.block.tape.value[rows[at]!]!;
  }

  #firstSlot(pattern: WordPattern, rows: readonly number[]): number {
    const at = pattern.words.findIndex((word) => word.slot !== undefined);
    return at < 0 ? NaN : this.block.tape.value[rows[at]!]!;
  }

  #set(register: number, value: number, touch: number): void {
    this.row[register] = value;
    this.touched |= touch;
  }

  #takes(letter: number, touch: number): boolean {
    if (!this.block.has(letter)) return false;
    this.touched |= touch;
    return true;
  }

  #notNegative(letter: number): boolean {
    if (!(this.block.values[letter]! < 0)) return true;
    this.#object('negative-value', this.block.rows[letter]!, () => `${this.block.text(this.#text, letter)}: the value must be 0 or more.`);
    return false;
  }

  #whole(letter: number): number {
    const value = wholeNumber(this.block.values[letter]!);
    if (!Number.isNaN(value) && !Number.isInteger(value)) {
      this.#object('not-integer', this.block.rows[letter]!, () => `${this.block.text(this.#text, letter)}: the value must be a whole number.`);
      return NaN;
    }
    return value;
  }

  #object(rule: Parameters0, row: number, message: () => string): void {
    this.#sink.problem(rule, this.block.tape.start[row]!, this.block.tape.end[row]!, message);
  }
}

type Parameters0 = import('./rules.ts').RuleId;
const POSITION_BITS = (1 << r.AXIS_COUNT) - 1;
const END_BITS = TOUCH.workOffset | TOUCH.plane | TOUCH.distance | TOUCH.feedMode | TOUCH.compensation | TOUCH.spindle | TOUCH.coolant | TOUCH.motion;
