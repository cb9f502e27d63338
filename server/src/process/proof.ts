/**
 * Proves the blocks of a program: hands each process note, the steps of its
 * block and what the machine card says to the virtual cut, and gathers what
 * comes back. The cut itself knows no note and no card; this is the bridge.
 *
 * What neither program, note nor card says is taken for granted in the open: it
 * stands among the assumptions of the stretch.
 */
import type { Progress } from '../cut/gear-cut.ts';
import { proveEngraving } from '../cut/prove-engraving.ts';
import { proveHobbing } from '../cut/prove-hobbing.ts';
import { proveSlots } from '../cut/prove-slots.ts';
import type { CutFigure, StretchProof } from '../cut/rules.ts';
import { withClamping } from '../cut/clamp-state.ts';
import type { ToolStep } from '../cut/tool-steps.ts';
import { toolSteps } from '../cut/tool-steps.ts';
import type { CodeName, MachineCard } from '../machine/card.ts';
import { templateWords } from '../machine/template.ts';
import type { Program } from '../program/index.ts';
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { OutOfRange } from '../trade/quantity.ts';
import { calledProblems } from './called-problems.ts';
import { syncCode } from './hobbing-senses.ts';
import { noteValues, type ProcessNote } from './note.ts';
import { isError, type Composition } from './process.ts';
import type { ProcessRuleId } from './rules.ts';
import { evaluateNote, misspeltNotes, notesIn, type EvaluatedNote } from './program-notes.ts';
import { KnownTeeth, teethOf, withClocking } from './proof-of-clocking.ts';
import { engravingStretchOf } from './proof-of-engraving.ts';
import { couplingIn, handoverCodes, proveHandover } from './proof-of-handover.ts';
import { hobbingJobOf } from './proof-of-hobbing.ts';
import { slotJobOf } from './proof-of-slots.ts';
import { provedSense, spindleOf, stepsFromFace } from './proof-on-side.ts';
import { isStatic, withSwitches } from './proof-of-switches.ts';
import { processKeywords } from './processes.ts';
import { subprogramLines } from './subprogram-lines.ts';
import { workCode } from './work-side.ts';

/** One stretch of the program and what its proof came to. Lines are 0-based. */
export interface ProvedStretch {
  /** Keyword of the note. */
  process: string;
  fromLine: number;
  toLine: number;
  /** Present unless the stretch could not be proved. */
  proof?: StretchProof;
  /** Why it could not be proved, in one sentence. */
  refused?: string;
}

const slotted: ReadonlySet<string> = new Set(['KEYWAY', 'SLOTTING']);

/** Proves every stretch in order. Yields the share of the work that is done, so that a caller can show it or stop. */
export function* proveProgram(program: Program, card: MachineCard): Generator<Progress, ProvedStretch[]> {
  const notes = notesIn(program);
  const stretches: ProvedStretch[] = [];
  for (const note of notes) {
    const proving = proveNote(program, note, card);
    const before = stretches.length / notes.length;
    let step = proving.next();
    while (!step.done) {
      yield before + step.value / notes.length;
      step = proving.next();
    }
    stretches.push(step.value);
  }
  return [...clocked(program, card, notes, stretches), ...withoutNote(program), ...misspelt(program)].sort((first, second) => first.fromLine - second.fromLine);
}

/** Coupled running where no note says what it is for: there is nothing to set the cut against, and it must not pass in silence. */
function withoutNote(program: Program): ProvedStretch[] {
  return program
    .operations(processKeywords)
    .filter(({ sync, note }) => sync && note === undefined)
    .map(({ fromLine, toLine }) => ({
      process: 'HOBBING',
      fromLine,
      toLine: toLine - 1,
      refused: 'Hob and work run coupled here, but no HOBBING note says which gear and which hob are meant.',
    }));
}

