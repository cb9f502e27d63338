/** Checks of keyways, strokes and indexed slots: the numbered reference cases and common practice. */
import { keyway, keywayPlan, type KeywayInput, type KeywayQuantityId } from '../../../server/src/trade/keyway.ts';
import { sagittaOfChord } from '../../../server/src/trade/slot-geometry.ts';
import { indexedSlots, type IndexedSlotsInput, type SlotQuantityId } from '../../../server/src/trade/slots.ts';
import {
  boxCycleFigures, clockingFigures, crankFigures, measuredBoreFigures, polygonFigures, slotErrorFigures, type BoxCycleInput, type CrankInput, type SlotErrorInput,
} from '../../../server/src/trade/slotting-figures.ts';
import { straightSplineFigures } from '../../../server/src/trade/spline-hub-figures.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';
import { valueOf } from './gear-case-builder.ts';

/** A plain driven keyway; each case says what differs. */
export const DRIVEN: KeywayInput = {
  units: 'mm', boreDiameter: 50, fit: 'JS9', length: 32, method: 'driven', toolRpm: 1000, strokeRatio: 1, feedPerStroke: 0.05,
  sparkOutStrokes: 2, leadIn: 1.5, leadOut: 1.5, count: 1, startAngleDegrees: 0, relief: 0, diameterProgramming: true,
};

type Changes = Partial<KeywayInput>;
type Expected = Partial<Record<KeywayQuantityId, readonly [value: number, digits: number]>>;

function keywayCase(name: string, source: string, standing: Standing, changes: Changes, expected: Expected): Check<Changes>[] {
  return Object.entries(expected).map(([id, [value, digits]]) => ({
    id, case: name, source, standing, inputs: changes, expected: value, digits,
  }));
}

function keywayFigure(changes: Changes, id: string): number {
  return keyway({ ...DRIVEN, ...changes })[id as KeywayQuantityId]?.value ?? NaN;
}

const CASE_14: Changes = { boreDiameter: 50, width: 14, depth: 3.8 };
const CASE_17: Changes = { boreDiameter: 30, width: 8, depth: 3.3, length: 25, toolRpm: 500, sparkOutStrokes: 3 };
const CASE_18: Changes = { boreDiameter: 20, length: 20, toolRpm: 1000, feedPerStroke: 0.03 };
const CASE_19: Changes = {
  boreDiameter: 30, length: 25, method: 'static', cuttingSpeed: 8, liftOff: 0.5, liftSpeed: 2, returnSpeed: 20, sparkOutStrokes: 3,
};

