/** Checks of speeds, feeds, facing, finish, run-out, balance and presetting. */
import {
  balanceFigures, finishFigures, helixFigures, millingFigures, presetFigures, runOutFigures, type FinishInput, type HelixInput, type MillingInput, type RunOutInput,
} from '../../../server/src/trade/cutting-figures.ts';
import { cutting, facing, type CuttingInput, type CuttingQuantityId, type FacingInput } from '../../../server/src/trade/cutting.ts';
import { decimalDegrees, leanOver } from '../../../server/src/trade/small-angles.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';
import { valueOf } from './gear-case-builder.ts';

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
  ...cuttingCase('keyway 24', 'El-Hofy, Fundamentals of Machining', 'seen in source', { rpm: 150, feedPerMinute: 120, flutes: 8 }, { chipLoad: [0.1, 9] }),
  ...cuttingCase('keyway 26', "maker's open course page", 'seen in source', { rpm: 1000, feedPerMinute: 100 }, { feedPerRev: [0.1, 9] }),
  ...cuttingCase('keyway 37', 'elementary relations', 'derived', { cuttingSpeed: 150, diameter: 40, feedPerRevolution: 0.12, depthOfCut: 1.5 }, { rpm: [1193.7, 1], removalRate: [27, 6] }),
  ...cuttingCase('constant speed at 100', 'keyway 36', 'derived', { cuttingSpeed: 200, diameter: 100, clampRpm: 3000 }, { rpm: [636.6, 1], clampDiameter: [21.22, 2], cuttingSpeed: [200, 6] }),
  ...cuttingCase('constant speed under the limit', 'keyway 36', 'derived', { cuttingSpeed: 200, diameter: 10, clampRpm: 3000 }, { rpm: [3000, 6] }),
  ...cuttingCase('f^2 / 8 r is 0.00625', 'geometry; the parabola is 0.1 % lower here', 'derived', { rpm: 1000, feedPerRevolution: 0.2, noseRadius: 0.8 }, { peakToValley: [0.00627, 5] }),
  ...cuttingCase('3-4-5 triangle', 'geometry', 'derived', { rpm: 1000, feedPerRevolution: 8, noseRadius: 5 }, { peakToValley: [2, 9] }),
];

const ALL_OUT: FacingInput = { units: 'mm', cuttingSpeed: 100, clampRpm: 1e6, fromDiameter: 100, toDiameter: 0, feedPerRevolution: 0.25 };

/** In minutes, as the relation is written. */
const facingChecks: Check<FacingInput>[] = [
  { id: 'facingTime', case: 'keyway 36', source: 'integration', standing: 'derived', inputs: { units: 'mm', cuttingSpeed: 200, clampRpm: 3000, fromDiameter: 100, toDiameter: 20, feedPerRevolution: 0.2 }, expected: 0.1885, digits: 4 },
  { id: 'facingTime', case: 'to the centre without a limit that matters', source: 'pi D^2 / (4000 f v_c)', standing: 'derived', inputs: ALL_OUT, expected: Math.PI / 10, digits: 6 },
  { id: 'facingTimeAtConstantRpm', case: 'twice the time of constant surface speed to the centre', source: 'geometry; a trade magazine page prints this time as the other one', standing: 'derived', inputs: ALL_OUT, expected: (2 * Math.PI) / 10, digits: 9 },
];

const WIDE: MillingInput = { units: 'inch', cutterDiameter: 3, depthOfCut: 0.15, widthOfCut: 2, feedPerMinute: 9.5493, length: 12.382 };

/** The sources print minutes. */
const cutTimeChecks: Check<Partial<MillingInput>>[] = [
  { id: 'cutTime', case: 'keyway 24', source: 'El-Hofy, Fundamentals of Machining', standing: 'seen in source', inputs: { length: 321, feedPerMinute: 120 }, expected: 2.68, digits: 2 },
  { id: 'cutTime', case: 'keyway 25', source: GROOVER, standing: 'recomputed published value', inputs: {}, expected: 1.297, digits: 3 },
  { id: 'cutTime', case: 'keyway 26', source: "maker's open course page", standing: 'seen in source', inputs: { length: 100, feedPerMinute: 20 }, expected: 5, digits: 9 },
  { id: 'cutTime', case: 'keyway 37', source: 'elementary relations', standing: 'derived', inputs: { length: 60, feedPerMinute: 0.12 * 1193.66 }, expected: 0.4189, digits: 4 },
];

const millingChecks: Check<Partial<MillingInput>>[] = [
  { id: 'millingRemovalRate', case: 'keyway 25', source: GROOVER, standing: 'recomputed published value', inputs: {}, expected: 2.86, digits: 2 },
  { id: 'millingRemovalRate', case: '2 x 10 mm at 100 mm/min', source: 'elementary relations', standing: 'derived', inputs: { units: 'mm', cutterDiameter: 20, depthOfCut: 2, widthOfCut: 10, feedPerMinute: 100 }, expected: 2, digits: 9 },
  { id: 'faceMillApproach', case: 'keyway 25', source: GROOVER, standing: 'recomputed published value', inputs: {}, expected: 0.382, digits: 3 },
  { id: 'slabMillApproach', case: '3-4-5 triangle', source: 'geometry', standing: 'derived', inputs: { cutterDiameter: 10, depthOfCut: 2 }, expected: 4, digits: 9 },
];

const RIDGES: FinishInput = { units: 'mm', feedPerRevolution: 0.1, noseRadius: 1, stepover: 8, ballRadius: 5, height: 2 };

