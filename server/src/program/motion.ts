/**
 * What the axis words of a line do: moves, arcs, threads, dwells, probing, and
 * the codes that use axis words for something else (NISTIR 6556 §3.5).
 */
import { Arc, arcTolerance, findCentre, haveRadiiTooFarApart, isSensitive, measureRadii, type Refusal, sweepAroundCentre } from './arcs.ts';
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import { Cycles } from './cycles.ts';
import { AXIS_LETTERS, lettersThatMove, type Execution } from './execution.ts';
import { wholeNumber } from './expressions.ts';
import { isFeedOfOtherMode, nothingTurns, otherModeInWords } from './feed.ts';
import { unitsInForce } from './inch.ts';
import { type Modes, originParameter, systemNumber } from './modes.ts';
import { planeAxes } from './planes.ts';
import * as r from './registers.ts';
import type { RuleId } from './rules.ts';
import { shown } from './shown.ts';
import { FEED_MOVE, RAPID, THREAD } from './step.ts';
import { Stepper } from './stepper.ts';

const E = letterIndex('E');
const F = letterIndex('F');
const I = letterIndex('I');
const K = letterIndex('K');
const L = letterIndex('L');
const P = letterIndex('P');
const R = letterIndex('R');
const S = letterIndex('S');
const X = letterIndex('X');
const CENTRE_LETTERS = [I, letterIndex('J'), K];
const LETTERS_OF_ARCS = [...CENTRE_LETTERS, R].reduce((mask, letter) => mask | (1 << letter), 0);
const ROTARY_AXES = 0b111000;
const MAIN_AXES = 0b111;
const FIRST_LETTER = 65;
const NIST_AXES = 6;
const PROBE = 38.2;
const FIRST_PROBE_PARAMETER = 5061;
const THREAD_AXES = [r.Z, r.X, r.Y];
const SECONDS_IN_P: Readonly<Record<string, number>> = { P: 1 };

export class Motion {
  readonly #stepper: Stepper;
  readonly #cycles: Cycles;
  readonly #arc = new Arc();
  /** The axis that each letter moves incrementally, -1 for none. */
  readonly #incremental = new Int32Array(26).fill(-1);
  readonly #incrementalLetters: number;
  readonly #axisLetters: number;
  readonly #dwellLetters: ReadonlyArray<readonly [letter: number, seconds: number]>;

  constructor(private readonly execution: Execution, private readonly modes: Modes) {
    const { incrementalAxes, dwellSeconds } = execution.dialect;
    this.#stepper = new Stepper(execution);
    this.#cycles = new Cycles(execution, this.#stepper);
    for (const [letter, axis] of Object.entries(incrementalAxes)) this.#incremental[letterIndex(letter)] = r.AXES.indexOf(axis);
    this.#incrementalLetters = Object.keys(incrementalAxes).reduce((mask, letter) => mask | (1 << letterIndex(letter)), 0);
    this.#axisLetters = lettersThatMove(r.AXES, execution.dialect);
    this.#dwellLetters = Object.entries(dwellSeconds ?? SECONDS_IN_P).map(([letter, seconds]) => [letterIndex(letter), seconds]);
  }

