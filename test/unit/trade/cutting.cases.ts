/** Checks of speeds, feeds, facing, finish, run-out, balance and presetting. */
import { permissibleEccentricityMicrometres, permissibleUnbalanceGramMillimetres } from '../../../server/src/trade/balance.ts';
import { facingSecondsAtConstantRpm, rpmUnderClamp } from '../../../server/src/trade/constant-surface-speed.ts';
import { cutting, facing, type CuttingInput, type CuttingQuantityId, type FacingInput } from '../../../server/src/trade/cutting.ts';
import { degreesPerLength, helixAngleFromAxisDegrees, helixPathLength } from '../../../server/src/trade/helix-by-c.ts';
import { presetOffsets, type PresetOffsets } from '../../../server/src/trade/presetting.ts';
import { faceMillApproach, millingRemovalRate, slabMillApproach } from '../../../server/src/trade/removal-and-approach.ts';
import { runOutAtGaugeLength, sweptDiameter, tiltFromRunOut } from '../../../server/src/trade/run-out.ts';
import { decimalDegrees, leanOver } from '../../../server/src/trade/small-angles.ts';
import { chipLoadOf, secondsOfCut } from '../../../server/src/trade/speeds-and-feeds.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';
import { meanRoughness, scallopHeight, stepoverForScallop } from '../../../server/src/trade/surface-finish.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';

type Input = Omit<CuttingInput, 'units'> & { units?: CuttingInput['units'] };

function cuttingCase(name: string, source: string, standing: Standing, inputs: Input, expected: Partial<Record<CuttingQuantityId, readonly [number, number]>>): Check<Input>[] {
  return Object.entries(expected).map(([id, [value, digits]]) => ({ id, case: name, source, standing, inputs, expected: value, digits }));
}

const WORKSHOP_PAGE = 'observatory workshop page';
const GROOVER = 'manufacturing textbook problem, outputs recomputed';

const cuttingChecks = [
  ...cuttingCase('keyway 21', 'Jones, Turning and Boring, 1914', 'seen in source', { units: 'inch', cuttingSpeed: 60, diameter: 5 }, { rpm: [46, 0] }),
  ...cuttingCase('keyway 22', 'university shop handout', 'seen in source', { units: 'inch', rpm: 1000, chipLoad: 0.005, flutes: 4 }, { feedPerMinute: [20, 6] }),
  ...cuttingCase('keyway 23', WORKSHOP_PAGE, 'seen in source', { units: 'inch', cuttingSpeed: 300, diameter: 1 / 16 }, { rpm: [18335, 0] }),
  ...cuttingCase('keyway 23', WORKSHOP_PAGE, 'seen in source', { units: 'inch', cuttingSpeed: 300, diameter: 1 / 2 }, { rpm: [2292, 0] }),
  ...cuttingCase('keyway 23', WORKSHOP_PAGE, 'seen in source', { units: 'inch', cuttingSpeed: 120, diameter: 1 / 2 }, { rpm: [917, 0] }),
  ...cuttingCase('keyway 24', 'El-Hofy, Fundamentals of Machining', 'seen in source', { rpm: 150, diameter: 30, chipLoad: 0.1, flutes: 8 }, { cuttingSpeed: [14.1, 1], feedPerMinute: [120, 6] }),
  ...cuttingCase('keyway 25', GROOVER, 'recomputed published value', { units: 'inch', cuttingSpeed: 250, diameter: 3, chipLoad: 0.006, flutes: 5 }, { rpm: [318.3, 1], feedPerMinute: [9.55, 2] }),
  ...cuttingCase('keyway 26', "maker's open course page", 'seen in source', { rpm: 1000, feedPerMinute: 100 }, { feedPerRev: [0.1, 9] }),
  ...cuttingCase('keyway 37', 'elementary relations', 'derived', { cuttingSpeed: 150, diameter: 40, feedPerRevolution: 0.12, depthOfCut: 1.5 }, { rpm: [1193.7, 1], removalRate: [27, 6] }),
  ...cuttingCase('constant speed at 100', 'keyway 36', 'derived', { cuttingSpeed: 200, diameter: 100, clampRpm: 3000 }, { rpm: [636.6, 1], clampDiameter: [21.22, 2], cuttingSpeed: [200, 6] }),
  ...cuttingCase('constant speed under the limit', 'keyway 36', 'derived', { cuttingSpeed: 200, diameter: 10, clampRpm: 3000 }, { rpm: [3000, 6] }),
  ...cuttingCase('f^2 / 8 r is 0.00625', 'geometry; the parabola is 0.1 % lower here', 'derived', { rpm: 1000, feedPerRevolution: 0.2, noseRadius: 0.8 }, { peakToValley: [0.00627, 5] }),
  ...cuttingCase('3-4-5 triangle', 'geometry', 'derived', { rpm: 1000, feedPerRevolution: 8, noseRadius: 5 }, { peakToValley: [2, 9] }),
];

