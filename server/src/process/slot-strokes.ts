/**
 * What all slots cut by strokes have in common, keyways and indexed ones alike:
 * the parameters of the strokes and what the machine allows. The block itself is
 * in slot-block.ts.
 *
 * It knows no section of a slot: radii, passes and angles come in a plan.
 */
import { toolUnit } from '../machine/card.ts';
import type { KeywayPass } from '../trade/keyway.ts';
import { shown, type Units } from '../trade/quantity.ts';
import type { StrokePlan } from '../trade/stroke-plan.ts';
import type { Fields, RawValues, Values } from './fields.ts';
import { beyondTravel } from './machine-travel.ts';
import { beyondMachine, type Problem, type QuantityLookup, type Setting } from './process.ts';
import { strokeDriveSpeeds } from './unit-speeds.ts';
import { materialFields, strokeSpeedProblems } from './usual-ranges.ts';
import { cardLength } from './words.ts';
import { spindleField } from './work-side.ts';

const freeTravel = { mm: 2, inch: 0.08 } as const;

export const strokeFields = {
  METHOD: { kind: 'choice', label: 'Driven unit or static tool', choices: ['DRIVEN', 'STATIC'], default: 'DRIVEN', help: 'DRIVEN: a stroke unit in a driven station strokes. STATIC: the axes stroke with a standing tool.' },
  ...materialFields,
  RPM: { kind: 'number', label: 'Driven tool speed', dimension: 'rpm', above: 0, most: 20000, optional: true, absent: 'needed for DRIVEN', help: 'Revolutions of the driven-tool drive. Strokes a minute are RPM times RATIO.' },
  RATIO: { kind: 'number', label: 'Strokes per revolution', dimension: 'number', above: 0, most: 100, default: 1, help: 'Strokes for one revolution of the drive. The machine card of the unit may say another default.' },
  FEED: { kind: 'number', label: 'Radial feed', dimension: 'feedPerStroke', above: 0, most: 2, help: 'Radial advance for one stroke.' },
  'SPARK-OUT': { kind: 'number', label: 'Spark-out strokes', dimension: 'count', least: 0, most: 1000, whole: true, default: 2, help: 'Strokes at full depth without feed.' },
  'LEAD-IN': { kind: 'number', label: 'Lead-in', dimension: 'length', least: 0, most: 100, default: freeTravel, help: 'Free travel before the cut.' },
  'LEAD-OUT': { kind: 'number', label: 'Lead-out', dimension: 'length', least: 0, most: 100, default: freeTravel, help: 'Free travel behind the cut.' },
  STROKE: { kind: 'number', label: 'Stroke set on the unit', dimension: 'length', above: 0, most: 2000, optional: true, absent: 'computed', help: 'Stroke as set on the unit: at least length, lead-in and lead-out together.' },
} as const satisfies Fields;

export const placeFields = {
  RELIEF: { kind: 'number', label: 'Relief groove width', dimension: 'length', least: 0, most: 1000, default: 0, help: 'Width of the groove into which a blind slot runs; 0 for a through slot.' },
  'FACE-Z': { kind: 'number', label: 'Z of the front face', dimension: 'length', least: -10000, most: 10000, default: 0, help: 'Z of the face where the stroke enters. The slot reaches from here into the work.' },
  SPEED: { kind: 'number', label: 'Cutting speed', dimension: 'surfaceSpeed', above: 0, most: 200, optional: true, absent: 'needed for STATIC', help: 'STATIC: speed of the cutting stroke.' },
  ...spindleField,
  PROGRAM: { kind: 'number', label: 'Number of the subprogram', dimension: 'count', least: 0, most: 99_999_999, whole: true, optional: true, absent: 'by the machine card', help: 'Strokes or slots that are alike go through the subprogram of this number, behind the end of the program. A new block takes a free number of the machine card where that says how to call; 0: written out.' },
} as const satisfies Fields;

export type StrokeValues = Values<typeof strokeFields & typeof placeFields> & { LENGTH: number; INSERT: number | undefined };

/** Which parameter stands for an input field of the strokes in the trade library. */
export const strokeParameterOf = {
  length: 'LENGTH', insertWidth: 'INSERT', method: 'METHOD', toolRpm: 'RPM', strokeRatio: 'RATIO', feedPerStroke: 'FEED', sparkOutStrokes: 'SPARK-OUT',
  leadIn: 'LEAD-IN', leadOut: 'LEAD-OUT', stroke: 'STROKE', relief: 'RELIEF', cuttingSpeed: 'SPEED', startAngleDegrees: 'ANGLE',
} as const;

