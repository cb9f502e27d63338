/** Checks of keyways, strokes and indexed slots: the numbered reference cases and common practice. */
import { acrossCorners, cornerCutDepth, flatLength } from '../../../server/src/trade/polygon-slots.ts';
import { pitchErrorFromRounding, turnForOffsetDegrees } from '../../../server/src/trade/clocking.ts';
import { boxCycleMinutes, peakSpeedFactor, quickReturnSpeed, strokeSpeedAt } from '../../../server/src/trade/crank.ts';
import { keyway, keywayPlan, type KeywayInput, type KeywayQuantityId } from '../../../server/src/trade/keyway.ts';
import { indexedSlots, type IndexedSlotsInput, type SlotQuantityId } from '../../../server/src/trade/slots.ts';
import { floorStep } from '../../../server/src/trade/side-passes.ts';
import { leanOver } from '../../../server/src/trade/small-angles.ts';
import { floorRadiusFromMeasuredBore, slotArea } from '../../../server/src/trade/slot-geometry.ts';
import { splineSpaceCut, straightSpline } from '../../../server/src/trade/straight-splines.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';

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

const crossSectionChecks: Check<[boreRadius: number, width: number, floorRadius: number]>[] = [
  { id: 'slotArea', case: 'keyway 14', source: 'geometry', standing: 'derived', inputs: [25, 14, 28.8], expected: 57.829, digits: 3 },
  { id: 'slotArea', case: 'keyway 15', source: 'geometry', standing: 'derived', inputs: [15, 8, 18.3], expected: 27.838, digits: 3 },
];

const measuredBoreChecks: Check<[overall: number, bore: number]>[] = [
  { id: 'floorRadius', case: 'keyway 16', source: 'geometry', standing: 'derived', inputs: [33.4, 30.013], expected: 18.3935, digits: 4 },
];

const polygonChecks: Check<[sides: number, acrossFlats: number]>[] = [
  { id: 'acrossCorners', case: 'keyway 29', source: 'published ratio of the hexagon', standing: 'seen in source', inputs: [6, 10], expected: 11.547, digits: 3 },
  { id: 'acrossCorners', case: 'square', source: 'published ratio of the square', standing: 'seen in source', inputs: [4, 10], expected: 14.142, digits: 3 },
];

const flatChecks: Check<[sides: number, acrossFlats: number]>[] = [
  { id: 'flatLength', case: 'hexagon', source: 'half flat is AF over 2 root 3', standing: 'derived', inputs: [6, 2 * Math.sqrt(3)], expected: 2, digits: 9 },
];

const cornerChecks: Check<[sides: number, acrossFlats: number, bore: number]>[] = [
  { id: 'cornerCutDepth', case: 'hexagon', source: 'geometry', standing: 'derived', inputs: [6, 1, 1], expected: 0.07735, digits: 5 },
  { id: 'cornerCutDepth', case: 'square', source: 'geometry: half of root 2 less 1', standing: 'derived', inputs: [4, 2, 2], expected: 0.41421, digits: 5 },
];

const splineChecks: Check<'radialDepth' | 'contactRadius' | 'sagitta' | 'cutPath'>[] = [
  { id: 'splineSpaceCut', case: 'keyway 39', source: 'ISO 14 and geometry', standing: 'derived', inputs: 'radialDepth', expected: 1.5, digits: 1 },
  { id: 'splineSpaceCut', case: 'keyway 39', source: 'ISO 14 and geometry', standing: 'derived', inputs: 'contactRadius', expected: 11.1018, digits: 4 },
  { id: 'splineSpaceCut', case: 'keyway 39', source: 'ISO 14 and geometry', standing: 'derived', inputs: 'sagitta', expected: 0.3982, digits: 4 },
  { id: 'splineSpaceCut', case: 'keyway 39', source: 'ISO 14 and geometry', standing: 'derived', inputs: 'cutPath', expected: 1.8982, digits: 4 },
];

const strokeSpeedChecks: Check<[distance: number, stroke: number, rate: number]>[] = [
  { id: 'strokeSpeed', case: 'keyway 17, entry', source: 'kinematics', standing: 'derived', inputs: [1.5, 28, 500], expected: 19810, digits: -1 },
];

