/**
 * Indexed slotting: inside squares and hexagons corner by corner, serrations and
 * straight-sided splines groove by groove, each with an insert of the full form,
 * or squares and hexagons with a narrower one in several passes.
 * All figures come from the trade library; this file says which parameter means
 * what there. What a block does stroke by stroke is in slot-block.ts.
 *
 * Involute splines are not made here: a hob or a rack-like tool makes them, and
 * the published serration profiles are not built in, so a groove is described by
 * its own sizes.
 */
import { indexedSlotting, indexedSlottingPlan, type IndexedSlottingInput, type IndexedSlottingPlan } from '../trade/indexed-slotting.ts';
import { flankLength } from '../trade/polygon-passes.ts';
import type { Quantity } from '../trade/quantity.ts';
import type { SlotShape } from '../trade/slots.ts';
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
  SHAPE: { kind: 'choice', label: 'Shape', choices: ['SQUARE', 'HEXAGON', 'SERRATION', 'SPLINE'], help: 'SQUARE, HEXAGON: flats from ACROSS-FLATS. SERRATION: V grooves from INCLUDED-ANGLE. SPLINE: straight sides, ISO 14.' },
  BORE: { kind: 'number', label: 'Bore diameter', dimension: 'length', above: 0, most: 500, help: 'Diameter of the bore before slotting; the inner diameter of a SPLINE.' },
  'ACROSS-FLATS': { kind: 'number', label: 'Width across flats', dimension: 'length', above: 0, most: 500, optional: true, absent: 'for SQUARE, HEXAGON', help: 'SQUARE, HEXAGON: distance of opposite flats.' },
  COUNT: { kind: 'number', label: 'Number of grooves', dimension: 'count', least: 2, most: 360, whole: true, optional: true, absent: 'for SERRATION, SPLINE', help: 'SERRATION, SPLINE: grooves or tooth spaces, evenly spaced.' },
  'OUTER-DIA': { kind: 'number', label: 'Diameter at the floor', dimension: 'length', above: 0, most: 500, optional: true, absent: 'for SERRATION, SPLINE', help: 'SERRATION: over the floors of the grooves. SPLINE: its outer diameter.' },
  'INCLUDED-ANGLE': { kind: 'number', label: 'Included angle of the groove', dimension: 'angle', least: 1, most: 179, optional: true, absent: 'for SERRATION', help: 'SERRATION: between the flanks of a groove and of the insert.' },
  'TIP-FLAT': { kind: 'number', label: 'Flat at the point', dimension: 'length', least: 0, most: 50, default: 0, help: 'SERRATION: width of the flat at the point of the insert.' },
  HUB: { kind: 'choice', label: 'Hub after cutting', choices: ['UNTREATED', 'TREATED'], default: 'UNTREATED', help: 'SPLINE: TREATED is hardened after cutting, which allows wider limits of the space.' },
  LENGTH: { kind: 'number', label: 'Slot length', dimension: 'length', above: 0, most: 1000, help: 'Length of the slots along Z.' },
  INSERT: { kind: 'number', label: 'Insert width', dimension: 'length', above: 0, most: 200, optional: true, absent: 'as the slot asks', help: 'Width of the insert at hand; it is checked against what the slot asks. SQUARE, HEXAGON: a narrower one cuts the flats in several passes with Y.' },
  ...flatnessField,
  ...strokeFields,
  ANGLE: { kind: 'number', label: 'Angle of the first slot', dimension: 'angle', least: -360, most: 360, default: 0, help: 'C position of the first slot or corner.' },
  ...placeFields,
} as const;

type SlottingValues = Values<typeof fields>;

const strokes = ['strokesPerMinute', 'strokeTime', 'peakSpeed', 'meanSpeed', 'strokes', 'cuttingTime'] as const;
const feeding = ['feedPerMinute', 'strokes', 'radialDepth', 'cuttingTime'] as const;
const strokeFigures = ['strokeLength', 'peakSpeed', 'meanSpeed', 'strokeTime'] as const;
const shape = ['slotWidth', 'bottomX', 'firstContactX', 'radialDepth', 'acrossCorners', 'flatLength', 'cornerCutDepth', 'spaceWidth', 'spaceWidthUpper', 'outerDiameterUpper', 'innerDiameterUpper'] as const;
const indexing = ['indexAngle', 'cuttingTime', 'strokes'] as const;

