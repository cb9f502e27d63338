/**
 * The fixed cycles G81 to G89, taken apart into single steps by NISTIR 6556
 * §3.5.16, in whichever plane is in force: depth and retract level lie along the
 * axis that stands on the plane.
 */
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import { AXIS_LETTERS, type Execution, TOUCH } from './execution.ts';
import { wholeNumber } from './expressions.ts';
import { isFeedOfOtherMode, nothingTurns, otherModeInWords } from './feed.ts';
import { INCH_IN_MM, unitsInForce } from './inch.ts';
import { cycleAxes } from './planes.ts';
import * as r from './registers.ts';
import type { RuleId } from './rules.ts';
import { shown } from './shown.ts';
import { FEED_MOVE, RAPID } from './step.ts';
import type { Stepper } from './stepper.ts';

const L = letterIndex('L');
const P = letterIndex('P');
const Q = letterIndex('Q');
const R = letterIndex('R');
const OFFSET_LETTERS = ['I', 'J', 'K'].map(letterIndex);
const ROTARY_AXES = [3, 4, 5];
const X = AXIS_LETTERS[r.X]!;
const C = AXIS_LETTERS[r.C]!;
const Z = AXIS_LETTERS[r.Z]!;
const ZX = 18;
const FOREIGN_AXES = 'UVW';
const DWELLING = [82, 86, 88, 89];
const F = letterIndex('F');
const PER_MINUTE = 94;
/** The pitch of the finest threads of ISO 1501 is 0.08 mm (from memory). */
const FINEST_LEAD = 0.05;
const CLOCKWISE = 3;
/** More repeats, and more pecks of all repeats together, than any part has; a line with more is not followed. */
const MOST_STEPS = 10_000;

/** What is less than this share of a peck is rounding, not material. */
const NO_PECK = 1e-9;

/** The levels along the axis that stands on the plane, and where the holes are. */
interface Hole {
  readonly retract: number;
  readonly bottom: number;
  readonly clear: number;
  a: number;
  b: number;
  /** Where C stands, degrees. */
  turn: number;
}

export class Cycles {
  #a = 0;
  #b = 1;
  #normal = 2;
  #cycle = 81;
  #isExplicit = false;
  #objections = 0;
  /** A bit per letter of axis words that the report's cycles do not know. */
  readonly #foreignLetters: number;
  readonly #knowsDriven: boolean;

  constructor(private readonly execution: Execution, private readonly stepper: Stepper) {
    const letters = [...FOREIGN_AXES, ...Object.keys(execution.dialect.incrementalAxes)];
    this.#knowsDriven = execution.dialect.patterns.some(({ name }) => name === 'drivenStart');
    this.#foreignLetters = letters.reduce((mask, letter) => mask | (1 << letterIndex(letter)), 0);
  }

