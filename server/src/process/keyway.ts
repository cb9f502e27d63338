/**
 * Slotting of internal keyways, by a driven stroke unit or by a tool that stands
 * in the turret while the axes stroke. All figures come from the trade library;
 * this file says which parameter means what there. What a block does stroke by
 * stroke is in slot-block.ts.
 */
import { clockedToGearDegrees, withinOneTurnDegrees } from '../trade/clocking.ts';
import { keyway as computeKeyway, keywayPlan, type KeywayInput, type KeywayPlan } from '../trade/keyway.ts';
import type { Quantity } from '../trade/quantity.ts';
import { floorStep } from '../trade/side-passes.ts';
import { clockingFigures } from '../trade/slotting-figures.ts';
import type { Values } from './fields.ts';
import { defineProcess, type Problem, type Setting } from './process.ts';
import { composeSlots } from './slot-block.ts';
import { assumedLeanDegrees, flatnessField, flatnessFigure, flatnessProblems } from './slot-flatness.ts';
import { settledProgram, subprogramProblems } from './slot-subprogram.ts';
import { placeFields, strokeChecks, strokeFields, strokeInputOf, strokeMethodRules, strokeParameterOf, strokeUnitDefaults, type NeededInsert } from './slot-strokes.ts';
import { decimal } from './words.ts';
import { slottingHints } from './usual-ranges.ts';
import { subSpindleRules } from './work-side.ts';

const fields = {
  BORE: { kind: 'number', label: 'Bore diameter', dimension: 'length', above: 0, most: 500, help: 'Diameter of the bore that carries the keyway.' },
  WIDTH: { kind: 'number', label: 'Keyway width', dimension: 'length', above: 0, most: 200, optional: true, absent: 'from the standard by bore', help: 'Nominal width. From DIN 6885-1 by bore, in inch programs from ASME B17.1, where it is not given.' },
  DEPTH: { kind: 'number', label: 'Keyway depth', dimension: 'length', above: 0, most: 100, optional: true, absent: 'from the standard by bore', help: 'Depth at the centre line, from the bore (t2). From the standard by bore where it is not given.' },
  FIT: { kind: 'text', label: 'Class of the width', longest: 10, default: 'JS9', form: { pattern: /^([A-Z]{1,2}\d{1,2}|CLASS[12])$/, words: 'an ISO 286 class of a hole such as JS9, P9 or D10, or CLASS1 or CLASS2 of ASME B17.1 in inch programs' }, help: 'Tolerance class of the keyway width.' },
  LENGTH: { kind: 'number', label: 'Keyway length', dimension: 'length', above: 0, most: 1000, help: 'Length of the keyway along Z.' },
  INSERT: { kind: 'number', label: 'Insert width', dimension: 'length', above: 0, most: 200, optional: true, absent: '= WIDTH', help: 'Width of the cutting edge. A narrower one cuts the width in several passes with Y.' },
  ...flatnessField,
  ...strokeFields,
  COUNT: { kind: 'number', label: 'Number of keyways', dimension: 'count', least: 1, most: 360, whole: true, default: 1, help: 'Keyways, evenly spaced.' },
  ANGLE: { kind: 'number', label: 'Angle of the first keyway', dimension: 'angle', least: -360, most: 360, default: 0, help: 'C position of the first keyway; with CLOCK-TO, how far it stands from the tooth or the space.' },
  'CLOCK-TO': { kind: 'choice', label: 'Clocked to a gear', choices: ['NONE', 'TOOTH', 'SPACE'], default: 'NONE', help: 'TOOTH or SPACE: the first keyway sits on the middle of a tooth or of a space of a gear on the same work.' },
  'GEAR-TEETH': { kind: 'number', label: 'Teeth of the gear', dimension: 'count', least: 1, most: 1000, whole: true, optional: true, absent: 'needed to clock', help: 'Number of teeth of the gear to which the keyway is clocked.' },
  'TOOTH-ANGLE': { kind: 'number', label: 'Angular place of a tooth', dimension: 'angle', least: -360, most: 360, optional: true, absent: 'needed to clock', help: 'C of the middle of a tooth of that gear: as the gear was hobbed, or as it was measured.' },
  'TOOTH-NO': { kind: 'number', label: 'Which tooth', dimension: 'count', least: -1000, most: 1000, whole: true, default: 0, help: 'Teeth counted from the one at TOOTH-ANGLE, with growing C; for SPACE, the space that follows that tooth.' },
  ...placeFields,
} as const;

