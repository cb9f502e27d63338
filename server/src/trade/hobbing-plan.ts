/**
 * One hobbing operation as plain numbers: the input checked, gear and hob
 * worked out, speeds settled, the cuts laid out. What is shown of it is made in
 * hobbing.ts, what is written into a program elsewhere; both read this plan.
 */
import { LARGEST_LENGTH, inRange } from './domain.ts';
import { gearGeometry, type Gear, type GearInput } from './gear.ts';
import { requireHand } from './hands.ts';
import { hobGeometry, type Hob, type HobInput } from './hob.ts';
import { synchronousRatio, type HobbingSenses } from './hobbing-law.ts';
import { checkPlungeInput, plungeOfCut, type Plunge, type PlungeInput } from './hobbing-plunge.ts';
import { cutTravels, type HobbingCut } from './hobbing-travel.ts';
import { lengthPerSpeedUnit, unitsPerMillimetre } from './lengths.ts';
import { OutOfRange } from './quantity.ts';

export interface HobbingInput extends GearInput, HobInput, HobbingSenses {
  readonly faceWidth: number;
  /** ISO 1328-1:2013 flank class, 1 to 11. */
  readonly flankClass: number;
  /** m/min, or ft/min when the units are inches. Exactly one of speed and rpm is given. */
  readonly cuttingSpeed?: number | undefined;
  readonly hobRpm?: number | undefined;
  readonly feedPerWorkRevolution: number;
  /** Passes along the face, 1 to 20. */
  readonly cuts: number;
  /** True: the hob's teeth cut against the feed. */
  readonly climb: boolean;
  /** Free travel over and above approach and overrun; one half of it lies at either end. */
  readonly clearance: number;
  /** Position along the hob axis, toward the +Y end. */
  readonly shift: number;
  /** Radial entry at the first face; left out, the hob comes in along the work. */
  readonly plunge?: PlungeInput | undefined;
}

/** A cut with its time: radial entry, spark-out and axial feed together. */
export interface TimedHobbingCut extends HobbingCut {
  readonly seconds: number;
  /** Present where the hob enters radially. */
  readonly plunge?: Plunge;
}

export interface HobbingPlan {
  readonly input: HobbingInput;
  readonly gear: Gear;
  readonly hob: Hob;
  readonly hobRpm: number;
  /** At the plain ratio; the differential adds or takes a fraction of a percent while a helical gear feeds. */
  readonly workRpm: number;
  readonly cuttingSpeed: number;
  readonly feedPerMinute: number;
  readonly cuts: readonly TimedHobbingCut[];
  /** The cut at full depth, which has the longest travel. */
  readonly finalCut: TimedHobbingCut;
}

/** What one cut needs to be written into a program. Lengths in the input's units. */
export interface HobbingCutSummary {
  /** Cumulative, radial, from the tip circle. */
  readonly depth: number;
  /** Centre distance. */
  readonly hobAxisToWorkAxis: number;
  readonly approach: number;
  /** From the face outward to where feed begins. */
  readonly startZOffset: number;
  /** From the far face onward to where feed ends. */
  readonly endZOffset: number;
  readonly travel: number;
  readonly seconds: number;
}

/** Throws `OutOfRange` with the name of the input field. */
export function hobbingPlan(input: HobbingInput): HobbingPlan {
  checkProcessInput(input);
  const gear = gearGeometry(input);
  const hob = hobGeometry(input, gear);
  const speeds = speedsOf(input, gear, hob);
  const { cuts: count, faceWidth, clearance, plunge } = input;
  const cuts = cutTravels(gear, hob, { cuts: count, faceWidth, clearance, entersRadially: plunge !== undefined }).map((cut) => timedCut(cut, input, speeds));
  return { input, gear, hob, ...speeds, cuts, finalCut: lastOf(cuts) };
}

/** The cuts in the order in which they run. */
export function cutsOf(input: HobbingInput): HobbingCutSummary[] {
  return hobbingPlan(input).cuts.map(({ depth, hobAxisToWorkAxis, approach, startZOffset, endZOffset, travel, seconds }) => ({
    depth,
    hobAxisToWorkAxis,
    approach: approach.value,
    startZOffset,
    endZOffset,
    travel,
    seconds,
  }));
}

function timedCut(cut: HobbingCut, { plunge: plungeInput, clearance }: HobbingInput, { feedPerMinute, workRpm }: Speeds): TimedHobbingCut {
  const axialSeconds = (60 * cut.travel) / feedPerMinute;
  if (plungeInput === undefined) return { ...cut, seconds: axialSeconds };
  const plunge = plungeOfCut(cut, plungeInput, clearance, workRpm);
  return { ...cut, plunge, seconds: plunge.seconds + plunge.sparkOutSeconds + axialSeconds };
}

function checkProcessInput(input: HobbingInput): void {
  const millimetre = unitsPerMillimetre(input.units);
  inRange('faceWidth', input.faceWidth, { over: 0, atMost: LARGEST_LENGTH });
  inRange('flankClass', input.flankClass, { atLeast: 1, atMost: 11, whole: true });
  inRange('feedPerWorkRevolution', input.feedPerWorkRevolution, { over: 0, atMost: 100 * millimetre });
  inRange('cuts', input.cuts, { atLeast: 1, atMost: 20, whole: true });
  inRange('clearance', input.clearance, { atLeast: 0, atMost: 1000 * millimetre });
  inRange('shift', input.shift, { atLeast: -LARGEST_LENGTH, atMost: LARGEST_LENGTH });
  if (input.plunge !== undefined) checkPlungeInput(input.plunge, millimetre);
  requireHand('hobSide', input.hobSide);
  requireHand('workRotationSense', input.workRotationSense);
}

type Speeds = Pick<HobbingPlan, 'hobRpm' | 'workRpm' | 'cuttingSpeed' | 'feedPerMinute'>;

function speedsOf(input: HobbingInput, gear: Gear, hob: Hob): Speeds {
  const circumference = (Math.PI * hob.tipDiameter) / lengthPerSpeedUnit(input.units);
  const hobRpm = hobRpmOf(input, circumference);
  const workRpm = hobRpm * synchronousRatio(gear, hob);
  return { hobRpm, workRpm, cuttingSpeed: hobRpm * circumference, feedPerMinute: input.feedPerWorkRevolution * workRpm };
}

/** Speed and rpm say the same thing twice, so exactly one of them is an input. */
function hobRpmOf(input: HobbingInput, circumference: number): number {
  if (input.hobRpm !== undefined && input.cuttingSpeed !== undefined) {
    throw new OutOfRange('hobRpm', input.hobRpm, 'left out when the cutting speed is given');
  }
  if (input.hobRpm !== undefined) return inRange('hobRpm', input.hobRpm, { over: 0, atMost: 100_000 });
  if (input.cuttingSpeed === undefined) throw new OutOfRange('cuttingSpeed', undefined, 'given, or else the rpm of the hob');
  return inRange('cuttingSpeed', input.cuttingSpeed, { over: 0, atMost: 10_000 }) / circumference;
}

function lastOf(cuts: readonly TimedHobbingCut[]): TimedHobbingCut {
  const last = cuts[cuts.length - 1];
  if (last === undefined) throw new OutOfRange('cuts', cuts.length, 'at least 1');
  return last;
}
