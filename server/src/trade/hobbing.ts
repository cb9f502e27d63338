/**
 * Everything that a programmer asks of one hobbing operation, as quantities.
 * The numbers come from the topic files; here each gets its name and working.
 */
import { degrees } from './angles.ts';
import { gearFigure } from './catalogue-gear.ts';
import type { HobbingQuantityId } from './catalogue-hobbing.ts';
import { maxChipThickness } from './chip-thickness.ts';
import { feedMarkDepth, generatingMarkDepth } from './generated-marks.ts';
import { generatingLength } from './generating-length.ts';
import {
  differentialDegreesPerLength,
  settingAngleRadians,
  shiftParts,
  synchronousRatio,
} from './hobbing-law.ts';
import { hobbingPlan, type HobbingInput, type HobbingPlan } from './hobbing-plan.ts';
import { lengthPerSpeedUnit, millimetresPerUnit } from './lengths.ts';
import { diameterFigures, leadFigure } from './gear-data.ts';
import { plungeFigures, plungeSecondsOf } from './plunge-figures.ts';
import { pinFigures, spanFigures } from './inspection.ts';
import { gearFlankTolerances, maxFeedForClass } from './marks-and-class.ts';
import { OutOfRange, shown, type Quantity } from './quantity.ts';

export type { Hand } from './hands.ts';
export type { HobbingQuantityId } from './catalogue-hobbing.ts';
export { cutsOf, type HobbingCutSummary, type HobbingInput } from './hobbing-plan.ts';

/** What some gears do not have: a spur gear no lead, a small one no span, one outside the standard no tolerance; and what axial entry does not. */
export type OptionalHobbingId =
  | 'lead'
  | 'radialFeedPerMinute'
  | 'radialTravel'
  | 'plungeTime'
  | 'spanTeeth'
  | 'spanLength'
  | 'pinDiameter'
  | 'overPins'
  | 'profileTolerance'
  | 'maxFeedForClass';

export type HobbingQuantities = Record<Exclude<HobbingQuantityId, OptionalHobbingId>, Quantity> &
  Partial<Record<OptionalHobbingId, Quantity>>;

export interface HobbingOmission {
  readonly ids: readonly OptionalHobbingId[];
  /** Why they are missing, in one sentence. */
  readonly reason: string;
}

/** All quantities of the operation. Throws `OutOfRange` with the name of the input field. */
export function hobbing(input: HobbingInput): HobbingQuantities {
  return hobbingWithOmissions(input).quantities;
}

/** The same, with the reason for every quantity that is left out. */
export function hobbingWithOmissions(input: HobbingInput): {
  quantities: HobbingQuantities;
  omissions: readonly HobbingOmission[];
} {
  const plan = hobbingPlan(input);
  const quantities: HobbingQuantities = certainFigures(plan);
  const omissions = addOptionalFigures(quantities, plan);
  return { quantities, omissions };
}

/**
 * Named one by one: an object of this size that is put together by spreading
 * costs more time than everything that is computed for it.
 */
function certainFigures(plan: HobbingPlan): Figures<Exclude<HobbingQuantityId, OptionalHobbingId>> {
  const [speed, hob, gear] = [speedFigures(plan), hobFigures(plan), diameterFigures(plan.gear, plan.input)];
  const [travel, time, mark, shift] = [travelFigures(plan), timeFigures(plan), markFigures(plan), shiftFigures(plan)];
  return {
    syncRatio: speed.syncRatio,
    hobRpm: speed.hobRpm,
    workRpm: speed.workRpm,
    cuttingSpeed: speed.cuttingSpeed,
    hobReferenceDiameter: hob.hobReferenceDiameter,
    hobLeadAngle: hob.hobLeadAngle,
    hobHelixAngle: hob.hobHelixAngle,
    settingAngle: hob.settingAngle,
    generatingLength: hob.generatingLength,
    referenceDiameter: gear.referenceDiameter,
    tipDiameter: gear.tipDiameter,
    rootDiameter: gear.rootDiameter,
    baseDiameter: gear.baseDiameter,
    wholeDepth: gear.wholeDepth,
    differential: gear.differential,
    approach: travel.approach,
    overrun: travel.overrun,
    travel: travel.travel,
    feedPerMinute: time.feedPerMinute,
    cuttingTime: time.cuttingTime,
    feedMarkDepth: mark.feedMarkDepth,
    generatingMarkDepth: mark.generatingMarkDepth,
    maxChipThickness: mark.maxChipThickness,
    shiftY: shift.shiftY,
    shiftZ: shift.shiftZ,
    shiftWorkAngle: shift.shiftWorkAngle,
  };
}

type Figures<Id extends HobbingQuantityId> = Record<Id, Quantity>;

