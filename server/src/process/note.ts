/**
 * The process note: parameters of a process, kept in a comment of the program.
 *
 *   (HOBBING: MODULE=2 TEETH=32 FACE=20)
 *   (+ HOB-DIA=63 SPEED=60 FEED=1.5)
 *   ...
 *   (END HOBBING)
 *
 * This module reads and writes the form of a note. It does not know which names
 * a process has or what their values mean.
 */
import type { RawValues } from './fields.ts';

/** A stretch of one line. `end` is exclusive. */
export interface Span {
  line: number;
  start: number;
  end: number;
}

export interface NoteEntry {
  name: string;
  value: string;
  span: Span;
  nameSpan: Span;
  valueSpan: Span;
}

export interface ProcessNote {
  /** Upper case, as in HOBBING. */
  keyword: string;
  keywordSpan: Span;
  entries: NoteEntry[];
  /** Text inside the note that is not NAME=VALUE. */
  faults: { span: Span; message: string }[];
  headLine: number;
  /** The last line of the parameters. */
  headEndLine: number;
  /** The line of the closing comment; undefined when it is missing. */
  endLine: number | undefined;
  /** The last line that belongs to the note: its end, or the line before the next note or the end of the program. */
  lastLine: number;
}

/** A comment of the program: its text without the comment marks, and where that text starts. */
export interface NoteComment {
  line: number;
  start: number;
  text: string;
}

const head = /^(\s*)([A-Za-z][A-Za-z-]*)\s*:/;
const closing = /^\s*END\s+([A-Za-z][A-Za-z-]*)\s*$/i;
/**
 * A value that turns out to be the next name (TEETH= FACE=20) is none. The value
 * is taken whole by a look-ahead and a back reference: tried shorter and shorter,
 * a long one would cost the square of its length.
 */
const entry = /([A-Za-z][A-Za-z0-9-]*)\s*=(?:\s*("[^"]*"?|(?=([^\s="]+))\3(?![^\s]*\s*=)))?/y;

/**
 * Finds all notes with one of the keywords. `comments` are the program's
 * comments in order; lines without a comment may be left out.
 */
export function readNotes(comments: Iterable<NoteComment>, keywords: readonly string[], lineCount: number): ProcessNote[] {
  const notes: ProcessNote[] = [];
  for (const comment of comments) {
    const open = notes.at(-1);
    if (open && continueNote(open, comment)) continue;
    const started = startNote(comment, keywords);
    if (started) notes.push(started);
    else if (open) closeNote(open, comment);
  }
  notes.forEach((note, index) => {
    note.lastLine = note.endLine ?? (notes[index + 1]?.headLine ?? lineCount) - 1;
  });
  return notes;
}

function startNote(comment: NoteComment, keywords: readonly string[]): ProcessNote | undefined {
  const match = head.exec(comment.text);
  const keyword = match?.[2]?.toUpperCase() ?? '';
  if (!match || !keywords.includes(keyword)) return undefined;
  const { line } = comment;
  const start = comment.start + (match[1] ?? '').length;
  const note: ProcessNote = {
    keyword,
    keywordSpan: { line, start, end: start + keyword.length },
    entries: [],
    faults: [],
    headLine: line,
    headEndLine: line,
    endLine: undefined,
    lastLine: line,
  };
  readEntries(note, comment, match[0].length);
  return note;
}

/** A line that opens with + right behind the head belongs to the note. */
function continueNote(note: ProcessNote, comment: NoteComment): boolean {
  const plus = /^\s*\+/.exec(comment.text);
  const follows = comment.line === note.headEndLine + 1 || comment.line === note.headEndLine;
  if (!plus || !follows || note.endLine !== undefined) return false;
  note.headEndLine = comment.line;
  readEntries(note, comment, plus[0].length);
  return true;
}

function closeNote(note: ProcessNote, comment: NoteComment): void {
  const name = closing.exec(comment.text)?.[1]?.toUpperCase();
  if (name === note.keyword && note.endLine === undefined) note.endLine = comment.line;
}

function readEntries(note: ProcessNote, comment: NoteComment, from: number): void {
  let index = from;
  while (index < comment.text.length) {
    entry.lastIndex = index;
    const match = entry.exec(comment.text);
    if (match) addEntry(note, comment, match);
    index = match ? entry.lastIndex : skipFault(note, comment, index);
  }
}

function addEntry(note: ProcessNote, { line, start }: NoteComment, match: RegExpExecArray): void {
  const at = start + match.index;
  const name = match[1] ?? '';
  const value = match[2] ?? '';
  const end = at + match[0].length;
  const span: Span = { line, start: at, end };
  const nameSpan: Span = { line, start: at, end: at + name.length };
  const valueSpan: Span = { line, start: end - value.length, end };
  note.entries.push({ name: name.toUpperCase(), value: unquote(value), span, nameSpan, valueSpan });
}

function unquote(value: string): string {
  return value.startsWith('"') ? value.replace(/^"|"$/g, '') : value;
}

/** Steps over white space or over one word that is no NAME=VALUE, and notes the latter. */
function skipFault(note: ProcessNote, { line, start, text }: NoteComment, index: number): number {
  const rest = text.slice(index);
  const space = /^\s+/.exec(rest)?.[0].length ?? 0;
  if (space > 0) return index + space;
  const word = /^\S+/.exec(rest)?.[0] ?? ' ';
  const span: Span = { line, start: start + index, end: start + index + word.length };
  note.faults.push({ span, message: `"${word}" is not a parameter; a note holds NAME=VALUE, such as TEETH=24.` });
  return index + word.length;
}

/** The note's values by name. A name that is given twice counts as first given; the checks report the second. */
export function noteValues(note: ProcessNote): RawValues {
  const values: Record<string, string> = {};
  for (const { name, value } of note.entries) values[name] ??= value;
  return values;
}

/**
 * The texts of the comments that hold a note's parameters, each short enough for
 * the line limit. The caller puts them into the program's comment style.
 */
export function writeNoteHead(keyword: string, values: RawValues, roomPerComment: number): string[] {
  const lines: string[] = [];
  let current = `${keyword}:`;
  for (const [name, value] of Object.entries(values)) {
    const word = `${name}=${/[\s=]/.test(value) ? `"${value}"` : value}`;
    if (current.length + 1 + word.length > roomPerComment && /=/.test(current)) {
      lines.push(current);
      current = `+ ${word}`;
    } else {
      current += ` ${word}`;
    }
  }
  return [...lines, current];
}

export function writeNoteEnd(keyword: string): string {
  return `END ${keyword}`;
}
