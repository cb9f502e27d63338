/**
 * What is wrong or risky about a hobbing job: the limits of machine and unit,
 * the room round the teeth, the length of the hob, the tooth itself, the marks
 * that stay on it. Every message names the allowed range.
 */
import { toolUnit } from '../machine/card.ts';
import { hobUse, usableShift, type HobUse } from '../trade/hob-use.ts';
import { hobbingWithOmissions, type HobbingOmission, type OptionalHobbingId } from '../trade/hobbing.ts';
import type { HobbingPlan } from '../trade/hobbing-plan.ts';
import { generatingLength, straightTipHeight } from '../trade/generating-length.ts';
import { shown } from '../trade/quantity.ts';
import { diametralPitchOfModule } from '../trade/standard-modules.ts';
import { harmlessShoulderDiameter, runoutRoom } from '../trade/runout-room.ts';
import { leastProfileShift, tipThicknessFactor, USUAL_TIP_THICKNESS_FACTOR } from '../trade/tooth-limits.ts';
import type { HobbingValues } from './hobbing-fields.ts';
import { endSense, hobbingJob, moduleMillimetres, type HobbingJob } from './hobbing-job.ts';
import { hobSide } from './hobbing-senses.ts';
import { beyondMachine, type Problem, type QuantityLookup, type Setting } from './process.ts';
import { hobSpeeds } from './unit-speeds.ts';
import { chuckOf, senseOf } from './work-side.ts';
import { cardLength } from './words.ts';

export function hobbingChecks(values: HobbingValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  const job = hobbingJob(values, setting);
  return [
    ...unitChecks(values, quantity, setting),
    ...speedChecks(values, quantity, setting),
    ...travelChecks(values, job, setting),
    ...roomChecks(values, job, setting),
    ...hobLengthChecks(values, job.plan, setting),
    ...toothChecks(values, job.plan),
    ...markChecks(values, quantity, setting),
    ...startChecks(values),
    ...clearanceChecks(values),
    ...omissionChecks(job.plan),
  ];
}

const slack = 1e-9;

function lengthUnit({ units }: Pick<Setting, 'units'>): string {
  return units === 'mm' ? 'mm' : 'inch';
}

function unitChecks(values: HobbingValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  const unit = toolUnit(setting.card, 'hobbing');
  if (!unit) return [];
  const problems: Problem[] = [];
  if (unit.maxModule !== undefined && moduleMillimetres(values) > unit.maxModule + slack) problems.push(moduleBeyond(values, unit.maxModule, unit.name));
  const swivel = quantity('settingAngle') ?? 0;
  if (unit.maxSetting !== undefined && Math.abs(swivel) > unit.maxSetting) {
    problems.push(beyondMachine('HELIX', shown(values.HELIX), `such that the setting angle, now ${shown(swivel, 3)} deg, is from -${unit.maxSetting} to ${unit.maxSetting} deg (${unit.name})`));
  }
  return [...problems, ...hobSizeBeyond('HOB-DIA', values['HOB-DIA'], unit.maxHobDiameter, unit.name, setting), ...hobSizeBeyond('HOB-LENGTH', values['HOB-LENGTH'], unit.maxHobLength, unit.name, setting)];
}

function moduleBeyond(values: HobbingValues, most: number, unit: string): Problem {
  if (values.SPLINE !== undefined) return beyondMachine('SPLINE', values.SPLINE, `of a module of at most ${most} mm (${unit})`);
  return values.MODULE === undefined
    ? beyondMachine('DP', shown(values.DP ?? NaN), `at least ${shown(diametralPitchOfModule(most), 3)} (module ${most} mm, ${unit})`)
    : beyondMachine('MODULE', shown(values.MODULE), `more than 0, at most ${most} mm (${unit})`);
}

function hobSizeBeyond(parameter: string, value: number | undefined, mostOnCard: number | undefined, unit: string, setting: Setting): Problem[] {
  if (value === undefined || mostOnCard === undefined) return [];
  const most = cardLength(mostOnCard, setting.card, setting.units);
  return value <= most + slack ? [] : [beyondMachine(parameter, shown(value), `more than 0, at most ${shown(most, 4)} ${lengthUnit(setting)} (${unit})`)];
}