export const slotting = defineProcess({
  id: 'slotting',
  keyword: 'SLOTTING',
  title: 'Indexed slotting',
  summary: 'Slots squares, hexagons, serrations and straight-sided splines in a bore, one slot after the other by angle.',
  fields,
  keyQuantities: ['indexAngle', 'slotWidth', 'firstContactX', 'bottomX', 'strokesPerMinute', 'strokeTime', 'strokes', 'cuttingTime'],
  governs: {
    S: strokes, F: feeding, T: strokeFigures, sync: strokes,
    SHAPE: shape, BORE: shape, 'ACROSS-FLATS': shape, COUNT: indexing, 'OUTER-DIA': shape, 'INCLUDED-ANGLE': shape, 'TIP-FLAT': shape, HUB: ['spaceWidthUpper', 'spaceWidth', 'slotWidth'],
    LENGTH: strokeFigures, INSERT: ['slotWidth', 'strokes', 'floorTilt'], FLATNESS: ['floorTilt', 'strokes'], METHOD: strokes, MATERIAL: ['peakSpeed', 'feedPerMinute'], 'TOOL-MATERIAL': ['peakSpeed', 'meanSpeed'], RPM: strokes, RATIO: strokes, FEED: feeding, 'SPARK-OUT': ['strokes', 'cuttingTime', 'strokeTime'],
    'LEAD-IN': strokeFigures, 'LEAD-OUT': strokeFigures, STROKE: strokeFigures, ANGLE: indexing, PROGRAM: indexing, RELIEF: strokeFigures, 'FACE-Z': strokeFigures, SPINDLE: strokeFigures,
    SPEED: ['strokeTime', 'strokesPerMinute', 'cuttingTime', 'strokes'],
    SLOTTING: [...indexing, ...shape, ...strokeFigures],
  },
  parameterOf: {
    ...strokeParameterOf,
    sides: 'SHAPE', shape: 'SHAPE', units: 'SHAPE', acrossFlats: 'ACROSS-FLATS', boreDiameter: 'BORE', innerDiameter: 'BORE', outerDiameter: 'OUTER-DIA', floorRadius: 'OUTER-DIA', floorDiameter: 'OUTER-DIA',
    includedAngleDegrees: 'INCLUDED-ANGLE', tipFlat: 'TIP-FLAT', count: 'COUNT', teeth: 'COUNT', halfChord: 'TIP-FLAT',
  },
  cardDefaults: strokeUnitDefaults,
  rules: (values, setting) => [...shapeRules(values), ...strokeMethodRules(values, setting), ...subSpindleRules(values.SPINDLE, ['zSense'], setting)],
  compute: (values, setting) => [...Object.values(indexedSlotting(inputOf(values, setting))), ...flatFigures(values, setting)],
  hints: (values, { units }) => slottingHints(values, units),
  checks: (values, quantity, setting) => {
    const plan = indexedSlottingPlan(inputOf(values, setting));
    return [...strokeChecks(values, plan, neededInsert(values, plan), quantity, setting), ...flatProblems(values, plan, setting), ...subprogramProblems(values, plan, setting)];
  },
  settle: (values, setting) => settledProgram(values, indexedSlottingPlan(inputOf(values, setting)), setting),
  compose: (values, setting) => {
    const plan = indexedSlottingPlan(inputOf(values, setting));
    return composeSlots(values, plan, { keyword: 'SLOTTING', comments: aboutSlots(values, plan, setting) }, setting);
  },
});

const neededBy = {
  SQUARE: ['ACROSS-FLATS'], HEXAGON: ['ACROSS-FLATS'], SERRATION: ['COUNT', 'OUTER-DIA', 'INCLUDED-ANGLE'], SPLINE: ['COUNT', 'OUTER-DIA'],
} as const;

const ofShapes = ['ACROSS-FLATS', 'COUNT', 'OUTER-DIA', 'INCLUDED-ANGLE'] as const;

/** What a shape needs must be there, and what it has no use for must not: it would be meant for another shape. */
function shapeRules(values: Partial<SlottingValues>): Problem[] {
  const { SHAPE: chosen } = values;
  if (chosen === undefined) return [];
  const needed: readonly string[] = neededBy[chosen];
  const ofFlats = values.FLATNESS !== undefined && sidesOf(chosen) === undefined ? [unusedFlatness(chosen)] : [];
  return [...ofFlats, ...ofShapes.filter((name) => needed.includes(name) === (values[name] === undefined)).map((name): Problem =>
    needed.includes(name)
      ? { parameter: name, rule: 'missing-parameter', severity: 'error', message: `${name} is missing: SHAPE=${chosen} needs it. ${fields[name].help}` }
      : { parameter: name, rule: 'bad-value', severity: 'error', message: `${name} does not go with SHAPE=${chosen}: leave it out. ${fields[name].help}` })];
}

