/**
 * What the machine builder's own words do, as far as a dialect names them with
 * names that the engine acts on.
 */
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import type { WordPattern } from './dialect.ts';
import { type Execution, TOUCH } from './execution.ts';
import type { PatternMatch } from './patterns.ts';
import * as r from './registers.ts';
import { Stepper } from './stepper.ts';

const COOLANT_1 = 2;
const CLOCKWISE = 3;
const COUNTERCLOCKWISE = 4;
/** Letters without a meaning of their own, which beside a call may say how often it runs, or from where. */
const KEY_LETTERS = ['L', 'P', 'Q'].map(letterIndex);

export interface SubprogramCall {
  readonly program: number;
  readonly repeats: number;
  readonly match: PatternMatch;
  /** Why the call cannot be followed, if so. */
  readonly refusal: string | undefined;
}

export class BuilderWords {
  readonly #stepper: Stepper;

  constructor(private readonly execution: Execution) {
    this.#stepper = new Stepper(execution);
  }

  /** Words that change how F, S and positions are read come before all of them. */
  modes(): void {
    for (const match of this.execution.block.matches) this.#mode(this.#pattern(match), match);
  }

  /** Spindles, driven tools, synchronism, coolant and dwells act with the spindle words. */
  switches(): void {
    for (const match of this.execution.block.matches) this.#switch(this.#pattern(match), match);
  }

  /** The call on the line, if there is one. */
  call(): SubprogramCall | undefined {
    const match = this.#named('subprogramCall');
    if (match === undefined) return undefined;
    return { program: this.#slot(match, 'program'), repeats: this.#repeats(match), match, refusal: this.#unexplained(match) };
  }

  /** Words for a call that have no place for repeats mean once. */
  #repeats(match: PatternMatch): number {
    return this.#pattern(match).words.some(({ slot }) => slot === 'repeats') ? this.#slot(match, 'repeats') : 1;
  }

