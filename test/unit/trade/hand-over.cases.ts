/** Checks of the hand-over figures. No published values are known; each expected value is worked out by hand from the picture of two facing spindles. */
import { handOver, type HandOverInput, type HandOverQuantityId } from '../../../server/src/trade/hand-over.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';

type Changes = Partial<HandOverInput>;

export const TRANSFER: HandOverInput = {
  units: 'mm', givenAngleDegrees: 0, wantedAngleDegrees: 0, gripPlace: -400, retractPlace: 0, overlap: 10, approach: 5, creepFeed: 300, pull: 0, pauseSeconds: 0,
};

const check = (name: string, id: HandOverQuantityId, inputs: Changes, expected: number, digits: number): Check<Changes> => ({
  id, case: name, source: 'worked out by hand from the picture', standing: 'derived', inputs, expected, digits,
});

const checks: readonly Check<Changes>[] = [
  check('zero marks meet', 'phaseAngle', {}, 0, 9),
  check('only the wanted angle counts where the given one is 0', 'phaseAngle', { wantedAngleDegrees: -30 }, 330, 9),
  // Both count right-handed about their own outward direction, so facing each other they count against each other: the sum of both C stays.
  check('equal senses: 30 there and 0 here sum to 30', 'phaseAngle', { givenAngleDegrees: 30, sensesProduct: 1 }, 30, 9),
  check('equal senses: 90 there and 45 here', 'phaseAngle', { givenAngleDegrees: 90, wantedAngleDegrees: 45, sensesProduct: 1 }, 135, 9),
  // One counts against the rule, so both words grow together: the difference stays.
  check('unequal senses: 30 there and 0 here', 'phaseAngle', { givenAngleDegrees: 30, sensesProduct: -1 }, 330, 9),
  check('creep over gap and overlap', 'creepLength', {}, 15, 9),
  check('creep starts on the side of the retract place', 'creepStart', {}, -385, 9),
  check('creep starts on the other side when that is where it retracts', 'creepStart', { retractPlace: -800 }, -415, 9),
  check('retract from the grip', 'retractLength', {}, 400, 9),
  check('retract after pulling', 'retractLength', { pull: 60 }, 340, 9),
  check('out of the chuck over 30 held and the gap of 5', 'drawOutLength', { release: { held: 30 } }, 35, 9),
  check('all the way where the length held is not known', 'drawOutLength', { release: { held: undefined } }, 400, 9),
  check('all the way where length and gap are more', 'drawOutLength', { release: { held: 398 } }, 400, 9),
  check('15 mm in, 35 mm out', 'handOverTime', { release: { held: 30 } }, 10, 9),
  check('15 mm at 300 mm/min', 'handOverTime', {}, 3, 9),
  check('and 60 mm pulled and two pauses of a second', 'handOverTime', { pull: 60, pauseSeconds: 2 }, 17, 9),
];

export const handOverCheckTables: readonly CheckTable[] = [checkTable('hand-over', (changes, id) => handOver({ ...TRANSFER, ...changes })[id as HandOverQuantityId]?.value ?? NaN, checks)];