function unusedFlatness(chosen: string): Problem {
  return { parameter: 'FLATNESS', rule: 'bad-value', severity: 'error', message: `FLATNESS does not go with SHAPE=${chosen}: leave it out. It is of the flats of a SQUARE or a HEXAGON.` };
}

/** Sides of a polygon; undefined for a shape without flats. */
function sidesOf(chosen: SlottingValues['SHAPE']): 4 | 6 | undefined {
  return chosen === 'SQUARE' ? 4 : chosen === 'HEXAGON' ? 6 : undefined;
}

function flatFigures(values: SlottingValues, setting: Setting): Quantity[] {
  const sides = sidesOf(values.SHAPE);
  return sides === undefined ? [] : [flatnessFigure(edgeOnFlat(sides, indexedSlottingPlan(inputOf(values, setting))), setting)];
}

function flatProblems(values: SlottingValues, plan: IndexedSlottingPlan, setting: Setting): Problem[] {
  const sides = sidesOf(values.SHAPE);
  if (sides === undefined) return [];
  return flatnessProblems(values.FLATNESS, edgeOnFlat(sides, plan), (edge) => edge / flankLength(sides, 1), setting);
}

/** The part of a flank that cuts: no more than half a flat. */
function edgeOnFlat(sides: number, { insertWidth, slotWidth }: IndexedSlottingPlan): number {
  return flankLength(sides, Math.min(insertWidth, slotWidth));
}

function neededInsert({ SHAPE: chosen, INSERT: given }: SlottingValues, { insertWidth }: IndexedSlottingPlan): NeededInsert {
  return { width: insertWidth, ...(given === undefined && sidesOf(chosen) !== undefined ? { advice: 'give a narrower INSERT, which cuts the flats in several passes' } : {}) };
}

function inputOf(values: SlottingValues, setting: Setting): IndexedSlottingInput {
  return { ...strokeInputOf(values, setting), shape: shapeOf(values), startAngleDegrees: values.ANGLE, treated: values.HUB === 'TREATED' };
}

/** The rules have seen to it that what the shape needs is there. */
function shapeOf(values: SlottingValues): SlotShape {
  const { BORE: boreDiameter, COUNT: count = NaN, 'OUTER-DIA': floorDiameter = NaN } = values;
  switch (values.SHAPE) {
    case 'SQUARE': return { kind: 'polygon', sides: 4, acrossFlats: values['ACROSS-FLATS'] ?? NaN, boreDiameter };
    case 'HEXAGON': return { kind: 'polygon', sides: 6, acrossFlats: values['ACROSS-FLATS'] ?? NaN, boreDiameter };
    case 'SERRATION': return { kind: 'serration', count, boreDiameter, floorDiameter, includedAngleDegrees: values['INCLUDED-ANGLE'] ?? NaN, tipFlat: values['TIP-FLAT'] };
    case 'SPLINE': return { kind: 'straightSpline', teeth: count, innerDiameter: boreDiameter, outerDiameter: floorDiameter };
  }
}

function aboutSlots(values: SlottingValues, plan: IndexedSlottingPlan, setting: Setting): string[] {
  const length = (value: number) => decimal(value, setting.card.decimals);
  const angle = plan.insertAngleDegrees;
  const isNarrow = plan.passes.length > 1;
  const width = isNarrow ? `${length(plan.insertWidth)} wide` : `at least ${length(plan.slotWidth)} wide`;
  const insert = angle === undefined ? `flat, ${length(plan.slotWidth)} wide` : `pointed, ${decimal(angle, setting.card.angleDecimals)} deg, ${width}`;
  return [
    `${values.SHAPE} of ${plan.count} in bore ${length(values.BORE)}, one slot after the other`,
    `Insert ${insert}`,
    ...(isNarrow ? [sidePassComment(values, plan, setting)] : []),
  ];
}

/** The point stays on the line of the flat, so every flat is one plane as far as the insert stands true. */
function sidePassComment(values: SlottingValues, plan: IndexedSlottingPlan, setting: Setting): string {
  const length = (value: number) => decimal(value, setting.card.decimals);
  const outermost = Math.max(...plan.passes.map(({ offsetY }) => offsetY));
  const lean = flatnessFigure(edgeOnFlat(sidesOf(values.SHAPE) ?? 4, plan), setting).value;
  return `Side passes to Y +-${length(outermost)}: plane flats, ${length(lean)} off for an insert ${assumedLeanDegrees} deg aside`;
}
