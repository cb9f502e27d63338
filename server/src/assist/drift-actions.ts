/**
 * The three ways out of a drift, as quick fixes.
 *
 * Before: F16.0 stands where the note gives F14.21. After, one of: the block is
 * made anew; the note's parameter is changed so that it gives F16.0; the word is
 * marked as kept, `F16.0 (KEPT F14.21)`.
 */
import { CodeActionKind, type CodeAction, type Diagnostic } from 'vscode-languageserver';
import type { Program } from '../program/index.ts';
import { bare, driftOf, type DriftWord } from '../process/drift.ts';
import { writeKept } from '../process/kept.ts';
import { comment } from '../process/layout.ts';
import { noteValues } from '../process/note.ts';
import { composeNote, type ComposedNote } from '../process/program-notes.ts';
import { solveWord } from '../process/solve.ts';
import { readNumber } from '../process/fields.ts';
import { commentStyleOf } from './insert.ts';
import { closedNoteAt } from './remake-block.ts';
import type { Session } from './session.ts';

/** More candidates than these would be a riddle instead of a help. */
const mostSolutions = 2;

/** What making the block anew mends. */
const mended: readonly string[] = ['drift', 'stale-comment', 'subprogram-missing'];

/** One drift and all that its ways out need. */
interface Drifted {
  uri: string;
  program: Program;
  composed: ComposedNote;
  diagnostic: Diagnostic;
}

export function driftActions(session: Session, uri: string, diagnostics: readonly Diagnostic[]): CodeAction[] {
  const program = session.program(uri);
  if (!program) return [];
  return diagnostics.filter(({ code }) => mended.includes(String(code))).flatMap((diagnostic) => {
    const note = closedNoteAt(program, diagnostic.range.start.line);
    const composed = note && composeNote(program, note, session.cards.current.card);
    return composed ? waysOut({ uri, program, composed, diagnostic }) : [];
  });
}

function waysOut(drifted: Drifted): CodeAction[] {
  const { program, composed, diagnostic } = drifted;
  const anew = remakeAction(drifted, `Make the ${composed.process.title.toLowerCase()} block anew from its note`);
  const { drift, kept } = driftOf(program, composed.note, composed.composition);
  const { line, character } = diagnostic.range.start;
  const word = diagnostic.code === 'drift' ? drift.find((each) => each.line === line && each.start === character) : undefined;
  return word ? [anew, ...takeActions(drifted, word), keepAction(drifted, word, kept)] : [anew];
}

function remakeAction({ uri, composed, diagnostic }: Drifted, title: string, values?: Record<string, string>): CodeAction {
  return {
    title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    command: { title, command: 'blockwright.remakeBlock', arguments: [{ uri, line: composed.note.headLine, ...(values ? { values } : {}) }] },
  };
}

function takeActions(drifted: Drifted, word: DriftWord): CodeAction[] {
  const target = readNumber(bare(word.actual).slice(1));
  if (word.kind !== 'changed' || !word.wantedAt || target === undefined) return [];
  const { note, process, setting } = drifted.composed;
  const raw = noteValues(note);
  return solveWord(process, raw, setting, word.wantedAt, target).slice(0, mostSolutions).map(({ parameter, value }) =>
    remakeAction(drifted, `Take ${bare(word.actual)} into the note: ${parameter}=${value}`, { ...raw, [parameter]: value }),
  );
}

/** Adds the word to the line's mark, or starts one behind the line's text. */
function keepAction({ uri, program, composed, diagnostic }: Drifted, word: DriftWord, kept: readonly DriftWord[]): CodeAction {
  const all = [...kept, word].filter(({ line }) => line === word.line);
  const set = (kind: DriftWord['kind'], text: (each: DriftWord) => string) => new Set(all.filter((each) => each.kind === kind).map((each) => bare(text(each))));
  const mark = writeKept({ changed: set('changed', (each) => each.wanted), added: set('added', (each) => each.actual), omitted: set('omitted', (each) => each.wanted) });
  const old = program.items(word.line).find((item) => item.kind === 'comment' && /^\s*KEPT\b/.test(item.text));
  const text = comment(mark, commentStyleOf(program, composed.note));
  const length = program.lineText(word.line).length;
  const [start, end] = old ? [old.start, old.end] : [length, length];
  const range = { start: { line: word.line, character: start }, end: { line: word.line, character: end } };
  const title = word.kind === 'omitted' ? `Keep ${word.wanted} left out, as intended` : `Keep ${bare(word.actual)}, as intended`;
  return { title, kind: CodeActionKind.QuickFix, diagnostics: [diagnostic], edit: { changes: { [uri]: [{ range, newText: old ? text : ` ${text}` }] } } };
}