const finishChecks: Check<Partial<FinishInput>>[] = [
  { id: 'meanRoughness', case: 'f^2 / (18 sqrt 3 r) for small feeds', source: 'mean deviation of a parabola', standing: 'derived', inputs: {}, expected: 0.01 / (18 * Math.sqrt(3)), digits: 6 },
  { id: 'scallopHeight', case: '3-4-5 triangle', source: 'geometry', standing: 'derived', inputs: {}, expected: 2, digits: 9 },
  { id: 'stepoverForScallop', case: '3-4-5 triangle', source: 'geometry', standing: 'derived', inputs: {}, expected: 8, digits: 9 },
];

const helixChecks: Check<HelixInput>[] = Object.entries({ degreesPerLength: [1.2, 9], helixAngle: [17.44, 2], helixPath: [52.41, 2] } as const)
  .map(([id, [expected, digits]]) => ({ id, case: 'keyway 38', source: 'elementary relations', standing: 'derived', inputs: { units: 'mm', diameter: 30, lead: 300, length: 50 }, expected, digits }));

/** One minute of arc is 0.29089 mm/m, so a tool tilted by it runs out by twice that. */
const ONE_MINUTE: RunOutInput = { units: 'mm', runOutAtNose: 0, gaugeLength: 100, tiltDegrees: 1 / 60, runOutFarther: 2 * 0.02908882, toolDiameter: 0.5 };
const MINUTE_OF_ARC = 'encyclopedia article on the minute of arc';

const runOutChecks: Check<Partial<RunOutInput>>[] = [
  { id: 'runOutAtGaugeLength', case: 'one minute over 100 mm', source: MINUTE_OF_ARC, standing: 'seen in source', inputs: {}, expected: 0.0582, digits: 4 },
  { id: 'tilt', case: 'one minute over 100 mm', source: MINUTE_OF_ARC, standing: 'seen in source', inputs: {}, expected: 1 / 60, digits: 7 },
  { id: 'sweptDiameter', case: 'two teeth', source: 'geometry', standing: 'derived', inputs: { runOutAtNose: 0.01, runOutFarther: 0.02 }, expected: 0.51, digits: 9 },
];

const balanceChecks: Check<[grade: number, mass: number, rpm: number]>[] = [
  { id: 'permissibleEccentricity', case: 'keyway 27', source: 'ISO 1940 note', standing: 'seen in source', inputs: [6.3, 1, 15000], expected: 4, digits: 0 },
  { id: 'permissibleEccentricity', case: 'keyway 27', source: 'ISO 1940 note', standing: 'seen in source', inputs: [6.3, 1, 30000], expected: 2, digits: 0 },
  { id: 'permissibleEccentricity', case: 'G2.5 at 75 000', source: 'ISO 1940 relation', standing: 'derived', inputs: [2.5, 1, 75000], expected: 0.318, digits: 3 },
  { id: 'permissibleUnbalance', case: '9549 G m / n', source: 'ISO 1940 relation, factor as printed', standing: 'seen in source', inputs: [6.3, 2, 15000], expected: (9549 * 6.3 * 2) / 15000, digits: 3 },
];

const smallAngleChecks: Check<[length: number, degrees: number]>[] = [
  { id: 'leanOver', case: 'keyway 29, one minute over a metre', source: MINUTE_OF_ARC, standing: 'seen in source', inputs: [1000, 1 / 60], expected: 0.2908882, digits: 7 },
  { id: 'leanOver', case: 'keyway 29, one second over a metre', source: MINUTE_OF_ARC, standing: 'seen in source', inputs: [1000, 1 / 3600], expected: 0.0048481, digits: 7 },
];

const arcChecks: Check<[degrees: number, minutes: number, seconds: number]>[] = [
  { id: 'decimalDegrees', case: 'keyway 30', source: 'reference page on degrees, minutes and seconds', standing: 'seen in source', inputs: [12, 34, 56], expected: 12.582222, digits: 6 },
];

const READINGS = { edgeX: 42.35, lowerCornerY: -4.01, upperCornerY: 3.99, frontZ: 61.2 };

const presetChecks: Check<null>[] = Object.entries({ presetX: 84.7, presetY: -0.01, presetZ: 61.2, presetWidth: 8 })
  .map(([id, expected]) => ({ id, case: 'readings of an 8 mm insert', source: 'by hand', standing: 'derived', inputs: null, expected, digits: 9 }));

export const cuttingCheckTables: readonly CheckTable[] = [
  checkTable('cutting', (input, id) => cutting({ units: 'mm', ...input })[id as CuttingQuantityId]?.value ?? NaN, cuttingChecks),
  checkTable('facing in minutes', (input, id) => valueOf(facing(input), id) / 60, facingChecks),
];

export const toolAndCutCheckTables: readonly CheckTable[] = [
  checkTable('time of a cut in minutes', (changes) => millingFigures({ ...WIDE, ...changes }).cutTime.value / 60, cutTimeChecks),
  checkTable('milling', (changes, id) => valueOf(millingFigures({ ...WIDE, ...changes }), id), millingChecks),
  checkTable('finish', (changes, id) => valueOf(finishFigures({ ...RIDGES, ...changes }), id), finishChecks),
  checkTable('helix', (input, id) => valueOf(helixFigures(input), id), helixChecks),
  checkTable('run-out along a tool', (changes, id) => valueOf(runOutFigures({ ...ONE_MINUTE, ...changes }), id), runOutChecks),
  checkTable('balance', (input, id) => valueOf(balanceFigures(...input), id), balanceChecks),
  checkTable('presetting', (_, id) => valueOf(presetFigures(READINGS, true, 'mm'), id), presetChecks),
];

/** Plain numbers that the figures are made from. */
export const smallAngleCheckTables: readonly CheckTable[] = [
  checkTable('lean over a length', (input) => leanOver(...input), smallAngleChecks),
  checkTable('angles in minutes and seconds', (input) => decimalDegrees(...input), arcChecks),
];
