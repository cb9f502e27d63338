/**
 * Which spindle holds the work, and what that changes: the way Z leaves the
 * face, the sides of Y and C, the codes of the work axis. Everything on the work
 * is thought of from its own face, as on the main spindle; this file turns it
 * into the words of the spindle that holds it.
 *
 * It never guesses: what the machine card does not say of the sub-spindle is a
 * problem on SPINDLE that names the key.
 */
import type { CodeName, MachineCard } from '../machine/card.ts';
import type { Problem, Setting } from './process.ts';
import { angleWord, lengthWord } from './words.ts';

export type Spindle = 'MAIN' | 'SUB';

/** The parameter that every process on either spindle has. */
export const spindleField = {
  SPINDLE: { kind: 'choice', label: 'Spindle that holds the work', choices: ['MAIN', 'SUB'], default: 'MAIN', help: 'SUB: the work is in the sub-spindle. Z, Y, C and the codes of the work axis follow what the machine card says of it.' },
} as const;

export type WorkCode = 'axisOn' | 'axisOff' | 'clamp' | 'unclamp';

const codeNames: Readonly<Record<Spindle, Readonly<Record<WorkCode, CodeName>>>> = {
  MAIN: { axisOn: 'workAxisOn', axisOff: 'workAxisOff', clamp: 'workClamp', unclamp: 'workUnclamp' },
  SUB: { axisOn: 'subAxisOn', axisOff: 'subAxisOff', clamp: 'subClamp', unclamp: 'subUnclamp' },
};

export function workCode(spindle: Spindle, code: WorkCode): CodeName {
  return codeNames[spindle][code];
}

/** What a process needs to know of the spindle: one key of the card for each. */
export type NeededSense = 'zSense' | 'ySense' | 'workRotation';

/** The sense of a spindle; undefined where the card does not say it. The main spindle is the measure for Z and Y. */
export function senseOf(card: MachineCard, spindle: Spindle, sense: NeededSense): 1 | -1 | undefined {
  if (spindle === 'SUB') return card.subSpindle?.[sense];
  return sense === 'workRotation' ? card.senses.workRotation : 1;
}

/** The chuck that holds the work, where the card tells of it. */
export function chuckOf(card: MachineCard, spindle: Spindle): MachineCard['chuck'] {
  return spindle === 'SUB' ? card.subSpindle?.chuck : card.chuck;
}

/** What the card leaves open of the sub-spindle. The main spindle's rotation is each process's own concern. */
export function subSpindleRules(spindle: Spindle | undefined, needed: readonly NeededSense[], { card }: Setting): Problem[] {
  if (spindle !== 'SUB') return [];
  return needed.filter((sense) => senseOf(card, spindle, sense) === undefined).slice(0, 1).map((sense) => ({
    parameter: 'SPINDLE', cardKey: `subSpindle.${sense}`, rule: 'unstated-sense', severity: 'error',
    message: `SPINDLE: SUB needs subSpindle.${sense}, which the machine card does not say: allowed is MAIN until it does.`,
  }));
}

/** The Z word of a place at a distance from the face, positive before it. */
export function zWord(faceZ: number, offset: number, spindle: Spindle, setting: Setting): string {
  return lengthWord('Z', faceZ + known(senseOf(setting.card, spindle, 'zSense')) * offset, setting);
}

/** The Y word of a place on the face, as it would be on the main spindle. */
export function yWord(y: number, spindle: Spindle, setting: Setting): string {
  return lengthWord('Y', y === 0 ? 0 : known(senseOf(setting.card, spindle, 'ySense')) * y, setting);
}

/**
 * The C word that brings a place of the work under a tool on the +X side: the
 * work turns back by the place's angle, counted as the card says. Without that,
 * a text could come out mirrored, so nothing is guessed.
 *
 * @param placeDegrees counter-clockwise, seen by somebody who looks at the face
 */
export function workWord(placeDegrees: number, spindle: Spindle, setting: Setting): string {
  const turn = placeDegrees === 0 ? 0 : -placeDegrees * known(senseOf(setting.card, spindle, 'workRotation'));
  return angleWord('C', turn, setting);
}

/** The rules have refused what is not known before anything is composed. */
function known(sense: 1 | -1 | undefined): number {
  return sense ?? NaN;
}
