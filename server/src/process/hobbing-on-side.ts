/**
 * What hobbing asks of the machine card when the work is in the sub-spindle. The
 * other processes need the ways in which Z, Y and C count; hobbing also needs the
 * rotation of the hob, the side on which it stands and the sign of a helix. How
 * these follow from one another is derived in hobbing-senses.ts. Where two
 * machines with the same card would differ, the job is refused here.
 */
import type { MachineCard } from '../machine/card.ts';
import { shown } from '../trade/quantity.ts';
import type { HobbingValues } from './hobbing-fields.ts';
import { differentialOf } from './hobbing-job.ts';
import { helixSignOf, statedHobSide, syncCode, toolRotationOf } from './hobbing-senses.ts';
import type { Problem, Setting } from './process.ts';
import { subSpindleRules } from './work-side.ts';

export function subSpindleHobbingRules(values: Partial<HobbingValues>, setting: Setting): Problem[] {
  if (values.SPINDLE !== 'SUB') return [];
  const unstated = subSpindleRules('SUB', ['zSense', 'ySense', 'workRotation'], setting);
  return unstated.length > 0 ? unstated : [...toolRules(setting.card), ...helixRules(values.HELIX ?? 0, setting.card)];
}

/** One unstated key is named at a time, as for the ways in which the axes count. */
function toolRules(card: MachineCard): Problem[] {
  const mirrored = card.subSpindle?.ySense !== -1;
  if (toolRotationOf(card, 'SUB') === undefined) return [mirrored ? notInherited('toolRotation') : unstated('senses.toolRotation')];
  return mirrored && statedHobSide(card, 'SUB') === undefined ? [notInherited('hobSide')] : [];
}

function unstated(cardKey: string): Problem {
  return refused('SPINDLE', cardKey, `SPINDLE: SUB needs ${cardKey}, which the machine card does not say: allowed is MAIN until it does.`);
}

function notInherited(sense: 'toolRotation' | 'hobSide'): Problem {
  const cardKey = `subSpindle.${sense}`;
  return refused('SPINDLE', cardKey, `SPINDLE: SUB needs ${cardKey}, which the machine card does not say. It does not follow from the main spindle: where subSpindle.ySense is 1, either the control mirrors Y or another turret cuts. Allowed is MAIN until it is said.`);
}

function helixRules(helixDegrees: number, card: MachineCard): Problem[] {
  if (differentialOf({ HELIX: helixDegrees, SPINDLE: 'SUB' }, card) !== 'control' || helixSignOf(card, 'SUB') !== undefined) return [];
  const word = `codes.${syncCode(card, 'SUB', 'syncOn')}`;
  return [{
    ...refused('HELIX', 'subSpindle.helixSign', `HELIX: ${shown(helixDegrees)} is not allowed in the sub-spindle of this machine card: C and Z count against each other otherwise than on the main spindle, or it is not said, so the sign of the helix in ${word} is not known there until subSpindle.helixSign says it. Allowed is 0.`),
    rule: 'no-differential',
  }];
}

function refused(parameter: string, cardKey: string, message: string): Problem {
  return { parameter, cardKey, rule: 'unstated-sense', severity: 'error', message };
}
