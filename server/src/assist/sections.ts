/**
 * How a program is divided, as plain data: programs and subprograms, the work of
 * each tool, the blocks of process notes. Outline and folding share it.
 *
 * A section is found by the line that opens it. It knows nothing of times and
 * moves; those are in the list of operations.
 */
import { scanLine, type Item, type Landmark, type Program } from '../program/index.ts';
import { noteAt } from '../process/program-notes.ts';
import { processKeywords, processNamed } from '../process/processes.ts';

export interface Section {
  kind: 'program' | 'tool' | 'note';
  name: string;
  /** The comment that goes with it, or the first parameters of a note. May be empty. */
  detail: string;
  fromLine: number;
  /** The last line that belongs to it. */
  toLine: number;
  /** The characters of the first line that name it; `end` is exclusive. */
  start: number;
  end: number;
  children: Section[];
}

export interface Sections {
  roots: Section[];
  /** The line of the first section that was left out, where there are more than were asked for. */
  cutAtLine?: number;
}

/** Sections between two pauses: about a millisecond's worth. */
const sectionsInAStep = 100;

/**
 * The sections of a program, at most so many; what stands behind them is then not
 * looked at. Pauses again and again, so that whoever asks can let others in; the
 * program must not change meanwhile.
 */
export function* sectionsOf(program: Program, most: number): Generator<undefined, Sections> {
  const { landmarks, cutAtLine } = openingLandmarks(program, most);
  const builder = new SectionBuilder(program, noteEnds(landmarks));
  for (const [index, landmark] of landmarks.entries()) {
    if (index % sectionsInAStep === 0) yield;
    builder.take(landmark);
  }
  const roots = builder.finish((cutAtLine ?? program.lineCount) - 1);
  return cutAtLine === undefined ? { roots } : { roots, cutAtLine };
}

/** The lines on which notes end, by the lines on which they begin. A note that another one cuts off has none. */
function noteEnds(landmarks: readonly Landmark[]): ReadonlyMap<number, number> {
  const ends = new Map<number, number>();
  let start: Landmark | undefined;
  for (const landmark of landmarks) {
    if (landmark.kind === 'noteEnd' && landmark.name === start?.name) ends.set(start.line, landmark.line);
    if (landmark.kind === 'noteStart') start = landmark;
    else if (landmark.kind === 'noteEnd') start = undefined;
  }
  return ends;
}

function openingLandmarks(program: Program, most: number): { landmarks: Landmark[]; cutAtLine?: number } {
  const landmarks: Landmark[] = [];
  let openings = 0;
  for (const landmark of program.landmarks()) {
    if (!isOfSections(landmark)) continue;
    if (landmark.kind !== 'noteEnd') openings += 1;
    if (openings > most) return { landmarks, cutAtLine: landmark.line };
    landmarks.push(landmark);
  }
  return { landmarks };
}

function isOfSections({ kind, name }: Landmark): boolean {
  if (kind === 'noteStart' || kind === 'noteEnd') return processKeywords.includes(name);
  return kind !== 'sync';
}

/** Programs hold tools, tools hold notes; a section ends where the next one of its rank begins. */
class SectionBuilder {
  readonly #roots: Section[] = [];
  /** The program and the tool that are open, in this order. */
  #open: Section[] = [];
  #note: Section | undefined;

  constructor(
    private readonly program: Program,
    private readonly ends: ReadonlyMap<number, number>,
  ) {}

  take(landmark: Landmark): void {
    if (landmark.kind === 'programNumber') this.#begin(programSection(this.program, landmark.line), 0);
    else if (landmark.kind === 'tool' && !this.#isInNote(landmark.line)) this.#begin(toolSection(this.program, landmark.line), 1);
    else if (landmark.kind === 'noteStart') this.#add(noteSection(this.program, landmark, this.ends.get(landmark.line)));
  }

  finish(lastLine: number): Section[] {
    this.#close(0, lastLine);
    return this.#roots;
  }

  #isInNote(line: number): boolean {
    return this.#note !== undefined && line <= this.#note.toLine;
  }

