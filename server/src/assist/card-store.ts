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

  get current(): CardInUse {
    return this.#current;
  }

  /** No card is named: the open-standard one is in use. */
  useBuiltIn(): void {
    this.#current = builtIn;
  }

  /** Takes a card's text. Undefined text means that the file cannot be read. */
  use(uri: string, text: string | undefined): void {
    const reading = text === undefined ? undefined : readCard(text);
    if (reading?.card) this.#current = { card: reading.card, dialect: dialectOf(reading.card), uri };
    else this.#current = { ...this.lastGood(uri), uri, fault: faultInWords(uri, reading?.problems[0]?.message) };
  }

  /** A fault of another card than the last good one must not leave that other machine in use. */
  private lastGood(uri: string): Pick<CardInUse, 'card' | 'dialect'> {
    const { card, dialect } = this.#current.uri === uri ? this.#current : builtIn;
    return { card, dialect };
  }
}

function faultInWords(uri: string, problem: string | undefined): string {
  const name = decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
  return problem === undefined ? `The machine card ${name} cannot be read.` : `The machine card ${name} is not usable: ${problem}`;
}
