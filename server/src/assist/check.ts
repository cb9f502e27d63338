/**
 * Everything that is wrong or risky in a program, as plain data: what the
 * program engine objects to, and what each process note comes to on the machine
 * in use. Diagnostics, the command line and quick fixes share it.
 */
import { cutRules } from '../cut/rules.ts';
import { keyOfHole, type MachineCard } from '../machine/card.ts';
import { programRules, type Program } from '../program/index.ts';
import { whyNotRun } from '../process/block-place.ts';
import { driftMessage, driftOf, staleComments, type DriftWord } from '../process/drift.ts';
import type { NoteEntry, ProcessNote, Span } from '../process/note.ts';
import type { Composition, Problem, Severity } from '../process/process.ts';
import { composeNote, misspeltNotes, notesIn, strayNoteEnds } from '../process/program-notes.ts';
import { processRules } from '../process/rules.ts';
import { calledProblems } from '../process/called-problems.ts';

export interface Finding extends Span {
  rule: string;
  severity: Severity;
  message: string;
  /** The key of the machine card that would settle it. */
  cardKey?: string;
}

const mostOfMessage = 1000;

const rulesOfTheCut = Object.fromEntries(Object.entries(cutRules).map(([id, rule]) => [id, { ...rule, source: 'virtual cut' }]));

/** Every rule with its default severity, for settings and documentation. */
export const allRules: Readonly<Record<string, { severity: Severity; summary: string; source: string }>> = { ...programRules, ...processRules, ...rulesOfTheCut };

/**
 * Checks a whole program. Of one kind of problem at most `limitPerKind` are given:
 * an editor that shows thousands of one kind helps nobody.
 */
export function checkProgram(program: Program, card: MachineCard, limitPerKind = Infinity): Finding[] {
  const ofText = program.problems(0, program.lineCount, limitPerKind).map((problem): Finding => ({ ...problem, ...holeKey(program, problem) }));
  return [...ofText, ...atMostOfEachRule(checkNotes(program, card), limitPerKind)].map(withShortMessage).sort((first, second) => first.line - second.line || first.start - second.start);
}

function atMostOfEachRule(findings: Finding[], most: number): Finding[] {
  const counts = new Map<string, number>();
  return findings.filter(({ rule }) => {
    const count = (counts.get(rule) ?? 0) + 1;
    counts.set(rule, count);
    return count <= most;
  });
}

/** A message may quote the program, whose words have no bounds. */
function withShortMessage(found: Finding): Finding {
  return found.message.length <= mostOfMessage ? found : { ...found, message: `${found.message.slice(0, mostOfMessage)}…` };
}

function checkNotes(program: Program, card: MachineCard): Finding[] {
  const misspelt = misspeltNotes(program).map(({ span, keyword, meant }) => finding(span, 'note-name', `"${keyword}" is no process; ${meant} may be meant.`));
  const stray = strayNoteEnds(program).map(({ span, keyword }) => finding(span, 'note-open', `(END ${keyword}) closes no note.`));
  return [...misspelt, ...stray, ...notesIn(program).flatMap((note) => checkNote(program, note, card))];
}

function checkNote(program: Program, note: ProcessNote, card: MachineCard): Finding[] {
  const faults = note.faults.map(({ span, message }) => finding(span, 'note-syntax', message));
  const open = note.endLine === undefined ? [finding(note.keywordSpan, 'note-open', `(END ${note.keyword}) is missing: the note has no end.`)] : [];
  const notRun = whyNotRun(program, note.headLine);
  const dead = notRun === undefined ? [] : [finding(note.keywordSpan, 'block-place', notRun)];
  const composition = composeNote(program, note, card)?.composition;
  // Holes that are still open stand in the block and are marked there.
  const problems = composition?.problems.filter(({ rule }) => rule !== 'hole') ?? [];
  const first = firstEntries(note);
  return [...faults, ...open, ...dead, ...repeated(note, first), ...problems.map((problem) => placed(note, problem, first)), ...(composition ? [...driftFindings(program, note, composition), ...calledProblems(program, composition).map((problem) => placed(note, problem, first))] : [])];
}

/** Another feed or speed changes time and marks; any other word changes where the tool goes, or which teeth it cuts. */
function driftSeverity({ kind, actual }: DriftWord): Severity {
  return kind === 'changed' && /^[FS]/i.test(actual) ? 'warning' : 'error';
}

/** Where the block no longer says what its note says. */
function driftFindings(program: Program, note: ProcessNote, given: Composition): Finding[] {
  const words = driftOf(program, note, given).drift.map((word) => ({ ...finding(word, 'drift', driftMessage(word, note.keyword)), severity: driftSeverity(word) }));
  const stale = staleComments(program, note, given).map((text) => finding(note.keywordSpan, 'stale-comment', `The block does not hold the comment that the note gives the operator: "${text}".`));
  return [...words, ...stale];
}

function repeated({ entries }: ProcessNote, first: FirstEntries): Finding[] {
  const again = entries.filter((entry) => first.get(entry.name) !== entry);
  return again.map(({ name, nameSpan }) => finding(nameSpan, 'parameter-twice', `${name} stands twice in this note; the first one, ${first.get(name)?.value ?? ''}, counts.`));
}

/** The entry that counts for each name. */
type FirstEntries = ReadonlyMap<string, NoteEntry>;

function firstEntries({ entries }: ProcessNote): FirstEntries {
  return new Map([...entries].reverse().map((entry) => [entry.name, entry]));
}

/** Marks the word that carries the problem: the value, the name of an unknown parameter, or the keyword for what is missing. */
function placed(note: ProcessNote, problem: Problem, first: FirstEntries): Finding {
  const entry = problem.parameter === undefined ? undefined : first.get(problem.parameter);
  const value = entry && entry.valueSpan.end > entry.valueSpan.start ? entry.valueSpan : entry?.span;
  const span = !entry || !value ? note.keywordSpan : problem.rule === 'unknown-parameter' ? entry.nameSpan : value;
  return { ...span, rule: problem.rule, severity: problem.severity, message: problem.message, ...(problem.cardKey === undefined ? {} : { cardKey: problem.cardKey }) };
}

function finding({ line, start, end }: Span, rule: keyof typeof processRules, message: string): Finding {
  return { line, start, end, rule, severity: processRules[rule].severity, message };
}

/** The name of a hole stands between its angle brackets. */
function holeKey(program: Program, { rule, line, start, end }: { rule: string } & Span): { cardKey?: string } {
  if (rule !== 'hole') return {};
  const cardKey = keyOfHole(program.lineText(line).slice(start + 1, end - 1));
  return cardKey === undefined ? {} : { cardKey };
}