type KeywayValues = Values<typeof fields>;

const strokes = ['strokesPerMinute', 'strokeTime', 'peakSpeed', 'meanSpeed', 'strokes', 'cuttingTime'] as const;
const feeding = ['feedPerMinute', 'strokes', 'radialDepth', 'cuttingTime'] as const;
const strokeFigures = ['strokeLength', 'peakSpeed', 'meanSpeed', 'strokeTime'] as const;
const section = ['overallDimension', 'bottomX', 'firstContactX', 'sagitta', 'radialDepth'] as const;
const width = ['widthUpper', 'widthLower', 'firstContactX', 'sagitta', 'radialDepth'] as const;
const clocking = ['clockedToGear', 'overallDimension', 'bottomX'] as const;

export const keyway = defineProcess({
  id: 'keyway',
  keyword: 'KEYWAY',
  title: 'Keyway',
  summary: 'Slots internal keyways by fast strokes, with a driven stroke unit or a static tool.',
  fields,
  keyQuantities: ['strokesPerMinute', 'strokeTime', 'strokeLength', 'peakSpeed', 'firstContactX', 'bottomX', 'strokes', 'cuttingTime'],
  governs: {
    S: strokes, F: feeding, T: strokeFigures, sync: strokes,
    BORE: [...section, 'widthUpper', 'widthLower'], WIDTH: width, DEPTH: section, FIT: width, LENGTH: strokeFigures, INSERT: ['strokes', 'cuttingTime', 'firstContactX', 'floorTilt'], FLATNESS: ['floorTilt', 'strokes'],
    METHOD: strokes, MATERIAL: ['peakSpeed', 'feedPerMinute'], 'TOOL-MATERIAL': ['peakSpeed', 'meanSpeed'], RPM: strokes, RATIO: strokes, FEED: feeding, 'SPARK-OUT': ['strokes', 'cuttingTime', 'strokeTime'],
    'LEAD-IN': strokeFigures, 'LEAD-OUT': strokeFigures, STROKE: strokeFigures, COUNT: ['cuttingTime', 'strokes'], ANGLE: clocking, 'CLOCK-TO': clocking, 'GEAR-TEETH': clocking, 'TOOTH-ANGLE': clocking, 'TOOTH-NO': clocking,
    PROGRAM: ['strokes', 'cuttingTime'], RELIEF: strokeFigures, 'FACE-Z': strokeFigures, SPINDLE: strokeFigures, SPEED: ['strokeTime', 'strokesPerMinute', 'cuttingTime', 'strokes'],
    KEYWAY: [...strokes, 'strokeLength', ...section, 'widthUpper', 'widthLower', 'feedPerMinute'],
  },
  parameterOf: {
    ...strokeParameterOf,
    boreDiameter: 'BORE', width: 'WIDTH', depth: 'DEPTH', fit: 'FIT', count: 'COUNT', nominal: 'WIDTH', grade: 'FIT', clearance: 'BORE',
    toothAngleDegrees: 'TOOTH-ANGLE', teeth: 'GEAR-TEETH', index: 'TOOTH-NO',
  },
  cardDefaults: strokeUnitDefaults,
  rules: (values, setting) => [...strokeMethodRules(values, setting), ...clockingRules(values), ...subSpindleRules(values.SPINDLE, ['zSense'], setting)],
  compute: (values, setting) => [...Object.values(computeKeyway(inputOf(values, setting))), ...clockingFiguresOf(values), flatnessFigure(keywayPlan(inputOf(values, setting)).insertWidth, setting)],
  hints: (values, { units }) => slottingHints(values, units),
  checks: (values, quantity, setting) => {
    const plan = keywayPlan(inputOf(values, setting));
    return [...strokeChecks(values, plan, neededInsert(values, plan), quantity, setting), ...flatnessProblems(values.FLATNESS, plan.insertWidth, (edge) => edge, setting), ...subprogramProblems(values, plan, setting)];
  },
  settle: (values, setting) => settledProgram(values, keywayPlan(inputOf(values, setting)), setting),
  compose: (values, setting) => {
    const plan = keywayPlan(inputOf(values, setting));
    return composeSlots(values, plan, { keyword: 'KEYWAY', comments: aboutKeyway(values, plan, setting) }, setting);
  },
});

/**
 * A hobbed gear has its teeth anywhere unless the hob was clocked too, so their
 * place is asked for and never taken as 0.
 */
