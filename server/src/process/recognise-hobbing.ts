/**
 * Recognises hobbing: the machine card's words for synchronous running are in
 * force, the driven tool turns, and it is fed along or into the work.
 */
import type { Dialect, Move } from '../program/index.ts';
import { shown } from '../trade/quantity.ts';
import { isFeed, placesOf } from './moves-in-work.ts';
import type { Recognised, Recogniser } from './recognised.ts';

export class HobbingRecogniser implements Recogniser {
  #first: Move | undefined;
  #last: Move | undefined;
  #alongZ = 0;

  constructor(private readonly dialect: Dialect) {}

  take(move: Move): boolean {
    if (!isFeed(move)) return true;
    if (!move.sync || !move.driven) return false;
    const { from, to } = placesOf(move, this.dialect);
    this.#alongZ += Math.abs(to.z - from.z);
    this.#first ??= move;
    this.#last = move;
    return true;
  }

  result(): Recognised | undefined {
    if (!this.#first || !this.#last) return undefined;
    const numbers = Object.entries(this.#first.sync?.slots ?? {}).map(([name, value]) => `${name} ${shown(value)}`);
    const speed = this.#first.driven?.rpm;
    return {
      kind: 'hobbing', fromLine: this.#first.line, toLine: this.#last.line + 1,
      seen: [
        `Work and driven tool are coupled by the words of codes.syncOn${numbers.length === 0 ? '' : `: ${numbers.join(', ')}`}.`,
        `The tool turns${speed === undefined ? '' : ` with ${shown(speed)} rev/min`} and is fed ${shown(this.#alongZ, 3)} mm along Z.`,
      ],
    };
  }
}
