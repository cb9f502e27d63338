/**
 * One hobbing job: the values of a note taken together with a machine, as the
 * trade library wants them, and the places to which the hob goes. It decides
 * nothing about what is allowed and writes no word of a program.
 */
import type { MachineCard } from '../machine/card.ts';
import { placeholdersOf } from '../machine/template.ts';
import type { HobbingInput } from '../trade/hobbing.ts';
import { settingAngleRadians, workRotationDegrees } from '../trade/hobbing-law.ts';
import { hobbingPlan, type HobbingPlan } from '../trade/hobbing-plan.ts';
import { shiftParts, type ShiftParts } from '../trade/hobbing-law.ts';
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import type { HobbingValues } from './hobbing-fields.ts';
import { hobSide, syncTemplate } from './hobbing-senses.ts';
import type { Setting } from './process.ts';
import { senseOf } from './work-side.ts';

/** Module in mm, as limits and series give it. */
export function moduleMillimetres(values: HobbingValues): number {
  return values.MODULE ?? MILLIMETRES_PER_INCH / (values.DP ?? NaN);
}

/** The module in the program's units: module is a figure in mm, diametral pitch one per inch. */
function moduleLength(values: HobbingValues, { units }: Setting): number {
  if (units === 'mm') return moduleMillimetres(values);
  return values.DP === undefined ? moduleMillimetres(values) / MILLIMETRES_PER_INCH : 1 / values.DP;
}

export function hobbingInput(values: HobbingValues, setting: Setting): HobbingInput {
  return {
    units: setting.units,
    normalModule: moduleLength(values, setting),
    teeth: values.TEETH,
    helixAngleDegrees: values.HELIX,
    gearHand: handOf(values.HAND),
    normalPressureAngleDegrees: values['PRESSURE-ANGLE'],
    profileShift: values['PROFILE-SHIFT'],
    faceWidth: values.FACE,
    tipDiameter: values['TIP-DIA'],
    depth: values.DEPTH,
    flankClass: values.CLASS,
    hobTipDiameter: values['HOB-DIA'],
    hobStarts: values['HOB-STARTS'],
    hobHand: handOf(values['HOB-HAND']),
    hobGashes: values['HOB-GASHES'],
    hobLength: values['HOB-LENGTH'],
    cuttingSpeed: values.SPEED,
    hobRpm: values.RPM,
    feedPerWorkRevolution: values.FEED,
    cuts: values.CUTS,
    climb: values.METHOD === 'CLIMB',
    clearance: values.CLEARANCE,
    shift: endSense(values, setting.card) * values.SHIFT,
    hobSide: hobSide(setting.card, values.SPINDLE),
    workRotationSense: workRotationOf(values, setting.card) ?? 1,
    plunge: plungeInput(values),
  };
}

function plungeInput({ ENTRY, 'RADIAL-FEED': feed, 'SPARK-OUT': sparkOut }: HobbingValues): HobbingInput['plunge'] {
  return ENTRY === 'PLUNGE' ? { radialFeedPerWorkRevolution: feed ?? NaN, sparkOutWorkRevolutions: sparkOut } : undefined;
}

export function handOf(hand: 'RIGHT' | 'LEFT'): 1 | -1 {
  return hand === 'RIGHT' ? 1 : -1;
}

/** The way C counts on the spindle that holds the work; undefined where the card does not say it. */
export function workRotationOf({ SPINDLE }: Pick<HobbingValues, 'SPINDLE'>, card: MachineCard): 1 | -1 | undefined {
  return senseOf(card, SPINDLE, 'workRotation');
}

/** SHIFT counts toward one end of the hob, as Y is programmed, so that it names the same teeth of the hob on both spindles; the law counts from the face. */
export function endSense({ SPINDLE }: Pick<HobbingValues, 'SPINDLE'>, card: MachineCard): 1 | -1 {
  return senseOf(card, SPINDLE, 'ySense') ?? 1;
}

export interface HobbingJob {
  plan: HobbingPlan;
  /** As seen from the face of the work; the words follow from the spindle. */
  shift: ShiftParts;
  /** Where the hob axis is clear of everything that is known to stand round the work: a radius, signed by the side of the hob. */
  clearRadius: number;
  /**
   * How far before FACE-Z the hob goes past the end of the work on its way to the
   * other side of it; undefined where it stands on the side that X points to.
   */
  crossingOffset?: number;
  /** In the order in which they run. */
  cuts: CutPlace[];
}