function clockingRules(values: Partial<KeywayValues>): Problem[] {
  const target = values['CLOCK-TO'];
  if (target === undefined) return [];
  if (target === 'NONE') return clockingNames.filter((name) => values[name] !== undefined).slice(0, 1).map((name) => ({
    parameter: name, rule: 'bad-value', severity: 'error', message: `${name} is given, but the keyway is not clocked: give CLOCK-TO=TOOTH or CLOCK-TO=SPACE too, or leave ${name} out.`,
  }));
  return clockingNames.filter((name) => values[name] === undefined).map((name) => ({
    parameter: name, rule: 'missing-parameter', severity: 'error', message: `${name} is missing: CLOCK-TO=${target} needs ${clockingNeeds[name]}.`,
  }));
}

const clockingNames = ['GEAR-TEETH', 'TOOTH-ANGLE'] as const;
const clockingNeeds = {
  'GEAR-TEETH': 'the number of teeth of the gear, a whole number from 1 to 1000',
  'TOOTH-ANGLE': 'C of the middle of a tooth, from -360 to 360 deg: known when the gear was hobbed to its own TOOTH-ANGLE or measured, else its teeth may stand anywhere',
} as const;

function clockingFiguresOf(values: KeywayValues): Quantity[] {
  const gear = clockedGear(values);
  return gear ? [clockingFigures(gear.toothAngle, gear.teeth, gear.target, values['TOOTH-NO']).clockedToGear] : [];
}

type ClockingValues = Pick<KeywayValues, 'ANGLE' | 'CLOCK-TO' | 'GEAR-TEETH' | 'TOOTH-ANGLE' | 'TOOTH-NO'>;

/** C of the first keyway, in degrees: as given, or counted from the tooth or space to which it is clocked. */
export function firstKeywayAngleDegrees(values: ClockingValues): number {
  const gear = clockedGear(values);
  if (!gear) return values.ANGLE;
  return withinOneTurnDegrees(clockedToGearDegrees(gear.toothAngle, gear.teeth, gear.target, values['TOOTH-NO']) + values.ANGLE);
}

/** The rules have seen to it that teeth and their place are there. */
function clockedGear(values: ClockingValues): { toothAngle: number; teeth: number; target: 'tooth' | 'space' } | undefined {
  if (values['CLOCK-TO'] === 'NONE') return undefined;
  return { toothAngle: values['TOOTH-ANGLE'] ?? NaN, teeth: values['GEAR-TEETH'] ?? NaN, target: values['CLOCK-TO'] === 'TOOTH' ? 'tooth' : 'space' };
}

function inputOf(values: KeywayValues, setting: Setting): KeywayInput {
  return {
    ...strokeInputOf(values, setting),
    boreDiameter: values.BORE,
    ...(values.WIDTH === undefined ? {} : { width: values.WIDTH }),
    ...(values.DEPTH === undefined ? {} : { depth: values.DEPTH }),
    fit: values.FIT,
    count: values.COUNT,
    startAngleDegrees: firstKeywayAngleDegrees(values),
  };
}

function neededInsert({ INSERT: given }: KeywayValues, { insertWidth }: KeywayPlan): NeededInsert {
  return { width: insertWidth, ...(given === undefined ? { advice: 'give a narrower INSERT, which cuts the width in several passes' } : {}) };
}

function aboutKeyway(values: KeywayValues, plan: KeywayPlan, setting: Setting): string[] {
  const length = (value: number) => decimal(value, setting.card.decimals);
  const about = [`Keyway ${length(plan.width)} ${values.FIT} wide, bore and keyway ${length(values.BORE + plan.depth)}`];
  if (values['CLOCK-TO'] !== 'NONE') about.push(`Clocked to a ${values['CLOCK-TO']} of the gear with ${values['GEAR-TEETH'] ?? ''} teeth, one tooth at C ${decimal(values['TOOTH-ANGLE'] ?? NaN, setting.card.angleDecimals)}`);
  if (plan.passes.length > 1) about.push(sidePassComment(plan, length));
  return about;
}

/** Y moves every pass by the same plane, so the floor is one plane as far as the edge is square to X. */
function sidePassComment({ passes, aimedWidth, insertWidth }: KeywayPlan, length: (value: number) => string): string {
  const outermost = Math.max(...passes.map(({ offsetY }) => offsetY));
  const step = floorStep(aimedWidth, insertWidth, assumedLeanDegrees);
  return `Side passes to Y +-${length(outermost)}: one plane floor, ${length(step)} step for an edge ${assumedLeanDegrees} deg out of square`;
}