function figure(plan: HobbingPlan, id: HobbingQuantityId, value: number, working: () => string): Quantity {
  return gearFigure(id, value, plan.input.units, working);
}

function speedFigures(plan: HobbingPlan): Figures<'syncRatio' | 'hobRpm' | 'workRpm' | 'cuttingSpeed'> {
  const { gear, hob, hobRpm, workRpm, cuttingSpeed } = plan;
  const ratio = synchronousRatio(gear, hob);
  const length = lengthPerSpeedUnit(gear.units);
  return {
    syncRatio: figure(plan, 'syncRatio', ratio, () => `z0 / z = ${hob.starts} / ${gear.teeth} = ${shown(ratio, 7)}`),
    hobRpm: figure(plan, 'hobRpm', hobRpm, () => hobRpmWorking(plan)),
    workRpm: figure(plan, 'workRpm', workRpm, () => workRpmWorking(plan)),
    cuttingSpeed: figure(plan, 'cuttingSpeed', cuttingSpeed, () =>
      `pi d_a0 n0 / ${length} = pi x ${shown(hob.tipDiameter)} x ${shown(hobRpm, 3)} / ${length} = ${shown(cuttingSpeed, 3)}`),
  };
}

function hobRpmWorking(plan: HobbingPlan): string {
  if (plan.input.hobRpm !== undefined) return `n0 = ${shown(plan.hobRpm, 3)}, as given`;
  const length = lengthPerSpeedUnit(plan.gear.units);
  return `${length} v_c / (pi d_a0) = ${length} x ${shown(plan.cuttingSpeed)} / (pi x ${shown(plan.hob.tipDiameter)}) = ${shown(plan.hobRpm, 3)}`;
}

function workRpmWorking(plan: HobbingPlan): string {
  const { gear, hob, hobRpm, workRpm } = plan;
  const plain = `n0 z0 / z = ${shown(hobRpm, 3)} x ${hob.starts} / ${gear.teeth} = ${shown(workRpm)}`;
  if (gear.isSpur) return plain;
  return `${plain}; while the hob feeds, the differential changes it by ${shown(differentialRpm(plan))}`;
}

/** One turn of the work more or less for each lead of axial travel. */
const differentialRpm = (plan: HobbingPlan): number =>
  (plan.feedPerMinute * differentialDegreesPerLength(plan.gear)) / 360;

function hobFigures(plan: HobbingPlan): Figures<'hobReferenceDiameter' | 'hobLeadAngle' | 'hobHelixAngle' | 'settingAngle' | 'generatingLength'> {
  const { gear, hob } = plan;
  const leadAngle = degrees(hob.leadAngleRadians);
  const zone = generatingLength(gear, hob);
  return {
    hobReferenceDiameter: figure(plan, 'hobReferenceDiameter', hob.referenceDiameter, () =>
      `d_a0 - 2 h_aP0 = ${shown(hob.tipDiameter)} - 2 x ${shown(hob.addendum)} = ${shown(hob.referenceDiameter)}`),
    hobLeadAngle: figure(plan, 'hobLeadAngle', leadAngle, () =>
      `asin(z0 m_n / d_0) = asin(${hob.starts} x ${shown(gear.normalModule)} / ${shown(hob.referenceDiameter)}) = ${shown(leadAngle, 6)}`),
    hobHelixAngle: figure(plan, 'hobHelixAngle', 90 - leadAngle, () =>
      `90 - gamma_0 = 90 - ${shown(leadAngle, 6)} = ${shown(90 - leadAngle, 6)}`),
    settingAngle: figure(plan, 'settingAngle', degrees(settingAngleRadians(gear, hob)), () => settingAngleWorking(plan)),
    generatingLength: figure(plan, 'generatingLength', zone.length, () =>
      `longer of ${shown(zone.forTip, 4)} (foot of the tooth) and ${shown(zone.forFlank, 4)} (head) = ${shown(zone.length, 4)}; ${shown(zone.cutsPerFlank, 1)} edges form a flank`),
  };
}

function settingAngleWorking(plan: HobbingPlan): string {
  const helix = degrees(plan.gear.signedHelixAngleRadians);
  const lead = degrees(plan.hob.signedLeadAngleRadians);
  const setting = degrees(settingAngleRadians(plan.gear, plan.hob));
  const turn = setting >= 0 ? 'clockwise' : 'counter-clockwise';
  return (
    `beta - gamma_0 = ${shown(helix)} - (${shown(lead)}) = ${shown(setting)} (right hand +, left hand -): ` +
    `seen from the hob toward the work, +Z up, the hob axis turns ${turn} by ${shown(Math.abs(setting))}`
  );
}

