/**
 * Notes in a program: where they stand, whose lines they own, and what each
 * comes to on a machine. The program engine knows nothing of notes; this is
 * the bridge.
 */
import type { MachineCard } from '../machine/card.ts';
import { codeWord } from '../machine/template.ts';
import type { ModalState, Program } from '../program/index.ts';
import { noteValues, readNotes, type NoteComment, type ProcessNote, type Span } from './note.ts';
import { processKeywords, processNamed } from './processes.ts';
import type { Composition, Evaluation, ModesInForce, Process, Setting } from './process.ts';

interface PlacedNote {
  note: ProcessNote;
  process: Process;
  setting: Setting;
}

export interface EvaluatedNote extends PlacedNote {
  evaluation: Evaluation;
}

export interface ComposedNote extends PlacedNote {
  composition: Composition;
}

/** All notes of a program in order. */
export function notesIn(program: Program, toLine = program.lineCount): ProcessNote[] {
  const marks = program.noteMarks(0, toLine).filter(({ name }) => processKeywords.includes(name));
  return marks.flatMap((mark, index) => {
    if (mark.kind !== 'noteStart') return [];
    const next = marks[index + 1];
    const endLine = next?.kind === 'noteEnd' && next.name === mark.name ? next.line : undefined;
    const note = noteFrom(program, mark.line);
    return note ? [{ ...note, endLine, lastLine: endLine ?? (next?.line ?? program.lineCount) - 1 }] : [];
  });
}

/**
 * The note that owns a line: its parameters, its block or its end. Reads only
 * what stands before the line, so it costs the same at any place of a long
 * program; where the note ends is not looked up.
 */
export function noteAt(program: Program, line: number): ProcessNote | undefined {
  const mark = program.noteMarkBefore(line, processKeywords);
  if (mark?.kind === 'noteStart') return noteFrom(program, mark.line);
  if (mark?.line !== line) return undefined;
  const start = program.noteMarkBefore(line - 1, processKeywords);
  const note = start?.kind === 'noteStart' && start.name === mark.name ? noteFrom(program, start.line) : undefined;
  return note && { ...note, endLine: line, lastLine: line };
}

/** The line of the closing comment of the note that owns a line; undefined when it is not closed. */
export function endOfNote(program: Program, note: ProcessNote): number | undefined {
  const next = program.noteMarks(note.headEndLine + 1).find(({ name }) => processKeywords.includes(name));
  return next?.kind === 'noteEnd' && next.name === note.keyword ? next.line : undefined;
}

/** Reads the parameters of the note whose head stands on a line. */
function noteFrom(program: Program, headLine: number): ProcessNote | undefined {
  return readNotes(headComments(program, headLine), processKeywords, program.lineCount)[0];
}

