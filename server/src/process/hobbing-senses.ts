/**
 * The directions and words of hobbing on either spindle, as the machine card
 * settles them. Nothing is guessed: what the card leaves open is undefined here,
 * and whoever needs it writes a hole or refuses.
 *
 * Derivation. The law of the trade library needs a right-handed frame with Z
 * along the work axis. Each spindle has one, told from the face of its work: n
 * leaves the face, x is the way of growing X words, and l = n x x is what
 * somebody who looks at the face with +X up calls left (he looks along -n, and
 * right is the look crossed with up, -n x x). On the main spindle this is the
 * machine's own X, Y, Z. On the other one everything follows in the frame of
 * its face:
 *
 * - C: `workRotation` says whether growing C turns the work right-handed about n.
 * - Z: the feed runs along -n, so words change by -zSense; Y words by ySense
 *   times the way along l. A shift of the hob counts toward the end where Y grows.
 * - The side of the hob is the sign of its X words, since x is the way of X.
 * - Climb means that the cutting edges run along +n where they meet the work,
 *   against the feed. With a hob on the +X side they do when the hob turns
 *   right-handed about l, on the -X side when left-handed.
 * - The swivel is clockwise or not to somebody who looks from the hob to the
 *   work, whichever way is up, so the call to the operator is the same.
 * - One turret for both spindles: x is the same, n turns over, so l does too.
 *   Unmirrored Y words then have ySense -1, and a drive that turns the hob
 *   right-handed about the l of the main spindle turns it left-handed about that
 *   of the other: toolRotation changes its sign. So the same method needs the
 *   other start code, and the same coupling the other product of signs.
 * - Where ySense is 1 a control mirrors Y, or another turret cuts, perhaps with
 *   an X that points the other way. The card does not say which, so it must say
 *   toolRotation and hobSide of the sub-spindle themselves.
 * - A helix figure may mean the hand of the teeth, or how C goes with Z as words
 *   count. Both give the same sign where the product of zSense and workRotation
 *   is that of the main spindle; elsewhere the card must say helixSign.
 */
import type { CodeName, MachineCard } from '../machine/card.ts';
import { templateBlocks, type Template } from '../machine/template.ts';
import { senseOf, type Spindle } from './work-side.ts';

type Sign = 1 | -1;

/** The rotation of a hob started forward, not swivelled: 1 right-handed about the direction to the left of somebody who looks at the face. */
export function toolRotationOf({ senses, subSpindle }: MachineCard, spindle: Spindle): Sign | undefined {
  if (spindle === 'MAIN') return senses.toolRotation;
  if (subSpindle?.toolRotation !== undefined) return subSpindle.toolRotation;
  return subSpindle?.ySense === -1 && senses.toolRotation !== undefined ? (-senses.toolRotation as Sign) : undefined;
}

/** The side of the work on which the hob stands, as the card says it; undefined where it does not. */
export function statedHobSide({ senses, subSpindle }: MachineCard, spindle: Spindle): Sign | undefined {
  const ofTurret = spindle === 'MAIN' || subSpindle?.ySense === -1 ? senses.hobSide : undefined;
  const side = spindle === 'SUB' ? (subSpindle?.hobSide ?? ofTurret) : ofTurret;
  return side === undefined ? undefined : side === '-X' ? -1 : 1;
}

/** X leads from the work axis to the tool (ISO 841, from memory) unless the card puts the hob on the other side. */
export function hobSide(card: MachineCard, spindle: Spindle): Sign {
  return statedHobSide(card, spindle) ?? 1;
}

/** The sign of {helix} and {lead} for right-hand teeth; undefined where it is not known. */
export function helixSignOf(card: MachineCard, spindle: Spindle): Sign | undefined {
  const ofMain = card.senses.helixSign ?? 1;
  if (spindle === 'MAIN') return ofMain;
  return card.subSpindle?.helixSign ?? (countsHelixAlike(card) ? ofMain : undefined);
}

function countsHelixAlike(card: MachineCard): boolean {
  const [main, sub, z] = [senseOf(card, 'MAIN', 'workRotation'), senseOf(card, 'SUB', 'workRotation'), senseOf(card, 'SUB', 'zSense')];
  return main !== undefined && sub !== undefined && z !== undefined && sub * z === main;
}

/** The words that couple hob and work: those of the sub-spindle where the card has any, else one pair serves both. */
export function syncCode(card: MachineCard, spindle: Spindle, code: 'syncOn' | 'syncOff'): CodeName {
  const ofSub = code === 'syncOn' ? 'subSyncOn' : 'subSyncOff';
  return spindle === 'SUB' && templateBlocks(card.codes[ofSub]).length > 0 ? ofSub : code;
}

export function syncTemplate(card: MachineCard, spindle: Spindle): Template | undefined {
  return card.codes[syncCode(card, spindle, 'syncOn')];
}