function speedChecks(values: HobbingValues, quantity: QuantityLookup, { card }: Setting): Problem[] {
  return [
    ...speedBeyond(values, 'hob', quantity('hobRpm') ?? 0, hobSpeeds(card).most, 1),
    ...speedBeyond(values, 'work', quantity('workRpm') ?? 0, (values.SPINDLE === 'SUB' ? card.subSpindle?.maxRpm : card.limits.mainSpindleRpm) ?? Infinity, 1),
  ];
}

function speedBeyond(values: HobbingValues, what: string, rpm: number, most: number, decimals: number): Problem[] {
  if (rpm <= most + slack) return [];
  const parameter = values.RPM === undefined ? 'SPEED' : 'RPM';
  return [beyondMachine(parameter, shown(values[parameter] ?? NaN), `such that the ${what}, now ${shown(rpm, decimals)} rev/min, turns at most ${shown(most, decimals)} rev/min`)];
}

/** The card's limits of Z count from the zero of the main spindle, so Z in the sub-spindle is not judged by them. */
function travelChecks(values: HobbingValues, { cuts, clearRadius, crossingOffset, shift }: HobbingJob, setting: Setting): Problem[] {
  const perRadius = setting.card.diameterProgramming ? 2 : 1;
  const radii = [...cuts.map(({ radius }) => radius), clearRadius];
  const offsets = [...cuts.flatMap(({ startOffset, endOffset }) => [startOffset, endOffset]), ...(crossingOffset === undefined ? [] : [crossingOffset])];
  return [
    ...(values.SPINDLE === 'MAIN' ? placeBeyond('FACE-Z', shown(values['FACE-Z']), 'z', offsets.map((offset) => values['FACE-Z'] + offset), setting) : []),
    ...placeBeyond('SHIFT', shown(values.SHIFT), 'y', [endSense(values, setting.card) * shift.deltaY], setting),
    ...placeBeyond('HOB-DIA', shown(values['HOB-DIA']), 'x', radii.map((radius) => perRadius * radius), setting),
  ];
}

function placeBeyond(parameter: string, value: string, axis: 'x' | 'y' | 'z', positions: readonly number[], { card, units }: Setting): Problem[] {
  const range = card.limits[axis]?.map((each) => cardLength(each, card, units));
  if (!range) return [];
  const [low = -Infinity, high = Infinity] = range;
  const outside = positions.find((each) => each < low - slack || each > high + slack);
  if (outside === undefined) return [];
  return [beyondMachine(parameter, value, `such that ${axis.toUpperCase()}, now ${shown(outside, 3)}, is from ${shown(low, 3)} to ${shown(high, 3)}`)];
}

/** The hob must find room behind the teeth, before them, and in front of the chuck, where the card tells of it. It counts as endless, which can only ask for more. */
function roomChecks(values: HobbingValues, { plan }: HobbingJob, setting: Setting): Problem[] {
  return [...gapTooNarrow(values, plan, 'SHOULDER', setting), ...gapTooNarrow(values, plan, 'FRONT', setting), ...collarInTheWay(values, setting), ...chuckInTheWay(values, plan, setting), ...grooveTooShallow(values, plan, setting)];
}

/** The gaps of the teeth go on into the floor of a groove that is larger than their root. */
function grooveTooShallow({ 'GROOVE-DIA': diameter }: HobbingValues, { gear, hob, finalCut }: HobbingPlan, setting: Setting): Problem[] {
  const most = harmlessShoulderDiameter(gear, hob, finalCut);
  if (diameter === undefined || diameter <= most + slack) return [];
  const depth = `${shown((diameter - most) / 2, 3)} ${lengthUnit(setting)}`;
  return [{ parameter: 'GROOVE-DIA', rule: 'hob-room', severity: 'warning', message: `GROOVE-DIA: ${shown(diameter)} is larger than the root of the teeth: the hob cuts ${depth} into its floor. At most ${shown(Math.floor(most * 1000 + 1e-6) / 1000, 3)} stays free.` }];
}