  /** Carries out the cycle in force at the place that the line gives. `explicit`: its code stands on the line. */
  run(cycle: number, explicit: boolean): void {
    const { a, b, normal } = cycleAxes(this.execution.row[r.PLANE]!, this.execution.dialect.cyclesDrillAlongZ === true);
    this.#a = a;
    this.#b = b;
    this.#normal = normal;
    this.#cycle = cycle;
    this.#isExplicit = explicit;
    this.#keepWords();
    if ((this.execution.block.seen & this.#foreignLetters) !== 0) return this.#leaveOpen();
    const repeats = this.#repeats();
    if (!this.#isAllowed() || Number.isNaN(repeats)) return this.#giveUp();
    this.#hintAtDiameter();
    if (this.#cycle === 83 && repeats * this.#pecks(this.#retractLevel()) > MOST_STEPS) return this.#leavePecksOpen();
    this.#checkFeed();
    this.#drill(repeats);
  }

  /** No definition says what lengths along X count while its words are diameters. */
  #hintAtDiameter(): void {
    if (this.stepper.scale(r.X) === 1) return;
    if (this.#cycle === 83 && this.#normal === r.X) this.#hintAtLength(Q);
    if (this.#cycle === 87 && this.#normal !== r.X && this.execution.dialect.arcCentreOnDiameter !== true) this.#hintAtLength(OFFSET_LETTERS[r.X]!);
  }

  #hintAtLength(letter: number): void {
    if (this.execution.block.has(letter) && this.execution.block.values[letter] !== 0) this.execution.objectTo('cycle-diameter', letter, () => 'it is read as the way that the tool moves along X, not as a change of the diameter.');
  }

  /** Without a feed only the time of the cycle is not known. */
  #checkFeed(): void {
    const { execution } = this;
    const { row } = execution;
    if (row[r.FEED] === r.NEVER) {
      execution.objectAt('feed-missing', () => this.#row(), () => `G${this.#cycle} moves at feed, and no F word stands before it.`);
      row[r.FEED] = NaN;
    }
    if (isFeedOfOtherMode(row)) this.#leaveFeedOpen(otherModeInWords(row));
    if (this.#isExplicit && row[r.SPEED_MODE] === 96) this.#warnOfCuttingSpeed();
    if (this.#cycle === 84) this.#checkLeadOfTap();
    if (this.#isExplicit && nothingTurns(row)) this.#objectToStandstill();
  }

  /** Whether a tool turns by words that the machine has not named, nobody knows; then only a feed per revolution tells. */
  #objectToStandstill(): void {
    const { execution } = this;
    if (execution.row[r.FEED_MODE] === 95) execution.objectToCode('feed-without-spindle', codes.MOTION_GROUP, () => 'The feed is per revolution, but no spindle turns.');
    else if (this.#knowsDriven) execution.objectToCode('feed-without-spindle', codes.MOTION_GROUP, () => `G${this.#cycle} drills, but neither a spindle nor a driven tool turns.`);
  }

  /** Said where the feed, the cycle or its speed is given. */
  #checkLeadOfTap(): void {
    const { block, row } = this.execution;
    if (row[r.FEED_MODE] !== PER_MINUTE || !(this.#isExplicit || block.has(F))) return;
    const rpm = row[r.DRIVEN_DIRECTION] !== r.STOPPED ? row[r.DRIVEN_SPEED]! : row[r.SPEED_MODE] === 96 ? NaN : row[r.SPEED]!;
    const lead = row[r.FEED]! / rpm;
    if (lead < FINEST_LEAD / (row[r.UNITS] === 20 ? INCH_IN_MM : 1)) this.#warnOfLead(lead, rpm);
  }

  #warnOfLead(lead: number, rpm: number): void {
    const { execution } = this;
    const units = unitsInForce(execution.row);
    execution.objectAt('thread-lead', () => this.#row(), () => `G84: F${shown(execution.row[r.FEED]!)} a minute at ${shown(rpm)} rev/min makes a lead of ${lead.toPrecision(2)} ${units}, which no tap has; the feed is per minute here.`);
  }

  /** A drill in the middle of the work has no diameter by which a cutting speed could be kept. */
  #warnOfCuttingSpeed(): void {
    const { execution } = this;
    const { block, row } = execution;
    const x = block.has(X) ? block.values[X] : row[r.X];
    const isInMiddle = this.#normal === r.Z && x === 0 && row[r.SPINDLE] !== r.STOPPED && row[r.DRIVEN_DIRECTION] === r.STOPPED;
    if (isInMiddle) execution.objectToCode('cutting-speed-in-force', codes.MOTION_GROUP, () => `G${this.#cycle} at X0 while the cutting speed is constant (G96): the spindle turns as fast as its limit lets it; G97 must stand before it.`);
  }

  #leaveFeedOpen(why: string): void {
    const { execution } = this;
    execution.objectAt('feed-other-mode', () => this.#row(), () => `G${this.#cycle}: ${why}`);
    execution.row[r.FEED] = NaN;
  }

  #leavePecksOpen(): void {
    this.execution.objectTo('not-computed', firstLetter(this.execution), () => `this makes more than ${MOST_STEPS} pecks of Q${this.execution.row[r.CYCLE_PECK]} (G83), which are not followed; where the axes stand afterwards is not known.`);
    this.#giveUp();
  }

  #pecks(retract: number): number {
    return Math.ceil((retract - this.#bottom(retract)) / this.#peckStep() - NO_PECK);
  }

  /** A peck in programmed numbers of its axis: Q is a length along which the tool moves, no place that X words could mean by a diameter. */
  #peckStep(): number {
    return this.execution.row[r.CYCLE_PECK]! / this.stepper.scale(this.#normal);
  }

  /** R, the depth, P, Q and the offsets stay in force within a run of cycles; L does not. */
  #keepWords(): void {
    this.#keep(R, r.CYCLE_RETRACT);
    this.#keep(AXIS_LETTERS[this.#normal]!, r.CYCLE_DEPTH);
    this.#keep(P, r.CYCLE_DWELL);
    this.#keep(Q, r.CYCLE_PECK);
    OFFSET_LETTERS.forEach((letter, at) => this.#keep(letter, r.CYCLE_OFFSETS + at));
    this.execution.touched |= TOUCH.cycle;
  }

  #keep(letter: number, register: number): void {
    const { block, row } = this.execution;
    if (block.has(letter)) row[register] = block.values[letter]!;
  }

  #repeats(): number {
    const { block } = this.execution;
    if (!block.has(L)) return 1;
    const repeats = wholeNumber(block.values[L]!);
    if (Number.isNaN(repeats) || (Number.isInteger(repeats) && repeats >= 1 && repeats <= MOST_STEPS)) return repeats;
    this.execution.objectTo('cycle-words', L, () => `the repeats must be a whole number from 1 to ${MOST_STEPS}.`);
    return NaN;
  }

  /** Objects to everything that NISTIR 6556 §3.5.16 forbids. */
  #isAllowed(): boolean {
    const { block, row } = this.execution;
    const before = this.#objections;
    this.#checkTurns();
    if (row[r.FEED_MODE] === 93) this.#object('feed-mode', 'must not come with inverse time feed (G93).');
    if (row[r.RADIUS_COMPENSATION] !== 40) this.#object('compensation-on', 'must not come while tool radius compensation is on; G40 must come first.');
    this.#checkWords();
    if (this.#isExplicit || block.hasCodes) this.#checkSpindle();
    return this.#objections === before;
  }

  #checkTurns(): void {
    const { cyclesTurnC, patterns } = this.execution.dialect;
    const turning = ROTARY_AXES.filter((axis) => this.#turns(axis) && !(axis === r.C && cyclesTurnC === true));
    if (turning.length === 0) return;
    const isWorkAxis = turning[0] === r.C && patterns.some(({ name }) => name === 'workAxisOn');
    if (isWorkAxis) this.#object('cycle-axis', 'turns C, which RS274/NGC does not allow. If C turns to the next hole first, say so in the machine card (cyclesTurnC); where the axes stand afterwards is not known.');
    else this.#object('cycle-words', 'must not move a rotary axis.');
  }

  /** Whether a rotary axis turns on this line, or may. */
  #turns(axis: number): boolean {
    const { block, row } = this.execution;
    const letter = AXIS_LETTERS[axis]!;
    return block.has(letter) && block.values[letter] !== (row[r.DISTANCE] === 91 ? 0 : row[axis]);
  }

  #checkWords(): void {
    const { row } = this.execution;
    const axis = r.AXES[this.#normal]!;
    this.#needs(r.CYCLE_RETRACT, R, 'R, the retract level');
    if (!this.#drillsAlongZAfterAll()) this.#needs(r.CYCLE_DEPTH, AXIS_LETTERS[this.#normal]!, `${axis}, the depth in the plane of G${row[r.PLANE]}`);
    if (DWELLING.includes(this.#cycle)) this.#needs(r.CYCLE_DWELL, P, 'P, the dwell in seconds');
    if (DWELLING.includes(this.#cycle) && row[r.CYCLE_DWELL]! < 0) this.#object('cycle-words', `has a dwell of P${row[r.CYCLE_DWELL]}; it must be 0 or more.`);
    if (this.#cycle === 83) this.#needs(r.CYCLE_PECK, Q, 'Q, the depth of a peck');
    if (this.#cycle === 83 && row[r.CYCLE_PECK]! <= 0) this.#object('cycle-words', `has a peck of Q${row[r.CYCLE_PECK]}; it must be more than 0.`);
    if (this.#cycle === 87) OFFSET_LETTERS.forEach((letter, at) => this.#needs(r.CYCLE_OFFSETS + at, letter, 'IJK'[at]!));
    this.#checkLevels(axis);
  }

  /** In ZX a depth along Y is as good as never meant on a lathe, but only the machine can say so. */
  #drillsAlongZAfterAll(): boolean {
    const { block, dialect, row } = this.execution;
    if (dialect.cyclesDrillAlongZ !== undefined || row[r.PLANE] !== ZX || !Number.isNaN(row[r.CYCLE_DEPTH]!) || block.has(AXIS_LETTERS[r.Y]!) || !block.has(Z)) return false;
    this.#object('cycle-axis', 'drills along Y in the plane of G18, and there is no Y word. If it drills along Z, say so in the machine card (cycleAxisInZX); where the axes stand afterwards is not known.');
    return true;
  }

  /** A word that was never given, said where the cycle begins; one whose value is not known is accepted. */
  #needs(register: number, letter: number, what: string): void {
    const { block, row } = this.execution;
    if (!Number.isNaN(row[register]!) || block.has(letter)) return;
    if (this.#isExplicit) this.#object('cycle-words', `needs ${what}.`);
    else this.#objections++;
  }

  #checkLevels(axis: string): void {
    const retract = this.#retractLevel();
    const bottom = this.#bottom(retract);
    if (!(retract < bottom)) return;
    if (!this.#isExplicit && !this.#hasLevels()) this.#objections++;
    else this.#object('cycle-words', `has its retract level at ${axis}${retract}, below its depth ${axis}${bottom}; it must not be below.${this.#ofDiameter()}`);
  }

  #hasLevels(): boolean {
    return this.execution.block.has(R) || this.execution.block.has(AXIS_LETTERS[this.#normal]!);
  }

  #ofDiameter(): string {
    return this.#normal === r.X && this.stepper.scale(r.X) !== 1 ? ' R is read as X words are, on the diameter.' : '';
  }

  /** The spindle of the report holds the tool; on a lathe that is the driven one, where it runs. */
  #checkSpindle(): void {
    const { row } = this.execution;
    const isDriven = row[r.DRIVEN_DIRECTION] !== r.STOPPED;
    const direction = isDriven ? row[r.DRIVEN_DIRECTION] : row[r.SPINDLE];
    if (this.#cycle === 84 && direction !== CLOCKWISE) this.#object('cycle-spindle', isDriven ? 'needs the driven tool to turn forward.' : 'needs the spindle to turn clockwise (M03).');
    if (this.#cycle >= 86 && this.#cycle <= 88 && direction === r.STOPPED) this.#object('cycle-spindle', 'needs the spindle to turn.');
  }

  #object(rule: RuleId, message: string): void {
    this.#objections++;
    this.execution.objectAt(rule, () => this.#row(), () => `G${this.#cycle} ${message}`);
  }

  /** Where the line asks for the cycle: its code, or else the first word. */
  #row(): number {
    const { block } = this.execution;
    return block.hasCodes && block.gOf(codes.MOTION_GROUP) !== -1 ? block.gRowOf(codes.MOTION_GROUP) : firstWord(this.execution);
  }

  /** What a cycle makes of increments by letters of their own, or of further axes, is not settled. */
  #leaveOpen(): void {
    const { block } = this.execution;
    const letter = 31 - Math.clz32(block.seen & this.#foreignLetters);
    this.execution.objectTo('not-computed', letter, () => `what G${this.#cycle} makes of this word is not computed; where the axes stand afterwards is not known.`);
    this.execution.loseAllPositions();
  }

  /** A control stops here: where the axes would go is not known. */
  #giveUp(): void {
    for (const axis of [this.#a, this.#b, this.#normal]) this.execution.place(axis, NaN);
    if (this.execution.block.has(C)) this.execution.place(r.C, NaN);
  }

  /** With G91 the retract level counts from where the axis stands, the depth from the retract level. */
  #retractLevel(): number {
    const { row } = this.execution;
    return row[r.DISTANCE] === 91 ? row[this.#normal]! + row[r.CYCLE_RETRACT]! : row[r.CYCLE_RETRACT]!;
  }

  #bottom(retract: number): number {
    const { row } = this.execution;
    return row[r.DISTANCE] === 91 ? retract + row[r.CYCLE_DEPTH]! : row[r.CYCLE_DEPTH]!;
  }

  #drill(repeats: number): void {
    const { row } = this.execution;
    const retract = this.#retractLevel();
    const before = row[this.#normal]!;
    const hole: Hole = { retract, bottom: this.#bottom(retract), clear: this.#clearLevel(before, retract), a: row[this.#a]!, b: row[this.#b]!, turn: row[r.C]! };
    if (!this.#isExplicit && !this.#hasLevels() && this.#isWhereItStands(hole)) this.#warnOfSameHole();
    if (!(before >= retract)) this.#go(RAPID, this.#normal, retract);
    for (let count = 0; count < repeats; count++) {
      hole.a = this.#next(this.#a, hole.a);
      hole.b = this.#next(this.#b, hole.b);
      hole.turn = this.#next(r.C, hole.turn);
      this.#approach(hole);
      if (row[this.#normal] !== retract) this.#go(RAPID, this.#normal, retract);
      this.#oneHole(hole);
    }
  }

  /** After a hole the axes stand over it. */
  #isWhereItStands({ a, b, turn }: Hole): boolean {
    return this.#stays(this.#a, a) && this.#stays(this.#b, b) && this.#stays(r.C, turn);
  }

  #stays(axis: number, place: number): boolean {
    return !this.execution.block.has(AXIS_LETTERS[axis]!) || this.#next(axis, place) === place;
  }

  #warnOfSameHole(): void {
    this.execution.objectAt('cycle-again', () => firstWord(this.execution), () => `G${this.#cycle} is in force, so this line makes the hole before it once more; G80 ends the cycle.`);
  }

  /** G99 goes back to R; G98 to the level before if that is above R. */
  #clearLevel(before: number, retract: number): number {
    const level = this.execution.row[r.RETURN_LEVEL]!;
    if (before <= retract || level === 99) return retract;
    if (level === 98) return before;
    this.#hintAtReturn();
    return NaN;
  }

  #hintAtReturn(): void {
    this.execution.objectAt('cycle-return', () => firstWord(this.execution), () => 'Neither G98 nor G99 stands before this cycle, so the level that it returns to is not known.');
  }

  #next(axis: number, last: number): number {
    const { block, row } = this.execution;
    const letter = AXIS_LETTERS[axis]!;
    if (!block.has(letter)) return last;
    return row[r.DISTANCE] === 91 ? last + block.values[letter]! : block.values[letter]!;
  }

  #oneHole(hole: Hole): void {
    switch (this.#cycle) {
      case 81: return this.#inAndOut(hole, RAPID);
      case 83: return this.#peck(hole);
      case 84:
      case 85: return this.#inAndOut(hole, FEED_MOVE);
      case 87: return this.#backBore(hole);
      case 88: return this.#manualRetract(hole);
      default: return this.#inDwellOut(hole);
    }
  }

  #inAndOut(hole: Hole, out: number): void {
    this.#go(FEED_MOVE, this.#normal, hole.bottom);
    this.#go(out, this.#normal, hole.clear);
  }

  /** G82, G86 and G89; G89 comes out at feed. */
  #inDwellOut(hole: Hole): void {
    this.#go(FEED_MOVE, this.#normal, hole.bottom);
    this.#dwell();
    this.#go(this.#cycle === 89 ? FEED_MOVE : RAPID, this.#normal, hole.clear);
  }

  /** The report does not say how far above the last depth the tool comes back; it is counted as nothing. */
  #peck(hole: Hole): void {
    const peck = this.#peckStep();
    const pecks = this.#pecks(hole.retract);
    for (let count = 1; count < pecks; count++) {
      const depth = hole.retract - count * peck;
      this.#go(FEED_MOVE, this.#normal, depth);
      this.#go(RAPID, this.#normal, hole.clear);
      this.#go(RAPID, this.#normal, depth);
    }
    this.#inAndOut(hole, RAPID);
  }

  #backBore(hole: Hole): void {
    const { row } = this.execution;
    const aside = [hole.a + this.#offset(this.#a), hole.b + this.#offset(this.#b)] as const;
    const stop = row[r.CYCLE_OFFSETS + this.#normal]!;
    this.#position(RAPID, ...aside);
    this.#go(RAPID, this.#normal, hole.bottom);
    this.#position(RAPID, hole.a, hole.b);
    this.#go(FEED_MOVE, this.#normal, row[r.DISTANCE] === 91 ? hole.bottom + stop : stop);
    this.#go(FEED_MOVE, this.#normal, hole.bottom);
    this.#position(RAPID, ...aside);
    this.#go(RAPID, this.#normal, hole.clear);
    this.#position(RAPID, hole.a, hole.b);
  }

  /** I, J or K as a length in the plane, in programmed numbers of its axis. */
  #offset(axis: number): number {
    const { row, dialect } = this.execution;
    const isOnDiameter = axis === r.X && dialect.arcCentreOnDiameter === true;
    return row[r.CYCLE_OFFSETS + axis]! / (isOnDiameter ? 1 : this.stepper.scale(axis));
  }

  /** The operator takes the tool out by hand, so where it stands afterwards is not known. */
  #manualRetract(hole: Hole): void {
    this.#go(FEED_MOVE, this.#normal, hole.bottom);
    this.#dwell();
    this.execution.place(this.#normal, NaN);
  }

  #dwell(): void {
    this.stepper.dwell(this.execution.row[r.CYCLE_DWELL]!, this.#cycle);
  }

  #go(kind: number, axis: number, value: number): void {
    this.stepper.begin().cycle = this.#cycle;
    this.stepper.aim(axis, value);
    this.stepper.finish(kind);
  }

  /** An axis that stands somewhere unknown and has no word stays there. */
  #approach({ a, b, turn }: Hole): void {
    const { block } = this.execution;
    this.stepper.begin().cycle = this.#cycle;
    if (!Number.isNaN(a) || block.has(AXIS_LETTERS[this.#a]!)) this.stepper.aim(this.#a, a);
    if (!Number.isNaN(b) || block.has(AXIS_LETTERS[this.#b]!)) this.stepper.aim(this.#b, b);
    if (block.has(C)) this.stepper.aim(r.C, turn);
    this.stepper.finish(RAPID);
  }

  #position(kind: number, a: number, b: number): void {
    this.stepper.begin().cycle = this.#cycle;
    this.stepper.aim(this.#a, a);
    this.stepper.aim(this.#b, b);
    this.stepper.finish(kind);
  }
}

/** The tape row of the first word on the line that is no code. */
function firstWord(execution: Execution): number {
  return execution.block.rowOf(firstLetter(execution));
}

function firstLetter({ block }: Execution): number {
  let first = -1;
  for (let letters = block.seen; letters !== 0; letters &= letters - 1) {
    const letter = 31 - Math.clz32(letters & -letters);
    if (first < 0 || block.rowOf(letter) < block.rowOf(first)) first = letter;
  }
  return first;
}
