/**
 * What a hover says, as plain data: the word's meaning, the figures that it
 * governs, the modes around it. One renderer for each surface makes text of it;
 * nothing here is Markdown.
 */
import type { MachineCard } from '../machine/card.ts';
import { hole } from '../machine/template.ts';
import { meaningByCard } from '../machine/word-meaning.ts';
import type { Dialect, Item, Meaning, ModalState, Program } from '../program/index.ts';
import { commentMeaning, meaningOf } from '../program/index.ts';
import type { ProcessNote, NoteEntry } from '../process/note.ts';
import { noteOwning } from '../process/note-of-line.ts';
import { evaluateNote, type EvaluatedNote } from '../process/program-notes.ts';
import type { Problem } from '../process/process.ts';
import { workOfTool } from '../process/recognition.ts';
import { wordFigures } from '../process/word-figures.ts';
import type { Quantity } from '../trade/quantity.ts';
import { aboutField } from './field-text.ts';

export interface Explanation {
  /** As written in the program. */
  word: string;
  start: number;
  end: number;
  /** The name of what the word is, in a few words. */
  title: string;
  /** One or two sentences. */
  meaning: string;
  source: string;
  /** Which process the word belongs to, for example Hobbing. */
  process?: string;
  /** The figures, those that the word governs first. */
  quantities: Quantity[];
  /** How many of them the word governs. */
  governed: number;
  /** Modes and places in force, label and value. */
  context: { label: string; value: string }[];
  problems: Problem[];
}

/** Everything a hover needs beside the program. */
export interface ExplainSetting {
  card: MachineCard;
  dialect: Dialect;
}

/** Explains what stands at a character of a line; undefined on white space. */
export function explain(program: Program, line: number, character: number, setting: ExplainSetting): Explanation | undefined {
  const item = program.itemAt(line, character);
  if (!item) return undefined;
  const note = noteOwning(program, line);
  const evaluated = note && evaluateNote(program, note, setting.card);
  if (item.kind === 'comment') return explainComment(item, line, character, evaluated);
  return explainWord(program, line, item, evaluated, setting);
}

function explainComment(item: Item & { kind: 'comment' }, line: number, character: number, evaluated: EvaluatedNote | undefined): Explanation {
  const { title, detail, source } = commentMeaning(item);
  const plain: Explanation = {
    word: item.style === 'semicolon' ? `;${item.text}` : `(${item.text}${item.closed ? ')' : ''}`,
    start: item.start, end: item.end, title, meaning: detail, source,
    quantities: [], governed: 0, context: [], problems: [],
  };
  if (!evaluated) return plain;
  const { note } = evaluated;
  const entry = note.entries.find(({ span }) => span.line === line && span.start <= character && character <= span.end);
  if (entry) return explainEntry(entry, evaluated);
  const onKeyword = note.headLine === line && character >= note.keywordSpan.start && character <= note.keywordSpan.end;
  return onKeyword || line <= note.headEndLine || line === note.endLine ? { ...plain, ...explainNote(note, evaluated, onKeyword) } : plain;
}

function explainNote(note: ProcessNote, { process, evaluation }: EvaluatedNote, onKeyword: boolean): Partial<Explanation> {
  return {
    ...(onKeyword ? { word: note.keyword, start: note.keywordSpan.start, end: note.keywordSpan.end } : {}),
    title: `${process.title} note`,
    meaning: `${process.summary} The block below was made from these parameters.`,
    source: 'process note',
    process: process.title,
    ...governedFigures(evaluation.quantities, process.governs[note.keyword] ?? []),
    problems: evaluation.problems,
  };
}

function explainEntry(entry: NoteEntry, { process, setting, evaluation }: EvaluatedNote): Explanation {
  const field = process.fields[entry.name];
  const unknown = `${entry.name} is not a parameter of ${process.title.toLowerCase()}.`;
  return {
    word: `${entry.name}=${entry.value}`,
    start: entry.span.start,
    end: entry.span.end,
    title: field?.label ?? 'Unknown parameter',
    meaning: field ? aboutField(field, setting.units) : unknown,
    source: 'process note',
    process: process.title,
    ...governedFigures(evaluation.quantities, process.governs[entry.name] ?? []),
    context: [],
    problems: evaluation.problems.filter((problem) => problem.parameter === entry.name),
  };
}

/** Puts the governed figures first, in the order in which the process names them. */
function governedFigures(quantities: readonly Quantity[], governed: readonly string[]): Pick<Explanation, 'quantities' | 'governed'> {
  const first = governed.map((id) => quantities.find((each) => each.id === id)).filter((each) => each !== undefined);
  return { quantities: [...first, ...quantities.filter((each) => !first.includes(each))], governed: first.length };
}

function explainWord(program: Program, line: number, item: Exclude<Item, { kind: 'comment' }>, evaluated: EvaluatedNote | undefined, setting: ExplainSetting): Explanation {
  const { title, detail, source } = meaningOnLine(program, line, item, setting.dialect);
  const role = evaluated && evaluated.note.headEndLine < line ? roleOf(program, line, item) : undefined;
  const figures = role && evaluated ? governedFigures(evaluated.evaluation.quantities, governedBy(role, evaluated.process.governs, program, line)) : undefined;
  const own = figures && figures.quantities.length > 0 ? figures : ownFigures(program, line, item, setting);
  return {
    word: item.text,
    start: item.start,
    end: item.end,
    title: item.kind === 'hole' ? `Hole: ${item.name}` : title,
    meaning: item.kind === 'hole' ? `${hole(item.name)} stands where the machine card gives no word. A control refuses it. Fill in the card, then make the block anew.` : detail,
    source,
    ...(figures && evaluated ? { process: evaluated.process.title } : {}),
    ...own,
    context: [...contextOf(program.stateAfter(line)), ...workOfToolWord(program, line, item, setting)],
    problems: [],
  };
}