/** The way to the other side leads past the end of the work, and nobody says how far a collar before the teeth reaches. */
function collarInTheWay(values: HobbingValues, { card }: Setting): Problem[] {
  if (values['FRONT-DIA'] === undefined || hobSide(card, values.SPINDLE) === 1) return [];
  return [{
    parameter: 'FRONT-DIA', rule: 'hob-room', severity: 'error', cardKey: 'senses.hobSide',
    message: `FRONT-DIA: ${shown(values['FRONT-DIA'])} is not allowed with a hob on the -X side: it crosses in front of the work, and how far the work reaches there is not known. It must be left out.`,
  }];
}

function gapTooNarrow(values: HobbingValues, plan: HobbingPlan, side: 'SHOULDER' | 'FRONT', setting: Setting): Problem[] {
  const [diameter, room] = [values[`${side}-DIA`], values[`${side}-GAP`]];
  if (diameter === undefined || room === undefined) return [];
  const { gear, hob, finalCut } = plan;
  const { neededRoom, neededEntryRoom } = runoutRoom(gear, hob, finalCut, { obstacleDiameter: diameter });
  const needed = side === 'SHOULDER' ? neededRoom : neededEntryRoom;
  if (room >= needed - slack) return [];
  const harmless = shown(harmlessShoulderDiameter(gear, hob, finalCut), 3);
  return [{
    parameter: `${side}-GAP`, rule: 'hob-room', severity: 'error',
    message: `${side}-GAP: ${shown(room)} is not allowed: it must be at least ${shown(roundedUp(needed), 3)} ${lengthUnit(setting)} for the hob to pass ${shown(diameter)} in diameter, or ${side}-DIA at most ${harmless}.${side === 'FRONT' && values.ENTRY === 'AXIAL' ? plungeAdvice(room, neededRoom, setting) : ''}`,
  }];
}

/** A hob that plunges before the teeth needs the room that it needs behind them. */
function plungeAdvice(room: number, needed: number, setting: Setting): string {
  const length = `${shown(roundedUp(needed), 3)} ${lengthUnit(setting)}`;
  return room >= needed - slack ? ` ENTRY=PLUNGE finds room: it needs ${length}.` : ` ENTRY=PLUNGE would need ${length}.`;
}

/** A needed length must not be rounded below itself. */
function roundedUp(length: number): number {
  return Math.ceil(length * 1000 - 1e-6) / 1000;
}

function chuckInTheWay(values: HobbingValues, plan: HobbingPlan, { card, units }: Setting): Problem[] {
  const chuck = chuckOf(card, values.SPINDLE);
  const zSense = senseOf(card, values.SPINDLE, 'zSense');
  if (!chuck || zSense === undefined) return [];
  const [diameter, chuckZ] = [cardLength(chuck.diameter, card, units), cardLength(chuck.z, card, units)];
  const { neededRoom } = runoutRoom(plan.gear, plan.hob, plan.finalCut, { obstacleDiameter: diameter });
  const least = zSense * chuckZ + neededRoom + values.FACE;
  if (zSense * values['FACE-Z'] >= least - slack) return [];
  return [{ ...beyondMachine('FACE-Z', shown(values['FACE-Z']), `at ${zSense > 0 ? 'least' : 'most'} ${shown(zSense * roundedUp(least), 3)}, so that the hob stays off the chuck of diameter ${shown(diameter, 3)} at Z ${shown(chuckZ, 3)}`), rule: 'hob-room' }];
}