function travelFigures(plan: HobbingPlan): Figures<'approach' | 'overrun' | 'travel'> {
  const { finalCut, input } = plan;
  const { approach, overrun, travel } = finalCut;
  return {
    approach: figure(plan, 'approach', approach.value, () => approachWorking(plan)),
    overrun: figure(plan, 'overrun', overrun.value, () => overrunWorking(plan)),
    travel: figure(plan, 'travel', travel, () =>
      `E + b + A + clearance = ${shown(approach.value)} + ${shown(input.faceWidth)} + ${shown(overrun.value)} + ${shown(input.clearance)} = ${shown(travel)}; half the clearance lies at either end`),
  };
}

function approachWorking(plan: HobbingPlan): string {
  const { gear, hob, finalCut, input } = plan;
  if (input.plunge !== undefined) return `radial entry: as the overrun = ${shown(finalCut.approach.value)}; axial entry would take ${shown(Math.max(finalCut.approach.printed, finalCut.approach.exact))}`;
  const { printed, exact, value } = finalCut.approach;
  const [h, tip] = [shown(finalCut.depth), shown(hob.tipDiameter)];
  if (!gear.isSpur) {
    const setting = shown(Math.abs(degrees(settingAngleRadians(gear, hob))));
    const print = `tan|eta| sqrt(h ((d_a0 - h)/sin^2 eta + d_a)) with h ${h}, d_a0 ${tip}, |eta| ${setting}, d_a ${shown(gear.tipDiameter)} = ${shown(printed)}`;
    return `${print}; exact search over the rim ${shown(exact)}; the larger counts: ${shown(value)}`;
  }
  const print = `sqrt(h (d_a0 - h)) = sqrt(${h} x (${tip} - ${h})) = ${shown(printed)}`;
  const rest = value > printed ? `half the clearance before the work does not cover the difference: ${shown(value)}` : 'the difference lies inside the clearance';
  return `${print}; exact search with the swivelled hob ${shown(exact)}, ${rest}`;
}

function overrunWorking(plan: HobbingPlan): string {
  const { gear, hob, finalCut } = plan;
  const { lag, value } = finalCut.overrun;
  const setting = shown(Math.abs(degrees(settingAngleRadians(gear, hob))));
  const geometry = `(l_P0 / 2) sin|eta| = (${shown(generatingLength(gear, hob).length)} / 2) x sin ${setting} = ${shown(lag)}`;
  if (!gear.isSpur) return geometry;
  return `${geometry} for the small swivel of a spur gear; what half the clearance does not cover of it: ${shown(value)}`;
}

function timeFigures(plan: HobbingPlan): Figures<'cuttingTime' | 'feedPerMinute'> {
  const { cuts, input, feedPerMinute, workRpm } = plan;
  const seconds = cuts.reduce((sum, cut) => sum + cut.seconds, 0);
  return {
    feedPerMinute: figure(plan, 'feedPerMinute', feedPerMinute, () =>
      `f_a n_w = ${shown(input.feedPerWorkRevolution)} x ${shown(workRpm)} = ${shown(feedPerMinute)}`),
    cuttingTime: cuttingTimeFigure(plan, seconds),
  };
}

/** What is published is the time of axial feed; the sum with radial entry is our own. */
function cuttingTimeFigure(plan: HobbingPlan, seconds: number): Quantity {
  const time = figure(plan, 'cuttingTime', seconds, () => cuttingTimeWorking(plan, seconds));
  return plan.input.plunge === undefined ? time : { ...time, working: time.working, source: 'elementary (derived)' };
}

function cuttingTimeWorking({ cuts, feedPerMinute }: HobbingPlan, seconds: number): string {
  const ways = cuts.map((cut) => shown(cut.travel)).join(' + ');
  const axial = `60 x ${cuts.length === 1 ? ways : `(${ways})`} / ${shown(feedPerMinute)}`;
  const plungeSeconds = plungeSecondsOf(cuts);
  if (plungeSeconds === 0) return `60 L / v_f = ${axial} = ${shown(seconds, 3)}`;
  return `60 L / v_f + t_r = ${axial} + ${shown(plungeSeconds, 3)} = ${shown(seconds, 3)}`;
}

