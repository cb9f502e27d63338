/**
 * Words that ask a spindle for two things at once: to turn while it is an axis,
 * to be an axis while it turns, to move in its clamp, to open its chuck at speed.
 *
 * It judges by the machine's own words alone, so each question is asked only
 * where the dialect has the words that answer it. Lines are judged after their
 * switches and before their motion, as a control carries them out.
 */
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import { type Execution, lettersThatMove } from './execution.ts';
import type { PatternMatch } from './patterns.ts';
import * as r from './registers.ts';

const C = letterIndex('C');
const INCREMENTAL = 91;

export class SpindleWatch {
  /** The letters that turn the work: C, and its increments. */
  readonly #letters: number;
  readonly #knowsWorkAxis: boolean;
  /** M03 is of the main spindle alone where driven tools and the sub-spindle have words of their own. */
  readonly #mainWordIsOfMain: boolean;
  /** Whether a chuck has closed again is known only where a word closes it. */
  readonly #knowsChuck: boolean;
  #carriedAlong = 0;

  private constructor(private readonly execution: Execution, has: (name: string) => boolean) {
    this.#letters = lettersThatMove('C', execution.dialect);
    this.#knowsWorkAxis = has('workAxisOn');
    this.#knowsChuck = has('mainChuckClose');
    this.#mainWordIsOfMain = has('drivenStart') && (has('subStart') || !has('subAxisOn'));
  }

  /** Undefined where the dialect has no words for any of it, so that its programs cost nothing. */
  static of(execution: Execution): SpindleWatch | undefined {
    const names = new Set(execution.dialect.patterns.map(({ name }) => name));
    const wanted = ['workAxisOn', 'subAxisOn', 'mainChuckOpen', 'subChuckOpen'];
    return wanted.some((name) => names.has(name)) ? new SpindleWatch(execution, (name) => names.has(name)) : undefined;
  }

  /** A word that makes an axis of a spindle ends what the coupling left turning, so what turned is kept from before it. */
  beforeSwitches(): void {
    this.#carriedAlong = this.execution.row[r.CARRIED_ALONG]!;
  }

  check(): void {
    const { block } = this.execution;
    if (block.matches.length > 0) this.#checkBuilderWords();
    if (block.mSeen !== 0 && this.#mainWordIsOfMain) this.#checkStart();
    if ((block.seen & this.#letters) !== 0 && this.#knowsWorkAxis) this.#checkTurn();
  }

  #checkBuilderWords(): void {
    const { block, dialect, row } = this.execution;
    for (const match of block.matches) {
      switch (dialect.patterns[match.index]!.name) {
        case 'workAxisOn': if (this.#mainTurns()) this.#objectToMatch('axis-while-turning', match, 'makes an axis of the main spindle, which still turns; it must be stopped first.'); break;
        case 'subAxisOn': if (this.#subTurns()) this.#objectToMatch('axis-while-turning', match, 'makes an axis of the sub-spindle, which still turns; it must be stopped first.'); break;
        case 'subStart':
        case 'subReverse': if (row[r.SUB_AXIS] === 1) this.#objectToMatch('axis-while-turning', match, 'starts the sub-spindle while it is an axis; that must end first.'); break;
        case 'mainChuckOpen': if (this.#mainTurns() && row[r.COUPLED] !== 1) this.#objectToMatch('chuck-while-turning', match, 'opens the chuck of the main spindle, which still turns.'); break;
        case 'subChuckOpen': if (this.#subTurns() && row[r.COUPLED] !== 1) this.#objectToMatch('chuck-while-turning', match, 'opens the chuck of the sub-spindle, which still turns.'); break;
      }
    }
  }

  #mainTurns(): boolean {
    const { row } = this.execution;
    return row[r.SPINDLE] !== r.STOPPED || (this.#carriedAlong & r.MAIN_SPINDLE) !== 0;
  }

  #subTurns(): boolean {
    const { row } = this.execution;
    return row[r.SUB_DIRECTION] !== r.STOPPED || (this.#carriedAlong & r.SUB_SPINDLE) !== 0;
  }

  #objectToMatch(rule: 'axis-while-turning' | 'chuck-while-turning', match: PatternMatch, what: string): void {
    const { execution } = this;
    const { tape } = execution.block;
    const at = match.rows[0]!;
    execution.objectAt(rule, () => at, () => `${execution.text.slice(tape.start[at], tape.end[at])} ${what}`);
  }

  #checkStart(): void {
    const { block, row } = this.execution;
    if (!codes.startsSpindle(block.mOf(codes.SPINDLE_GROUP))) return;
    if (row[r.WORK_AXIS] === 1) this.#objectToStart('axis-while-turning', 'while it is an axis; that must end first.');
    if (this.#knowsChuck && (row[r.OPEN_CHUCKS]! & r.MAIN_SPINDLE) !== 0 && row[r.COUPLED] !== 1) this.#objectToStart('chuck-while-turning', 'while its chuck is open; it must close first.');
  }

  #objectToStart(rule: 'axis-while-turning' | 'chuck-while-turning', why: string): void {
    const { block } = this.execution;
    this.execution.objectAt(rule, () => block.mRowOf(codes.SPINDLE_GROUP), () => `M${block.mOf(codes.SPINDLE_GROUP)} starts the main spindle ${why}`);
  }

  #checkTurn(): void {
    const { block, row } = this.execution;
    const oneShot = block.gOf(codes.ONE_SHOT);
    if (codes.usesAxisWords(oneShot) || block.hasUnknownG || !this.#turns()) return;
    const axes = (row[r.WORK_AXIS] === 0 ? 0 : r.MAIN_SPINDLE) | (row[r.SUB_AXIS] === 0 ? 0 : r.SUB_SPINDLE);
    if (axes === 0) this.#objectToNoAxis();
    else if ((row[r.CLAMPED]! & axes) === axes) this.execution.objectTo('axis-clamped', this.#letter(), () => 'the work turns while its axis is clamped; the clamp must be released first.');
  }

  /** Once is enough: after that, nobody knows whether it is an axis. */
  #objectToNoAxis(): void {
    this.execution.objectTo('axis-not-on', this.#letter(), () => 'the work turns by position, and the word that makes an axis of its spindle does not stand before it.');
    this.execution.row[r.WORK_AXIS] = NaN;
  }

  /** A word that names the place where C stands turns nothing. */
  #turns(): boolean {
    const { block, row } = this.execution;
    const isIncremental = row[r.DISTANCE] === INCREMENTAL || !block.has(C);
    return block.values[this.#letter()] !== (isIncremental ? 0 : row[r.C]);
  }

  #letter(): number {
    return 31 - Math.clz32(this.execution.block.seen & this.#letters);
  }
}