function hobLengthChecks(values: HobbingValues, plan: HobbingPlan, { card }: Setting): Problem[] {
  const length = values['HOB-LENGTH'];
  if (length === undefined) return [];
  const { gear, hob, input } = plan;
  const unit = lengthUnit(input);
  const zone = generatingLength(gear, hob).length;
  if (length < zone) return [{ parameter: 'HOB-LENGTH', rule: 'hob-too-short', severity: 'error', message: `HOB-LENGTH: ${shown(length)} is not allowed: it must be at least the generating length, ${shown(roundedUp(zone), 3)} ${unit}.` }];
  const farthest = (length - zone) / 2;
  if (Math.abs(values.SHIFT) > farthest + slack) return [{ parameter: 'SHIFT', rule: 'hob-too-short', severity: 'error', message: `SHIFT: ${shown(values.SHIFT)} is not allowed: it must be from ${shown(-farthest, 3)} to ${shown(farthest, 3)} ${unit}, or an end of the hob comes inside the generating zone.` }];
  const use = hobUse(gear, hob, input.climb, -1, input);
  return positionWarnings(values, length, use, endSense(values, card) * use.leadingEnd, unit);
}

/** A hob outside its working length still makes the flanks, but its first teeth take more than their share. */
function positionWarnings(values: HobbingValues, length: number, use: HobUse, leadingEnd: number, unit: string): Problem[] {
  const needed = use.startFromLeadingEnd + use.lastFromTrailingEnd;
  if (length < needed) {
    return [positionWarning('HOB-LENGTH', `HOB-LENGTH: ${shown(length)} leaves no working position: entry and half the generating zone take ${shown(use.shortestLength, 3)} ${unit}, with margins ${shown(roundedUp(needed), 3)}.`)];
  }
  const first = -leadingEnd * (length / 2 - use.startFromLeadingEnd);
  const last = first + leadingEnd * usableShift(use, length);
  const [low, high] = [Math.min(first, last), Math.max(first, last)];
  if (values.SHIFT >= low - slack && values.SHIFT <= high + slack) return [];
  return [positionWarning('SHIFT', `SHIFT: ${shown(values.SHIFT)} leaves the working length of the hob: from ${shown(low, 3)} to ${shown(high, 3)} ${unit}, beginning at ${shown(first, 3)}.`)];
}

function positionWarning(parameter: string, message: string): Problem {
  return { parameter, rule: 'hob-position', severity: 'warning', message };
}

/** Print takes 17 teeth of 20 degrees for free of undercut, which are so to within this, in modules. */
const harmlessUndercut = 0.01;

function toothChecks(values: HobbingValues, { gear, hob }: HobbingPlan): Problem[] {
  const problems: Problem[] = [];
  const straightTip = straightTipHeight(gear, hob) / gear.normalModule;
  const least = straightTip > 0 ? leastProfileShift(gear, straightTip) : -Infinity;
  const governing = values.SPLINE !== undefined ? 'SPLINE' : values['PROFILE-SHIFT'] === 0 ? 'TEETH' : 'PROFILE-SHIFT';
  const subject = `${governing}: ${values[governing]}`;
  if (gear.profileShift < least - harmlessUndercut) {
    problems.push({ parameter: governing, rule: 'undercut', severity: 'warning', message: `${subject} leaves the foot of the teeth undercut: PROFILE-SHIFT of at least ${shown(Math.ceil(least * 1e4) / 1e4, 4)} avoids it.` });
  }
  const thickness = tipThicknessFactor(gear);
  if (thickness < USUAL_TIP_THICKNESS_FACTOR) {
    problems.push({ parameter: governing, rule: 'thin-tip', severity: 'warning', message: `${subject} leaves the teeth ${shown(thickness, 3)} modules thick at their tip, usual is at least ${USUAL_TIP_THICKNESS_FACTOR} (from memory): a smaller TIP-DIA or PROFILE-SHIFT makes it more.` });
  }
  return problems;
}