  /** What keeps a call from being followed, since the machine does not say what it means. */
  #unexplained(match: PatternMatch): string | undefined {
    const { lacks } = this.#pattern(match);
    if (lacks !== undefined) return `The call lacks the word for its ${lacks}, and the machine card does not say what that means.`;
    const { block, text, row } = this.execution;
    if (block.gOf(codes.ONE_SHOT) !== -1 || codes.isCycle(row[r.MOTION]!)) return undefined;
    const letter = KEY_LETTERS.find((each) => block.has(each));
    return letter === undefined ? undefined : `${block.text(text, letter)} stands beside the call, and the machine card does not say what it does there.`;
  }

  get returns(): boolean {
    return this.#named('subprogramReturn') !== undefined;
  }

  get jump(): PatternMatch | undefined {
    return this.#named('jump');
  }

  #named(name: string): PatternMatch | undefined {
    for (const match of this.execution.block.matches) {
      if (this.#pattern(match).name === name) return match;
    }
    return undefined;
  }

  #pattern(match: PatternMatch): WordPattern {
    return this.execution.dialect.patterns[match.index]!;
  }

  #mode(pattern: WordPattern, match: PatternMatch): void {
    switch (pattern.name) {
      case 'absolute': return this.execution.set(r.DISTANCE, 90, TOUCH.distance);
      case 'incremental': return this.execution.set(r.DISTANCE, 91, TOUCH.distance);
      case 'inverseTime': return this.execution.setFeedMode(93);
      case 'feedPerMinute': return this.execution.setFeedMode(94);
      case 'feedPerRevolution': return this.execution.setFeedMode(95);
      case 'speedLimit': return this.execution.set(r.SPEED_LIMIT, this.#slot(match, undefined), TOUCH.speedLimit);
    }
  }

  #switch(pattern: WordPattern, match: PatternMatch): void {
    switch (pattern.name) {
      case 'syncOn':
      case 'subSyncOn': return this.#syncOn(pattern, match);
      case 'syncOff':
      case 'subSyncOff': return this.#setSync(0);
      case 'workAxisOn': return this.#takeAsAxis(r.WORK_AXIS, r.MAIN_SPINDLE);
      case 'workAxisOff': return this.execution.set(r.WORK_AXIS, 0, TOUCH.workAxis);
      case 'drivenStart': return this.#driven(CLOCKWISE, match);
      case 'drivenReverse': return this.#driven(COUNTERCLOCKWISE, match);
      case 'drivenStop': return this.#driven(r.STOPPED, match);
      case 'coolantOn': return this.execution.set(r.COOLANT, this.execution.row[r.COOLANT]! | COOLANT_1, TOUCH.coolant);
      case 'coolantOff': return this.execution.set(r.COOLANT, 0, TOUCH.coolant);
      case 'dwell': return this.#stepper.dwell(this.#secondsOf(match));
      default: return this.#switchSubSpindle(pattern, match);
    }
  }

  #switchSubSpindle(pattern: WordPattern, match: PatternMatch): void {
    switch (pattern.name) {
      case 'subStart': return this.#sub(CLOCKWISE, match);
      case 'subReverse': return this.#sub(COUNTERCLOCKWISE, match);
      case 'subStop': return this.#sub(r.STOPPED, match);
      case 'subAxisOn': return this.#takeAsAxis(r.SUB_AXIS, r.SUB_SPINDLE);
      case 'subAxisOff': return this.execution.set(r.SUB_AXIS, 0, TOUCH.workAxis);
      case 'workClamp': return this.#clamp(r.MAIN_SPINDLE);
      case 'workUnclamp': return this.#release(r.MAIN_SPINDLE);
      case 'subClamp': return this.#clamp(r.SUB_SPINDLE);
      case 'subUnclamp': return this.#release(r.SUB_SPINDLE);
      case 'mainChuckOpen': return this.#openChuck();
      case 'mainChuckClose': return this.#closeChuck();
      case 'spindleSyncOn': return this.#couple(1, this.#slot(match, 'rpm'));
      case 'spindleSyncOff': return this.#couple(0, NaN);
    }
  }

  #secondsOf(match: PatternMatch): number {
    const inMilliseconds = this.#pattern(match).words.some(({ slot }) => slot === 'milliseconds');
    return inMilliseconds ? this.#slot(match, 'milliseconds') / 1000 : this.#slot(match, 'seconds');
  }

  #syncOn(pattern: WordPattern, match: PatternMatch): void {
    this.#setSync(match.index + 1);
    let place = r.SYNC_SLOTS;
    pattern.words.forEach((word, at) => {
      if (word.slot === 'starts' || word.slot === 'teeth') this.#checkCount(match.rows[at]!, word.slot);
      if (word.slot !== undefined && place < r.SYNC_SLOTS + r.SYNC_SLOT_COUNT) this.execution.row[place++] = this.#valueAt(match, at);
    });
  }

  #checkCount(row: number, what: 'starts' | 'teeth'): void {
    const { block: { tape }, text } = this.execution;
    const count = tape.value[row]!;
    if (Number.isNaN(count) || (Number.isInteger(count) && count !== 0)) return;
    this.execution.object('not-integer', row, () => `${text.slice(tape.start[row], tape.end[row])}: the number of ${what} must be a whole number, and not 0.`);
  }

  #setSync(pattern: number): void {
    this.execution.sink.mark('sync', '');
    this.execution.set(r.SYNC_PATTERN, pattern, TOUCH.sync);
  }

  #driven(direction: number, match: PatternMatch): void {
    this.execution.set(r.DRIVEN_DIRECTION, direction, TOUCH.driven);
    this.#speed(match, r.DRIVEN_SPEED);
  }

  #sub(direction: number, match: PatternMatch): void {
    this.execution.set(r.SUB_DIRECTION, direction, TOUCH.subSpindle);
    this.execution.row[r.CARRIED_ALONG]! &= ~r.SUB_SPINDLE;
    this.#speed(match, r.SUB_SPEED);
  }

  /** Words that do not hold a speed leave the one before; a speed whose value is not known does not. */
  #speed(match: PatternMatch, register: number): void {
    if (this.#pattern(match).words.some(({ slot }) => slot === 'rpm')) this.execution.row[register] = this.#slot(match, 'rpm');
  }

  /** A spindle under position control has stopped. */
  #takeAsAxis(axis: number, spindle: number): void {
    this.execution.set(axis, 1, TOUCH.workAxis);
    this.execution.row[r.CARRIED_ALONG]! &= ~spindle;
  }

  #clamp(spindle: number): void {
    this.execution.row[r.CLAMPED]! |= spindle;
  }

  #release(spindle: number): void {
    this.execution.row[r.CLAMPED]! &= ~spindle;
  }

  #openChuck(): void {
    this.execution.row[r.OPEN_CHUCKS]! |= r.MAIN_SPINDLE;
  }

  #closeChuck(): void {
    this.execution.row[r.OPEN_CHUCKS]! &= ~r.MAIN_SPINDLE;
  }

  /** One that turns takes the other along; uncoupling stops neither. */
  #couple(coupled: 0 | 1, rpm: number): void {
    const { row } = this.execution;
    const turns = row[r.SPINDLE] !== r.STOPPED || row[r.SUB_DIRECTION] !== r.STOPPED;
    if (coupled === 1) row[r.CARRIED_ALONG] = rpm > 0 || turns ? r.MAIN_SPINDLE | r.SUB_SPINDLE : 0;
    else if (row[r.COUPLED] === 1 && turns) row[r.CARRIED_ALONG] = r.MAIN_SPINDLE | r.SUB_SPINDLE;
    row[r.COUPLED] = coupled;
    row[r.COUPLED_SPEED] = rpm;
  }

  /** The number in a slot, or in the first one; NaN if there is none. */
  #slot(match: PatternMatch, name: string | undefined): number {
    const at = this.#pattern(match).words.findIndex((word) => (name === undefined ? word.slot !== undefined : word.slot === name));
    return at < 0 ? NaN : this.#valueAt(match, at);
  }

  #valueAt(match: PatternMatch, at: number): number {
    return this.execution.block.tape.value[match.rows[at]!]!;
  }
}