const facingChecks: Check<FacingInput>[] = [
  { id: 'facingTime', case: 'keyway 36', source: 'integration', standing: 'derived', inputs: { units: 'mm', cuttingSpeed: 200, clampRpm: 3000, fromDiameter: 100, toDiameter: 20, feedPerRevolution: 0.2 }, expected: 60 * 0.1885, digits: 2 },
  { id: 'facingTime', case: 'to the centre without a limit that matters', source: 'pi D^2 / (4000 f v_c) min', standing: 'derived', inputs: { units: 'mm', cuttingSpeed: 100, clampRpm: 1e6, fromDiameter: 100, toDiameter: 0, feedPerRevolution: 0.25 }, expected: 60 * (Math.PI * 10000) / (4000 * 0.25 * 100), digits: 3 },
];

const constantRpmChecks: Check<null>[] = [
  { id: 'facingTimeAtConstantRpm', case: 'twice the time of constant surface speed', source: 'keyway reference, warning on a trade magazine page', standing: 'derived', inputs: null, expected: 2 * 60 * (Math.PI * 10000) / (4000 * 0.25 * 100), digits: 6 },
];

type Scalars = readonly number[];
type Figure = (...values: number[]) => number;

function scalarTable(title: string, figure: Figure, checks: Check<Scalars>[]): CheckTable {
  return checkTable(title, (values) => figure(...values), checks);
}

function one(id: string, name: string, source: string, standing: Standing, inputs: Scalars, expected: number, digits: number): Check<Scalars> {
  return { id, case: name, source, standing, inputs, expected, digits };
}

function presetFigure(which: keyof PresetOffsets): number {
  return presetOffsets({ edgeX: 42.35, lowerCornerY: -4.01, upperCornerY: 3.99, frontZ: 61.2 }, true)[which];
}

const presetChecks: Check<keyof PresetOffsets>[] = (Object.entries({ x: 84.7, y: -0.01, z: 61.2, insertWidth: 8 }) as [keyof PresetOffsets, number][])
  .map(([which, expected]) => ({ id: 'presetOffset', case: which, source: 'readings of an 8 mm insert by hand', standing: 'derived', inputs: which, expected, digits: 9 }));

