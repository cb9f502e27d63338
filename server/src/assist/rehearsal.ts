/**
 * Explains words of the first program to nobody, while nobody asks for anything.
 *
 * Code is compiled when it runs for the first time, and again when it has run often,
 * and an answer that waits for that takes several times as long as a later one. A
 * hover meets most of the code there is, by one kind of word or another. So the
 * server reads the program to its end and goes over some words once, in steps so
 * short that no message waits long, and the user's first hovers are as quick as any.
 */
import { hoverAt } from './hover.ts';
import { isMachineCard, type Session } from './session.ts';
import { linesInASlice } from './slices.ts';

/** Words of as many lines: enough for what a hover runs to be compiled for good, some 0.6 s of work, once. */
const wordsToExplain = 2000;
/** Until whoever opened the program has got what is asked for first. */
const millisecondsBefore = 100;

export class Rehearsal {
  #hasBegun = false;

  constructor(private readonly session: Session) {}

  /** To be called for every document that is opened; the first program counts. Ends when that is closed. */
  async begin(uri: string): Promise<void> {
    if (this.#hasBegun || isMachineCard(uri)) return;
    this.#hasBegun = true;
    const { runtime } = this.session;
    await this.session.cardKnown;
    await runtime.rest(millisecondsBefore);
    while (this.session.program(uri)?.advance(linesInASlice) === false) await runtime.yieldToMessages();
    for (let word = 0; word < wordsToExplain && this.session.program(uri); word += 1) {
      this.#explain(uri, word);
      await runtime.yieldToMessages();
    }
  }

  /** A word of one line after the other, once the first of the line, once the second, and so on. */
  #explain(uri: string, word: number): void {
    const program = this.session.program(uri);
    if (!program) return;
    const line = word % program.lineCount;
    const items = program.items(line);
    const item = items[word % Math.max(1, items.length)];
    if (item) hoverAt(this.session, uri, { line, character: item.start });
  }
}