const quickReturnChecks: Check<[stroke: number, rate: number, ratio: number]>[] = [
  { id: 'quickReturnSpeed', case: 'keyway 20', source: 'lecture slide formula of the 3 : 2 shaper', standing: 'seen in source', inputs: [0.3, 60, 2 / 3], expected: 30, digits: 6 },
];

const rodChecks: Check<number>[] = [
  { id: 'peakSpeedFactor', case: 'rod ratio 0.25', source: 'encyclopedia article on piston motion', standing: 'seen in source', inputs: 0.25, expected: 1.031, digits: 3 },
  { id: 'peakSpeedFactor', case: 'endless rod', source: 'kinematics', standing: 'derived', inputs: 0, expected: 1, digits: 6 },
];

const boxChecks: Check<null>[] = [
  { id: 'boxCycle', case: 'keyway 19', source: 'kinematics', standing: 'derived', inputs: null, expected: 0.324, digits: 6 },
];

const clockingChecks: Check<'turn' | 'tilt' | 'lean' | 'offCentre' | 'rounding'>[] = [
  { id: 'turnForOffset', case: 'Y by turning, D 50', source: 'geometry', standing: 'derived', inputs: 'turn', expected: 3.982, digits: 3 },
  { id: 'leanOver', case: 'floor tilt over 10 mm', source: 'geometry', standing: 'derived', inputs: 'tilt', expected: 0.696, digits: 3 },
  { id: 'leanOver', case: 'flank lean over 3.8 mm', source: 'geometry', standing: 'derived', inputs: 'lean', expected: 0.265, digits: 3 },
  { id: 'pitchErrorFromRounding', case: '0.001 degree at 20 mm', source: 'geometry', standing: 'derived', inputs: 'rounding', expected: 0.00035, digits: 5 },
];

function clockingFigure(which: 'turn' | 'tilt' | 'lean' | 'offCentre' | 'rounding'): number {
  const turn = turnForOffsetDegrees(2, 28.8);
  if (which === 'tilt') return leanOver(10, turn);
  if (which === 'lean') return leanOver(3.8, turn);
  return which === 'rounding' ? pitchErrorFromRounding(20, 0.001) : turn;
}

const floorStepChecks: Check<[slot: number, insert: number, error: number]>[] = [
  { id: 'floorStep', case: '10 mm of offset, 0.1 degree', source: 'geometry', standing: 'derived', inputs: [20, 10, 0.1], expected: 0.0175, digits: 4 },
];

const sparkOutChecks: Check<Changes>[] = [
  { id: 'sparkOutDwell', case: 'keyway 17', source: 'whole strokes at full depth', standing: 'derived', inputs: CASE_17, expected: 0.36, digits: 6 },
];

export const keywayCheckTables: readonly CheckTable[] = [
  checkTable('keyways', keywayFigure, keywayChecks),
  checkTable('indexed slots', (input, id) => indexedSlots(input)[id as SlotQuantityId].value, indexChecks),
  checkTable('area of the cross-section', (input) => slotArea(...input), crossSectionChecks),
  checkTable('floor from a measured bore', (input) => floorRadiusFromMeasuredBore(...input), measuredBoreChecks),
  checkTable('across corners', (input) => acrossCorners(...input), polygonChecks),
  checkTable('length of a flat', (input) => flatLength(...input), flatChecks),
  checkTable('depth of a corner', (input) => cornerCutDepth(...input), cornerChecks),
  checkTable('space of a straight spline', (field) => splineSpaceCut(straightSpline(6, 23, 26))[field], splineChecks),
  checkTable('speed on the stroke', (input) => strokeSpeedAt(...input), strokeSpeedChecks),
  checkTable('quick return', (input) => quickReturnSpeed(...input), quickReturnChecks),
  checkTable('finite rod', peakSpeedFactor, rodChecks),
  checkTable('box cycle', () => 60 * boxCycleMinutes({ stroke: 28, cutFeed: 8000, returnFeed: 20000, liftOff: 0.5, liftFeed: 2000 }), boxChecks),
  checkTable('clocking', clockingFigure, clockingChecks),
  checkTable('step in the floor', (input) => floorStep(...input), floorStepChecks),
  checkTable('spark-out dwell', (changes) => keywayPlan({ ...DRIVEN, ...changes }).dwellSecondsForSparkOut, sparkOutChecks),
];