const keywayChecks = [
  ...keywayCase('keyway 14', 'geometry, 7-24-25 triangle', 'derived', CASE_14, {
    firstContactX: [48, 3], sagitta: [1, 3], bottomX: [57.6, 1], overallDimension: [53.8, 1], radialDepth: [4.8, 1],
  }),
  ...keywayCase('keyway 14 on the radius', 'geometry, 7-24-25 triangle', 'derived', { ...CASE_14, diameterProgramming: false }, {
    firstContactX: [24, 3], bottomX: [28.8, 1],
  }),
  ...keywayCase('stroke unit at 1000', 'stroke rate of 1000 a minute, 16.7 a second, 35 mm for 32 mm of keyway: common practice, no source', 'common practice', CASE_14, {
    strokeLength: [35, 3], strokesPerMinute: [1000, 3], strokeTime: [0.06, 5],
  }),
  ...keywayCase('keyway 15', 'geometry', 'derived', CASE_17, {
    firstContactX: [28.9136, 3], sagitta: [0.5432, 4], bottomX: [36.6, 1], overallDimension: [33.3, 1], radialDepth: [3.8432, 4],
  }),
  ...keywayCase('keyway 17', 'kinematics', 'derived', CASE_17, {
    strokeLength: [28, 0], strokeTime: [0.12, 2], meanSpeed: [28, 1], peakSpeed: [43.98, 2], strokes: [80, 0], cuttingTime: [9.6, 1], feedPerMinute: [25, 0],
  }),
  ...keywayCase('keyway 18', 'kinematics; size from DIN 6885-1', 'derived', CASE_18, {
    strokeLength: [23, 0], meanSpeed: [46, 0], peakSpeed: [72.26, 2], strokes: [111, 0], cuttingTime: [6.66, 2], radialDepth: [3.2606, 4],
  }),
  ...keywayCase('keyway 19', 'kinematics of the box cycle', 'derived', CASE_19, {
    strokeTime: [0.324, 3], strokes: [80, 0], cuttingTime: [25.92, 2],
  }),
  ...keywayCase('keyway 1', 'Westermann technical drawing, sample p. 50', 'seen in source', { boreDiameter: 34 }, { overallDimension: [37.3, 1] }),
  ...keywayCase('keyway 2', 'ISO/R 773 table', 'seen in source', { boreDiameter: 20, fit: 'P9' }, {
    overallDimension: [22.8, 1], widthUpper: [5.988, 3], widthLower: [5.958, 3],
  }),
  ...keywayCase('keyway 4', 'ISO/R 773 table, JIS', 'seen in source', { boreDiameter: 100 }, {
    overallDimension: [106.4, 1], widthUpper: [28.026, 3], widthLower: [27.974, 3],
  }),
  ...keywayCase('keyway 5', 'ISO/R 773 table', 'seen in source', { boreDiameter: 140, fit: 'P9' }, { widthUpper: [35.974, 3], widthLower: [35.912, 3] }),
  ...keywayCase('keyway 6', 'ISO/R 773 table', 'seen in source', { boreDiameter: 500, fit: 'P9' }, {
    overallDimension: [519.5, 1], widthUpper: [99.963, 3], widthLower: [99.876, 3],
  }),
  ...keywayCase('keyway 7', 'handbook table of T', 'recomputed published value', inchCase(1), { overallDimension: [1.114, 3], sagitta: [0.01588, 5] }),
  ...keywayCase('keyway 8', 'handbook table of T', 'recomputed published value', inchCase(1.5), { overallDimension: [1.669, 3] }),
  ...keywayCase('keyway 8 rectangular', 'handbook table of T', 'recomputed published value', { ...inchCase(1.5), keyShape: 'rectangular' }, { overallDimension: [1.606, 3] }),
  ...keywayCase('keyway 9', 'handbook table of T', 'recomputed published value', inchCase(2), { overallDimension: [2.223, 3] }),
  ...keywayCase('keyway 10 rectangular', 'handbook table of T', 'recomputed published value', { ...inchCase(5 / 8), keyShape: 'rectangular' }, { overallDimension: [0.678, 3] }),
  ...keywayCase('keyway 11', 'ASME B17.1 fit tables', 'seen in source', inchCase(1.5), { widthUpper: [0.377, 3], widthLower: [0.375, 3] }),
];

function inchCase(boreDiameter: number): Changes {
  return { units: 'inch', boreDiameter, fit: 'CLASS1', length: 1, leadIn: 0.06, leadOut: 0.06, feedPerStroke: 0.002 };
}

const indexChecks: Check<IndexedSlotsInput>[] = [
  ...slotCase('keyway 39', 'ISO 14 and geometry', 'derived', { kind: 'straightSpline', teeth: 6, innerDiameter: 23, outerDiameter: 26 }, {
    indexAngle: [60, 9], firstContactX: [22.2036, 3], bottomX: [26, 3], radialDepth: [1.8982, 4], slotWidth: [6, 3],
  }),
  ...slotCase('hexagon out of a bore as wide as its flats', 'ratio 0.07735 of the width across flats, published with the hexagon', 'derived',
    { kind: 'polygon', sides: 6, acrossFlats: 10, boreDiameter: 10 }, { indexAngle: [60, 9], radialDepth: [0.7735, 4] }),
];

