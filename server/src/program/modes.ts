/**
 * The words that set modes and move nothing: feed, speed, tool, spindle, coolant,
 * units, planes, compensation and offsets, and what a program's end puts back.
 */
import { INCH_IN_MM } from './inch.ts';
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import { lettersThatMove, type Execution, TOUCH } from './execution.ts';
import { LAST_PARAMETER } from './parameters.ts';
import * as r from './registers.ts';

const D = letterIndex('D');
const F = letterIndex('F');
const H = letterIndex('H');
const S = letterIndex('S');
const T = letterIndex('T');
const LINEAR_AXES = [0, 1, 2, 6, 7, 8];
const NIST_AXES = 6;
const PRESET = 920;
const ACTIVE_SYSTEM_PARAMETER = 5220;
const FIRST_OFFSET_PARAMETER = 5211;
const FEED_AND_SPEED_MODES = (1 << codes.FEED_MODE_GROUP) | (1 << codes.SPEED_MODE_GROUP);
const END_BITS = TOUCH.workOffset | TOUCH.plane | TOUCH.distance | TOUCH.feedMode | TOUCH.compensation | TOUCH.spindle | TOUCH.coolant;

export class Modes {
  readonly #axisLetters: number;

  constructor(private readonly execution: Execution) {
    this.#axisLetters = lettersThatMove(r.AXES, execution.dialect);
  }

  /** Feed mode, F, speed mode, S, T and the tool change: steps 2 to 6 of NISTIR 6556 table 8. */
  beforeSpindle(): void {
    const { block } = this.execution;
    if ((block.gSeen & FEED_AND_SPEED_MODES) !== 0) {
      const feedMode = block.gOf(codes.FEED_MODE_GROUP);
      if (feedMode !== -1) this.execution.setFeedMode(feedMode / 10);
      const speedMode = block.gOf(codes.SPEED_MODE_GROUP);
      if (speedMode !== -1) this.#setSpeedMode(speedMode / 10);
    }
    if (block.has(F)) this.#feed();
    if (block.has(S) && !this.#isRefusedLimit()) this.#value(S, r.SPEED, TOUCH.speed);
    if (block.has(T)) this.#selectTool();
    if (block.mOf(codes.TOOL_GROUP) !== -1) this.#changeToolAtM06();
  }

  /** Spindle to return level: steps 7 to 18, without the dwell. */
  modes(): void {
    if (this.execution.block.mSeen !== 0) {
      this.#spindle();
      this.#coolant();
      this.#overrides();
    }
    this.#plane();
    this.#units();
    this.#radiusCompensation();
    this.#lengthCompensation();
    this.#workOffset();
    this.#modal(codes.PATH_GROUP, r.PATH_MODE, TOUCH.pathMode);
    this.#modal(codes.DISTANCE_GROUP, r.DISTANCE, TOUCH.distance);
    this.#modal(codes.RETURN_GROUP, r.RETURN_LEVEL, TOUCH.returnLevel);
  }

  /**
   * What M02 and M30 put back (NISTIR 6556 §3.6.1); plane and feed mode to those with which programs begin
   * on this machine. Units, lengths, return level, F, S and T stay.
   */
  end(): void {
    const { row, start } = this.execution;
    if (row[r.WORK_OFFSET] !== 54) this.execution.loseAllPositions();
    this.cancelAxisOffsets();
    row[r.ENDED] = r.AFTER_END;
    row[r.WORK_OFFSET] = 54;
    row[r.PLANE] = start[r.PLANE]!;
    row[r.DISTANCE] = 90;
    this.execution.setFeedMode(start[r.FEED_MODE]!);
    row[r.OVERRIDES] = 48;
    row[r.RADIUS_COMPENSATION] = 40;
    row[r.RADIUS_NUMBER] = NaN;
    row[r.SPINDLE] = r.STOPPED;
    row[r.CARRIED_ALONG]! &= ~r.MAIN_SPINDLE;
    row[r.COOLANT] = 0;
    this.setMotion(1);
    this.execution.touched |= END_BITS;
  }

  /** A motion code; leaving the cycles forgets their words. */
  setMotion(motion: number): void {
    const { row } = this.execution;
    if (!codes.isCycle(motion) && codes.isCycle(row[r.MOTION]!)) {
      row.fill(NaN, r.CYCLE_RETRACT, r.CYCLE_OFFSETS + 3);
      this.execution.touched |= TOUCH.cycle;
    }
    this.execution.set(r.MOTION, motion, TOUCH.motion);
  }

  /** Counts positions without the offsets of G92 again. */
  cancelAxisOffsets(): void {
    const { row } = this.execution;
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) this.#setAxisOffset(axis, 0, row);
  }

