/** Checks of engraving: pointed tool, chip load, letters, wrapping. */
import { chipLoadFigures, engravedLineFigures, wrapFigures, type EngravedLineInput, type WrapInput } from '../../../server/src/trade/engraving-figures.ts';
import { engraving, type EngravingInput, type EngravingQuantityId } from '../../../server/src/trade/engraving.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';
import { strokesOfText, widthOfText } from '../../../server/src/trade/strokes.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';
import { valueOf } from './gear-case-builder.ts';

/** A plain mark on a face; each case says what differs. */
export const MARK: EngravingInput = {
  units: 'mm', text: 'AH', height: 21, depth: 0.15, tipDiameter: 0.1, tipAngleDegrees: 60, flutes: 1, rpm: 75000, chipLoad: 0.004, surface: 'face',
};

type Changes = Partial<EngravingInput>;

function markCase(name: string, source: string, changes: Changes, expected: Partial<Record<EngravingQuantityId, readonly [number, number]>>, standing: Standing = 'derived'): Check<Changes>[] {
  return Object.entries(expected).map(([id, [value, digits]]) => ({ id, case: name, source, standing, inputs: changes, expected: value, digits }));
}

/** A straight up-and-down bar of length 21, so that path and time follow by hand. */
const BAR: Changes = { text: 'I', height: 21, depth: 0.1, rpm: 10000, flutes: 2, chipLoad: 0.005, plungeShare: 0.5 };

const markChecks = [
  ...markCase('keyway 31', 'geometry of a pointed tool', {}, { effectiveDiameter: [0.2732, 4], lineWidth: [0.2732, 4], cuttingSpeed: [64.37, 2], feedPerMinute: [300, 6] }),
  ...markCase('sharp tool of 90 degrees', 'keyway 32, geometry', { tipDiameter: 0, tipAngleDegrees: 90, depth: 0.1 }, { lineWidth: [0.2, 9] }),
  ...markCase('cylindrical tool 0.1', 'speed table at 75 000 a minute', { tipAngleDegrees: 0, tipDiameter: 0.1 }, { cuttingSpeed: [23.6, 1] }),
  ...markCase('cylindrical tool 0.3', 'speed table at 75 000 a minute', { tipAngleDegrees: 0, tipDiameter: 0.3 }, { cuttingSpeed: [70.7, 1] }),
  ...markCase('cylindrical tool 0.5', 'speed table at 75 000 a minute', { tipAngleDegrees: 0, tipDiameter: 0.5 }, { cuttingSpeed: [117.8, 1] }),
  ...markCase('cylindrical tool 1.0', 'speed table at 75 000 a minute', { tipAngleDegrees: 0, tipDiameter: 1 }, { cuttingSpeed: [235.6, 1] }),
  ...markCase('one bar by hand', '21 mm at 100 mm/min and one plunge of 0.1 mm at 50 mm/min', BAR, { pathLength: [21, 9], feedPerMinute: [100, 9], cuttingTime: [12.72, 9] }),
  ...markCase('run-out of two flutes', 'keyway 35, kinematics', { chipLoad: 0.02, runOut: 0.01, flutes: 2 }, { runOutShare: [0.5, 9] }),
  ...markCase('run-out of one flute', 'kinematics: the one tooth always follows itself', { chipLoad: 0.002, runOut: 0.01, flutes: 1 }, { runOutShare: [0, 9] }),
  ...markCase('A and H', 'strokes of the font: four of root(64 + 441), and lines by hand', {}, { pathLength: [2 * Math.hypot(8, 21) + 10 + 21 + 21 + 14, 9] }),
];

const chipLoadChecks: Check<{ runOut: number; flutes: number }>[] = [
  { id: 'chipLoadLargest', case: 'keyway 35', source: 'kinematics', standing: 'derived', inputs: { runOut: 0.01, flutes: 4 }, expected: 0.02707, digits: 5 },
  { id: 'chipLoadSmallest', case: 'keyway 35', source: 'kinematics', standing: 'derived', inputs: { runOut: 0.01, flutes: 4 }, expected: 0.01293, digits: 5 },
  { id: 'chipLoadLargest', case: 'keyway 35', source: 'kinematics', standing: 'derived', inputs: { runOut: 0.01, flutes: 2 }, expected: 0.03, digits: 5 },
  { id: 'chipLoadSmallest', case: 'keyway 35', source: 'kinematics', standing: 'derived', inputs: { runOut: 0.01, flutes: 2 }, expected: 0.01, digits: 5 },
  { id: 'chipLoadLargest', case: 'three teeth: 0.866 of TIR', source: 'kinematics', standing: 'derived', inputs: { runOut: 0.01, flutes: 3 }, expected: 0.02866, digits: 5 },
  { id: 'chipLoadLargest', case: 'six teeth: half of TIR', source: 'kinematics', standing: 'derived', inputs: { runOut: 0.01, flutes: 6 }, expected: 0.025, digits: 9 },
  { id: 'chipLoadSmallest', case: 'a tooth stops cutting', source: 'micro-milling papers', standing: 'seen in source', inputs: { runOut: 0.03, flutes: 2 }, expected: 0, digits: 9 },
];