  /** Steps 10, 19 and 20 of NISTIR 6556 table 8. */
  run(): void {
    const { block } = this.execution;
    const oneShot = block.gOf(codes.ONE_SHOT);
    const motion = block.gOf(codes.MOTION_GROUP);
    if (motion !== -1) this.modes.setMotion(motion / 10);
    if (oneShot === 40 && !this.#dwell()) return this.#motionBesideDwell(motion);
    if (oneShot >= 921) this.#axisOffsets(oneShot);
    if (oneShot !== -1 && codes.usesAxisWords(oneShot)) this.#oneShot(oneShot, motion);
    else if ((block.seen & this.#axisLetters) !== 0) this.#axisWords(oneShot, motion);
    else this.#withoutAxis(oneShot, motion);
  }

  /** A centre or a radius asks for an arc, which needs an axis word of its plane even where it ends at its start (NISTIR 6556 §3.5.3). */
  #withoutAxis(oneShot: number, motion: number): void {
    const { block, row } = this.execution;
    const mode = row[r.MOTION]!;
    const isArc = (mode === 2 || mode === 3) && oneShot === -1 && (block.seen & LETTERS_OF_ARCS) !== 0 && !block.hasOpenCodes && block.matches.length === 0;
    if (!isArc || !this.#refuseAloneInPlane()) this.#motionAlone(motion);
  }

  /** Answers whether a word of an arc in the plane stands on the line. */
  #refuseAloneInPlane(): boolean {
    const { block, row } = this.execution;
    const { a, b } = planeAxes(row[r.PLANE]!);
    const letter = [CENTRE_LETTERS[a]!, CENTRE_LETTERS[b]!, R].find((each) => block.has(each));
    if (letter === undefined) return false;
    this.execution.objectTo('arc-words', letter, () => `an arc in this plane needs ${r.AXES[a]} or ${r.AXES[b]}, even one that ends where it starts.`);
    return true;
  }

  /** Where the dwell takes no axis word, a motion code beside it needs one of its own. */
  #motionBesideDwell(motion: number): void {
    if ((this.execution.block.seen & this.#axisLetters) === 0) this.#motionAlone(motion);
  }

  #axisWords(oneShot: number, motion: number): void {
    const { row } = this.execution;
    const mode = row[r.MOTION]!;
    if (Number.isNaN(mode) && !this.execution.block.hasUnknownG) this.#objectToFirstAxis('motion-not-set', () => 'no motion code stands before this axis word, so how it moves is not known.');
    if (mode === 80) this.#objectToFirstAxis('axis-without-motion', () => 'after G80 an axis word needs a motion code.');
    if (this.execution.block.mSeen !== 0) this.#hintAtStops();
    if (oneShot === 530) return this.#moveInMachineCoordinates(mode);
    if (motion === -1 && this.execution.block.hasUnknownG) return this.#moveByUnknownCode();
    if (codes.isCycle(mode)) return this.#cycles.run(mode, motion !== -1);
    this.#move(mode, motion !== -1);
  }

  #move(mode: number, explicit: boolean): void {
    this.#stepper.begin();
    this.#aimAtWords();
    this.#checkSpeedAtCentre();
    if (mode === 0) return this.#rapid(explicit);
    if (Number.isNaN(mode) || mode === 80) return this.#stepper.finishUnknown();
    if (!this.#hasOwnLead(mode)) this.#checkFeed(mode, explicit);
    if (mode === 2 || mode === 3) return this.#moveOnArc(mode === 3);
    if (mode >= 33 && mode <= 35) this.#prepareThread(explicit);
    if (mode === 33) return this.#thread(explicit);
    if (mode === PROBE) return this.#probe();
    if (mode === 1) return this.#stepper.finish(FEED_MOVE);
    this.#notComputed(mode, explicit);
  }

  /** Whoever writes a feed wants to cut, and a G01 that is missing lets the tool go into the work in rapid. Beside a G00 of its own line F is set for later. */
  #rapid(explicit: boolean): void {
    if (!explicit && this.execution.block.has(F)) this.#warnOfFeedInRapid();
    this.#stepper.finish(RAPID);
  }

  #warnOfFeedInRapid(): void {
    this.execution.objectTo('feed-in-rapid', F, () => 'this line moves in rapid, because G0 is in force from before; a move at feed needs its code (G1, G2 or G3).');
  }