const continues = /^[^(;]*[(;]\s*\+/;

function* headComments(program: Program, headLine: number): Generator<NoteComment> {
  for (let line = headLine; line === headLine || continues.test(program.lineText(line)); line += 1) yield* commentsOn(program, line);
}

function commentsOn(program: Program, line: number): NoteComment[] {
  return program.items(line).flatMap((item) => (item.kind === 'comment' ? [{ line, start: item.start + 1, text: item.text }] : []));
}

/** Closing comments of a process that no note stands open for. */
export function strayNoteEnds(program: Program): { span: Span; keyword: string }[] {
  const marks = program.noteMarks().filter(({ name }) => processKeywords.includes(name));
  const stray = marks.filter(({ kind, name }, index) => kind === 'noteEnd' && (marks[index - 1]?.kind !== 'noteStart' || marks[index - 1]?.name !== name));
  return stray.map(({ line, name }) => {
    const at = program.lineText(line).toUpperCase().lastIndexOf(name);
    return { span: { line, start: at, end: at + name.length }, keyword: name };
  });
}

/** A longer or shorter word is another word, not a slip: (SLOT: W=8) means no SLOTTING. */
const mostLettersOff = 2;

/** Comments that look like a note of a process whose name is misspelt: the same beginning, another end, and a parameter. */
export function misspeltNotes(program: Program): { span: Span; keyword: string; meant: string }[] {
  const marks = program.noteMarks().filter(({ kind, name }) => kind === 'noteStart' && !processKeywords.includes(name));
  return marks.flatMap(({ line, name }) => {
    const meant = processKeywords.find((each) => each.slice(0, 3) === name.slice(0, 3) && Math.abs(each.length - name.length) <= mostLettersOff);
    const text = program.lineText(line);
    if (meant === undefined || !text.includes('=')) return [];
    const at = text.indexOf(name);
    return [{ span: { line, start: at, end: at + name.length }, keyword: name, meant }];
  });
}

/** Units and modes in force where a note or a new block stands. */
export function settingAt(state: ModalState, card: MachineCard): Setting {
  return {
    units: state.units,
    card,
    modes: {
      incremental: state.distance === 'incremental',
      feedPerRevolution: state.feedMode === 'perRevolution',
      inverseTime: state.feedMode === 'inverseTime',
      ...(state.tool === undefined ? {} : { tool: state.tool }),
      ...(state.toolOffset === undefined ? {} : { toolOffset: state.toolOffset }),
      ...riskyModes(state, card),
    },
  };
}

/** The origin of a mode is looked up only where the mode is one that a block objects to. */
function riskyModes(state: ModalState, card: MachineCard): Pick<ModesInForce, 'compensation' | 'surfaceSpeed' | 'spindle' | 'subSpindle' | 'coupled' | 'leftTurning'> {
  const { side } = state.compensation;
  const turns = state.spindle !== 'stopped' && !state.workAxis;
  return {
    ...(side === 'off' ? {} : { compensation: { word: side === 'left' ? 'G41' : 'G42', line: state.lineOf('compensation') } }),
    ...(state.speedMode === 'css' ? { surfaceSpeed: { word: 'G96', line: state.lineOf('speedMode') } } : {}),
    ...(turns ? { spindle: { word: state.spindle === 'clockwise' ? 'M03' : 'M04', line: state.lineOf('spindle') } } : {}),
    ...turningSubSpindle(state, card),
    ...((state.coupled?.rpm ?? 0) > 0 ? { coupled: { word: codeWord(card.codes.spindleSyncOn) ?? 'The coupling of both spindles' } } : {}),
    ...(state.leftTurning ? { leftTurning: { word: codeWord(card.codes.spindleSyncOff) ?? 'The end of the coupling', ...state.leftTurning } } : {}),
  };
}

function turningSubSpindle(state: ModalState, { codes }: MachineCard): Pick<ModesInForce, 'subSpindle'> {
  const { subSpindle } = state;
  if (!subSpindle || subSpindle.direction === 'stopped' || subSpindle.axis) return {};
  const started = codeWord(subSpindle.direction === 'clockwise' ? codes.subStart : codes.subReverse);
  return { subSpindle: { word: started ?? 'A turning sub-spindle', line: state.lineOf('subSpindle') } };
}

/** Evaluates a note where it stands. */
export function evaluateNote(program: Program, note: ProcessNote, card: MachineCard): EvaluatedNote | undefined {
  const placed = placeNote(program, note, card);
  return placed && { ...placed, evaluation: placed.process.evaluate(noteValues(note), placed.setting) };
}

/** Composes the block of a note where it stands: what the block in the program is held against. */
export function composeNote(program: Program, note: ProcessNote, card: MachineCard): ComposedNote | undefined {
  const placed = placeNote(program, note, card);
  return placed && { ...placed, composition: placed.process.compose(noteValues(note), placed.setting) };
}

function placeNote(program: Program, note: ProcessNote, card: MachineCard): PlacedNote | undefined {
  const process = processNamed(note.keyword);
  return process && { note, process, setting: settingAt(program.stateBefore(note.headLine), card) };
}