  /** Gives the axes on the line the numbers of their words (NISTIR 6556 §3.5.18). */
  presetPosition(axis: number, value: number): void {
    const { row, parameters } = this.execution;
    row[r.AXIS_OFFSETS + axis]! += row[axis]! - value;
    this.execution.place(axis, value);
    if (axis < NIST_AXES) parameters.set(FIRST_OFFSET_PARAMETER + axis, row[r.AXIS_OFFSETS + axis]!);
  }

  /** G92.1 also sets the stored offsets to zero. */
  forgetAxisOffsets(): void {
    this.cancelAxisOffsets();
    for (let axis = 0; axis < NIST_AXES; axis++) this.execution.parameters.set(FIRST_OFFSET_PARAMETER + axis, 0);
  }

  /** G92.3 puts the stored offsets in force again. */
  restoreAxisOffsets(): void {
    const { row, parameters } = this.execution;
    for (let axis = 0; axis < NIST_AXES; axis++) this.#setAxisOffset(axis, parameters.get(FIRST_OFFSET_PARAMETER + axis), row);
  }

  #setAxisOffset(axis: number, offset: number, row: Float64Array): void {
    if (row[r.AXIS_OFFSETS + axis] === offset) return;
    this.execution.place(axis, row[axis]! + row[r.AXIS_OFFSETS + axis]! - offset);
    row[r.AXIS_OFFSETS + axis] = offset;
  }

  #modal(group: number, register: number, touch: number): boolean {
    const code = this.execution.block.gOf(group);
    if (code === -1) return false;
    this.execution.set(register, code / 10, touch);
    return true;
  }

  #setSpeedMode(mode: number): void {
    const { block, row } = this.execution;
    const changes = row[r.SPEED_MODE] !== mode;
    this.execution.set(r.SPEED_MODE, mode, TOUCH.speedMode);
    if (changes && !block.has(S) && !Number.isNaN(row[r.SPEED]!)) this.#leaveSpeedOpen(row[r.SPEED]!, mode);
  }

  /** 200 m/min are not 200 rev/min: whether a control reads S anew or keeps the speed at which the spindle turns is not settled. */
  #leaveSpeedOpen(speed: number, mode: number): void {
    const { block, row } = this.execution;
    const code = block.mOf(codes.SPINDLE_GROUP);
    const turnsOn = code === -1 ? row[r.SPINDLE] !== r.STOPPED : codes.startsSpindle(code);
    const given = mode === 96 ? 'a speed in revolutions' : 'a cutting speed';
    if (turnsOn) this.execution.objectToCode('speed-other-mode', codes.SPEED_MODE_GROUP, () => `G${mode} without an S word on its line: S${speed} was ${given}, and what a control makes of it now is not settled.`);
    this.execution.set(r.SPEED, NaN, TOUCH.speed);
  }

  #feed(): void {
    const { row } = this.execution;
    this.#value(F, r.FEED, TOUCH.feed);
    if (row[r.FEED_MODE] !== 93) row[r.FEED_MODE_OF_WORD] = row[r.FEED_MODE]!;
  }

  #value(letter: number, register: number, touch: number): void {
    if (this.execution.isNotNegative(letter)) this.execution.set(register, this.execution.block.values[letter]!, touch);
  }

  /** G92 without an axis word is refused; where somebody means a speed limit by it, S is no speed either. */
  #isRefusedLimit(): boolean {
    const { block } = this.execution;
    return block.gOf(codes.ONE_SHOT) === PRESET && (block.seen & this.#axisLetters) === 0;
  }

  #selectTool(): void {
    if (!this.execution.isNotNegative(T)) return;
    const { dialect, row } = this.execution;
    const word = this.execution.whole(T);
    const digits = dialect.toolOffsetDigits ?? 0;
    this.execution.set(r.SELECTED_TOOL, digits === 0 ? word : this.#toolIn(word, digits), TOUCH.selectedTool);
    row[r.SELECTED_OFFSET] = digits === 0 ? NaN : word % 10 ** digits;
    if (dialect.toolChange === 'T') this.#changeTool(digits > 0);
  }

  /** The tool in a T word that ends in the digits of the offset; not known where nothing is left for the tool. */
  #toolIn(word: number, offsetDigits: number): number {
    const tool = Math.floor(word / 10 ** offsetDigits);
    if (tool !== 0 || word === 0 || this.#digitsOfTool() > offsetDigits) return tool;
    this.execution.objectTo('tool-word', T, () => `the last ${offsetDigits} digits of a T word are the offset on this machine, so which tool is meant is not known; it must have more digits.`);
    return NaN;
  }

  #digitsOfTool(): number {
    return this.execution.block.text(this.execution.text, T).replace(/\D/g, '').length;
  }

  /** M06 also stops the spindle (NISTIR 6556 §3.6). */
  #changeToolAtM06(): void {
    this.#changeTool();
    this.#turn(r.STOPPED);
  }

  #changeToAnother(): void {
    const { execution } = this;
    execution.sink.mark('tool', '');
    if (execution.row[r.RADIUS_COMPENSATION] !== 40 && execution.block.gOf(codes.RADIUS_GROUP) !== 400) this.#objectToCompensation();
  }

  #objectToCompensation(): void {
    const { execution } = this;
    const { block, row } = execution;
    const findRow = (): number => (block.mOf(codes.TOOL_GROUP) === -1 ? block.rowOf(T) : block.mRowOf(codes.TOOL_GROUP));
    execution.objectAt('compensation-left-on', findRow, () => `The tool changes while tool radius compensation is on (G${row[r.RADIUS_COMPENSATION]}); G40 must come first.`);
  }

  /** Where T words hold the offset too, the word of the tool in use only changes the offset. */
  #changeTool(mayBeOffsetOnly = false): void {
    const { row } = this.execution;
    if (!mayBeOffsetOnly || row[r.TOOL] !== row[r.SELECTED_TOOL]) this.#changeToAnother();
    this.execution.set(r.TOOL, row[r.SELECTED_TOOL]!, TOUCH.tool);
    row[r.TOOL_OFFSET] = row[r.SELECTED_OFFSET]!;
  }

  #spindle(): void {
    const code = this.execution.block.mOf(codes.SPINDLE_GROUP);
    if (code === -1) return;
    const direction = code === 19 ? r.STOPPED : code >= 13 ? code - 10 : code;
    this.#turn(direction);
    if (code === 13 || code === 14) this.#setCoolant(this.execution.row[r.COOLANT]! | 2);
  }

  #turn(direction: number): void {
    this.execution.set(r.SPINDLE, direction, TOUCH.spindle);
    this.execution.row[r.CARRIED_ALONG]! &= ~r.MAIN_SPINDLE;
  }

  #coolant(): void {
    const code = this.execution.block.mOf(codes.COOLANT_GROUP);
    if (code === -1) return;
    const bit = code === 7 ? 1 : code === 8 ? 2 : code === 50 ? 4 : 8;
    this.#setCoolant(code === 9 ? 0 : this.execution.row[r.COOLANT]! | bit);
  }

  #setCoolant(bits: number): void {
    this.execution.set(r.COOLANT, bits, TOUCH.coolant);
  }

  #overrides(): void {
    const code = this.execution.block.mOf(codes.OVERRIDE_GROUP);
    if (code !== -1) this.execution.row[r.OVERRIDES] = code;
  }

  #plane(): void {
    const before = this.execution.row[r.PLANE];
    if (!this.#modal(codes.PLANE_GROUP, r.PLANE, TOUCH.plane)) return;
    if (this.execution.row[r.PLANE] !== before) this.#refuseWithCompensation(codes.PLANE_GROUP);
  }

  /** The position is re-expressed; every other stored number keeps its figures (NISTIR 6556 §2.1.2.9). */
  #units(): void {
    const { block, row } = this.execution;
    const code = block.gOf(codes.UNITS_GROUP);
    if (code === -1) return;
    const inch = block.isInchWord(code);
    const wasInch = row[r.UNITS] === 20;
    this.execution.set(r.UNITS, inch ? 20 : 21, TOUCH.units);
    if (inch === wasInch) return;
    this.#refuseWithCompensation(codes.UNITS_GROUP);
    for (const axis of LINEAR_AXES) row[axis] = inch ? row[axis]! / INCH_IN_MM : row[axis]! * INCH_IN_MM;
  }

  #radiusCompensation(): void {
    const { block, row } = this.execution;
    const wasOn = row[r.RADIUS_COMPENSATION] !== 40;
    const changes = this.#modal(codes.RADIUS_GROUP, r.RADIUS_COMPENSATION, TOUCH.compensation);
    const on = changes && row[r.RADIUS_COMPENSATION] !== 40;
    if (block.has(D) && !on) this.execution.objectTo('word-unused', D, () => 'a tool radius number needs G41 or G42 on its line.');
    if (on) this.#compensationOn(wasOn);
    else if (changes) row[r.RADIUS_NUMBER] = NaN;
  }

  #compensationOn(wasOn: boolean): void {
    const { block, row } = this.execution;
    this.execution.hasBegunCompensation = true;
    if (wasOn) this.execution.objectToCode('compensation-on', codes.RADIUS_GROUP, () => 'Tool radius compensation is on already; G40 must come between.');
    if (row[r.PLANE] === 19) this.execution.objectToCode('compensation-plane', codes.RADIUS_GROUP, () => 'Tool radius compensation in the YZ plane (G19); the plane should be XY or, on a lathe, ZX.');
    if (!wasOn) row[r.OFF_PATH] = row[r.OFF_PATH]! | r.FIRST_MOVE;
    if (block.has(D)) row[r.RADIUS_NUMBER] = this.execution.isNotNegative(D) ? this.execution.whole(D) : NaN;
    else if (!wasOn) row[r.RADIUS_NUMBER] = r.NEVER;
  }

  #lengthCompensation(): void {
    const { block, row } = this.execution;
    const changes = this.#modal(codes.LENGTH_GROUP, r.LENGTH_COMPENSATION, TOUCH.lengthCompensation);
    const on = changes && row[r.LENGTH_COMPENSATION] !== 49;
    if (!on && block.has(H) && (this.#axisLetters & (1 << H)) === 0) this.#refuseLengthNumber();
    if (changes) row[r.LENGTH_NUMBER] = NaN;
    if (on) this.#lengthCompensationOn();
  }

  #refuseLengthNumber(): void {
    if (this.execution.block.hasOpenCodes) return;
    this.execution.objectTo('word-unused', H, () => 'a tool length number needs G43 or G44 on its line. Where H moves an axis, the machine card must say so (incrementalAxes).');
  }

  #lengthCompensationOn(): void {
    const { block, row } = this.execution;
    if (!block.has(H)) this.execution.objectToCode('word-missing', codes.LENGTH_GROUP, () => `G${row[r.LENGTH_COMPENSATION]} needs an H word, the number of the tool length.`);
    else if (this.execution.isNotNegative(H)) row[r.LENGTH_NUMBER] = this.execution.whole(H);
  }

  /** Where another origin lies is not in the text, so the position is not known after the change. */
  #workOffset(): void {
    const before = this.execution.row[r.WORK_OFFSET]!;
    if (!this.#modal(codes.OFFSET_GROUP, r.WORK_OFFSET, TOUCH.workOffset)) return;
    const after = this.execution.row[r.WORK_OFFSET]!;
    if (after === before) return;
    this.#refuseWithCompensation(codes.OFFSET_GROUP);
    this.execution.loseAllPositions();
    this.execution.parameters.set(ACTIVE_SYSTEM_PARAMETER, systemNumber(after));
  }

  #refuseWithCompensation(group: number): void {
    if (this.execution.row[r.RADIUS_COMPENSATION] === 40) return;
    const code = this.execution.block.gOf(group) / 10;
    this.execution.objectToCode('compensation-on', group, () => `G${code} must not come while tool radius compensation is on; G40 must come first.`);
  }
}

/** 1 for G54 to 6 for G59, 7 to 9 for G59.1 to G59.3. */
export function systemNumber(workOffset: number): number {
  return workOffset <= 59 ? workOffset - 53 : Math.round((workOffset - 59) * 10) + 6;
}

/** The parameter of an axis (0 for X) of a coordinate system from 1 to 9 (NISTIR 6556 §3.2.1). */
export function originParameter(system: number, axis: number): number {
  const parameter = 5221 + 20 * (system - 1) + axis;
  return Math.min(parameter, LAST_PARAMETER);
}