export const cuttingCheckTables: readonly CheckTable[] = [
  checkTable('cutting', (input, id) => cutting({ units: 'mm', ...input })[id as CuttingQuantityId]?.value ?? NaN, cuttingChecks),
  checkTable('facing', (input) => facing(input).facingTime.value, facingChecks),
  checkTable('facing at constant turns', () => facingSecondsAtConstantRpm(rpmUnderClamp({ units: 'mm', cuttingSpeed: 100, clampRpm: 1e6 }, 100), 100, 0, 0.25), constantRpmChecks),
  scalarTable('chip load', (feed = NaN, teeth = NaN) => chipLoadOf(feed, teeth), [one('chipLoad', 'keyway 24', 'El-Hofy, Fundamentals of Machining', 'seen in source', [120 / 150, 8], 0.1, 9)]),
  scalarTable('time of a cut', (length = NaN, feed = NaN) => secondsOfCut(length, feed) / 60, [
    one('cutTime', 'keyway 24', 'El-Hofy, Fundamentals of Machining', 'seen in source', [321, 120], 2.68, 2),
    one('cutTime', 'keyway 25', GROOVER, 'recomputed published value', [12.382, 9.5493], 1.297, 3),
    one('cutTime', 'keyway 26', "maker's open course page", 'seen in source', [100, 20], 5, 9),
    one('cutTime', 'keyway 37', 'elementary relations', 'derived', [60, 0.12 * 1193.66], 0.4189, 4),
  ]),
  scalarTable('mean roughness', (feed = NaN, radius = NaN) => meanRoughness(feed, radius), [one('meanRoughness', 'f^2 / (31.2 r) for small feeds', 'mean deviation of a parabola', 'derived', [0.1, 1], 0.01 / (18 * Math.sqrt(3)), 6)]),
  scalarTable('scallops', (step = NaN, radius = NaN) => scallopHeight(step, radius), [one('scallopHeight', '3-4-5 triangle', 'geometry', 'derived', [8, 5], 2, 9)]),
  scalarTable('stepover', (height = NaN, radius = NaN) => stepoverForScallop(height, radius), [one('stepoverForScallop', '3-4-5 triangle', 'geometry', 'derived', [2, 5], 8, 9)]),
  scalarTable('removal by milling', (depth = NaN, width = NaN, feed = NaN) => millingRemovalRate(depth, width, feed, 'inch'), [one('millingRemovalRate', 'keyway 25', GROOVER, 'recomputed published value', [0.15, 2, 9.5493], 2.86, 2)]),
  scalarTable('approach of a face mill', (diameter = NaN, width = NaN) => faceMillApproach(diameter, width), [one('faceMillApproach', 'keyway 25', GROOVER, 'recomputed published value', [3, 2], 0.382, 3)]),
  scalarTable('approach of a slab mill', (diameter = NaN, depth = NaN) => slabMillApproach(diameter, depth), [one('slabMillApproach', '3-4-5 triangle', 'geometry', 'derived', [10, 2], 4, 9)]),
  scalarTable('turn for a length', (lead = NaN) => degreesPerLength(lead), [one('degreesPerLength', 'keyway 38', 'elementary relations', 'derived', [300], 1.2, 9)]),
  scalarTable('helix angle', (diameter = NaN, lead = NaN) => helixAngleFromAxisDegrees(diameter, lead), [one('helixAngle', 'keyway 38', 'elementary relations', 'derived', [30, 300], 17.44, 2)]),
  scalarTable('length of a helix', (diameter = NaN, lead = NaN, length = NaN) => helixPathLength(diameter, lead, length), [one('helixPath', 'keyway 38', 'elementary relations', 'derived', [30, 300, 50], 52.41, 2)]),
  scalarTable('run-out along a tool', (nose = NaN, gauge = NaN, minutes = NaN) => runOutAtGaugeLength(nose, gauge, minutes / 60), [
    one('runOutAtGaugeLength', 'one minute over 100 mm', 'encyclopedia: one minute is 0.29089 mm/m', 'seen in source', [0, 100, 1], 0.0582, 4),
  ]),
  scalarTable('tilt', (nose = NaN, far = NaN, gauge = NaN) => tiltFromRunOut(nose, far, gauge) * 60, [one('tilt', 'one minute over 100 mm', 'encyclopedia: one minute is 0.29089 mm/m', 'seen in source', [0.002, 0.002 + 2 * 0.02908882, 100], 1, 5)]),
  scalarTable('swept diameter', (diameter = NaN, runOut = NaN) => sweptDiameter(diameter, runOut), [one('sweptDiameter', 'two teeth', 'geometry', 'derived', [0.5, 0.01], 0.51, 9)]),
  scalarTable('eccentricity', (grade = NaN, rpm = NaN) => permissibleEccentricityMicrometres(grade, rpm), [
    one('permissibleEccentricity', 'keyway 27', 'ISO 1940 note', 'seen in source', [6.3, 15000], 4, 0),
    one('permissibleEccentricity', 'keyway 27', 'ISO 1940 note', 'seen in source', [6.3, 30000], 2, 0),
    one('permissibleEccentricity', 'G2.5 at 75 000', 'ISO 1940 relation', 'derived', [2.5, 75000], 0.318, 3),
  ]),
  scalarTable('unbalance', (grade = NaN, mass = NaN, rpm = NaN) => permissibleUnbalanceGramMillimetres(grade, mass, rpm), [one('permissibleUnbalance', '9549 G m / n', 'ISO 1940 relation, factor as printed', 'seen in source', [6.3, 2, 15000], (9549 * 6.3 * 2) / 15000, 3)]),
  scalarTable('decimal degrees', (degrees = NaN, minutes = NaN, seconds = NaN) => decimalDegrees(degrees, minutes, seconds), [one('decimalDegrees', 'keyway 30', 'reference page on degrees, minutes and seconds', 'seen in source', [12, 34, 56], 12.582222, 6)]),
  scalarTable('lean', (length = NaN, degrees = NaN) => leanOver(length, degrees), [
    one('leanOver', 'keyway 29, one minute over a metre', 'encyclopedia article on the minute of arc', 'seen in source', [1000, 1 / 60], 0.2908882, 7),
    one('leanOver', 'keyway 29, one second over a kilometre', 'encyclopedia article on the minute of arc', 'seen in source', [1000, 1 / 3600], 0.0048481, 7),
    one('leanOver', 'edge 0.1 degree out of square over 10 mm', 'geometry', 'derived', [10, 0.1], 0.0175, 4),
  ]),
  checkTable('presetting', presetFigure, presetChecks),
];
