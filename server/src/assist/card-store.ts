/**
 * The machine card in use. A card that cannot be read never takes the place of
 * one that could: the last good card stays until the mistake is gone, and the
 * server stays up either way.
 */
import type { MachineCard } from '../machine/card.ts';
import { dialectOf } from '../machine/dialect.ts';
import { openStandardCard } from '../machine/open-standard.ts';
import { readCard } from '../machine/read-card.ts';
import type { Dialect } from '../program/index.ts';

export interface CardInUse {
  card: MachineCard;
  dialect: Dialect;
  uri?: string;
  fault?: string;
}

const builtIn: CardInUse = { card: openStandardCard, dialect: dialectOf(openStandardCard) };

export class CardStore {
  #current: CardInUse = builtIn;
  #skipsBlocks = false;

  get current(): CardInUse {
    return this.#current;
  }

  /** Sets the block skip switch as it stands on the machine: on, lines that open with a slash are not executed. */
  setBlockSkip(on: boolean): void {
    if (on === this.#skipsBlocks) return;
    this.#skipsBlocks = on;
    this.#current = { ...this.#current, dialect: this.#dialectOf(this.#current.card) };
  }

  /** No card is named: the open-standard one is in use. */
  useBuiltIn(): void {
    this.#current = { card: builtIn.card, dialect: this.#dialectOf(builtIn.card) };
  }

  /** Takes a card's text. Undefined text means that the file cannot be read. */
  use(uri: string, text: string | undefined): void {
    const reading = text === undefined ? undefined : readCard(text);
    if (reading?.card) this.#current = { card: reading.card, dialect: this.#dialectOf(reading.card), uri };
    else this.#current = { ...this.lastGood(uri), uri, fault: faultInWords(uri, reading?.problems[0]?.message) };
  }

  /** A fault of another card than the last good one must not leave that other machine in use. */
  private lastGood(uri: string): Pick<CardInUse, 'card' | 'dialect'> {
    if (this.#current.uri === uri) return { card: this.#current.card, dialect: this.#current.dialect };
    return { card: builtIn.card, dialect: this.#dialectOf(builtIn.card) };
  }

  /** A program is read anew where its dialect is another object, so the built-in one is made once. */
  #dialectOf(card: MachineCard): Dialect {
    if (card === builtIn.card && !this.#skipsBlocks) return builtIn.dialect;
    return { ...dialectOf(card), skipBlocks: this.#skipsBlocks };
  }
}

function faultInWords(uri: string, problem: string | undefined): string {
  const name = decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
  return problem === undefined ? `The machine card ${name} cannot be read.` : `The machine card ${name} is not usable: ${problem}`;
}