  /** `rank` is how many sections may stay open around it. */
  #begin(section: Section | undefined, rank: number): void {
    if (!section) return;
    const lastLine = firstLineOf(this.program, section) - 1;
    if (this.#note && this.#isInNote(section.fromLine)) this.#note.toLine = Math.max(this.#note.fromLine, lastLine);
    if (rank === 0) this.#close(0, lastLine);
    else this.#closeTool(lastLine);
    this.#add(section);
    this.#open.push(section);
  }

  #add(section: Section | undefined): void {
    if (!section) return;
    (this.#open.at(-1)?.children ?? this.#roots).push(section);
    if (section.kind === 'note') this.#note = section;
  }

  #closeTool(lastLine: number): void {
    const first = this.#open.findIndex(({ kind }) => kind === 'tool');
    if (first >= 0) this.#close(first, lastLine);
  }

  #close(from: number, lastLine: number): void {
    for (const section of this.#open.splice(from)) section.toLine = lastWrittenLine(this.program, section.fromLine, lastLine);
  }
}

function programSection(program: Program, line: number): Section | undefined {
  const item = itemsOn(program, line).find(({ kind }) => kind === 'programNumber');
  return item?.kind === 'programNumber' ? section('program', line, item.text, item, commentOn(program, line) ?? '') : undefined;
}

/** What names a section stands at the beginning of its line; a line has no bounds. */
const readOfALine = 1000;

function itemsOn(program: Program, line: number): Item[] {
  return scanLine(program.lineText(line).slice(0, readOfALine));
}

/** A line that only calls a subprogram with a tool change has no T word of its own, and is no section. */
function toolSection(program: Program, line: number): Section | undefined {
  const item = itemsOn(program, line).find((each) => each.kind === 'word' && each.letter === 'T');
  return item?.kind === 'word' ? section('tool', line, item.text.replaceAll(/\s/g, '').toUpperCase(), item, toolComment(program, line)) : undefined;
}

/** The first parameters say which gear or slot it is; more would not fit into a line of an outline. */
const parametersShown = 4;

function noteSection(program: Program, { line, name }: Landmark, endLine: number | undefined): Section | undefined {
  const note = noteAt(program, line);
  const process = processNamed(name);
  if (!note || !process) return undefined;
  const detail = note.entries.slice(0, parametersShown).map((entry) => `${entry.name}=${entry.value}`).join(' ');
  return { ...section('note', line, process.title, note.keywordSpan, detail), toLine: endLine ?? note.headEndLine };
}

function section(kind: Section['kind'], line: number, name: string, { start, end }: { start: number; end: number }, detail: string): Section {
  return { kind, name, detail, fromLine: line, toLine: line, start, end, children: [] };
}

/** What the programmer wrote of a tool: on its line, on the line above, or on the line below. */
function toolComment(program: Program, line: number): string {
  return commentOn(program, line) ?? headingOn(program, line - 1) ?? headingOn(program, line + 1) ?? '';
}

function commentOn(program: Program, line: number): string | undefined {
  const comment = itemsOn(program, line).find(({ kind }) => kind === 'comment');
  return comment?.kind === 'comment' ? comment.text.trim() : undefined;
}

const endOfNote = /^END\s+\S+$/i;
const continuation = /^\+/;

/** The comment of a line that holds nothing else and is no part of a note. */
function headingOn(program: Program, line: number): string | undefined {
  if (line < 0 || line >= program.lineCount) return undefined;
  const items = itemsOn(program, line);
  const text = items.length === 1 ? commentOn(program, line) : undefined;
  if (text === undefined || endOfNote.test(text) || continuation.test(text)) return undefined;
  return processKeywords.some((keyword) => text.toUpperCase().startsWith(`${keyword}:`)) ? undefined : text;
}

/** A heading above a tool change belongs to the tool that it announces. */
function firstLineOf(program: Program, { kind, fromLine }: Section): number {
  const announced = kind === 'tool' && commentOn(program, fromLine) === undefined && headingOn(program, fromLine - 1) !== undefined;
  return announced ? fromLine - 1 : fromLine;
}

/** Blank lines at the end of a section are left outside, and so is a percent sign that closes the file. */
function lastWrittenLine(program: Program, fromLine: number, lastLine: number): number {
  let line = lastLine;
  while (line > fromLine && /^\s*%?\s*$/.test(program.lineText(line))) line -= 1;
  return Math.max(fromLine, line);
}
