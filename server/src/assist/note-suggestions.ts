/**
 * What a process note may hold at the cursor: names of processes, parameters
 * that are still missing, values of a choice, and the marks that continue and
 * close a note. All of it comes from the field lists of the processes.
 */
import type { MachineCard } from '../machine/card.ts';
import type { Program } from '../program/index.ts';
import { defaultText, unitOf, type Field } from '../process/fields.ts';
import { noteValues, writeNoteEnd, type ProcessNote, type Span } from '../process/note.ts';
import type { Process, Setting } from '../process/process.ts';
import { endOfNote, evaluateNote, noteAt } from '../process/program-notes.ts';
import { processes } from '../process/processes.ts';
import { aboutField } from './field-text.ts';
import type { Suggestion } from './suggestion.ts';

/** The cursor in the inside of a comment, which reaches from `start` to `end` of its line. */
export interface CommentPlace {
  line: number;
  character: number;
  start: number;
  end: number;
  /** Nothing but a sequence number stands before the comment. */
  opensLine: boolean;
}

/** The place with its texts: what is before and behind the cursor in the comment. */
interface Typing extends CommentPlace {
  before: string;
  behind: string;
}

export function noteSuggestions(program: Program, place: CommentPlace, card: MachineCard): Suggestion[] {
  const text = program.lineText(place.line);
  const typing: Typing = { ...place, before: text.slice(place.start, place.character), behind: text.slice(place.character, place.end) };
  const note = noteAt(program, place.line);
  if (note && isAmongParameters(note, typing)) return parameterSuggestions(program, note, typing, card);
  if (!place.opensLine) return [];
  return note && note.headLine < place.line ? marksInNote(program, note, typing) : processNames(typing);
}

/** Behind the colon of the head, or behind the plus of a line that continues it. */
function isAmongParameters(note: ProcessNote, { line, before }: Typing): boolean {
  return note.headLine <= line && line <= note.headEndLine && /^\s*(?:\+|[A-Za-z][A-Za-z-]*\s*:)/.test(before);
}