/** The feed is held against what the class leaves to feed marks, not against the whole tolerance: hob and machine need their share. */
function markChecks(values: HobbingValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  const most = quantity('maxFeedForClass');
  const mark = quantity('feedMarkDepth') ?? 0;
  if (most === undefined || values.FEED <= most + slack) return [];
  const [unit, allowed] = [lengthUnit(setting), mark * (most / values.FEED) ** 2];
  return [{
    parameter: 'FEED', rule: 'feed-marks', severity: 'warning',
    message: `FEED: ${shown(values.FEED)} leaves feed marks of ${shown(mark)} ${unit}; class ${values.CLASS} allows ${shown(allowed)} ${unit}: at most ${shown(Math.floor(most * 1000) / 1000, 3)} ${unit}/rev.`,
  }];
}

function startChecks(values: HobbingValues): Problem[] {
  if (commonFactor(values.TEETH, values['HOB-STARTS']) === 1) return [];
  return [{
    parameter: 'HOB-STARTS', rule: 'common-factor', severity: 'warning',
    message: `HOB-STARTS: ${values['HOB-STARTS']} and ${values.TEETH} teeth have a common factor: each start meets the same teeth again and prints its errors on them (rule of practice, from memory).`,
  }];
}

/** The rapid to depth, or to the start of a radial entry, ends where the clearance begins. */
function clearanceChecks({ CLEARANCE: clearance }: HobbingValues): Problem[] {
  if (clearance > 0) return [];
  return [{ parameter: 'CLEARANCE', rule: 'no-free-travel', severity: 'warning', message: 'CLEARANCE: 0 lets rapid moves end on the very edge of the work, and a blank that is a little larger is met in rapid. Better more than 0 (common practice, no source).' }];
}

function commonFactor(first: number, second: number): number {
  return second === 0 ? first : commonFactor(second, first % second);
}

/** Which parameter's hover tells why a figure is missing, and what the figure is called. A spur gear has no lead, and nobody misses it. */
const omittedFigures: Readonly<Partial<Record<OptionalHobbingId, readonly [parameter: string, name: string]>>> = {
  spanLength: ['FACE', 'span over teeth'],
  overPins: ['TEETH', 'size over pins'],
  profileTolerance: ['CLASS', 'flank tolerance'],
};

function omissionChecks({ input }: HobbingPlan): Problem[] {
  const { omissions, quantities } = hobbingWithOmissions(input);
  return omissions.flatMap((omission) => (omission.ids.includes('maxFeedForClass') && quantities.profileTolerance ? [generatingMarks(input.hobGashes, input.flankClass)] : omissionInformation(omission)));
}

/** The class has a tolerance and yet no feed: then the generating marks alone are too deep for it. */
function generatingMarks(gashes: number, flankClass: number): Problem {
  return { parameter: 'HOB-GASHES', rule: 'generating-marks', severity: 'warning', message: `HOB-GASHES: ${gashes} leaves generating marks that alone are deeper than class ${flankClass} allows for the form of the profile: a hob with more gashes or fewer starts, or a coarser CLASS.` };
}

function omissionInformation({ ids, reason }: HobbingOmission): Problem[] {
  return ids.flatMap((id) => {
    const omitted = omittedFigures[id];
    return omitted ? [{ parameter: omitted[0], rule: 'no-figure' as const, severity: 'information' as const, message: `There is no ${omitted[1]} here: ${plainReason(reason)}.` }] : [];
  });
}

/** The trade library speaks of its inputs; a programmer knows them by other names. */
const inputNames: Readonly<Record<string, string>> = {
  spanTeeth: 'a span over', faceWidth: 'FACE', profileShift: 'PROFILE-SHIFT', pinDiameter: 'a pin of', teeth: 'TEETH', flankClass: 'CLASS',
  referenceDiameterMm: 'a reference diameter (mm) of', normalModuleMm: 'a module (mm) of', faceWidthMm: 'a face width (mm) of', helixAngleDegrees: 'HELIX',
};

function plainReason(reason: string): string {
  return reason
    .replace(/^(\w+): (\S+) is not allowed; it must be /, (_whole, input: string, value: string) => `${inputNames[input] ?? input} ${plainNumber(value)} would have to be `)
    .replace(/\.$/, '');
}

function plainNumber(text: string): string {
  const value = Number(text);
  return Number.isFinite(value) ? shown(value, 4) : text;
}