function slotCase(
  name: string, source: string, standing: Standing, shape: IndexedSlotsInput['shape'],
  expected: Partial<Record<SlotQuantityId, readonly [number, number]>>,
): Check<IndexedSlotsInput>[] {
  return Object.entries(expected).map(([id, [value, digits]]) => ({
    id, case: name, source, standing, expected: value, digits,
    inputs: { units: 'mm' as const, shape, startAngleDegrees: 0, diameterProgramming: true },
  }));
}

type MeasuredBore = [bore: number, width: number, overall: number];

const measuredBoreChecks: Check<MeasuredBore>[] = [
  { id: 'floorRadius', case: 'keyway 16', source: 'geometry', standing: 'derived', inputs: [30.013, 8, 33.4], expected: 18.3935, digits: 4 },
  { id: 'slotArea', case: 'keyway 14', source: 'geometry', standing: 'derived', inputs: [50, 14, 53.8], expected: 57.829, digits: 3 },
  { id: 'slotArea', case: 'keyway 15', source: 'geometry', standing: 'derived', inputs: [30, 8, 33.3], expected: 27.838, digits: 3 },
];

const polygonChecks: Check<[sides: number, acrossFlats: number, bore: number]>[] = [
  { id: 'acrossCorners', case: 'keyway 29', source: 'published ratio of the hexagon', standing: 'seen in source', inputs: [6, 10, 10], expected: 11.547, digits: 3 },
  { id: 'acrossCorners', case: 'square', source: 'published ratio of the square', standing: 'seen in source', inputs: [4, 10, 10], expected: 14.142, digits: 3 },
  { id: 'flatLength', case: 'half flat is AF over 2 root 3', source: 'geometry', standing: 'derived', inputs: [6, 2 * Math.sqrt(3), 3], expected: 2, digits: 9 },
  { id: 'cornerCutDepth', case: 'hexagon', source: 'geometry', standing: 'derived', inputs: [6, 1, 1], expected: 0.07735, digits: 5 },
  { id: 'cornerCutDepth', case: 'square: half of root 2 less 1', source: 'geometry', standing: 'derived', inputs: [4, 2, 2], expected: 0.41421, digits: 5 },
];

/** Lengths are in mm, except in the shaper case, whose formula is in metres. */
const PLAIN_CRANK: CrankInput = { units: 'mm', stroke: 28, strokesPerMinute: 500, rodRatio: 0, distance: 1.5, angleDegrees: 90, returnTimeRatio: 1 };

const crankChecks: Check<Partial<CrankInput>>[] = [
  { id: 'strokeSpeed', case: 'keyway 17, entry', source: 'kinematics', standing: 'derived', inputs: {}, expected: 19.81, digits: 2 },
  { id: 'strokeSpeed', case: 'keyway 17, middle of the stroke', source: 'kinematics', standing: 'derived', inputs: { distance: 14 }, expected: 43.98, digits: 2 },
  { id: 'crankSpeed', case: 'keyway 17, at right angles', source: 'kinematics', standing: 'derived', inputs: {}, expected: 43.98, digits: 2 },
  { id: 'crankSpeed', case: 'at right angles the rod does not matter', source: 'encyclopedia article on piston motion', standing: 'seen in source', inputs: { rodRatio: 0.25 }, expected: 43.98, digits: 2 },
  { id: 'peakSpeedFactor', case: 'rod ratio 0.25', source: 'encyclopedia article on piston motion', standing: 'seen in source', inputs: { rodRatio: 0.25 }, expected: 1.031, digits: 3 },
  { id: 'peakSpeedFactor', case: 'endless rod', source: 'kinematics', standing: 'derived', inputs: {}, expected: 1, digits: 6 },
  { id: 'quickReturnSpeed', case: 'keyway 17, plain crank', source: 'shaper theory', standing: 'seen in source', inputs: {}, expected: 28, digits: 6 },
  { id: 'quickReturnSpeed', case: 'keyway 20', source: 'lecture slide formula of the 3 : 2 shaper', standing: 'seen in source', inputs: { stroke: 300, strokesPerMinute: 60, returnTimeRatio: 2 / 3 }, expected: 30, digits: 6 },
];

