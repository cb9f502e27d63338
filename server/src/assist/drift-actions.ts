/**
 * The three ways out of a drift, as quick fixes.
 *
 * Before: F16.0 stands where the note gives F14.21. After, one of: the block is
 * made anew; the note's parameter is changed so that it gives F16.0; the word is
 * marked as kept, `F16.0 (KEPT F14.21)`.
 */
import { CodeActionKind, type CodeAction, type Diagnostic } from 'vscode-languageserver';
import type { Program } from '../program/index.ts';
import { bare, driftOf, keptDriftOf, type DriftWord } from '../process/drift.ts';
import { writeKept } from '../process/kept.ts';
import { comment } from '../process/layout.ts';
import { noteValues, type ProcessNote } from '../process/note.ts';
import type { Process } from '../process/process.ts';
import { processNamed } from '../process/processes.ts';
import { settingAt } from '../process/program-notes.ts';
import { solveWord } from '../process/solve.ts';
import { readNumber } from '../process/fields.ts';
import { closedNoteAt } from './remake-block.ts';
import type { Session } from './session.ts';

/** More candidates than these would be a riddle instead of a help. */
const mostSolutions = 2;

export function driftActions(session: Session, uri: string, diagnostics: readonly Diagnostic[]): CodeAction[] {
  const program = session.program(uri);
  if (!program) return [];
  return diagnostics.filter(({ code }) => code === 'drift' || code === 'stale-comment').flatMap((diagnostic) => {
    const note = closedNoteAt(program, diagnostic.range.start.line);
    const process = note && processNamed(note.keyword);
    if (!note || !process) return [];
    const anew = remakeAction(`Make the ${process.title.toLowerCase()} block anew from its note`, uri, note, diagnostic);
    const word = diagnostic.code === 'drift' ? wordAt(session, program, note, diagnostic) : undefined;
    return word ? [anew, ...takeActions(session, uri, program, note, process, word, diagnostic), keepAction(session, uri, program, note, word, diagnostic)] : [anew];
  });
}

function wordAt(session: Session, program: Program, note: ProcessNote, { range }: Diagnostic): DriftWord | undefined {
  const { line, character } = range.start;
  return driftOf(program, note, session.cards.current.card).find((word) => word.line === line && word.start === character);
}

function remakeAction(title: string, uri: string, note: ProcessNote, diagnostic: Diagnostic, values?: Record<string, string>): CodeAction {
  return {
    title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    command: { title, command: 'blockwright.remakeBlock', arguments: [{ uri, line: note.headLine, ...(values ? { values } : {}) }] },
  };
}

function takeActions(session: Session, uri: string, program: Program, note: ProcessNote, process: Process, word: DriftWord, diagnostic: Diagnostic): CodeAction[] {
  const target = readNumber(bare(word.actual).slice(1));
  if (word.kind !== 'changed' || !word.wantedAt || target === undefined) return [];
  const raw = noteValues(note);
  const setting = settingAt(program.stateBefore(note.headLine), session.cards.current.card);
  return solveWord(process, raw, setting, word.wantedAt, target).slice(0, mostSolutions).map(({ parameter, value }) =>
    remakeAction(`Take ${bare(word.actual)} into the note: ${parameter}=${value}`, uri, note, diagnostic, { ...raw, [parameter]: value }),
  );
}

/** Adds the word to the line's mark, or starts one behind the line's text. */
function keepAction(session: Session, uri: string, program: Program, note: ProcessNote, word: DriftWord, diagnostic: Diagnostic): CodeAction {
  const all = [...keptDriftOf(program, note, session.cards.current.card), word].filter(({ line }) => line === word.line);
  const set = (kind: DriftWord['kind'], text: (each: DriftWord) => string) => new Set(all.filter((each) => each.kind === kind).map((each) => bare(text(each))));
  const mark = writeKept({ changed: set('changed', (each) => each.wanted), added: set('added', (each) => each.actual), omitted: set('omitted', (each) => each.wanted) });
  const items = program.items(word.line);
  const old = items.find((item) => item.kind === 'comment' && /^\s*KEPT\b/.test(item.text));
  const semicolon = program.items(note.headLine).some((item) => item.kind === 'comment' && item.style === 'semicolon');
  const text = comment(mark, semicolon ? 'semicolon' : 'parentheses');
  const length = program.lineText(word.line).length;
  const [start, end] = old ? [old.start, old.end] : [length, length];
  const range = { start: { line: word.line, character: start }, end: { line: word.line, character: end } };
  const title = word.kind === 'omitted' ? `Keep ${word.wanted} left out, as intended` : `Keep ${bare(word.actual)}, as intended`;
  return { title, kind: CodeActionKind.QuickFix, diagnostics: [diagnostic], edit: { changes: { [uri]: [{ range, newText: old ? text : ` ${text}` }] } } };
}