  /** Threads whose lead changes are straight, but how long they take is left open; of a parabola the path too. */
  #notComputed(mode: number, explicit: boolean): void {
    const isThread = mode >= 34;
    if (explicit) this.execution.objectToCode('not-computed', codes.MOTION_GROUP, () => `The ${isThread ? 'time of' : 'length and time of'} G${mode} moves ${isThread ? 'is' : 'are'} not computed.`);
    if (!isThread) return this.#stepper.finishUnknown();
    this.#stepper.step.revolutions = NaN;
    this.#stepper.finish(THREAD);
  }

  #aimAtWords(): void {
    const { block, row } = this.execution;
    const isIncremental = row[r.DISTANCE] === 91;
    const { axes } = block;
    for (let axis = 0; axes >> axis !== 0; axis++) {
      if ((axes & (1 << axis)) === 0) continue;
      const value = block.values[AXIS_LETTERS[axis]!]!;
      this.#stepper.aim(axis, isIncremental ? row[axis]! + value : value);
    }
    if ((block.seen & this.#incrementalLetters) !== 0) this.#aimAtIncrements();
  }

  #aimAtIncrements(): void {
    const { block, row } = this.execution;
    for (let letter = 0; letter < this.#incremental.length; letter++) {
      const axis = this.#incremental[letter]!;
      if (axis === -1 || !block.has(letter)) continue;
      if ((block.axes & (1 << axis)) !== 0) this.#refuseBoth(letter, axis);
      else this.#stepper.aim(axis, row[axis]! + block.values[letter]!);
    }
  }

  /** Where an axis goes by its own word and by an increment beside it is not settled. */
  #refuseBoth(letter: number, axis: number): void {
    this.execution.objectTo('word-twice', letter, () => `${r.AXES[axis]} stands on this line too, and both move that axis; one of them must go.`);
    this.#stepper.aim(axis, NaN);
  }

  /** The axis words may be of the code that nobody can follow: a cycle of the machine, an offset, or a move after all. */
  #moveByUnknownCode(): void {
    this.#objectToFirstAxis('not-computed', () => 'what this word does beside a code that is not followed here is not known, nor where the axes stand afterwards.');
    this.#stepper.begin();
    this.#aimAtWords();
    this.#aimAtNowhere(this.#stepper.step.axes);
    this.#stepper.finishUnknown();
    this.execution.loseAllPositions();
  }

  #moveOnArc(isCounterclockwise: boolean): void {
    const { a, b } = planeAxes(this.execution.row[r.PLANE]!);
    this.#stepper.finishArc(a, b, this.#findArc(a, b, isCounterclockwise) ? this.#arc : undefined);
  }

  /** Fills in the arc of the line; answers whether it could be computed. */
  #findArc(a: number, b: number, isCounterclockwise: boolean): boolean {
    const { block } = this.execution;
    const hasCentre = block.has(CENTRE_LETTERS[a]!) || block.has(CENTRE_LETTERS[b]!);
    const hasRadius = block.has(R);
    if ((this.#stepper.step.axes & ((1 << a) | (1 << b))) === 0) return this.#refuseWithoutAxis(a, b);
    if (hasCentre && hasRadius) return this.#refuseArc('arc-centre-and-radius', () => 'an arc with both centre and radius is not defined; one of them must go.');
    this.#placeEnds(a, b, isCounterclockwise);
    if (hasCentre) return this.#centreArc(a, b);
    if (hasRadius) return this.#radiusArc();
    return this.#refuseWithoutCentre(a, b);
  }

  #refuseWithoutAxis(a: number, b: number): false {
    return this.#refuseArc('arc-words', () => `an arc in this plane needs ${r.AXES[a]} or ${r.AXES[b]}.`);
  }

  #refuseWithoutCentre(a: number, b: number): false {
    return this.#refuseArc('arc-words', () => `an arc in this plane needs ${'IJK'[a]}, ${'IJK'[b]} or R.`);
  }

  #placeEnds(a: number, b: number, isCounterclockwise: boolean): void {
    const { from, to } = this.#stepper.step;
    const arc = this.#arc;
    const scaleA = this.#stepper.scale(a);
    const scaleB = this.#stepper.scale(b);
    arc.startA = from[a]! * scaleA;
    arc.startB = from[b]! * scaleB;
    arc.endA = to[a]! * scaleA;
    arc.endB = to[b]! * scaleB;
    arc.isCounterclockwise = isCounterclockwise;
  }

  #centreArc(a: number, b: number): boolean {
    const arc = this.#arc;
    arc.centreA = arc.startA + this.#centreOffset(a);
    arc.centreB = arc.startB + this.#centreOffset(b);
    measureRadii(arc);
    if (Number.isNaN(arc.radius) || Number.isNaN(arc.radiusAtEnd)) return false;
    if (haveRadiiTooFarApart(arc, this.#units())) return this.#refuseCentre();
    if (arc.radius === 0) return this.#refuseArc('arc-radius', () => 'the centre is the start of the arc; its radius must be more than 0.');
    sweepAroundCentre(arc);
    return true;
  }

  #refuseCentre(): false {
    const arc = this.#arc;
    const units = this.#units();
    return this.#refuseArc('arc-radius', () => `the radius is ${shown(arc.radius)} at the start and ${shown(arc.radiusAtEnd)} at the end; they may differ by at most ${arcTolerance(units)} ${units}.`);
  }

  /** I, J and K count from the start; the missing one is 0. I is a radius unless the dialect says otherwise. */
  #centreOffset(axis: number): number {
    const { block, dialect } = this.execution;
    const letter = CENTRE_LETTERS[axis]!;
    if (!block.has(letter)) return 0;
    return block.values[letter]! * (axis === r.X && dialect.arcCentreOnDiameter ? 0.5 : 1);
  }

  #radiusArc(): boolean {
    const refusal = findCentre(this.#arc, this.execution.block.values[R]!, arcTolerance(this.#units()));
    if (refusal !== undefined) return this.#refuseRadius(refusal);
    if (Number.isNaN(this.#arc.sweepRadians)) return false;
    if (isSensitive(this.#arc)) this.#hintAtSweep();
    return true;
  }

  #refuseRadius(why: Refusal): false {
    const arc = this.#arc;
    this.execution.objectTo('arc-radius', R, () => (why === 'sameEnds'
      ? 'an arc in radius form must not end where it starts.'
      : `the radius must be at least half the distance from start to end, ${shown(arc.halfChord)} ${this.#units()}.`));
    return false;
  }

  #hintAtSweep(): void {
    const degrees = Math.abs(this.#arc.sweepRadians) * (180 / Math.PI);
    this.execution.objectTo('arc-sensitive', R, () => `the arc sweeps ${shown(degrees)} degrees; in radius form only 0 to 165 and 195 to 345 degrees are safe from small errors.`);
  }

  #refuseArc(rule: 'arc-words' | 'arc-centre-and-radius' | 'arc-radius', message: () => string): false {
    this.#objectToFirstAxis(rule, message);
    return false;
  }

  /** A thread whose lead stands on its line needs no F. */
  #hasOwnLead(mode: number): boolean {
    return mode >= 33 && mode <= 35 && (this.execution.block.has(E) || CENTRE_LETTERS.some((letter) => this.execution.block.has(letter)));
  }

  #prepareThread(explicit: boolean): void {
    const { block, row } = this.execution;
    if (block.has(F)) row[r.FEED_MODE_OF_WORD] = r.LEAD_OF_THREAD;
    if (explicit) this.#checkSpindleOfThread();
  }

  #checkSpindleOfThread(): void {
    const { row } = this.execution;
    if (nothingTurns(row)) this.execution.objectToCode('feed-without-spindle', codes.MOTION_GROUP, () => 'A thread is fed by revolutions, but no spindle turns.');
    if (row[r.SPEED_MODE] === 96 && row[r.SPINDLE] !== r.STOPPED) this.execution.objectToCode('cutting-speed-in-force', codes.MOTION_GROUP, () => 'The cutting speed is constant (G96), so the spindle speed changes from pass to pass, and with it where the thread begins; G97 must stand before a thread.');
  }

  /** K, I or J is the lead along its axis, else E or F is (from memory). */
  #thread(explicit: boolean): void {
    const { block } = this.execution;
    const { step } = this.#stepper;
    const axis = THREAD_AXES.find((candidate) => block.has(CENTRE_LETTERS[candidate]!) && step.to[candidate] !== step.from[candidate]);
    step.revolutions = axis === undefined ? this.#pathOfStep() / (block.has(E) ? block.values[E]! : this.#leadByFeed(explicit)) : this.#travel(axis) / Math.abs(block.values[CENTRE_LETTERS[axis]!]!);
    this.#stepper.finish(THREAD);
  }

  /** F of a thread counts for its further passes; a feed from before is no lead, though a control may take it for one. */
  #leadByFeed(explicit: boolean): number {
    const { row } = this.execution;
    if (row[r.FEED_MODE_OF_WORD] === r.LEAD_OF_THREAD || Number.isNaN(row[r.FEED]!)) return row[r.FEED]!;
    if (explicit) this.#warnOfLead();
    return NaN;
  }

  #warnOfLead(): void {
    const feed = this.execution.row[r.FEED]!;
    const reason = feed === r.NEVER ? '' : ` F${shown(feed)} was given before, as a feed.`;
    this.execution.objectToCode('thread-lead', codes.MOTION_GROUP, () => `The thread has no lead: I, J or K along an axis that moves, or E or F, must stand on its line.${reason}`);
  }

  #travel(axis: number): number {
    const { from, to } = this.#stepper.step;
    return Math.abs(to[axis]! - from[axis]!) * this.#stepper.scale(axis);
  }

  #pathOfStep(): number {
    return Math.hypot(...THREAD_AXES.filter((axis) => (this.#stepper.step.axes & (1 << axis)) !== 0).map((axis) => this.#travel(axis)));
  }

  #probe(): void {
    const { step } = this.#stepper;
    const axes = step.axes;
    if (this.execution.row[r.RADIUS_COMPENSATION] !== 40) this.#objectToFirstAxis('compensation-on', () => 'a probe move (G38.2) must not come while tool radius compensation is on; G40 must come first.');
    if ((axes & ROTARY_AXES) !== 0 || (axes & MAIN_AXES) === 0) this.#refuseProbe();
    this.#stepper.finish(FEED_MOVE);
    const nearest = this.#units() === 'mm' ? 0.254 : 0.01;
    if (step.length < nearest) this.#objectToFirstAxis('probe', () => `the probe starts ${shown(step.length)} ${this.#units()} from its target; it must be at least ${nearest}.`);
    this.#lose(axes);
    this.#forgetProbeResult();
  }

  /** Where the probe met the work is in parameters from now on (NISTIR 6556 §3.2.1), whatever the program has put there. */
  #forgetProbeResult(): void {
    for (let axis = 0; axis < NIST_AXES; axis++) this.execution.parameters.set(FIRST_PROBE_PARAMETER + axis, NaN);
  }

  #refuseProbe(): void {
    const { block } = this.execution;
    const findRow = (): number => (block.gOf(codes.MOTION_GROUP) === -1 ? block.rowOf(this.#firstAxisLetter()) : block.gRowOf(codes.MOTION_GROUP));
    this.execution.objectAt('probe', findRow, () => 'A probe move (G38.2) needs X, Y or Z and no rotary axis.');
  }

  #lose(axes: number): void {
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if ((axes & (1 << axis)) !== 0) this.execution.place(axis, NaN);
    }
  }

  /** G53 counts from the machine's own zero, whose distance from the program's is not in the text. */
  #moveInMachineCoordinates(mode: number): void {
    const { row } = this.execution;
    const isOfCaller = Number.isNaN(mode) && row[r.SECONDARY] === 1;
    if (mode !== 0 && mode !== 1 && !isOfCaller) this.execution.objectToCode('machine-coordinates', codes.ONE_SHOT, () => 'G53 needs G00 or G01 in force.');
    if (row[r.RADIUS_COMPENSATION] !== 40) this.execution.objectToCode('machine-coordinates', codes.ONE_SHOT, () => 'G53 must not come while tool radius compensation is on.');
    this.#stepper.begin();
    this.#aimAtWords();
    this.#aimAtNowhere(this.#stepper.step.axes);
    if (mode === 1) this.#checkFeed(mode, this.execution.block.gOf(codes.MOTION_GROUP) !== -1);
    if (mode === 0 || mode === 1) this.#stepper.finish(mode === 0 ? RAPID : FEED_MOVE);
    else this.#stepper.finishUnknown();
  }

  #aimAtNowhere(axes: number): void {
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if ((axes & (1 << axis)) !== 0) this.#stepper.aim(axis, NaN);
    }
  }

  #oneShot(code: number, motion: number): void {
    const { block } = this.execution;
    const axes = block.seen & this.#axisLetters;
    if (motion >= 0 && motion !== 800 && axes !== 0) {
      this.execution.objectToCode('one-shot-and-motion', codes.ONE_SHOT, () => `G${code / 10} uses the axis words itself, so no motion code may stand beside it.`);
      return;
    }
    if (motion !== -1) this.#motionAlone(motion);
    if (code !== 100) this.#refuseWithCompensation(code);
    if (code === 100) this.#setSystem();
    else if (code === 920) this.#presetPosition(axes);
    else this.#returnHome(axes);
  }

  #refuseWithCompensation(code: number): void {
    if (this.execution.row[r.RADIUS_COMPENSATION] === 40) return;
    this.execution.objectToCode('compensation-on', codes.ONE_SHOT, () => `G${code / 10} must not come while tool radius compensation is on; G40 must come first.`);
  }

  /** The home position is not in the text. Without axis words all axes go. */
  #returnHome(axisLetters: number): void {
    this.#stepper.begin();
    this.#aimAtWords();
    const { axes } = this.#stepper.step;
    if (axisLetters !== 0) this.#stepper.finish(RAPID);
    this.#stepper.begin();
    this.#aimAtNowhere(axisLetters === 0 ? (1 << r.AXIS_COUNT) - 1 : axes);
    this.#stepper.finish(RAPID);
  }

  /** G92 moves nothing: it gives the place where the axes stand these numbers. */
  #presetPosition(axisLetters: number): void {
    const { block } = this.execution;
    if (axisLetters === 0) this.execution.objectToCode('word-missing', codes.ONE_SHOT, () => `G92 needs at least one axis word.${block.has(S) ? ` ${this.#whatOfSpeed()}` : ''}`);
    for (let axis = 0; axis < r.AXIS_COUNT; axis++) {
      if ((block.axes & (1 << axis)) !== 0) this.modes.presetPosition(axis, block.values[AXIS_LETTERS[axis]!]!);
    }
    this.#loseIncremented();
  }

  /** On many lathes G92 S is the speed limit (DIN practice), which only the machine can say. */
  #whatOfSpeed(): string {
    const hasLimit = this.execution.dialect.patterns.some(({ name }) => name === 'speedLimit');
    const limit = hasLimit ? 'has other words for the speed limit' : 'does not say that S beside it is the speed limit';
    return `The machine card ${limit}, so S sets neither speed nor limit here.`;
  }

  /** What codes that set numbers make of increments is not settled, so where those axes then stand is not known. */
  #loseIncremented(): void {
    const { block } = this.execution;
    for (let letter = 0; letter < this.#incremental.length; letter++) {
      if (this.#incremental[letter] === -1 || !block.has(letter)) continue;
      this.execution.objectTo('not-computed', letter, () => `what this word does here is not computed; where ${r.AXES[this.#incremental[letter]!]} stands afterwards is not known.`);
      this.execution.place(this.#incremental[letter]!, NaN);
    }
  }

  /** `G10 L2 P1` to `P9` sets the origin of a coordinate system (NISTIR 6556 §3.5.5). */
  #setSystem(): void {
    const { block, row, parameters } = this.execution;
    const system = block.has(P) ? wholeNumber(block.values[P]!) : NaN;
    const isSystem = Number.isInteger(system) && system >= 1 && system <= 9;
    if (!isSystem || !block.has(L) || wholeNumber(block.values[L]!) !== 2) {
      this.execution.objectToCode('coordinate-system', codes.ONE_SHOT, () => 'G10 needs L2 and a P from 1 to 9.');
      return;
    }
    const isActive = system === systemNumber(row[r.WORK_OFFSET]!);
    for (let axis = 0; axis < NIST_AXES; axis++) {
      if ((block.axes & (1 << axis)) === 0) continue;
      parameters.set(originParameter(system, axis), block.values[AXIS_LETTERS[axis]!]!);
      if (isActive) this.execution.place(axis, NaN);
    }
    this.#loseIncremented();
  }

  #axisOffsets(code: number): void {
    this.#refuseWithCompensation(code);
    if (code === 921) this.modes.forgetAxisOffsets();
    else if (code === 922) this.modes.cancelAxisOffsets();
    else this.modes.restoreAxisOffsets();
  }

  /** Answers whether the axis words of the line are still free to move something. */
  #dwell(): boolean {
    const { block } = this.execution;
    const found = this.#dwellLetters.find(([letter]) => block.has(letter));
    if (found === undefined) return this.#dwellWithoutTime();
    const [letter, seconds] = found;
    if (this.execution.isNotNegative(letter)) this.#stepper.dwell(block.values[letter]! * seconds);
    return !AXIS_LETTERS.includes(letter) && (block.seen & this.#axisLetters) !== 0;
  }

  #dwellWithoutTime(): boolean {
    const { block } = this.execution;
    const letter = [X, letterIndex('U'), F].find((candidate) => block.has(candidate));
    if (this.#dwellLetters.length === 0) this.execution.objectToCode('dwell-word', codes.ONE_SHOT, () => 'G4: the machine card has another word for a dwell, so how long this one takes is not known.');
    else if (letter === undefined) this.execution.objectToCode('word-missing', codes.ONE_SHOT, () => `G4 needs a ${this.#lettersOfDwell()} word, the time in seconds.`);
    else this.execution.objectTo('dwell-word', letter, () => `G4 takes its time in ${this.#lettersOfDwell()}, in seconds; the machine card does not say that this letter holds it, nor in which unit.`);
    this.#stepper.dwell(NaN);
    return false;
  }

  #lettersOfDwell(): string {
    return this.#dwellLetters.map(([letter]) => String.fromCharCode(letter + FIRST_LETTER)).join(' or ');
  }

  /** A motion code on a line without an axis word, -1 for none. G80 needs none, and what G06 needs is not known. */
  #motionAlone(motion: number): void {
    if (motion >= 0 && motion !== 800 && motion !== 60) this.#motionWithoutAxis(motion);
  }

  #motionWithoutAxis(motion: number): void {
    if (codes.isCycle(motion / 10)) {
      this.execution.objectToCode('cycle-words', codes.MOTION_GROUP, () => `G${motion / 10} needs X, Y or Z on its line.`);
      return;
    }
    if (motion / 10 === PROBE) return this.#refuseProbe();
    this.execution.objectToCode('motion-without-axis', codes.MOTION_GROUP, () => `G${motion / 10} has no axis word on its line.`);
  }

  #checkFeed(mode: number, explicit: boolean): void {
    const { row } = this.execution;
    if (row[r.FEED_MODE] === 93) return this.#checkInverseTime(mode);
    if (row[r.FEED] === r.NEVER) {
      this.#objectToFirstAxis('feed-missing', () => 'a move at feed, and no F word stands before it.');
      row[r.FEED] = NaN;
    }
    if (mode >= 33 && mode <= 35) return;
    if (isFeedOfOtherMode(row)) this.#leaveFeedOpen(otherModeInWords(row));
    if (explicit && row[r.SYNC_PATTERN]! > 0 && row[r.DRIVEN_DIRECTION] === r.STOPPED && row[r.SPINDLE] === r.STOPPED) this.#checkHob();
    if (explicit && row[r.FEED_MODE] === 95 && nothingTurns(row)) this.execution.objectToCode('feed-without-spindle', codes.MOTION_GROUP, () => 'The feed is per revolution, but no spindle turns.');
  }

  /** Words that hold a speed may start the hob themselves. */
  #checkHob(): void {
    const { patterns } = this.execution.dialect;
    const isStartedByItself = patterns[this.execution.row[r.SYNC_PATTERN]! - 1]!.words.some(({ slot }) => slot === 'rpm');
    if (isStartedByItself || !patterns.some(({ name }) => name === 'drivenStart')) return;
    this.execution.objectToCode('feed-without-spindle', codes.MOTION_GROUP, () => 'Hob and work run in step, but the driven tool does not turn.');
  }

  #checkInverseTime(mode: number): void {
    if (mode === PROBE) this.execution.objectToCode('feed-mode', codes.MOTION_GROUP, () => 'A probe move must not come with inverse time feed (G93).');
    else if (!this.execution.block.has(F)) this.#refuseWithoutOwnFeed();
  }

  #leaveFeedOpen(why: string): void {
    this.#objectToFirstAxis('feed-other-mode', () => why);
    this.execution.row[r.FEED] = NaN;
  }

  #refuseWithoutOwnFeed(): void {
    this.#objectToFirstAxis('feed-missing', () => 'with inverse time feed (G93) every move at feed needs an F word on its line.');
    this.execution.row[r.FEED] = NaN;
  }

  /** n = 1000 v / (pi d) has no bound towards X0. */
  #checkSpeedAtCentre(): void {
    const { row } = this.execution;
    if (row[r.SPEED_MODE] !== 96 || row[r.SPINDLE] === 5 || !Number.isNaN(row[r.SPEED_LIMIT]!)) return;
    const { axes, from, to } = this.#stepper.step;
    if (((axes >> r.X) & 1) === 1 && (to[r.X] === 0 || from[r.X]! * to[r.X]! < 0)) this.#objectToUnboundSpeed();
  }

  #objectToUnboundSpeed(): void {
    const { block } = this.execution;
    const letter = block.has(X) ? X : this.#incremental.findIndex((axis, candidate) => axis === r.X && block.has(candidate));
    this.execution.objectTo('speed-without-limit', letter, () => 'the cutting speed is constant (G96) and no speed limit stands before it, so the spindle speed has no bound at X0.');
  }

  #hintAtStops(): void {
    this.#hintAtStop(codes.SPINDLE_GROUP);
    this.#hintAtStop(codes.COOLANT_GROUP);
  }

  /** Whether the coolant stops before or after a rapid is nothing that anybody need look at. */
  #hintAtStop(group: number): void {
    const { block } = this.execution;
    const code = block.mOf(group);
    const stopsCut = code === 9 && this.execution.row[r.MOTION] !== 0;
    if (code === 5 || stopsCut) this.#hintAt(code, group);
  }

  #hintAt(code: number, group: number): void {
    const { block } = this.execution;
    this.execution.objectAt('stop-before-motion', () => block.mRowOf(group), () => `M${code} on a line with motion: RS274/NGC stops before the motion, ISO 6983 after it. On a line of its own it is clear.`);
  }

  #objectToFirstAxis(rule: RuleId, message: () => string): void {
    const { execution } = this;
    execution.objectAt(rule, () => execution.block.rowOf(this.#firstAxisLetter()), () => `${execution.block.text(execution.text, this.#firstAxisLetter())}: ${message()}`);
  }

  #firstAxisLetter(): number {
    const { block } = this.execution;
    let first = -1;
    for (let letters = block.seen & this.#axisLetters; letters !== 0; letters &= letters - 1) {
      const letter = 31 - Math.clz32(letters & -letters);
      if (first < 0 || block.rowOf(letter) < block.rowOf(first)) first = letter;
    }
    return first;
  }

  #units(): 'mm' | 'inch' {
    return unitsInForce(this.execution.row);
  }
}
