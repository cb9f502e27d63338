/**
 * The spindle that holds the work, for the proofs. The virtual cut of a hob
 * counts as the main spindle does: Z leaves the face of the work, Y goes to the
 * left of somebody who looks at it. Steps on the sub-spindle are turned into
 * such axes by what the machine card says of it.
 */
import type { ToolPlace, ToolStep } from '../cut/tool-steps.ts';
import type { MachineCard } from '../machine/card.ts';
import { codeWord } from '../machine/template.ts';
import type { ProcessNote } from './note.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { senseOf, type NeededSense, type Spindle } from './work-side.ts';

/** A process without the parameter works on the main spindle, as the parameter's default says. */
export function spindleOf({ entries }: ProcessNote): Spindle {
  return entries.some(({ name, value }) => name === 'SPINDLE' && value.trim().toUpperCase() === 'SUB') ? 'SUB' : 'MAIN';
}

/** Where the card leaves a sense open the proof takes 1, and says so among its assumptions. */
export function provedSense(card: MachineCard, spindle: Spindle, sense: NeededSense): 1 | -1 {
  return senseOf(card, spindle, sense) ?? 1;
}

export function workRotationAssumption(card: MachineCard, spindle: Spindle): string[] {
  if (senseOf(card, spindle, 'workRotation') !== undefined) return [];
  return [spindle === 'MAIN'
    ? 'Growing C turns the work right-handed about +Z: senses.workRotation of the machine card is not given.'
    : 'Growing C turns the work right-handed about the direction that leaves its face: subSpindle.workRotation of the machine card is not given.'];
}

/**
 * Of the sub-spindle its own turns count, where the card has a word that starts
 * it; elsewhere M03 may mean either spindle.
 */
export function stepsFromFace(steps: readonly ToolStep[], { note, setting }: EvaluatedNote): ToolStep[] {
  const spindle = spindleOf(note);
  const [y, z] = [provedSense(setting.card, spindle, 'ySense'), provedSense(setting.card, spindle, 'zSense')];
  const seen = (place: ToolPlace): ToolPlace => ({ ...place, y: y * place.y, z: z * place.z });
  const turnsByItself = spindle === 'SUB' && codeWord(setting.card.codes.subStart) !== undefined;
  return steps.map((step) => ({ ...step, from: seen(step.from), to: seen(step.to), spindleRpm: turnsByItself ? step.subSpindleRpm : step.spindleRpm }));
}