const PLAIN_LINE: EngravedLineInput = { units: 'mm', tipDiameter: 0.1, tipAngleDegrees: 60, height: 3, lineWidth: 0.4, depthError: 0.02, rpm: 75000 };

const lineChecks: Check<Partial<EngravedLineInput>>[] = [
  { id: 'depthForLineWidth', case: 'keyway 32', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.2598, digits: 4 },
  { id: 'depthForLineWidth', case: 'sharp tool of 90 degrees', source: 'geometry', standing: 'derived', inputs: { tipDiameter: 0, tipAngleDegrees: 90, lineWidth: 0.2 }, expected: 0.1, digits: 9 },
  { id: 'lineWidthError', case: '60 degrees, 0.02 deeper', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.023, digits: 3 },
  { id: 'meanCuttingSpeed', case: 'keyway 31, middle of 0.1 and 0.2732', source: 'geometry', standing: 'derived', inputs: { lineWidth: 0.1 + 0.1 * Math.sqrt(3) }, expected: 43.967, digits: 3 },
  { id: 'customaryLineWidth', case: 'keyway 40', source: 'sign and instrument practice', standing: 'seen in source', inputs: { height: 0.25 }, expected: 0.03, digits: 3 },
];

const PLAIN_WRAP: WrapInput = { units: 'mm', cylinderDiameter: 40, arc: 1, feed: 100, halfWidth: 0.15 };

const wrapChecks: Check<Partial<WrapInput>>[] = [
  { id: 'wrapAngle', case: 'keyway 33', source: 'geometry', standing: 'derived', inputs: {}, expected: 2.86479, digits: 5 },
  { id: 'wrapAngle', case: 'keyway 33', source: 'geometry', standing: 'derived', inputs: { arc: 10 }, expected: 28.6479, digits: 4 },
  { id: 'wrapAngle', case: 'once round', source: 'geometry', standing: 'derived', inputs: { arc: Math.PI * 40 }, expected: 360, digits: 9 },
  { id: 'rotaryFeed', case: '100 on 40', source: 'geometry: 114.5916 / D degrees a unit of arc', standing: 'derived', inputs: {}, expected: 286.479, digits: 3 },
  { id: 'flatToolDepthLoss', case: 'letter 3 wide, not wrapped', source: 'geometry', standing: 'derived', inputs: { halfWidth: 1.5 }, expected: 0.056, digits: 3 },
  { id: 'flatToolDepthLoss', case: 'line 0.3 wide', source: 'geometry', standing: 'derived', inputs: {}, expected: 0.0006, digits: 4 },
];

/** "AH" centred, y up from the middle of the capitals, as the package that carries the font prints it. */
const PRINTED_AH: readonly (readonly [x: number, y: number])[] = [
  [-11, 12], [-19, -9], [-11, 12], [-3, -9], [-16, -2], [-6, -2], [2, 12], [2, -9], [16, 12], [16, -9], [2, 2], [16, 2],
];

const letterChecks: Check<{ index: number; axis: 'x' | 'y' }>[] = PRINTED_AH.flatMap(([x, y], index) => [
  { id: 'strokePoint', case: 'keyway 34', source: 'documentation of the package that carries the font', standing: 'seen in source' as const, inputs: { index, axis: 'x' as const }, expected: x, digits: 9 },
  { id: 'strokePoint', case: 'keyway 34', source: 'documentation of the package that carries the font', standing: 'seen in source' as const, inputs: { index, axis: 'y' as const }, expected: y, digits: 9 },
]);

/** The printed figures are centred on the text's width and stand on -9. */
function letterPoint({ index, axis }: { index: number; axis: 'x' | 'y' }): number {
  const point = strokesOfText('AH', 21).flat()[index];
  return axis === 'x' ? (point?.along ?? NaN) - widthOfText('AH', 21) / 2 : (point?.up ?? NaN) - 9;
}

export const engravingCheckTables: readonly CheckTable[] = [
  checkTable('engraving', (changes, id) => engraving({ ...MARK, ...changes })[id as EngravingQuantityId].value, markChecks),
];

/** Plain numbers that the figures are made from. */
export const letterCheckTables: readonly CheckTable[] = [checkTable('points of the letters', letterPoint, letterChecks)];

export const engravedLineCheckTables: readonly CheckTable[] = [
  checkTable('chip load with run-out', (input, id) => valueOf(chipLoadFigures({ units: 'mm', chipLoad: 0.02, ...input }), id), chipLoadChecks),
  checkTable('lines', (changes, id) => valueOf(engravedLineFigures({ ...PLAIN_LINE, ...changes }), id), lineChecks),
  checkTable('wrapping', (changes, id) => valueOf(wrapFigures({ ...PLAIN_WRAP, ...changes }), id), wrapChecks),
];