/** What looks like a note of a process is one that is not found, and its block would pass unproved. */
function misspelt(program: Program): ProvedStretch[] {
  return misspeltNotes(program).map(({ span, keyword, meant }) => ({
    process: meant,
    fromLine: span.line,
    toLine: span.line,
    refused: `"${keyword}" is no process; ${meant} may be meant.`,
  }));
}

/** Slots are clocked to the last teeth cut before them in the same spindle on the same work offset, or cut in the main spindle before the part changed hands. */
function clocked(program: Program, card: MachineCard, notes: readonly ProcessNote[], stretches: readonly ProvedStretch[]): ProvedStretch[] {
  const known = new KnownTeeth(card);
  return stretches.map((stretch, index) => {
    const note = notes[index]!;
    const [spindle, offset] = [spindleOf(note), program.stateBefore(stretch.fromLine).workOffset];
    const { proof } = stretch;
    if (stretch.process === 'HANDOVER') known.changeHands(couplingIn(program, note)?.angleDegrees);
    if (proof && stretch.process === 'HOBBING') known.cut(spindle, offset, teethOf(proof));
    if (!proof || !slotted.has(stretch.process)) return stretch;
    return { ...stretch, proof: withClocking(proof, known.on(spindle, offset), provedSense(card, spindle, 'workRotation')) };
  });
}

function* proveNote(program: Program, note: ProcessNote, card: MachineCard): Generator<Progress, ProvedStretch> {
  const stretch = { process: note.keyword, fromLine: note.headLine, toLine: note.lastLine };
  const refused = whyNot(program, note, card);
  if (refused !== undefined) return { ...stretch, refused };
  const evaluated = evaluateNote(program, note, card)!;
  if (note.keyword === 'HANDOVER') return { ...stretch, proof: inUnits(proveHandover(program, evaluated), evaluated) };
  const steps = stepsOf(program, note, card);
  const unknown = whatIsNotKnown(steps);
  if (unknown !== undefined) return { ...stretch, refused: unknown };
  try {
    const proof = yield* prove(evaluated, steps);
    return { ...stretch, proof: inUnits(withSwitches(proof, program, note, card), evaluated) };
  } catch (error) {
    if (!(error instanceof OutOfRange)) throw error;
    return { ...stretch, refused: `${error.message}.` };
  }
}

/** The clamp is looked after only where the card says both how to close and how to release it. */
function stepsOf(program: Program, note: ProcessNote, card: MachineCard): ToolStep[] {
  const steps = toolSteps(program, note.headEndLine + 1, note.lastLine);
  const [clamp, unclamp] = [workCode(spindleOf(note), 'clamp'), workCode(spindleOf(note), 'unclamp')];
  const isStated = [clamp, unclamp].every((code) => templateWords(card.codes[code]).length > 0);
  return isStated ? withClamping(program, steps, { clamp, unclamp }) : steps;
}

function inUnits(proof: StretchProof, { setting }: EvaluatedNote): StretchProof {
  return setting.units === 'mm' ? proof : { ...proof, figures: proof.figures.map((each) => (each.unit === 'mm' ? figureInInches(each) : each)) };
}

function figureInInches(each: CutFigure): CutFigure {
  const wanted = each.wanted === undefined ? {} : { wanted: each.wanted / MILLIMETRES_PER_INCH };
  return { ...each, unit: 'inch', value: each.value / MILLIMETRES_PER_INCH, ...wanted };
}

/** What is wrong with a note that can be read all the same: the virtual cut itself shows what comes of it. */
const judgedByTheCut: ReadonlySet<ProcessRuleId> = new Set(['machine-limit', 'hob-room', 'hob-too-short']);