/** Lines behind a tool change that a hover looks through: some milliseconds of work. */
const mostLinesOfWork = 2000;
const mostWorksShown = 4;

/** What the moves behind a word that changes the tool look like. */
function workOfToolWord(program: Program, line: number, item: Item, { card, dialect }: ExplainSetting): Explanation['context'] {
  const changes = item.kind === 'word' && ((item.letter === 'T' && dialect.toolChange === 'T') || (item.letter === 'M' && item.value === 6));
  const work = changes ? (workOfTool(program, card, line, mostLinesOfWork) ?? []) : [];
  if (work.length === 0) return [];
  const shown = work.slice(0, mostWorksShown).map(({ kind, fromLine, toLine }) => `${kind}, lines ${fromLine + 1} to ${toLine}`);
  return [{ label: 'looks like', value: [...shown, ...(work.length > mostWorksShown ? [`${work.length - mostWorksShown} more`] : [])].join('; ') }];
}

/**
 * What the card's list says of a word comes first, then its templates, then the
 * open definitions. Modes that the line itself sets count for its other words.
 */
function meaningOnLine(program: Program, line: number, item: Item, dialect: Dialect): Meaning {
  const open = meaningOf(item, program.stateAfter(line), dialect);
  return open.source === 'machine card' ? open : (meaningByCard(item, program.events(line), dialect) ?? open);
}

function ownFigures(program: Program, line: number, item: Exclude<Item, { kind: 'comment' }>, { dialect }: ExplainSetting): Pick<Explanation, 'quantities' | 'governed'> {
  const quantities = wordFigures(program, line, item, dialect);
  return { quantities, governed: quantities.length };
}

/** What a word does for a process: S, F and T by their letter, any word of a sync line by the machine card's template. */
function roleOf(program: Program, line: number, item: Item): string | undefined {
  const sync = program.events(line).some((event) => /^(syncOn|syncOff|subSyncOn|subSyncOff|spindleSyncOn|spindleSyncOff)$/.test(event.name) && event.start <= item.start && item.end <= event.end);
  if (sync) return 'sync';
  return item.kind === 'word' && /^[SFT]$/.test(item.letter) ? item.letter : undefined;
}

/** A process may have another feed for moves along X alone. */
function governedBy(role: string, governs: Readonly<Record<string, readonly string[]>>, program: Program, line: number): readonly string[] {
  const alongX = role === 'F' && axesOnLine(program, line) === 'X' ? governs['F along X'] : undefined;
  return alongX ?? governs[role] ?? [];
}

function axesOnLine(program: Program, line: number): string {
  return program.items(line).flatMap((item) => (item.kind === 'word' && /^[XYZABCUVWH]$/.test(item.letter) ? [item.letter] : [])).join('');
}

const feedUnits = { perMinute: 'a minute', perRevolution: 'a revolution', inverseTime: 'inverse time' } as const;

function contextOf(state: ModalState): Explanation['context'] {
  const rows: [string, string | undefined][] = [
    ['units', state.units === 'mm' ? 'mm' : 'inch'],
    ['plane', { 17: 'XY (G17)', 18: 'ZX (G18)', 19: 'YZ (G19)' }[state.plane]],
    ['dimensions', state.distance],
    ['tool', toolInWords(state)],
    ['feed', state.feed === undefined ? undefined : `F${state.feed} ${feedUnits[state.feedMode]}`],
    ['speed', speedInWords(state)],
    ['sub-spindle', subSpindleInWords(state)],
    ['both spindles', state.coupled && `coupled, ${rpmInWords(state.coupled.rpm)}`],
    ['driven tool', drivenInWords(state)],
    ['synchronous', state.sync ? `since line ${state.sync.line + 1}` : undefined],
    ['position', positionInWords(state)],
  ];
  return rows.filter((row): row is [string, string] => row[1] !== undefined).map(([label, value]) => ({ label, value }));
}

function speedInWords(state: ModalState): string | undefined {
  if (state.speed === undefined) return undefined;
  const unit = state.speedMode === 'css' ? (state.units === 'mm' ? 'm/min' : 'ft/min') : 'rev/min';
  const limit = state.speedLimit === undefined ? '' : `, at most ${state.speedLimit} rev/min`;
  return `S${state.speed} ${unit}${limit}, spindle ${state.spindle}`;
}

function toolInWords({ tool, toolOffset }: ModalState): string | undefined {
  if (tool === undefined) return undefined;
  return toolOffset === undefined ? `T${tool}` : `${tool}, offset ${toolOffset}`;
}

function subSpindleInWords({ subSpindle }: ModalState): string | undefined {
  if (!subSpindle) return undefined;
  const turns = subSpindle.direction === 'stopped' ? [] : [rpmInWords(subSpindle.rpm), subSpindle.direction];
  return [...turns, ...(subSpindle.axis ? ['under position control'] : [])].join(', ');
}

function drivenInWords({ driven }: ModalState): string | undefined {
  return driven && `${rpmInWords(driven.rpm)}, ${driven.direction}`;
}

function rpmInWords(rpm: number | undefined): string {
  return rpm === undefined ? 'speed not known' : `${rpm} rev/min`;
}

function positionInWords({ position }: ModalState): string | undefined {
  const known = Object.entries(position).filter(([, value]) => value !== undefined);
  return known.length === 0 ? undefined : known.map(([axis, value]) => `${axis}${Number((value ?? 0).toFixed(4))}`).join(' ');
}