/** Where the centre of the hob goes in one cut. */
export interface CutPlace {
  /** From the work axis, signed by the side of the hob. */
  radius: number;
  /** Distances from FACE-Z along the work axis, positive before the face. */
  startOffset: number;
  endOffset: number;
  /** The way in, where it is radial. */
  plunge?: PlungePlace;
}

export interface PlungePlace {
  /** Where radial feed begins: a radius, signed by the side of the hob. */
  startRadius: number;
  /** True speed. */
  feedPerMinute: number;
  sparkOutSeconds: number;
}

/** Throws `OutOfRange` with the name of the trade library's input. */
export function hobbingJob(values: HobbingValues, setting: Setting): HobbingJob {
  const plan = hobbingPlan(hobbingInput(values, setting));
  const { gear, hob, input } = plan;
  const shift = shiftParts(gear, hob, input, input.shift);
  const outermost = Math.max(gear.tipDiameter, values['SHOULDER-DIA'] ?? 0, values['FRONT-DIA'] ?? 0) / 2;
  return {
    plan,
    shift,
    clearRadius: input.hobSide * (outermost + hob.tipDiameter / 2 + Math.max(values.CLEARANCE, gear.normalModule)),
    ...(input.hobSide === -1 ? { crossingOffset: crossingOffset(plan, outermost, values.CLEARANCE) } : {}),
    cuts: plan.cuts.map((cut) => ({
      radius: input.hobSide * cut.hobAxisToWorkAxis,
      startOffset: cut.startZOffset + shift.deltaZ,
      endOffset: -values.FACE - cut.endZOffset + shift.deltaZ,
      ...(cut.plunge ? { plunge: { ...cut.plunge, startRadius: input.hobSide * cut.plunge.startAxisDistance } } : {}),
    })),
  };
}

/** The swivelled hob counts as endless: over the whole width of the work it reaches below its axis by its radius and its slope, which can only ask for more. */
function crossingOffset({ gear, hob }: HobbingPlan, outermostRadius: number, clearance: number): number {
  const swivel = Math.abs(settingAngleRadians(gear, hob));
  const reach = hob.tipDiameter / 2 / Math.cos(swivel) + outermostRadius * Math.tan(swivel);
  return reach + Math.max(clearance, gear.normalModule);
}

/** Who turns the work a little more or less while a helical hob travels along Z. */
export type Differential = 'none' | 'control' | 'absoluteC' | 'incrementalC' | 'impossible';

/** The control itself where its word carries the helix; C words where the card allows them; otherwise nobody. */
export function differentialOf(values: Pick<HobbingValues, 'HELIX' | 'SPINDLE'>, card: MachineCard): Differential {
  if (values.HELIX === 0) return 'none';
  const placeholders = placeholdersOf(syncTemplate(card, values.SPINDLE));
  if (placeholders.has('helix') || placeholders.has('lead')) return 'control';
  if (card.differentialByWorkAxis === 'absolute') return 'absoluteC';
  return card.differentialByWorkAxis === 'incremental' && incrementalC(card) !== undefined ? 'incrementalC' : 'impossible';
}

/** The letter of the card that moves C by an amount. */
export function incrementalC({ incrementalAxes }: MachineCard): string | undefined {
  return Object.keys(incrementalAxes).find((letter) => incrementalAxes[letter] === 'C');
}

/** What the work must turn, in degrees as C counts, for the centre of the hob to go away from the face without leaving its tooth space. */
export function turnForTravelDegrees({ plan }: HobbingJob, distance: number): number {
  return workRotationDegrees(plan.gear, plan.hob, plan.input, { hobDegrees: 0, deltaY: 0, deltaZ: distance });
}

/** What the work must be turned, as C counts, when it is coupled at a place of the hob instead of in the middle of the hob at FACE-Z. */
export function turnForPlaceDegrees({ plan, shift }: HobbingJob, offset: number): number {
  return workRotationDegrees(plan.gear, plan.hob, plan.input, { hobDegrees: 0, deltaY: shift.deltaY, deltaZ: offset });
}
