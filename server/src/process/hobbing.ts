/**
 * Hobbing of external gears and splines in synchronous running. This file is the
 * process as the rest of the product sees it; its table of parameters, its
 * checks and its block stand beside it in files of their own. All figures come
 * from the trade library.
 */
import { FINISH_MARGIN_FACTOR, START_MARGIN_FACTOR } from '../trade/hob-use.ts';
import { hobUseData, runoutData } from '../trade/hob-use-data.ts';
import { hobbing as computeHobbing, type HobbingInput } from '../trade/hobbing.ts';
import { shown, type Quantity } from '../trade/quantity.ts';
import { composeHobbing } from './hobbing-block.ts';
import { hobbingChecks } from './hobbing-checks.ts';
import { hobbingFields, type HobbingValues } from './hobbing-fields.ts';
import { hobbingInput } from './hobbing-job.ts';
import { subSpindleHobbingRules } from './hobbing-on-side.ts';
import { splineProblems, splineValues } from './hobbing-spline.ts';
import { defineProcess, exactlyOne, type Problem, type Setting } from './process.ts';
import { hobbingHints, hobSpeedProblems } from './usual-ranges.ts';
import { senseOf } from './work-side.ts';

const setup = ['settingAngle', 'hobLeadAngle', 'hobHelixAngle', 'hobReferenceDiameter'] as const;
const running = ['syncRatio', 'workRpm', 'cuttingSpeed', 'hobRpm', 'feedPerMinute'] as const;
const size = ['referenceDiameter', 'tipDiameter', 'rootDiameter', 'baseDiameter', 'wholeDepth', 'spanTeeth', 'spanLength', 'pinDiameter', 'overPins'] as const;
const helixFigures = ['settingAngle', 'lead', 'differential', 'hobLeadAngle', 'hobHelixAngle'] as const;
const path = ['travel', 'approach', 'overrun', 'cuttingTime'] as const;
const marks = ['feedMarkDepth', 'profileTolerance', 'maxFeedForClass', 'generatingMarkDepth'] as const;
const plunging = ['radialFeedPerMinute', 'radialTravel', 'plungeTime', 'approach', 'cuttingTime'] as const;
const feeding = ['feedPerMinute', 'radialFeedPerMinute', 'feedMarkDepth', 'maxFeedForClass', 'maxChipThickness', 'cuttingTime'] as const;
const shifting = ['shiftY', 'shiftZ', 'shiftWorkAngle', 'usableShift', 'hobAxialPitch', 'gashStep', 'generatingLength'] as const;
const place = ['shiftWorkAngle', 'differential', 'hobAxialPitch'] as const;
const roomBehind = ['neededRoom', 'harmlessShoulder', 'overrun', 'travel'] as const;
const roomBefore = ['neededEntryRoom', 'harmlessShoulder', 'approach', 'travel'] as const;
const hobFigures = ['hobLeadAngle', 'hobHelixAngle', 'settingAngle', 'hobReferenceDiameter', 'syncRatio'] as const;

export const hobbing = defineProcess({
  id: 'hobbing',
  keyword: 'HOBBING',
  title: 'Hobbing',
  summary: 'Hobs the teeth of an external spur or helical gear with hob and work in synchronous running.',
  fields: hobbingFields,
  keyQuantities: ['syncRatio', 'settingAngle', 'hobRpm', 'workRpm', 'feedPerMinute', 'travel', 'cuttingTime', 'feedMarkDepth'],
  governs: {
    S: ['syncRatio', 'workRpm', 'cuttingSpeed', 'hobRpm', 'feedPerMinute'],
    F: feeding,
    'F along X': ['radialFeedPerMinute', ...feeding.filter((id) => id !== 'radialFeedPerMinute')],
    sync: [...running, 'differential', 'lead'],
    T: hobFigures,
    MODULE: size, DP: size, TEETH: ['syncRatio', 'workRpm', ...size], HELIX: helixFigures, HAND: helixFigures,
    'PRESSURE-ANGLE': ['baseDiameter', ...size], 'PROFILE-SHIFT': size, FACE: path, 'TIP-DIA': ['tipDiameter', 'wholeDepth', 'rootDiameter', ...path],
    DEPTH: ['wholeDepth', 'rootDiameter', 'approach', 'travel'], CLASS: ['profileTolerance', 'maxFeedForClass', 'feedMarkDepth'],
    'HOB-DIA': hobFigures, 'HOB-STARTS': hobFigures, 'HOB-HAND': setup, 'HOB-GASHES': ['generatingMarkDepth', 'maxChipThickness'], 'HOB-LENGTH': ['shortestHob', 'usableShift', 'generatingLength'],
    MATERIAL: ['cuttingSpeed', 'feedPerMinute'], 'TOOL-MATERIAL': ['cuttingSpeed', 'hobRpm'],
    SPEED: ['hobRpm', 'workRpm', 'cuttingSpeed', 'syncRatio'], RPM: ['cuttingSpeed', 'hobRpm', 'workRpm', 'syncRatio'], FEED: feeding,
    CUTS: path, METHOD: ['feedPerMinute', ...path], ENTRY: plunging, 'RADIAL-FEED': plunging, 'SPARK-OUT': ['plungeTime', 'cuttingTime'], CLEARANCE: path, 'FACE-Z': path, SHIFT: shifting, SPLINE: size,
    'TOOTH-ANGLE': place, 'HOB-PHASE': place, 'SHOULDER-DIA': roomBehind, 'SHOULDER-GAP': roomBehind, 'FRONT-DIA': roomBefore, 'FRONT-GAP': roomBefore, 'GROOVE-DIA': ['rootDiameter', 'overrun', 'travel'], SPINDLE: path,
    HOBBING: [...running, ...setup, ...path, ...marks],
  },
  parameterOf: {
    normalModule: ['MODULE', 'DP'], teeth: 'TEETH', helixAngleDegrees: 'HELIX', gearHand: 'HAND', normalPressureAngleDegrees: 'PRESSURE-ANGLE',
    profileShift: 'PROFILE-SHIFT', faceWidth: 'FACE', tipDiameter: 'TIP-DIA', depth: 'DEPTH', flankClass: 'CLASS', hobTipDiameter: 'HOB-DIA',
    hobStarts: 'HOB-STARTS', hobHand: 'HOB-HAND', hobGashes: 'HOB-GASHES', hobLength: 'HOB-LENGTH', cuttingSpeed: 'SPEED', hobRpm: 'RPM',
    feedPerWorkRevolution: 'FEED', radialFeedPerWorkRevolution: 'RADIAL-FEED', sparkOutWorkRevolutions: 'SPARK-OUT', cuts: 'CUTS', clearance: 'CLEARANCE', shift: 'SHIFT',
  },
  cardDefaults: ({ units }, { SPLINE }) => (SPLINE === undefined ? {} : splineValues(SPLINE, units)),
  rules: hobbingRules,
  compute: hobbingFigures,
  hints: (values, { units }) => hobbingHints(values, units),
  checks: (values, quantity, setting) => [...hobbingChecks(values, quantity, setting), ...hobSpeedProblems(values, values.SPEED === undefined ? 'RPM' : 'SPEED', quantity('cuttingSpeed'), setting.units)],
  compose: composeHobbing,
});

