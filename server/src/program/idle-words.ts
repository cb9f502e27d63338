/**
 * Words that no code of their line uses: a radius on a straight move, a peck
 * without a cycle, a lead without a thread. The definitions give each of these
 * letters its uses (NISTIR 6556 table 3); what a control makes of one anywhere
 * else is its own affair, and reading past it in silence would hide a motion.
 *
 * It knows no objections to words that are used wrongly: those are made where
 * the word is used.
 */
import { letterIndex } from './block.ts';
import * as codes from './codes.ts';
import { lettersThatMove, type Execution } from './execution.ts';
import { planeAxes } from './planes.ts';
import * as r from './registers.ts';

const [E, I, J, K, L, P, Q, R] = [...'EIJKLPQR'].map(bitOf) as [number, number, number, number, number, number, number, number];
const CENTRE_BITS = [I, J, K];
const ALL = E | I | J | K | L | P | Q | R;
const ORIENTED_STOP = 19;
const DWELL = 40;
const SET_SYSTEM = 100;
const BACK_BORING = 87;

export class IdleWords {
  /** Letters that are looked at; those that the machine uses for axes have a use everywhere. */
  readonly #letters: number;
  readonly #axisLetters: number;
  /** P is of a dwell even where the machine has another word for its time, which is objected to on its own. */
  readonly #dwellLetters: number;

  constructor(private readonly execution: Execution) {
    const { dialect } = execution;
    this.#axisLetters = lettersThatMove(r.AXES, dialect);
    this.#letters = ALL & ~this.#axisLetters;
    this.#dwellLetters = Object.keys(dialect.dwellSeconds ?? {}).map(bitOf).reduce(both, P);
  }

  /** Objects to each idle word of the line, after the line has set its modes. */
  check(): void {
    const { block } = this.execution;
    const candidates = block.seen & this.#letters;
    if (candidates === 0) return;
    const idle = candidates & ~this.#used();
    if (idle !== 0 && !this.#mayBelongToOthers()) this.#object(idle);
  }

  #object(idle: number): void {
    for (let rest = idle; rest !== 0; rest &= rest - 1) {
      const letter = 31 - Math.clz32(rest & -rest);
      this.execution.objectTo('word-idle', letter, () => 'nothing on this line uses this word by the open definitions, and the machine card does not say what it does here.');
    }
  }

  /** Codes that the definitions leave open, or that the machine explains in words only, may take any word. */
  #mayBelongToOthers(): boolean {
    const { block } = this.execution;
    return block.hasOpenCodes || block.matches.length > 0 || block.mOf(codes.SPINDLE_GROUP) === ORIENTED_STOP;
  }

  #used(): number {
    const { block } = this.execution;
    const oneShot = block.gOf(codes.ONE_SHOT);
    if (oneShot === SET_SYSTEM) return L | P;
    const ofDwell = oneShot === DWELL ? this.#dwellLetters : 0;
    return codes.usesAxisWords(oneShot) ? 0 : ofDwell | this.#usedByMotion((block.seen & this.#axisLetters) !== 0);
  }

  /** An arc without an axis word is an error of its own, of the words that ask for it. */
  #usedByMotion(hasAxis: boolean): number {
    const { row } = this.execution;
    const motion = row[r.MOTION]!;
    if (motion === 2 || motion === 3) return R | this.#centreLetters();
    if (Number.isNaN(motion)) return hasAxis || row[r.SECONDARY] === 1 ? ALL : 0;
    if (!hasAxis || motion === 0 || motion === 1) return 0;
    if (codes.isCycle(motion)) return L | P | Q | R | (motion === BACK_BORING ? I | J | K : 0);
    return motion >= 33 && motion <= 35 ? E | I | J | K : motion === 6 ? ALL : 0;
  }

  /** Those of the plane. Where the line has none of them, an arc without a centre is the error. */
  #centreLetters(): number {
    const { block, row } = this.execution;
    const { a, b } = planeAxes(row[r.PLANE]!);
    const ofPlane = CENTRE_BITS[a]! | CENTRE_BITS[b]!;
    return (block.seen & (R | ofPlane)) === 0 ? I | J | K : ofPlane;
  }
}

function bitOf(letter: string): number {
  return 1 << letterIndex(letter);
}

function both(one: number, other: number): number {
  return one | other;
}