/** What a block of slots is written from. */
export interface SlotPlan extends StrokePlan {
  readonly anglesDegrees: readonly number[];
  readonly passes: readonly KeywayPass[];
  /** Of the deepest pass. */
  readonly floorRadius: number;
  readonly totalStrokes: number;
}

/** Gap that a rapid leaves to the work, so that it never ends on it. Common practice, no source. */
export const entryGap = { mm: 0.5, inch: 0.02 } as const;

/**
 * How far before the face X may move although it leads past the wall of the
 * bore. Nobody knows where in its stroke a unit stopped, so it stands off by all
 * of the stroke.
 */
export function clearOfFace({ METHOD: method }: StrokeValues, { strokeStartZOffset, strokeLength }: SlotPlan, units: Units): number {
  return Math.max(strokeStartZOffset, entryGap[units]) + (method === 'DRIVEN' ? strokeLength : 0);
}

/** What the card says of the stroke unit comes before the plain defaults. */
export function strokeUnitDefaults({ card, units }: Setting): RawValues {
  const unit = toolUnit(card, 'stroke');
  if (!unit) return {};
  const lengths = { 'LEAD-IN': unit.leadIn, 'LEAD-OUT': unit.leadOut };
  const stated = Object.entries(lengths).filter((each): each is [string, number] => each[1] !== undefined);
  return { ...Object.fromEntries(stated.map(([name, length]) => [name, String(cardLength(length, card, units))])), RATIO: String(unit.ratio) };
}

export function strokeMethodRules(values: Partial<StrokeValues>, { units }: Setting): Problem[] {
  const needed = values.METHOD === 'DRIVEN' ? 'RPM' : 'SPEED';
  if (values[needed] !== undefined) return [];
  const what = needed === 'RPM' ? 'speed of the driven tool, more than 0, at most 20000 rev/min' : `speed of the cutting stroke, more than 0, in ${units === 'mm' ? 'm/min' : 'ft/min'}`;
  return [{ parameter: needed, rule: 'missing-parameter', severity: 'error', message: `${needed} is missing: METHOD=${values.METHOD} needs the ${what}.` }];
}

/** The strokes as the trade library takes them. */
export function strokeInputOf(values: StrokeValues, { units, card }: Setting) {
  const optional = { toolRpm: values.RPM, stroke: values.STROKE, cuttingSpeed: values.SPEED, insertWidth: values.INSERT };
  return {
    units,
    length: values.LENGTH,
    method: values.METHOD === 'DRIVEN' ? 'driven' : 'static',
    strokeRatio: values.RATIO,
    feedPerStroke: values.FEED,
    sparkOutStrokes: values['SPARK-OUT'],
    leadIn: values['LEAD-IN'],
    leadOut: values['LEAD-OUT'],
    relief: values.RELIEF,
    diameterProgramming: card.diameterProgramming,
    xFeedOnDiameter: card.xFeedOnDiameter,
    ...(Object.fromEntries(Object.entries(optional).filter(([, value]) => value !== undefined)) as { [K in keyof typeof optional]?: number }),
  } as const;
}

/** Room beyond the lead-out that a relief groove should have: insert and chips. From memory. */
const reliefRoom = { mm: 1, inch: 0.04 } as const;

/** The insert that the slot needs, and what to do where the unit does not take it. */
export interface NeededInsert {
  width: number;
  advice?: string;
}

/** What is beyond the unit or the machine, or likely to break the insert. */
export function strokeChecks(values: StrokeValues, plan: SlotPlan, insert: NeededInsert, quantity: QuantityLookup, setting: Setting): Problem[] {
  const ofUnit = values.METHOD === 'STATIC' ? [] : [...lengthChecks(values, quantity, setting), ...rateChecks(values, quantity, setting), ...strokeSpeedProblems(values, quantity('peakSpeed'), setting.units), ...insertChecks(insert, setting)];
  return [...ofUnit, ...freeTravelChecks(values), ...travelChecks(values, plan, setting), ...reliefChecks(values, setting)];
}

