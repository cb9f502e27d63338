/**
 * What a block must have switched on while it works and off when it ends, by the
 * machine's own words: the work axis, the driven tool, the coupling, the clamp.
 * The virtual cut alone would not miss them: it knows where the tool goes, and a
 * spindle that is no axis, or a tool that turns on, leaves the same shape.
 *
 * Whoever asks has made sure that the card says these words.
 */
import { cutFinding, type CutFinding, type StretchProof } from '../cut/rules.ts';
import type { CodeName, MachineCard } from '../machine/card.ts';
import { codeWord, templateWords } from '../machine/template.ts';
import type { Move, Program } from '../program/index.ts';
import { syncCode } from './hobbing-senses.ts';
import type { ProcessNote } from './note.ts';
import { spindleOf } from './proof-on-side.ts';
import { workCode, type Spindle } from './work-side.ts';

/** The proof with what the switches come to. */
export function withSwitches(proof: StretchProof, program: Program, note: ProcessNote, card: MachineCard): StretchProof {
  const found = [...axisMissing(program, note, card), ...leftOn(program, note, card), ...leftClamped(program, note, card)];
  return found.length === 0 ? proof : { ...proof, findings: [...proof.findings, ...found].sort((first, second) => first.line - second.line) };
}

/** Nothing holds or turns the work by angle while its spindle is under speed control. The first such move is enough. */
function axisMissing(program: Program, note: ProcessNote, card: MachineCard): CutFinding[] {
  const spindle = spindleOf(note);
  for (const move of program.moves(note.headEndLine + 1, note.lastLine + 1)) {
    if (needsAxis(move) && !isAxis(move, spindle)) return [cutFinding(move.line, 'work-axis-off', `The ${spindleName(spindle)} is not under position control here: ${said(card, workCode(spindle, 'axisOn'))} is missing before it.`)];
  }
  return [];
}

/** What cuts, coupled or not, and what turns C. */
function needsAxis({ kind, start, end }: Move): boolean {
  return (kind !== 'rapid' && kind !== 'dwell') || start.C !== end.C;
}

function isAxis({ workAxis, subSpindle }: Pick<Move, 'workAxis' | 'subSpindle'>, spindle: Spindle): boolean {
  return spindle === 'MAIN' ? workAxis : subSpindle?.axis === true;
}

function leftOn(program: Program, note: ProcessNote, card: MachineCard): CutFinding[] {
  const state = program.stateAfter(note.lastLine);
  const spindle = spindleOf(note);
  const at = (rule: Parameters<typeof cutFinding>[1], what: string, code: CodeName): CutFinding => cutFinding(note.lastLine, rule, `${what} at the end of the block: ${said(card, code)} is missing.`);
  const turns = state.driven !== undefined && !isStatic(note);
  return [
    ...(turns ? [at('left-turning', 'The driven tool still turns', 'drivenStop')] : []),
    ...(state.sync ? [at('left-coupled', 'Hob and work still run coupled', syncCode(card, spindle, 'syncOff'))] : []),
    ...(isAxis(state, spindle) ? [at('left-as-axis', `The ${spindleName(spindle)} is still under position control`, workCode(spindle, 'axisOff'))] : []),
  ];
}

/** The last word on the clamp in the block counts; a block without one leaves the clamp as it found it. */
function leftClamped(program: Program, note: ProcessNote, card: MachineCard): CutFinding[] {
  const spindle = spindleOf(note);
  const [clamp, unclamp] = [workCode(spindle, 'clamp'), workCode(spindle, 'unclamp')];
  if (![clamp, unclamp].every((code) => templateWords(card.codes[code]).length > 0)) return [];
  let last: string | undefined;
  for (let line = note.headEndLine + 1; line <= note.lastLine; line += 1) {
    last = program.events(line).findLast(({ name }) => name === clamp || name === unclamp)?.name ?? last;
  }
  return last === clamp ? [cutFinding(note.lastLine, 'left-clamped', `The work axis is still clamped at the end of the block: ${said(card, unclamp)} is missing.`)] : [];
}

/** A tool that stands has nothing to do with the drive. */
export function isStatic({ entries }: ProcessNote): boolean {
  return entries.some(({ name, value }) => name === 'METHOD' && value.trim().toUpperCase() === 'STATIC');
}

function spindleName(spindle: Spindle): string {
  return spindle === 'MAIN' ? 'main spindle' : 'sub-spindle';
}

function said(card: MachineCard, code: CodeName): string {
  return `${codeWord(card.codes[code]) ?? `codes.${code}`} (codes.${code})`;
}