function parameterSuggestions(program: Program, note: ProcessNote, typing: Typing, card: MachineCard): Suggestion[] {
  const evaluated = evaluateNote(program, note, card);
  if (!evaluated || isInQuotes(typing.before)) return [];
  const { process, setting } = evaluated;
  const value = /([A-Za-z][A-Za-z0-9-]*)\s*=\s*([^\s="]*)$/.exec(typing.before);
  if (value) return valueSuggestions(note, process, [value[1] ?? '', value[2] ?? ''], typing, setting);
  return nameSuggestions(note, process, typing, setting, isLower(program.lineText(note.headLine).slice(note.keywordSpan.start, note.keywordSpan.end)));
}

function isInQuotes(before: string): boolean {
  return (before.match(/"/g)?.length ?? 0) % 2 === 1;
}

/** Parameters that the note does not have, those first that it cannot do without. */
function nameSuggestions(note: ProcessNote, process: Process, typing: Typing, setting: Setting, noteIsLower: boolean): Suggestion[] {
  const place = placeOfName(typing);
  const better = process.betterDefaults(noteValues(note), setting);
  const cased = inCaseOf(place.typed === '' ? noteIsLower : isLower(place.typed));
  const all = missingFields(note, process, { line: typing.line, ...place }).map(([name, field]) => {
    const standard = better[name] ?? defaultText(field, setting.units);
    const suggestion: Suggestion = {
      kind: 'parameter', text: `${place.gap}${cased(name)}${place.equals}`, start: place.start, end: place.end,
      title: titleOf(field, setting), about: aboutField(field, setting.units, standard), opensValues: field.kind === 'choice' && place.equals !== '',
    };
    return { suggestion, isNeeded: standard === undefined && !field.optional };
  });
  return [...all.filter(({ isNeeded }) => isNeeded), ...all.filter(({ isNeeded }) => !isNeeded)].map(({ suggestion }) => suggestion);
}

/** The name around the cursor, and what must be written with it. */
function placeOfName({ character, before, behind }: Typing): { typed: string; start: number; end: number; gap: string; equals: string } {
  const typed = /[A-Za-z0-9-]*$/.exec(before)?.[0] ?? '';
  const start = character - typed.length;
  const end = character + (/^[A-Za-z0-9-]*/.exec(behind)?.[0].length ?? 0);
  const gap = /\S$/.test(before.slice(0, before.length - typed.length)) ? ' ' : '';
  return { typed, start, end, gap, equals: /^[A-Za-z0-9-]*\s*=/.test(behind) ? '' : '=' };
}

/** The name at the cursor itself counts as missing, so that it can be replaced. */
function missingFields({ entries }: ProcessNote, process: Process, { line, start, end }: Span): [string, Field][] {
  const given = entries.filter(({ nameSpan }) => nameSpan.line !== line || nameSpan.end < start || nameSpan.start > end).map(({ name }) => name);
  return Object.entries(process.fields).filter(([name, field]) => !given.includes(name) && !given.includes(insteadOf(field) ?? ''));
}

/** The parameter that another one would stand for, as DP for MODULE: both together are an error. */
function insteadOf({ absent }: Field): string | undefined {
  return /^use ([A-Z-]+)$/.exec(absent ?? '')?.[1];
}

function titleOf(field: Field, { units }: Setting): string {
  const unit = unitOf(field, units);
  return unit === '' ? field.label : `${field.label}, ${unit}`;
}

/** The values of a choice; of another parameter its default, as long as nothing is typed. */
function valueSuggestions(note: ProcessNote, process: Process, [typedName, typed]: readonly [string, string], typing: Typing, setting: Setting): Suggestion[] {
  const name = typedName.toUpperCase();
  const field = Object.hasOwn(process.fields, name) ? process.fields[name] : undefined;
  if (!field) return [];
  const standard = process.betterDefaults(noteValues(note), setting)[name] ?? defaultText(field, setting.units);
  const values = field.kind === 'choice' ? field.choices : typed === '' && standard !== undefined ? [standard] : [];
  const cased = inCaseOf(field.kind === 'choice' && isLower(typed === '' ? typedName : typed));
  const place = placeOfValue(typing, typed);
  return values.map((value) => ({
    kind: 'value', ...place, text: cased(value) + place.text, title: value === standard ? `${titleOf(field, setting)} (default)` : titleOf(field, setting), about: aboutField(field, setting.units, standard),
  }));
}

/** The value around the cursor. A name that follows without a gap is none of it, and gets one. */
function placeOfValue({ character, behind }: Typing, typed: string): { start: number; end: number; text: string } {
  const isName = /^[A-Za-z0-9-]+\s*=/.test(behind);
  const length = isName ? 0 : (/^[^\s="]*/.exec(behind)?.[0].length ?? 0);
  return { start: character - typed.length, end: character + length, text: isName ? ' ' : '' };
}

/** In the block of a note: the line that goes on with its parameters, and the one that closes it. */
function marksInNote(program: Program, note: ProcessNote, typing: Typing): Suggestion[] {
  const { line, before, behind, end } = typing;
  const written = before + behind;
  const start = typing.start + (/^\s*/.exec(before)?.[0].length ?? 0);
  const cased = inCaseOf(isLower(written.trim() === '' ? program.lineText(note.headLine) : written));
  const goesOn: Suggestion = { kind: 'mark', text: '+ ', start, end, title: 'More parameters', about: 'Goes on with the parameters of the note above.' };
  const closing: Suggestion = { kind: 'mark', text: cased(writeNoteEnd(note.keyword)), start, end, title: 'End of the block', about: `Closes the ${note.keyword} note: its block ends here.` };
  const isClosed = note.endLine === undefined && endOfNote(program, note) !== undefined;
  return [
    ...(line === note.headEndLine + 1 && written.trim() === '' ? [goesOn] : []),
    ...(!isClosed && isBeginningOfEnd(written) ? [closing] : []),
  ];
}

function isBeginningOfEnd(written: string): boolean {
  return /^\s*(?:E|EN|END(?:\s+[A-Z-]*)?)?\s*$/i.test(written);
}

/** At the beginning of a comment that holds nothing, a part of a name, or a note's head. */
function processNames({ character, before, behind }: Typing): Suggestion[] {
  const typed = /^\s*([A-Za-z-]*)$/.exec(before)?.[1];
  const rest = /^([A-Za-z-]*)\s*(:|$)/.exec(behind);
  if (typed === undefined || !rest) return [];
  const cased = inCaseOf(isLower(typed + (rest[1] ?? '')));
  return processes.map(({ keyword, title, summary }) => ({
    kind: 'process', text: `${cased(keyword)}${rest[2] === ':' ? '' : ': '}`, start: character - typed.length, end: character + (rest[1]?.length ?? 0),
    title, about: `${summary} The lightbulb inserts the whole block from a sheet.`,
  }));
}

/** Written in small letters as far as it is written. */
function isLower(text: string): boolean {
  return /[a-z]/.test(text) && !/[A-Z]/.test(text);
}

function inCaseOf(lower: boolean): (text: string) => string {
  return (text) => (lower ? text.toLowerCase() : text);
}
