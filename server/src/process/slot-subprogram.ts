/**
 * Which part of a block of slots goes through a subprogram: one stroke of a tool
 * that stands, repeated as often as strokes are alike, or one whole slot, called
 * at each of its angles. Never both at once: how deep calls may be nested is the
 * control's own affair.
 *
 * It decides; slot-block.ts writes.
 */
import { callsRepeat, freeProgramNumber, incrementalForm, missingForSubprograms, speaksOfSubprograms, type IncrementalForm } from '../machine/subprograms.ts';
import { shown } from '../trade/quantity.ts';
import { beyondMachine, type Problem, type Setting } from './process.ts';
import type { SlotPlan, StrokeValues } from './slot-strokes.ts';
import { lengthDecimals } from './words.ts';

/** What a subprogram holds: one stroke in incremental words, or the whole of one slot in absolute ones. */
export type SubprogramForm = { kind: 'stroke'; steps: IncrementalForm } | { kind: 'slot' };

/** Fewer strokes that are alike are as short written out. */
const fewestRepeats = 3;

/** The form that the values ask for and the card allows; undefined where the block is written out. */
export function subprogramForm(values: StrokeValues, plan: SlotPlan, setting: Setting): SubprogramForm | undefined {
  if ((values.PROGRAM ?? 0) === 0) return undefined;
  return possibleForm(values, plan, setting);
}

/** What a new block settles: a free number of the card's, where the block has a use for it and the card says all that it takes. */
export function settledProgram(values: StrokeValues, plan: SlotPlan, setting: Setting): { PROGRAM?: string } {
  const { fresh, card } = setting;
  if (!fresh?.mayCall || values.PROGRAM !== undefined || missingForSubprograms(card).length > 0 || !possibleForm(values, plan, setting)) return {};
  const number = freeProgramNumber(card, fresh.programNumbers);
  return number === undefined ? {} : { PROGRAM: String(number) };
}

/** What is wrong with the number that is given, or why a block of a card that has subprograms is written out all the same. */
export function subprogramProblems(values: StrokeValues, plan: SlotPlan, setting: Setting): Problem[] {
  const { PROGRAM: number } = values;
  if (number === undefined) return unsettled(values, plan, setting);
  if (number === 0) return [];
  return [...numberProblems(number, setting), ...(possibleForm(values, plan, setting) ? [] : [unused(number, values, plan, setting)])];
}

function numberProblems(number: number, { card, fresh }: Setting): Problem[] {
  const [first, last] = card.subprograms?.numbers ?? [number, number];
  if (number < first || number > last) return [beyondMachine('PROGRAM', String(number), `from ${first} to ${last}, or 0`)];
  if (!fresh?.programNumbers.has(number)) return [];
  return [{ parameter: 'PROGRAM', rule: 'bad-value', severity: 'error', message: `PROGRAM: ${number} is a program that this file has or calls already: it must be another number.` }];
}

function unused(number: number, values: StrokeValues, plan: SlotPlan, setting: Setting): Problem {
  return { parameter: 'PROGRAM', rule: 'written-out', severity: 'warning', message: `PROGRAM: ${number} has no use: ${whyNotOneStroke(values, plan, setting)}, and there are no further slots. The block is written out.` };
}

/** Only a card that speaks of subprograms is asked for what it leaves out. */
function unsettled(values: StrokeValues, plan: SlotPlan, setting: Setting): Problem[] {
  const { card, fresh } = setting;
  if (!fresh?.mayCall || !speaksOfSubprograms(card) || !hasLikes(plan)) return [];
  const [key] = missingForSubprograms(card);
  if (key !== undefined) return [writtenOut(`the machine card does not say ${key} in a form that can be read back`, key)];
  if (!possibleForm(values, plan, setting)) return values.METHOD === 'STATIC' ? [writtenOut(whyNotOneStroke(values, plan, setting) ?? '')] : [];
  return freeProgramNumber(card, fresh.programNumbers) === undefined ? [writtenOut('every number of subprograms.numbers is in use', 'subprograms')] : [];
}

/** Whether there is anything to repeat, be it strokes or slots. */
function hasLikes({ passes, box, anglesDegrees }: SlotPlan): boolean {
  return anglesDegrees.length > 1 || (box !== undefined && mostFeedStrokes(passes) > fewestRepeats);
}

function writtenOut(why: string, cardKey?: string): Problem {
  return { parameter: 'PROGRAM', ...(cardKey === undefined ? {} : { cardKey }), rule: 'written-out', severity: 'information', message: `The block is written out although the machine has subprograms: ${why}.` };
}

function mostFeedStrokes(passes: SlotPlan['passes']): number {
  return Math.max(...passes.map(({ feedStrokes }) => feedStrokes));
}

function possibleForm(values: StrokeValues, plan: SlotPlan, setting: Setting): SubprogramForm | undefined {
  const steps = incrementalForm(setting.card);
  if (steps && whyNotOneStroke(values, plan, setting) === undefined) return { kind: 'stroke', steps };
  return plan.anglesDegrees.length > 1 ? { kind: 'slot' } : undefined;
}

/** Why strokes cannot be one subprogram that is repeated; undefined where they can. */
function whyNotOneStroke(values: StrokeValues, { passes, box }: SlotPlan, setting: Setting): string | undefined {
  if (values.METHOD !== 'STATIC' || !box) return 'a driven unit strokes by itself';
  if (mostFeedStrokes(passes) <= fewestRepeats) return 'there are too few strokes that are alike';
  if (!callsRepeat(setting.card)) return 'codes.subprogramCall has no {repeats}';
  if (!incrementalForm(setting.card)) return 'the machine card has no incremental words of X and Z, or does not say whether they count on the diameter';
  const steps = [values.FEED, box.liftOff];
  if (!steps.every((step) => isWholeInX(step, setting))) return `FEED ${shown(values.FEED, 6)} has more decimals than an X word, so that many steps would add up to another depth`;
  return passes.some(({ contactRadius }) => contactRadius < box.liftOff) ? 'the tool would lift off beyond the axis' : undefined;
}

/** Whether a step on the radius is a whole number of the last decimal of X. */
function isWholeInX(step: number, setting: Setting): boolean {
  const steps = step * (setting.card.diameterProgramming ? 2 : 1) * 10 ** lengthDecimals(setting);
  return Math.abs(steps - Math.round(steps)) < 1e-6;
}