function hobbingRules(values: Partial<HobbingValues>, setting: Setting): Problem[] {
  const ofTooth = values.SPLINE === undefined ? exactlyOne(values, 'MODULE', 'DP') : splineProblems(values.SPLINE, setting.units, values);
  return [...ofTooth, ...exactlyOne(values, 'SPEED', 'RPM'), ...bothOrNone(values, 'SHOULDER-DIA', 'SHOULDER-GAP'), ...bothOrNone(values, 'FRONT-DIA', 'FRONT-GAP'), ...entryRules(values), ...subSpindleHobbingRules(values, setting)];
}

function bothOrNone(values: Partial<HobbingValues>, first: keyof HobbingValues, second: keyof HobbingValues): Problem[] {
  const missing = [first, second].filter((name) => values[name] === undefined);
  if (missing.length !== 1) return [];
  const [parameter = second] = missing;
  return [{ parameter, rule: 'missing-parameter', severity: 'error', message: `${parameter} is missing: ${first} and ${second} are given together or not at all.` }];
}

function entryRules({ ENTRY: entry, 'RADIAL-FEED': feed }: Partial<HobbingValues>): Problem[] {
  if (entry === undefined || (entry === 'PLUNGE') === (feed !== undefined)) return [];
  const shared = { parameter: 'RADIAL-FEED', severity: 'error' } as const;
  return entry === 'PLUNGE'
    ? [{ ...shared, rule: 'missing-parameter', message: 'RADIAL-FEED is missing: ENTRY=PLUNGE needs the radial feed for one revolution of the work, more than 0.' }]
    : [{ ...shared, rule: 'bad-value', message: 'RADIAL-FEED is given, but the hob comes in along the work: give ENTRY=PLUNGE too, or leave RADIAL-FEED out.' }];
}

function hobbingFigures(values: HobbingValues, setting: Setting): Quantity[] {
  const input = hobbingInput(values, setting);
  const figures = Object.values(computeHobbing(input)).filter((each) => each !== undefined).map((each) => asProgrammed(each, values, setting));
  return [...figures, ...hobUseFigures(input), ...roomFigures(values, input)];
}

/** Figures of the axes are told as Y and Z count on the spindle that holds the work, and as F counts along X. */
function asProgrammed(figure: Quantity, { SPINDLE }: HobbingValues, { card }: Setting): Quantity {
  if (figure.id === 'radialFeedPerMinute' && card.xFeedOnDiameter) {
    return { ...figure, value: 2 * figure.value, working: `${figure.working}, x 2 on the diameter, as the card says = ${shown(2 * figure.value)}` };
  }
  const sense = figure.id === 'shiftY' ? senseOf(card, SPINDLE, 'ySense') : figure.id === 'shiftZ' ? senseOf(card, SPINDLE, 'zSense') : 1;
  if (sense !== -1 || figure.value === 0) return figure;
  return { ...figure, value: -figure.value, working: `${figure.working} from the face, as programmed ${shown(-figure.value, 6)}` };
}

/** The usable shift only where the hob is long enough to have one; where it is not, a warning says so. */
function hobUseFigures(input: HobbingInput): Quantity[] {
  const { hobAxialPitch, gashStep, shortestHob } = hobUseData({ ...input, hobLength: undefined });
  const least = shortestHob.value + (START_MARGIN_FACTOR + FINISH_MARGIN_FACTOR) * input.normalModule;
  const usable = input.hobLength !== undefined && input.hobLength >= least ? hobUseData(input).usableShift : undefined;
  return [hobAxialPitch, gashStep, shortestHob, ...(usable ? [usable] : [])];
}

/** What the hob passes without any room behind or before the teeth is the same for both sides, so it stands once. */
function roomFigures(values: HobbingValues, input: HobbingInput): Quantity[] {
  const behind = values['SHOULDER-DIA'] === undefined ? undefined : runoutData(input, { obstacleDiameter: values['SHOULDER-DIA'] });
  const before = values['FRONT-DIA'] === undefined ? undefined : runoutData(input, { obstacleDiameter: values['FRONT-DIA'] });
  const harmless = (behind ?? before)?.harmlessShoulder;
  return [behind?.neededRoom, before?.neededEntryRoom, harmless].filter((each) => each !== undefined);
}
