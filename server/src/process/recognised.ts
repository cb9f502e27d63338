/** What a stretch of a program looks like, judged by its moves alone, and the interface of those who judge. */
import type { Move } from '../program/index.ts';

export type RecognisedKind = 'hobbing' | 'keyway' | 'engraving';

export interface Recognised {
  kind: RecognisedKind;
  /** The 0-based line of the first move in the work. */
  fromLine: number;
  /** The line after the one of the last move in the work. */
  toLine: number;
  /** What was seen, a sentence each. */
  seen: readonly string[];
}

/** Looks at the moves of one stretch in their order, and keeps a few numbers only. */
export interface Recogniser {
  /** Answers whether the stretch can still be what it looks for. */
  take(move: Move): boolean;
  /** Called once, after the last move of a stretch that can still be it. */
  result(): Recognised | undefined;
}
