/**
 * Handing a part over from one spindle to another that faces it: the phase
 * between them that keeps the clocking of what is cut, and the ways of the
 * receiving spindle. Knows no control; places along the axis of the receiving
 * spindle are as that axis counts.
 *
 * Picture: both spindles have one axis, face each other and turn together. C of
 * each is counted in its own way: the sense is 1 when growing C turns the work
 * right-handed about the direction that leaves the face of the work in that
 * spindle. Facing each other, these directions are opposite.
 */
import { withinOneTurnDegrees } from './clocking.ts';
import { inRange, lengthOrZero, positiveLength, positiveRate } from './domain.ts';
import { handOverCatalogue } from './catalogue-hand-over.ts';
import { figureMaker } from './figure-maker.ts';
import { OutOfRange, shown, type Quantity, type Units } from './quantity.ts';

export type Sense = 1 | -1;

/** All lengths are in `units`, angles in degrees, times in seconds. */
export interface HandOverInput {
  units: Units;
  /** C on the giving spindle of a feature of the part. */
  givenAngleDegrees: number;
  /** C at which the same feature shall stand on the receiving spindle. */
  wantedAngleDegrees: number;
  /** Product of the senses of both; needed unless the given angle is 0. */
  sensesProduct?: Sense;
  /** Place of the receiving spindle where its jaws close. */
  gripPlace: number;
  /** Place to which it retracts. */
  retractPlace: number;
  /** Length over which its jaws then reach over the part. */
  overlap: number;
  /** Gap between jaws and part at the start of the creep feed. */
  approach: number;
  /** In length a minute. */
  creepFeed: number;
  /** Length by which it draws the stock out after gripping; 0 for none. */
  pull: number;
  /** Given where the giving chuck lets go of the part, which then leaves it at the creep feed. */
  release?: {
    /** Length of the part inside that chuck; where it is not known, the feed goes all the way. */
    held: number | undefined;
  };
  /** Pauses for the chucks, in all. */
  pauseSeconds: number;
}

export interface HandOverPlan {
  /** C of the receiving spindle while the giving one stands at C 0, from 0 to below 360. */
  readonly phaseAngleDegrees: number;
  readonly creepStartPlace: number;
  readonly creepLength: number;
  readonly pulledPlace: number;
  /** Way of the part out of the giving chuck at the creep feed; 0 where that chuck keeps what it holds. */
  readonly drawOutLength: number;
  readonly freePlace: number;
  readonly retractLength: number;
  /** Creep, pull, the way out of the chuck and pauses; rapid moves and the chucks' own times are the machine's. */
  readonly seconds: number;
}

export type HandOverQuantityId = keyof typeof handOverCatalogue;

/**
 * C of the receiving spindle while the giving one stands at C 0. Facing spindles
 * that turn together keep `sense x C` of one plus `sense x C` of the other
 * constant; a feature that comes under the tool at C = g there comes under the
 * same tool at C = phase - product x g here. Source: derived.
 *
 * @throws OutOfRange on `sensesProduct` when it is needed and not given
 */
export function phaseAngleDegrees(givenAngle: number, wantedAngle: number, sensesProduct: Sense | undefined): number {
  inRange('givenAngleDegrees', givenAngle, { atLeast: -360, atMost: 360 });
  inRange('wantedAngleDegrees', wantedAngle, { atLeast: -360, atMost: 360 });
  if (givenAngle === 0) return withinOneTurnDegrees(wantedAngle);
  if (sensesProduct !== 1 && sensesProduct !== -1) throw new OutOfRange('sensesProduct', sensesProduct, '1 or -1', 'the senses of both spindles decide it');
  return withinOneTurnDegrees(wantedAngle + sensesProduct * givenAngle);
}

/** @throws OutOfRange with the field that is wrong and its range */
export function handOverPlan(input: HandOverInput): HandOverPlan {
  checkWays(input);
  const { gripPlace, retractPlace, overlap, approach, creepFeed, pull, pauseSeconds } = input;
  const away = Math.sign(retractPlace - gripPlace);
  const creepLength = approach + overlap;
  const pulledPlace = gripPlace + away * pull;
  const drawOutLength = drawOutLengthOf(input);
  return {
    phaseAngleDegrees: phaseAngleDegrees(input.givenAngleDegrees, input.wantedAngleDegrees, input.sensesProduct),
    creepStartPlace: gripPlace + away * creepLength,
    creepLength,
    pulledPlace,
    drawOutLength,
    freePlace: pulledPlace + away * drawOutLength,
    retractLength: retractLength(pulledPlace, retractPlace),
    seconds: (60 * (creepLength + pull + drawOutLength)) / creepFeed + pauseSeconds,
  };
}

