/**
 * What all editor services share: open documents as programs, and the machine
 * card in use. It belongs to one connection.
 */
import type { TextDocuments } from 'vscode-languageserver';
import type { Program } from '../program/index.ts';
import { ProgramDocument } from '../program/index.ts';
import { CardStore } from './card-store.ts';
import { RuleSeverities } from './rule-severities.ts';

/** Only what the host can do and the core must not: files and the event loop. */
export interface Runtime {
  /** The text of a file, undefined when there is none. Never rejects. */
  readText(uri: string): Promise<string | undefined>;
  /** Lets waiting messages in. */
  yieldToMessages(): Promise<void>;
  /** Lets some time pass. */
  rest(milliseconds: number): Promise<void>;
}

export class Session {
  /** Settled when the card that the settings name has been looked for once: an answer before that would be for another machine. */
  readonly cardKnown: Promise<void>;
  markCardKnown: () => void = () => undefined;
  readonly cards = new CardStore();
  readonly severities = new RuleSeverities();
  /** The editor's own JSON support marks broken JSON in cards. */
  clientMarksBrokenJson = false;
  /** The client opens lists of G and M words on demand, never by itself. */
  clientListsWordsOnDemand = false;
  /** Folding ranges that the client takes; it drops what is beyond. */
  mostFoldingRanges = Infinity;

  constructor(
    readonly documents: TextDocuments<ProgramDocument>,
    readonly runtime: Runtime,
  ) {
    this.cardKnown = new Promise((resolve) => {
      this.markCardKnown = resolve;
    });
  }

  document(uri: string): ProgramDocument | undefined {
    return this.documents.get(uri);
  }

  /** The program of an open document; undefined for machine cards and unknown documents. */
  program(uri: string): Program | undefined {
    const document = this.document(uri);
    return document && !isMachineCard(uri) ? document.program(this.cards.current.dialect) : undefined;
  }
}

export function isMachineCard(uri: string): boolean {
  return /\.machine\.json$/i.test(uri);
}
