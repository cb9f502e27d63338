/**
 * Which way hob and work turn in a hobbing block: the sign in the synchronous
 * word, the code that starts the drive, and what must be said where the card
 * leaves a direction open.
 *
 * A sign that the card does not settle becomes a hole: with the wrong one the
 * teeth are milled away. The start code alone decides only whether the hob climbs,
 * in either case with good teeth, so a card that does not say toolRotation gets
 * drivenStart for a hob that is to turn right-handed about +Y, and a warning.
 * The same holds for the side of the hob in the X words: it is the one on which
 * X grows unless the card says otherwise, and a warning tells of it.
 */
import { placeholdersOf, templateBlocks, type Figures } from '../machine/template.ts';
import { hobRotationSense } from '../trade/hobbing-law.ts';
import { shown } from '../trade/quantity.ts';
import type { HobbingValues } from './hobbing-fields.ts';
import { differentialOf, handOf, workRotationOf } from './hobbing-job.ts';
import { hobSide, statedHobSide, syncCode, syncTemplate, toolRotationOf } from './hobbing-senses.ts';
import type { Problem, Setting } from './process.ts';

type Card = Setting['card'];
type Sign = 1 | -1;

/**
 * The sign of the work rotation for the forward direction of the drive. It comes
 * from the law of the trade library, and only where the card says which way C
 * counts, on which side the hob stands and which way the drive turns it.
 */
export function senseFigure(values: HobbingValues, card: Card): Figures {
  const sense = workPerDrive(values, card);
  return sense === undefined ? {} : { sense: sense < 0 ? '-' : '' };
}

/** The key that would settle {sense}; the rules have refused what is open of the sub-spindle. */
export function senseKey(values: HobbingValues, card: Card): string {
  if (workRotationOf(values, card) === undefined) return 'senses.workRotation';
  return statedHobSide(card, values.SPINDLE) === undefined ? 'senses.hobSide' : 'senses.toolRotation';
}

export function drivenCode(values: HobbingValues, card: Card): 'drivenStart' | 'drivenReverse' {
  const wanted = hobRotationSense(values.METHOD === 'CLIMB', -1, hobSide(card, values.SPINDLE));
  return wanted === (toolRotationOf(card, values.SPINDLE) ?? 1) ? 'drivenStart' : 'drivenReverse';
}

/** Directions that the card cannot express or does not state. */
export function directionProblems(values: HobbingValues, card: Card): Problem[] {
  const sync = syncTemplate(card, values.SPINDLE);
  if (templateBlocks(sync).length === 0) return [];
  const problems = differentialOf(values, card) === 'impossible' ? [noDifferential(values, card)] : [];
  if (!placeholdersOf(sync).has('sense')) problems.push(unsignedSync(values, card));
  if (statedHobSide(card, values.SPINDLE) === undefined) {
    problems.push({ cardKey: 'senses.hobSide', rule: 'unstated-sense', severity: 'warning', message: 'The machine card does not say senses.hobSide: X words are positive, which is right only if the hob stands on the +X side.' });
  }
  if (toolRotationOf(card, values.SPINDLE) === undefined) {
    problems.push({ cardKey: 'senses.toolRotation', rule: 'unstated-sense', severity: 'warning', message: 'The machine card does not say senses.toolRotation: climb or conventional is right only if drivenStart turns the hob right-handed about +Y.' });
  }
  return problems;
}

/** Undefined where the card leaves one of the directions open. */
function workPerDrive(values: HobbingValues, card: Card): Sign | undefined {
  const [work, side, tool] = [workRotationOf(values, card), statedHobSide(card, values.SPINDLE), toolRotationOf(card, values.SPINDLE)];
  if (work === undefined || side === undefined || tool === undefined) return undefined;
  return (-handOf(values['HOB-HAND']) * side * work * tool) as Sign;
}

function noDifferential({ HELIX, SPINDLE }: HobbingValues, card: Card): Problem {
  const key = `codes.${syncCode(card, SPINDLE, 'syncOn')}`;
  const lacksLetter = card.differentialByWorkAxis === 'incremental';
  const why = lacksLetter ? 'incrementalAxes has no letter for C' : `${key} of the machine card has neither {helix} nor {lead}, and differentialByWorkAxis is not given`;
  return { parameter: 'HELIX', cardKey: lacksLetter ? 'incrementalAxes' : key, rule: 'no-differential', severity: 'error', message: `HELIX: ${shown(HELIX)} needs a differential, but ${why}: allowed is 0.` };
}

function unsignedSync(values: HobbingValues, card: Card): Problem {
  const key = `codes.${syncCode(card, values.SPINDLE, 'syncOn')}`;
  const shared = { cardKey: key, rule: 'unstated-sense' } as const;
  if (turnsAsUsual(values, card)) {
    return { ...shared, severity: 'warning', message: `${key} of the machine card has no {sense}: the direction of the work is not in the block. Prove it before the hob touches.` };
  }
  return isMadeForSpindle(values, card)
    ? { ...shared, parameter: 'HOB-HAND', severity: 'error', message: `HOB-HAND: LEFT needs the work to turn the other way, but ${key} of the machine card has no {sense}: allowed is RIGHT.` }
    : { ...shared, parameter: 'SPINDLE', severity: 'error', message: `SPINDLE: SUB with a ${values['HOB-HAND']} hand hob needs C to go the other way than for a right hand hob on the main spindle, or that is not said, but ${key} of the machine card has no {sense}: allowed is MAIN.` };
}

/** A word without a sign is made for a right-hand hob on its spindle, that of the main spindle for the main one. */
function isMadeForSpindle({ SPINDLE }: HobbingValues, card: Card): boolean {
  return SPINDLE === 'MAIN' || syncCode(card, SPINDLE, 'syncOn') === 'subSyncOn';
}

/** Whether C goes with the drive here as it does where the word without a sign is made for. */
function turnsAsUsual(values: HobbingValues, card: Card): boolean {
  if (isMadeForSpindle(values, card)) return values['HOB-HAND'] === 'RIGHT';
  const usual = workPerDrive({ ...values, SPINDLE: 'MAIN', 'HOB-HAND': 'RIGHT' }, card);
  return usual !== undefined && workPerDrive(values, card) === usual;
}