function markFigures(plan: HobbingPlan): Figures<'feedMarkDepth' | 'generatingMarkDepth' | 'maxChipThickness'> {
  const { gear, hob, input } = plan;
  const feed = input.feedPerWorkRevolution;
  const feedMark = feedMarkDepth(gear, hob, feed);
  const generatingMark = generatingMarkDepth(gear, hob);
  const heaviestCut = Math.max(...plan.cuts.map((cut) => cut.depthIncrement));
  const chip = maxChipThickness(gear, hob, feed, heaviestCut);
  return {
    feedMarkDepth: figure(plan, 'feedMarkDepth', feedMark, () =>
      `(f_a / cos beta)^2 sin alpha_n / (4 d_a0) = (${shown(feed)} / cos ${shown(input.helixAngleDegrees)})^2 x sin ${shown(input.normalPressureAngleDegrees)} / (4 x ${shown(hob.tipDiameter)}) = ${shown(feedMark, 7)}`),
    generatingMarkDepth: figure(plan, 'generatingMarkDepth', generatingMark, () =>
      `pi^2 z0^2 m_n sin alpha_n / (4 z i^2) = pi^2 x ${hob.starts}^2 x ${shown(gear.normalModule)} x sin ${shown(input.normalPressureAngleDegrees)} / (4 x ${gear.teeth} x ${hob.gashes}^2) = ${shown(generatingMark, 7)}`),
    maxChipThickness: figure(plan, 'maxChipThickness', chip, () =>
      `estimate by Hoffmeister for f_a ${shown(feed)}, radial depth of a cut ${shown(heaviestCut)}, ${hob.gashes} gashes = ${shown(chip)}`),
  };
}

function shiftFigures(plan: HobbingPlan): Figures<'shiftY' | 'shiftZ' | 'shiftWorkAngle'> {
  const { gear, hob, input } = plan;
  const parts = shiftParts(gear, hob, input, input.shift);
  const setting = (): string => shown(degrees(settingAngleRadians(gear, hob)));
  const lead = (): string => shown(degrees(hob.leadAngleRadians));
  return {
    shiftY: figure(plan, 'shiftY', parts.deltaY, () => `s cos eta = ${shown(input.shift)} x cos ${setting()} = ${shown(parts.deltaY, 6)}`),
    shiftZ: figure(plan, 'shiftZ', parts.deltaZ, () =>
      `-side s sin eta = ${-input.hobSide} x ${shown(input.shift)} x sin ${setting()} = ${shown(parts.deltaZ, 6)}`),
    shiftWorkAngle: figure(plan, 'shiftWorkAngle', parts.workDegrees, () =>
      `sense side 360 s cos gamma_0 / (pi m_n z) = ${input.workRotationSense * input.hobSide} x 360 x ${shown(input.shift)} x cos ${lead()} / (pi x ${shown(gear.normalModule)} x ${gear.teeth}) = ${shown(parts.workDegrees, 6)}`),
  };
}

/** Figures that a gear may lack. Each group stands or falls as one, and tells why it fell. */
function addOptionalFigures(quantities: HobbingQuantities, plan: HobbingPlan): HobbingOmission[] {
  const omissions: HobbingOmission[] = [];
  for (const group of OPTIONAL_GROUPS) {
    try {
      Object.assign(quantities, group.compute(plan));
    } catch (error) {
      if (!(error instanceof OutOfRange)) throw error;
      omissions.push({ ids: group.ids, reason: error.message });
    }
  }
  return omissions;
}

interface OptionalGroup {
  readonly ids: readonly OptionalHobbingId[];
  readonly compute: (plan: HobbingPlan) => Partial<Record<OptionalHobbingId, Quantity>>;
}

const OPTIONAL_GROUPS: readonly OptionalGroup[] = [
  { ids: ['lead'], compute: ({ gear }) => leadFigure(gear) },
  { ids: ['radialFeedPerMinute', 'radialTravel', 'plungeTime'], compute: plungeFigures },
  { ids: ['spanTeeth', 'spanLength'], compute: ({ gear, input }) => spanFigures(gear, { faceWidth: input.faceWidth }) },
  { ids: ['pinDiameter', 'overPins'], compute: ({ gear }) => pinFigures(gear, {}) },
  { ids: ['profileTolerance'], compute: toleranceFigure },
  { ids: ['maxFeedForClass'], compute: maxFeedFigure },
];

function toleranceFigure(plan: HobbingPlan): Figures<'profileTolerance'> {
  const { gear, input } = plan;
  const tolerances = gearFlankTolerances(gear, input.faceWidth, input.flankClass);
  const value = (tolerances.profileTotal * 0.001) / millimetresPerUnit(gear.units);
  return {
    profileTolerance: figure(plan, 'profileTolerance', value, () =>
      `class ${input.flankClass}: sqrt(f_HalphaT^2 + f_falphaT^2), rounded = ${tolerances.profileTotal} micrometres`),
  };
}

function maxFeedFigure(plan: HobbingPlan): Figures<'maxFeedForClass'> {
  const { gear, hob, input } = plan;
  const feed = maxFeedForClass(gear, hob, input.faceWidth, input.flankClass);
  const { profileForm, helixForm } = gearFlankTolerances(gear, input.faceWidth, input.flankClass);
  return {
    maxFeedForClass: figure(plan, 'maxFeedForClass', feed, () =>
      `class ${input.flankClass}: feed mark within the helix form ${helixForm} and, with the generating mark, within the profile form ${profileForm} micrometres: f_a = ${shown(feed, 4)}; hob and machine need a share of it`),
  };
}