const CASE_19_BOX: BoxCycleInput = { units: 'mm', stroke: 28, cutFeed: 8000, returnFeed: 20000, liftOff: 0.5, liftFeed: 2000, acceleration: 5000 };

const boxChecks: Check<Partial<BoxCycleInput>>[] = [
  { id: 'boxCycle', case: 'keyway 19', source: 'kinematics', standing: 'derived', inputs: {}, expected: 0.324, digits: 6 },
  { id: 'axisMove', case: 'speed just reached: twice speed over acceleration', source: 'kinematics', standing: 'derived', inputs: { stroke: 20, cutFeed: 6000, acceleration: 500 }, expected: 0.4, digits: 9 },
  { id: 'axisMove', case: 'speed not reached', source: 'kinematics', standing: 'derived', inputs: { stroke: 5, cutFeed: 6000, acceleration: 500 }, expected: 0.2, digits: 9 },
];

const SLOT_ERROR: SlotErrorInput = {
  units: 'mm', offset: 2, floorRadius: 28.8, slotWidth: 20, insertWidth: 10, depth: 3.8, squarenessErrorDegrees: 0.1, resolutionDegrees: 0.001,
};

const slotErrorChecks: Check<Partial<SlotErrorInput>>[] = [
  { id: 'turnForOffset', case: 'Y by turning, D 50', source: 'geometry', standing: 'derived', inputs: {}, expected: 3.982, digits: 3 },
  { id: 'floorLean', case: 'Y by turning, edge of 10', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.696, digits: 3 },
  { id: 'flankLean', case: 'Y by turning, 3.8 deep', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.265, digits: 3 },
  { id: 'floorStep', case: '10 of offset, 0.1 degree', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.0175, digits: 4 },
  { id: 'floorTilt', case: 'edge of 10, 0.1 degree', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.0175, digits: 4 },
  { id: 'pitchErrorFromRounding', case: '0.001 degree at 20', source: 'geometry', standing: 'derived', inputs: { floorRadius: 20 }, expected: 0.00035, digits: 5 },
];

const clockingChecks: Check<[tooth: number, teeth: number, target: 'tooth' | 'space', index: number]>[] = [
  { id: 'clockedToGear', case: 'third tooth of 24 from 3 degrees', source: 'geometry', standing: 'derived', inputs: [3, 24, 'tooth', 2], expected: 33, digits: 9 },
  { id: 'clockedToGear', case: 'space after the first tooth of 24', source: 'geometry', standing: 'derived', inputs: [3, 24, 'space', 0], expected: 10.5, digits: 9 },
];

const sagittaChecks: Check<{ diameter: number; width: number }>[] = [
  { id: 'sagitta', case: 'keyway 9', source: 'ASME B17.1 formula for Y', standing: 'derived', inputs: { diameter: 2, width: 0.5 }, expected: 0.03175, digits: 5 },
  { id: 'sagitta', case: 'keyway 28', source: 'reference page on the sagitta', standing: 'seen in source', inputs: { diameter: 20, width: 12 }, expected: 2, digits: 9 },
  { id: 'sagitta', case: 'keyway 39', source: 'ISO 14 and geometry', standing: 'derived', inputs: { diameter: 23, width: 6 }, expected: 0.3982, digits: 4 },
];

const sparkOutChecks: Check<Changes>[] = [
  { id: 'sparkOutDwell', case: 'keyway 17, three whole strokes', source: 'kinematics', standing: 'derived', inputs: CASE_17, expected: 0.36, digits: 6 },
];

export const keywayCheckTables: readonly CheckTable[] = [
  checkTable('keyways', keywayFigure, keywayChecks),
  checkTable('sagitta of a chord', ({ diameter, width }) => sagittaOfChord(diameter / 2, width), sagittaChecks),
];

/** Plain numbers of the plan. */
export const keywayPlanCheckTables: readonly CheckTable[] = [
  checkTable('spark-out dwell', (changes) => keywayPlan({ ...DRIVEN, ...changes }).dwellSecondsForSparkOut, sparkOutChecks),
];