/** A gap stays between part and chuck where rapid begins, as one does before the grip; no rapid is left where the way ends before. */
function drawOutLengthOf({ release, gripPlace, retractPlace, approach }: HandOverInput): number {
  if (!release) return 0;
  return Math.min(Math.abs(retractPlace - gripPlace), (release.held ?? Infinity) + approach);
}

/** `drawOutLength` only where the giving chuck lets go. Throws as `handOverPlan` does. */
export function handOver(input: HandOverInput): Record<Exclude<HandOverQuantityId, 'drawOutLength'>, Quantity> & Partial<Record<'drawOutLength', Quantity>> {
  const plan = handOverPlan(input);
  const { units, givenAngleDegrees: given, wantedAngleDegrees: wanted, sensesProduct, gripPlace, retractPlace, overlap, approach, creepFeed, pull, pauseSeconds } = input;
  const figure = figureMaker(handOverCatalogue, units);
  const turned = given === 0 ? '' : ` + (${sensesProduct ?? ''}) x ${shown(given)}, product of the senses times C given,`;
  return {
    phaseAngle: figure('phaseAngle', plan.phaseAngleDegrees, () =>
      `C wanted ${shown(wanted)}${turned} = ${shown(plan.phaseAngleDegrees)} deg (0 to below 360): C of the receiving spindle while the giving one stands at C 0`),
    creepLength: figure('creepLength', plan.creepLength, () => `gap + overlap = ${shown(approach)} + ${shown(overlap)} = ${shown(plan.creepLength)}`),
    creepStart: figure('creepStart', plan.creepStartPlace, () => `creep length ${shown(plan.creepLength)} before the grip at ${shown(gripPlace)}: ${shown(plan.creepStartPlace)}`),
    ...(input.release ? { drawOutLength: figure('drawOutLength', plan.drawOutLength, () => drawOutWorking(input, plan)) } : {}),
    ...retractFigures(units, plan.pulledPlace, retractPlace),
    handOverTime: figure('handOverTime', plan.seconds, () =>
      `60 x (creep + pull + way out of the chuck) / feed + pauses = 60 x (${shown(plan.creepLength)} + ${shown(pull)} + ${shown(plan.drawOutLength)}) / ${shown(creepFeed)} + ${shown(pauseSeconds)} = ${shown(plan.seconds)} s; rapid moves and chucks not counted`),
  };
}

function drawOutWorking({ release, approach }: HandOverInput, { drawOutLength, freePlace, retractLength: way }: HandOverPlan): string {
  const held = release?.held;
  if (held === undefined) return `length held is not given: all the way, ${shown(way)}`;
  if (held + approach > way) return `length held + gap = ${shown(held)} + ${shown(approach)}, more than the way to the retract place: all of it, ${shown(way)}`;
  return `length held + gap = ${shown(held)} + ${shown(approach)} = ${shown(drawOutLength)}, to ${shown(freePlace)}`;
}

/**
 * The one figure of a retract alone.
 *
 * @throws OutOfRange on `gripPlace` or `retractPlace`
 */
export function retractFigures(units: Units, gripPlace: number, retractPlace: number): Record<'retractLength', Quantity> {
  const length = retractLength(gripPlace, retractPlace);
  return { retractLength: figureMaker(handOverCatalogue, units)('retractLength', length, () => `from ${shown(gripPlace)} to ${shown(retractPlace)}: ${shown(length)}`) };
}

function retractLength(gripPlace: number, retractPlace: number): number {
  inRange('gripPlace', gripPlace, { atLeast: -2e5, atMost: 2e5 });
  return Math.abs(inRange('retractPlace', retractPlace, { atLeast: -1e5, atMost: 1e5 }) - gripPlace);
}

function checkWays(input: HandOverInput): void {
  const { gripPlace, retractPlace, overlap, approach, creepFeed, pull, pauseSeconds } = input;
  inRange('gripPlace', gripPlace, { atLeast: -1e5, atMost: 1e5 });
  inRange('retractPlace', retractPlace, { atLeast: -1e5, atMost: 1e5 });
  lengthOrZero('overlap', overlap);
  positiveLength('approach', approach);
  positiveRate('creepFeed', creepFeed);
  inRange('pauseSeconds', pauseSeconds, { atLeast: 0, atMost: 1e4 });
  const way = Math.abs(retractPlace - gripPlace);
  if (way < approach + overlap) throw new OutOfRange('retractPlace', retractPlace, `at least ${shown(approach + overlap)} away from the grip at ${shown(gripPlace)}`, 'gap and overlap');
  inRange('pull', pull, { atLeast: 0, atMost: way, reason: 'not beyond the retract place' });
  if (input.release?.held !== undefined) inRange('held', input.release.held, { atLeast: 0, atMost: way, reason: 'the part must be out of the chuck at the retract place' });
}