/** The card's limits count from the zero of the main spindle, so Z in the sub-spindle is not judged by them. */
function travelChecks(values: StrokeValues, plan: SlotPlan, setting: Setting): Problem[] {
  const x = plan.floorRadius * (setting.card.diameterProgramming ? 2 : 1);
  const z = [plan.strokeStartZOffset, plan.strokeEndZOffset, clearOfFace(values, plan, setting.units)].map((offset) => values['FACE-Z'] + offset);
  return [
    ...beyondTravel('BORE', 'x', [x], setting),
    ...beyondTravel('INSERT', 'y', plan.passes.map(({ offsetY }) => offsetY), setting),
    ...(values.SPINDLE === 'MAIN' ? beyondTravel('FACE-Z', 'z', z, setting) : []),
  ];
}

/** A driven insert that has no free travel feeds and reverses while it is in the cut. Common practice, no source. */
function freeTravelChecks(values: StrokeValues): Problem[] {
  if (values.METHOD === 'STATIC') return staticLeadIn(values);
  return (['LEAD-IN', 'LEAD-OUT'] as const).filter((name) => values[name] === 0).map((name) => ({
    parameter: name, rule: 'no-free-travel', severity: 'warning', message: `${name}: 0 leaves no free travel: the stroke reverses at the edge of the cut, where the chip hangs. Better more than 0 (common practice).`,
  }));
}

/** Before every stroke of a tool that stands X goes out in rapid, past the wall of the bore. */
function staticLeadIn({ 'LEAD-IN': leadIn }: StrokeValues): Problem[] {
  if (leadIn > 0) return [];
  return [{ parameter: 'LEAD-IN', rule: 'no-free-travel', severity: 'warning', message: 'LEAD-IN: 0 lets X move in rapid along the very face, before every stroke. Better more than 0 (common practice).' }];
}

function reliefChecks(values: StrokeValues, { units }: Setting): Problem[] {
  const least = values['LEAD-OUT'] + reliefRoom[units];
  if (values.RELIEF === 0 || values.RELIEF >= least - 1e-9) return [];
  return [{
    parameter: 'RELIEF', rule: 'narrow-relief', severity: 'warning',
    message: `RELIEF: ${shown(values.RELIEF)} leaves little room behind the stroke for insert and chips: better at least ${shown(least, 4)} ${unitOfLength(units)}, lead-out and ${reliefRoom[units]} (from memory).`,
  }];
}

function lengthChecks(values: StrokeValues, quantity: QuantityLookup, { card, units }: Setting): Problem[] {
  const unit = toolUnit(card, 'stroke');
  if (unit?.totalStroke === undefined) return [];
  const most = cardLength(unit.totalStroke, card, units);
  if ((quantity('strokeLength') ?? 0) <= most + 1e-9) return [];
  if (values.STROKE !== undefined) return [beyondMachine('STROKE', shown(values.STROKE), `at most ${shown(most, 4)} ${unitOfLength(units)} (${unit.name})`)];
  const longest = most - values['LEAD-IN'] - values['LEAD-OUT'];
  return [beyondMachine('LENGTH', shown(values.LENGTH), `more than 0, at most ${shown(longest, 4)} ${unitOfLength(units)}: the stroke of ${shown(most, 4)} less lead-in and lead-out (${unit.name})`)];
}

function rateChecks(values: StrokeValues, quantity: QuantityLookup, { card }: Setting): Problem[] {
  const unit = toolUnit(card, 'stroke');
  const rate = quantity('strokesPerMinute') ?? 0;
  const { most } = strokeDriveSpeeds(card, values.RATIO);
  if (values.RPM === undefined || values.RPM <= most + 1e-9) return [];
  return [beyondMachine('RPM', shown(values.RPM), `more than 0, at most ${shown(most, 1)} rev/min (now ${shown(rate, 1)} strokes a minute${unit ? `, ${unit.name}` : ''})`)];
}

function insertChecks({ width, advice }: NeededInsert, { card, units }: Setting): Problem[] {
  const unit = toolUnit(card, 'stroke');
  if (unit?.maxInsertWidth === undefined) return [];
  const most = cardLength(unit.maxInsertWidth, card, units);
  if (width <= most + 1e-9) return [];
  return [beyondMachine('INSERT', shown(width), `more than 0, at most ${shown(most, 4)} ${unitOfLength(units)} (${unit.name})${advice === undefined ? '' : `; ${advice}`}`)];
}

function unitOfLength(units: Units): string {
  return units === 'mm' ? 'mm' : 'inch';
}