/** A block with a hole or a wrong note is not carried out: it is not known what the machine would do. */
function whyNot(program: Program, note: ProcessNote, card: MachineCard): string | undefined {
  const [fault] = note.faults;
  if (fault) return `The note cannot be read: ${fault.message}`;
  const evaluated = evaluateNote(program, note, card);
  const wrong = evaluated?.evaluation.problems.find((problem) => isError(problem) && !judgedByTheCut.has(problem.rule));
  if (!evaluated || wrong) return `The note cannot be read: ${wrong?.message ?? 'its process is not known.'}`;
  const composition = evaluated.process.compose(noteValues(note), evaluated.setting);
  const unstated = composition.problems.find((problem) => isError(problem) && problem.rule === 'unstated-sense');
  if (unstated) return `The direction of the work is not known: ${unstated.message}`;
  const called = calledProblems(program, composition)[0];
  if (called) return called.message;
  if (note.endLine === undefined) return `(END ${note.keyword}) is missing: it is not known where the block ends.`;
  const open = holesOf(program, note, composition);
  if (open.length > 0) return `The block has holes that the machine card must fill first: ${open.join(', ')}.`;
  const unread = codesNeeded(note, card).filter((code) => templateWords(card.codes[code]).length === 0);
  return unread.length === 0 ? undefined : `The words of the block cannot be read: the machine card says nothing readable at ${unread.map((code) => `codes.${code}`).join(', ')}.`;
}

/** Without these words it is not known when hob and work are coupled, when the driven tool turns, or when the work is an axis. */
function codesNeeded(note: ProcessNote, card: MachineCard): CodeName[] {
  const spindle = spindleOf(note);
  if (note.keyword === 'HANDOVER') return handoverCodes(note);
  const axis = [workCode(spindle, 'axisOn'), workCode(spindle, 'axisOff')];
  if (note.keyword === 'HOBBING') return [syncCode(card, spindle, 'syncOn'), syncCode(card, spindle, 'syncOff'), 'drivenStart', 'drivenStop', ...axis];
  return isStatic(note) ? axis : ['drivenStart', 'drivenStop', ...axis];
}

/** What the virtual cut cannot carry out, or not without guessing. */
function whatIsNotKnown(steps: readonly ToolStep[]): string | undefined {
  const bent = steps.find(({ kind }) => kind === 'arc' || kind === 'thread');
  if (bent) return `Line ${bent.line + 1} moves on ${bent.kind === 'arc' ? 'an arc' : 'a thread'}, which the virtual cut does not carry out.`;
  const nameless = steps.find(({ kind }) => kind === 'unknown');
  if (nameless) return `It is not known how line ${nameless.line + 1} moves: no motion code that the virtual cut carries out is in force there.`;
  const endless = steps.find(({ kind, seconds }) => kind !== 'rapid' && seconds === undefined);
  if (endless) return `It is not known how long line ${endless.line + 1} takes: its feed or the speed that the feed counts on is missing.`;
  return undefined;
}

/** Holes of the block and of the subprogram that it calls. */
function holesOf(program: Program, { headLine, lastLine }: ProcessNote, { subprogram }: Composition): string[] {
  const called = subprogram && subprogramLines(program, subprogram.number);
  return [...new Set([...holesBetween(program, headLine, lastLine + 1), ...(called ? holesBetween(program, called.fromLine, called.toLine) : [])])];
}

function holesBetween(program: Program, fromLine: number, toLine: number): Set<string> {
  const names = new Set<string>();
  for (let line = fromLine; line < toLine; line += 1) {
    for (const item of program.items(line)) if (item.kind === 'hole') names.add(`<${item.name}>`);
  }
  return names;
}

function* prove(evaluated: EvaluatedNote, steps: readonly ToolStep[]): Generator<Progress, StretchProof> {
  if (evaluated.note.keyword === 'HOBBING') {
    const job = hobbingJobOf(evaluated);
    const proof = yield* proveHobbing(job.stretch, stepsFromFace(steps, evaluated), job.machine);
    return { ...proof, assumptions: job.assumptions };
  }
  if (evaluated.note.keyword === 'ENGRAVING') return proveEngraving(engravingStretchOf(evaluated), stepsFromFace(steps, evaluated));
  const job = slotJobOf(evaluated);
  return { ...proveSlots(job.stretch, steps), assumptions: job.assumptions };
}