/** Teeth, inner diameter, outer diameter, width of a space; light series, then medium. */
const ISO_14: readonly (readonly [teeth: number, inner: number, outer: number, width: number])[] = [
  [6, 23, 26, 6], [6, 26, 30, 6], [6, 28, 32, 7], [8, 32, 36, 6], [8, 36, 40, 7], [8, 42, 46, 8],
  [8, 46, 50, 9], [8, 52, 58, 10], [8, 56, 62, 10], [8, 62, 68, 12], [10, 72, 78, 12], [10, 82, 88, 12],
  [10, 92, 98, 14], [10, 102, 108, 16], [10, 112, 120, 18], [6, 11, 14, 3], [6, 13, 16, 3.5], [6, 16, 20, 4],
  [6, 18, 22, 5], [6, 21, 25, 5], [6, 23, 28, 6], [6, 26, 32, 6], [6, 28, 34, 7], [8, 32, 38, 6],
  [8, 36, 42, 7], [8, 42, 48, 8], [8, 46, 54, 9], [8, 52, 60, 10], [8, 56, 65, 10], [8, 62, 72, 12],
  [10, 72, 82, 12], [10, 82, 92, 12], [10, 92, 102, 14], [10, 102, 112, 16], [10, 112, 125, 18],
];

type SplineInput = [teeth: number, inner: number, outer: number, treated: boolean];

const straightSplineChecks: Check<SplineInput>[] = [
  ...ISO_14.map(([teeth, inner, outer, width]): Check<SplineInput> => ({
    id: 'spaceWidth', case: `${teeth}x${inner}x${outer}`, source: 'ISO 14:1982 table', standing: 'seen in source', inputs: [teeth, inner, outer, false], expected: width, digits: 1,
  })),
  { id: 'spaceWidthUpper', case: '6 H9', source: 'ISO 14 hub classes, ISO 286 table', standing: 'seen in source', inputs: [6, 23, 26, false], expected: 6.03, digits: 3 },
  { id: 'spaceWidthUpper', case: '6 H11, treated', source: 'ISO 14 hub classes, ISO 286 table', standing: 'seen in source', inputs: [6, 23, 26, true], expected: 6.075, digits: 3 },
  { id: 'outerDiameterUpper', case: '26 H10', source: 'ISO 14 hub classes, ISO 286 table', standing: 'seen in source', inputs: [6, 23, 26, false], expected: 26.084, digits: 3 },
  { id: 'innerDiameterUpper', case: '23 H7', source: 'ISO 14 hub classes, ISO 286 table', standing: 'seen in source', inputs: [6, 23, 26, false], expected: 23.021, digits: 3 },
];

export const straightSplineCheckTables: readonly CheckTable[] = [
  checkTable('straight splines', (input, id) => valueOf(straightSplineFigures(...input), id), straightSplineChecks),
];

export const slotCheckTables: readonly CheckTable[] = [
  checkTable('indexed slots', (input, id) => indexedSlots(input)[id as SlotQuantityId].value, indexChecks),
];

export const slottingCheckTables: readonly CheckTable[] = [
  checkTable('slots in a measured bore', ([measuredBoreDiameter, width, overall], id) =>
    valueOf(measuredBoreFigures({ units: 'mm', measuredBoreDiameter, width, overall }), id), measuredBoreChecks),
  checkTable('polygons', ([sides, acrossFlats, boreDiameter], id) => valueOf(polygonFigures({ units: 'mm', sides, acrossFlats, boreDiameter }), id), polygonChecks),
  checkTable('crank', (changes, id) => valueOf(crankFigures({ ...PLAIN_CRANK, ...changes }), id), crankChecks),
  checkTable('box cycle', (changes, id) => valueOf(boxCycleFigures({ ...CASE_19_BOX, ...changes }), id), boxChecks),
  checkTable('errors of a slot', (changes, id) => valueOf(slotErrorFigures({ ...SLOT_ERROR, ...changes }), id), slotErrorChecks),
  checkTable('clocking', (input, id) => valueOf(clockingFigures(...input), id), clockingChecks),
];
