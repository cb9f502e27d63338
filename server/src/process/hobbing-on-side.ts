/**
 * What hobbing asks of the machine card when the work is in the sub-spindle.
 * The law of the trade library holds there too, in axes that are told from the
 * face of the work: X as programmed, Z leaving the face, Y to the left of
 * somebody who looks at it. The other processes need the ways in which Z, Y and
 * C count. Hobbing also needs the rotation of the hob and the hand of a helix,
 * which the card states for the main spindle; this file says when they can be
 * carried over. Where two machines with the same card would differ, it refuses.
 */
import type { MachineCard } from '../machine/card.ts';
import { shown } from '../trade/quantity.ts';
import type { HobbingValues } from './hobbing-fields.ts';
import { differentialOf } from './hobbing-job.ts';
import type { Problem, Setting } from './process.ts';
import { senseOf, subSpindleRules } from './work-side.ts';

export function subSpindleHobbingRules(values: Partial<HobbingValues>, setting: Setting): Problem[] {
  if (values.SPINDLE !== 'SUB') return [];
  const unstated = subSpindleRules('SUB', ['zSense', 'ySense', 'workRotation'], setting);
  return unstated.length > 0 ? unstated : [...toolRules(setting.card), ...helixRules(values.HELIX ?? 0, setting.card)];
}

function toolRules({ senses, subSpindle }: MachineCard): Problem[] {
  if (senses.toolRotation === undefined) {
    return [refused('SPINDLE', 'senses.toolRotation', 'SPINDLE: SUB needs senses.toolRotation, which the machine card does not say: allowed is MAIN until it does.')];
  }
  if (subSpindle?.ySense === -1) return [];
  return [refused('SPINDLE', 'subSpindle.ySense', 'SPINDLE: SUB is hobbed only where subSpindle.ySense is -1. Where it is 1, either the control mirrors Y or another turret cuts, and the hob turns the one way or the other: allowed is MAIN.')];
}

/**
 * A control may take the figure of a helix for the hand of the teeth, or for the
 * way C goes with Z as its words count on the main spindle. Both come to the
 * same sign only where C and Z count against each other as they do there.
 */
function helixRules(helixDegrees: number, card: MachineCard): Problem[] {
  if (differentialOf({ HELIX: helixDegrees }, card) !== 'control' || countsHelixAlike(card)) return [];
  return [{
    ...refused('HELIX', card.senses.workRotation === undefined ? 'senses.workRotation' : 'subSpindle.workRotation', `HELIX: ${shown(helixDegrees)} is not allowed in the sub-spindle of this machine card: C and Z count against each other otherwise than on the main spindle, or it is not said, so the sign of the helix in codes.syncOn is not known there. Allowed is 0.`),
    rule: 'no-differential',
  }];
}

function countsHelixAlike(card: MachineCard): boolean {
  const [main, sub, z] = [senseOf(card, 'MAIN', 'workRotation'), senseOf(card, 'SUB', 'workRotation'), senseOf(card, 'SUB', 'zSense')];
  return main !== undefined && sub !== undefined && z !== undefined && sub * z === main;
}

function refused(parameter: string, cardKey: string, message: string): Problem {
  return { parameter, cardKey, rule: 'unstated-sense', severity: 'error', message };
}
