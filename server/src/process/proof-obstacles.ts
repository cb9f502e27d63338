/**
 * What stands near the teeth, for the proof of hobbing: the shoulder and the
 * collar that the note tells of, the chuck that the machine card tells of.
 * Where the other end of such a body is, nobody says: it counts as endless.
 */
import type { Obstacle } from '../cut/hobbing-stretch.ts';
import type { MachineCard } from '../machine/card.ts';
import type { ProofValues } from './proof-values.ts';
import { provedSense } from './proof-on-side.ts';
import { chuckOf, type Spindle } from './work-side.ts';
import { cardLength } from './words.ts';

/** Places along Z count from the same zero as the program, and grow away from the face of the work. */
export function hobbingObstacles(values: ProofValues, card: MachineCard, spindle: Spindle): Obstacle[] {
  const zSense = provedSense(card, spindle, 'zSense');
  const faceZ = zSense * (values.length('FACE-Z') ?? 0);
  return [
    ...behind('shoulder behind the teeth', values.length('SHOULDER-DIA'), faceZ - (values.length('FACE') ?? 0) - (values.length('SHOULDER-GAP') ?? 0)),
    ...before('collar before the teeth', values.length('FRONT-DIA'), faceZ + (values.length('FRONT-GAP') ?? 0)),
    ...chuck(card, spindle, zSense),
  ];
}

function behind(name: string, diameter: number | undefined, zHigh: number): Obstacle[] {
  return diameter === undefined ? [] : [{ name, radius: diameter / 2, zLow: -Infinity, zHigh }];
}

function before(name: string, diameter: number | undefined, zLow: number): Obstacle[] {
  return diameter === undefined ? [] : [{ name, radius: diameter / 2, zLow, zHigh: Infinity }];
}

function chuck(card: MachineCard, spindle: Spindle, zSense: 1 | -1): Obstacle[] {
  const stated = chuckOf(card, spindle);
  if (!stated) return [];
  const millimetres = (length: number): number => cardLength(length, card, 'mm');
  return behind(`chuck of the ${spindle === 'SUB' ? 'sub-spindle' : 'main spindle'}`, millimetres(stated.diameter), zSense * millimetres(stated.z));
}
