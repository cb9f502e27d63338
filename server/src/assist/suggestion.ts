/** One thing that can be typed at a place, and what must be known to suggest it. */
import type { MachineCard } from '../machine/card.ts';
import type { Dialect } from '../program/index.ts';

export interface Suggestion {
  kind: 'process' | 'parameter' | 'value' | 'mark' | 'code';
  /** What is put in place of the characters from `start` to `end` of the line. */
  text: string;
  start: number;
  end: number;
  /** What it is, in a few words. */
  title: string;
  /** A sentence or two; may be empty. */
  about: string;
  /** Values of this parameter can be suggested next. */
  opensValues?: boolean;
}

export interface SuggestionSetting {
  card: MachineCard;
  dialect: Dialect;
}
