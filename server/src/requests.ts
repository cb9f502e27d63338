/**
 * The custom requests between client and server. Types only: the client imports
 * this file and nothing else of the server, and knows no process.
 */

/** `blockwright/processes`: what can be inserted. No parameters. */
export interface ProcessDescription {
  id: string;
  title: string;
  summary: string;
}

/** Where a block shall go. */
export interface BlockPlace {
  uri: string;
  line: number;
  character: number;
}

/** `blockwright/place`: whether a block can go in at a place. */
export interface PlaceAnswer {
  /** Why none can, in one sentence. */
  refusal?: string;
}

/** Values by parameter name, as typed. A parameter that is left out has its default or is computed. */
export type TypedValues = Record<string, string>;

/** `blockwright/sheet`: everything that the parameter sheet shows for the values typed so far. */
export interface SheetParameters {
  process: string;
  place: BlockPlace;
  values: TypedValues;
}

export interface SheetRow {
  name: string;
  label: string;
  help: string;
  unit: string;
  /** The range or the choices in words. */
  allowed: string;
  /** As typed, or empty. */
  value: string;
  /** What counts where nothing is typed: the default, or how the value is found. */
  standard: string;
  required: boolean;
  /** Present for a choice: the sheet offers these. */
  choices?: string[];
  /** What is wrong with this row, if anything. */
  problem?: string;
  warning?: string;
  /** Worth knowing, and neither wrong nor risky. */
  remark?: string;
  /** What is usual for this row, whatever stands in it. */
  hint?: string;
}

export interface SheetFigure {
  id: string;
  name: string;
  text: string;
  working: string;
}

export interface Sheet {
  title: string;
  rows: SheetRow[];
  figures: SheetFigure[];
  /** Problems that belong to no row, such as holes of the machine card. */
  notices: { severity: 'error' | 'warning' | 'information'; message: string; cardKey?: string }[];
  /** No row is wrong: a block can be made (it may have holes). */
  ready: boolean;
}

/** `blockwright/block`: the text to insert, made for this version of the document. */
export interface BlockAnswer {
  version: number;
  line: number;
  character: number;
  /** Empty when the block cannot be made; the problems say why. */
  text: string;
  /** The subprogram that the block calls and where it goes, in the document as it is before the block is in it; both make one edit. */
  subprogram?: { line: number; character: number; text: string };
  problems: string[];
}

/** `blockwright/card`: the machine card in use. */
export interface CardAnswer {
  name: string;
  /** Undefined for the built-in card. */
  uri?: string;
  /** What is wrong with the card that the settings name; the last good one is in use. */
  fault?: string;
}

/** `blockwright/cardChanged` (server to client): the answer of `blockwright/card`, unasked. */
export type CardChanged = CardAnswer;

/** `blockwright/readText` (server to client): a file's text, for a server that cannot read files itself. Null when there is none. */
export interface ReadTextParameters {
  uri: string;
}

/** What a client says of itself at the start. */
export interface InitializationOptions {
  /** The path of the machine card, for clients without settings. */
  machineCard?: string;
  /** The client's own JSON support marks broken JSON; the server then leaves that to it. */
  marksBrokenJson?: boolean;
  /** The client shows lists of G and M words (completion items of the kind Keyword) only when the user asks for them, never while he types. */
  listsWordsOnDemand?: boolean;
}

/** `blockwright/note`: the parameters of the block at a place; null where there is none. */
export interface NoteAnswer {
  process: string;
  title: string;
  values: TypedValues;
  /** The line of the note's head. */
  line: number;
}

/** `blockwright/remake`: the block of a note made anew, from its own parameters or from these values. */
export interface RemakeParameters {
  uri: string;
  line: number;
  values?: TypedValues;
}

export interface RemakeAnswer {
  version: number;
  /** The lines that the text replaces, the last one not included. */
  fromLine: number;
  toLine: number;
  /** Empty when the block cannot be made; the problems say why. */
  text: string;
  /** The lines of the subprogram that the block calls, in the document as it is now, and what replaces them; both make one edit. */
  subprogram?: { from: { line: number; character: number }; to: { line: number; character: number }; text: string };
  /** What the user had written into the block and the new one does not hold, in words. */
  dropped: string[];
  problems: string[];
}

/** `blockwright/prove`: cuts the blocks of a program virtually. Long: it reports its progress and can be cancelled. */
export interface ProveParameters {
  uri: string;
}

export interface ProveAnswer {
  version: number;
  /** The report in plain text. */
  text: string;
  findings: { line: number; severity: 'error' | 'warning' | 'information'; rule: string; message: string }[];
}

/** `blockwright/proveProgress` (server to client): the share of the work that is done, 0 to 1. */
export interface ProveProgress {
  uri: string;
  share: number;
}
