/**
 * The items of one line as plain objects, for whoever shows or edits a program.
 *
 * Offsets are offsets in the line. Every character belongs to one item or is
 * white space. Knows the form of words only; what they mean is in `words.ts`.
 */
import { COLON, isWhite, OPEN_BRACKET } from './characters.ts';
import type { FixedFormat } from './dialect.ts';
import type { ParameterValues } from './expressions.ts';
import { LineReader } from './lines.ts';
import {
  ASSIGNMENT, CLOSED, EXPRESSION, HOLE, JUNK, PARENTHESIS_COMMENT, PERCENT, POINTED, PROGRAM_NUMBER,
  SEMICOLON_COMMENT, SEQUENCE, SKIP, type Tape, WORD,
} from './tape.ts';

interface Place {
  readonly start: number;
  readonly end: number;
  /** The source text of the whole item. */
  readonly text: string;
}

/** A computed value as it stands in the text: `[1+2]`, `#5`, `SIN[30]`. */
export interface Expression {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** Written in brackets, not as a bare parameter or function. */
  readonly bracketed: boolean;
}

export interface Word extends Place {
  readonly kind: 'word';
  /** Upper case. */
  readonly letter: string;
  readonly valueStart: number;
  /** Undefined when there is none, or when it depends on a parameter whose value is not known. */
  readonly value: number | undefined;
  /** Written with a decimal point. */
  readonly pointed: boolean;
  readonly expression?: Expression;
}

export interface Sequence extends Place {
  readonly kind: 'sequence';
  readonly value: number | undefined;
}

export interface Skip extends Place {
  readonly kind: 'skip';
  /** The digit after the slash, where there is one. */
  readonly level: number | undefined;
}

export interface Percent extends Place {
  readonly kind: 'percent';
  /** What follows the percent sign on its line. */
  readonly identifier: string;
}

export interface ProgramNumber extends Place {
  readonly kind: 'programNumber';
  readonly mark: 'O' | ':';
  readonly value: number | undefined;
}

export interface Comment {
  readonly kind: 'comment';
  readonly style: 'parenthesis' | 'semicolon';
  /** What is inside, without the marks. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly closed: boolean;
}

export interface Assignment extends Place {
  readonly kind: 'assignment';
  /** The parameter that is set; undefined when it is not known. */
  readonly parameter: number | undefined;
  readonly valueStart: number;
  readonly value: number | undefined;
}

export interface Hole extends Place {
  readonly kind: 'hole';
  readonly name: string;
}

export interface Junk extends Place {
  readonly kind: 'junk';
}

export type Item = Word | Sequence | Skip | Percent | ProgramNumber | Comment | Assignment | Hole | Junk;

const noValues: ParameterValues = { get: () => NaN };

/** Readers are made once for each fixed format: their tapes are used again for every line. */
let values = noValues;
const lentValues: ParameterValues = { get: (index) => values.get(index) };
const plainReader = new LineReader(lentValues);
const formatReaders = new WeakMap<FixedFormat, LineReader>();

function readerOf(fixedFormat: FixedFormat | undefined): LineReader {
  if (fixedFormat === undefined) return plainReader;
  const known = formatReaders.get(fixedFormat) ?? new LineReader(lentValues, fixedFormat);
  formatReaders.set(fixedFormat, known);
  return known;
}

/**
 * The items of `text`, which must be one line without its end. Values of
 * parameters come from `parameters`; without them they are not known. With
 * `fixedFormat`, numbers without a point are read as it says.
 */
export function scanLine(text: string, parameters: ParameterValues = noValues, fixedFormat?: FixedFormat): Item[] {
  return itemsOfTape(tapeOf(text, parameters, fixedFormat), text);
}

/** The item at a character of such a line, or else the one that ends there; undefined among white space. Makes no other item. */
export function scanItemAt(text: string, character: number, parameters: ParameterValues = noValues, fixedFormat?: FixedFormat): Item | undefined {
  const tape = tapeOf(text, parameters, fixedFormat);
  let row = 0;
  while (row < tape.count && tape.end[row]! <= character) row++;
  if (row < tape.count && tape.start[row]! <= character) return itemOfRow(tape, row, text);
  return row > 0 && tape.end[row - 1] === character ? itemOfRow(tape, row - 1, text) : undefined;
}

/** Such a line on a tape, which is valid until the next line is read. */
export function tapeOf(text: string, parameters: ParameterValues, fixedFormat: FixedFormat | undefined): Tape {
  values = parameters;
  const tape = readerOf(fixedFormat).read(text, 0, text.length);
  values = noValues;
  return tape;
}

function itemsOfTape(tape: Tape, text: string): Item[] {
  const items: Item[] = [];
  for (let row = 0; row < tape.count; row++) items.push(itemOfRow(tape, row, text));
  return items;
}

function itemOfRow(tape: Tape, row: number, source: string): Item {
  const start = tape.start[row]!;
  const end = tape.end[row]!;
  const text = source.slice(start, end);
  const place: Place = { start, end, text };
  switch (tape.kind(row)) {
    case WORD: return wordOfRow(tape, row, place);
    case SEQUENCE: return { kind: 'sequence', ...place, value: known(tape.value[row]!) };
    case SKIP: return { kind: 'skip', ...place, level: known(tape.value[row]!) };
    case PERCENT: return { kind: 'percent', ...place, identifier: text.slice(1).trim() };
    case PROGRAM_NUMBER: return { kind: 'programNumber', ...place, mark: tape.letter(row) === COLON ? ':' : 'O', value: known(tape.value[row]!) };
    case PARENTHESIS_COMMENT: return parenthesisComment(place, (tape.flags(row) & CLOSED) !== 0);
    case SEMICOLON_COMMENT: return { kind: 'comment', style: 'semicolon', text: text.slice(1), start, end, closed: true };
    case ASSIGNMENT: return assignmentOfRow(tape, row, place);
    case HOLE: return { kind: 'hole', ...place, name: text.slice(1, -1) };
    case JUNK:
    default: return { kind: 'junk', ...place };
  }
}

function wordOfRow(tape: Tape, row: number, place: Place): Word {
  const flags = tape.flags(row);
  const valueStart = valueStartAfter(place, 1);
  const word: Word = {
    kind: 'word', ...place, letter: String.fromCharCode(tape.letter(row)), valueStart,
    value: known(tape.value[row]!), pointed: (flags & POINTED) !== 0,
  };
  if ((flags & EXPRESSION) === 0) return word;
  const text = place.text.slice(valueStart - place.start);
  return { ...word, expression: { start: valueStart, end: place.end, text, bracketed: text.charCodeAt(0) === OPEN_BRACKET } };
}

function assignmentOfRow(tape: Tape, row: number, place: Place): Assignment {
  return {
    kind: 'assignment', ...place, parameter: known(tape.index[row]!),
    valueStart: valueStartAfter(place, place.text.indexOf('=') + 1), value: known(tape.value[row]!),
  };
}

/** The first place after `offset` characters of the item that is not white space. */
function valueStartAfter({ start, text }: Place, offset: number): number {
  let at = offset;
  while (at < text.length && isWhite(text.charCodeAt(at))) at++;
  return start + at;
}

function parenthesisComment({ start, end, text }: Place, closed: boolean): Comment {
  return { kind: 'comment', style: 'parenthesis', text: text.slice(1, closed ? -1 : undefined), start, end, closed };
}

function known(value: number): number | undefined {
  return Number.isNaN(value) ? undefined : value;
}
