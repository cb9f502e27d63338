/**
 * Notes in a program: where they stand, whose lines they own, and what each
 * comes to on a machine. The program engine knows nothing of notes; this is
 * the bridge.
 */
import type { MachineCard } from '../machine/card.ts';
import type { ModalState, Program } from '../program/index.ts';
import { noteValues, readNotes, type NoteComment, type ProcessNote, type Span } from './note.ts';
import { processKeywords, processNamed } from './processes.ts';
import type { Evaluation, Process, Setting } from './process.ts';

export interface EvaluatedNote {
  note: ProcessNote;
  process: Process;
  setting: Setting;
  evaluation: Evaluation;
}

const notesOfProgram = new WeakMap<Program, ProcessNote[]>();

/** All notes of a program in order. Read once for each state of the program. */
export function notesIn(program: Program): ProcessNote[] {
  const known = notesOfProgram.get(program);
  if (known) return known;
  const notes = readNotes(commentsOf(program), processKeywords, program.lineCount);
  notesOfProgram.set(program, notes);
  return notes;
}

const looksLikeNote = /^\s*([A-Za-z][A-Za-z-]*)\s*:.*=/;

/** Comments that look like a note of a process whose name is misspelt: the same beginning, another end. */
export function misspeltNotes(program: Program): { span: Span; keyword: string; meant: string }[] {
  return [...commentsOf(program)].flatMap(({ line, start, text }) => {
    const keyword = looksLikeNote.exec(text)?.[1] ?? '';
    const meant = processKeywords.find((each) => each.slice(0, 3) === keyword.slice(0, 3).toUpperCase());
    if (meant === undefined || meant === keyword.toUpperCase()) return [];
    const at = start + text.indexOf(keyword);
    return [{ span: { line, start: at, end: at + keyword.length }, keyword, meant }];
  });
}

/** A comment that could matter to a note holds a colon, opens with + or says END. All others are passed over unread. */
const worthReading = /[(;]\s*(?:[A-Za-z-]+\s*:|\+|END\b)/i;

function* commentsOf(program: Program): Generator<NoteComment> {
  for (let line = 0; line < program.lineCount; line += 1) {
    if (!worthReading.test(program.lineText(line))) continue;
    for (const item of program.items(line)) {
      if (item.kind === 'comment') yield { line, start: item.start + 1, text: item.text };
    }
  }
}

/** The note that owns a line: its parameters, its block or its end. */
export function noteAt(program: Program, line: number): ProcessNote | undefined {
  return notesIn(program).find((note) => note.headLine <= line && line <= note.lastLine);
}

/** Units and modes in force where a note or a new block stands. */
export function settingAt(state: ModalState, card: MachineCard): Setting {
  return {
    units: state.units,
    card,
    modes: { incremental: state.distance === 'incremental', feedPerRevolution: state.feedMode === 'perRevolution' },
  };
}

/** Evaluates a note where it stands. */
export function evaluateNote(program: Program, note: ProcessNote, card: MachineCard): EvaluatedNote | undefined {
  const process = processNamed(note.keyword);
  if (!process) return undefined;
  const setting = settingAt(program.stateBefore(note.headLine), card);
  return { note, process, setting, evaluation: process.evaluate(noteValues(note), setting) };
}
