/** Checks of the tables of keys and limits, row by row from fixtures that hold the published figures. */
import depthControl from '../../fixtures/keyway/depth-control-values.json';
import metricLimits from '../../fixtures/keyway/metric-keyway-limits.json';
import tolerances from '../../fixtures/keyway/standard-tolerances.json';
import { fitFigures } from '../../../server/src/trade/fit-figures.ts';
import { inchKeyFigures, metricKeyFigures, type InchKeyQuantityId, type MetricKeyQuantityId } from '../../../server/src/trade/key-figures.ts';
import { inchKeyLimits, inchSeatLimits, type KeyKind, type KeyShape } from '../../../server/src/trade/key-standards.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';

type Row = readonly number[];

const recomputed: Standing = 'recomputed published value';
const seen: Standing = 'seen in source';

interface ClassInput { size: number; isoClass: string; side: 'upper' | 'lower' }

const DEVIATION_IDS = { upper: 'upperDeviation', lower: 'lowerDeviation' } as const;

function limit({ size, isoClass, side }: ClassInput): number {
  return fitFigures(size, isoClass)[DEVIATION_IDS[side]].value;
}

/** Where a class at a width was read: P9 in the ISO/R 773 table, the rest in JIS B 1301 up to 32 mm and in GB/T 1095 above. */
function sourceOfLimits(isoClass: string, width: number): { source: string; standing: Standing } {
  if (isoClass === 'P9') return { source: 'ISO/R 773:1969', standing: recomputed };
  if (width <= 32) return { source: 'JIS B 1301', standing: recomputed };
  if (isoClass === 'JS9' && width > 80) return { source: 'half of IT9; the printed table is illegible here', standing: 'derived' };
  return { source: 'GB/T 1095 table of keyways', standing: recomputed };
}

/** First column of each class in the fixture's rows. */
const KEYWAY_CLASSES: readonly { isoClass: string; column: number }[] = [
  { isoClass: 'P9', column: 7 }, { isoClass: 'N9', column: 9 }, { isoClass: 'JS9', column: 11 },
  { isoClass: 'H9', column: 13 }, { isoClass: 'D10', column: 15 },
];

const keywayLimitChecks: Check<ClassInput>[] = metricLimits.rows.flatMap((row: Row) =>
  KEYWAY_CLASSES.flatMap(({ isoClass, column }) =>
    (['upper', 'lower'] as const).map((side, offset) => ({
      id: DEVIATION_IDS[side], case: `width ${row[2]} ${isoClass}`, ...sourceOfLimits(isoClass, row[2] ?? NaN),
      inputs: { size: row[2] ?? NaN, isoClass, side }, expected: row[column + offset] ?? NaN, digits: 1,
    })),
  ),
);

const PRINTED_LIMITS: readonly [size: number, isoClass: string, upper: number, lower: number][] = [
  [20, 'P9', -22, -74], [12, 'D10', 120, 50], [2, 'N9', -4, -29], [8, 'N9', 0, -36], [20, 'N7', -7, -28], [40, 'K7', 7, -18],
  [64, 'H8', 46, 0], [64, 'f7', -30, -60],
];

const printedLimitChecks: Check<ClassInput>[] = PRINTED_LIMITS.flatMap(([size, isoClass, upper, lower]) => [
  { id: 'upperDeviation', case: size === 64 ? 'keyway 12' : 'keyway 13', source: 'published limit tables', standing: recomputed, inputs: { size, isoClass, side: 'upper' }, expected: upper, digits: 0 },
  { id: 'lowerDeviation', case: size === 64 ? 'keyway 12' : 'keyway 13', source: 'published limit tables', standing: recomputed, inputs: { size, isoClass, side: 'lower' }, expected: lower, digits: 0 },
]);

const specialCaseChecks: Check<ClassInput>[] = [
  { id: 'upperDeviation', case: 'M6 over 250 to 315', source: 'ISO 286 exception, one published source', standing: seen, inputs: { size: 300, isoClass: 'M6', side: 'upper' }, expected: -9, digits: 0 },
];

const GRADES = tolerances.columns.slice(1).map(Number);

const toleranceChecks: Check<{ size: number; grade: number }>[] = tolerances.rows.flatMap((row: Row) =>
  GRADES.map((grade, index) => {
    const size = row[0] ?? NaN;
    const standing: Standing = grade === 12 && size > 315 ? 'from memory' : seen;
    return {
      id: 'standardTolerance', case: `IT${grade} up to ${size}`, source: 'ISO 286 tables as printed in machine-drawing texts', standing,
      inputs: { size, grade }, expected: row[index + 1] ?? NaN, digits: 0,
    };
  }),
);

const toleranceUnitChecks: Check<number>[] = [
  { id: 'toleranceUnit', case: 'keyway 12', source: 'tutorial solution for 64 H8/f7, its i corrected', standing: 'derived', inputs: 64, expected: 1.856, digits: 3 },
];

const METRIC_FIELDS: readonly MetricKeyQuantityId[] = ['keyWidth', 'keyHeight', 'shaftDepth', 'hubDepth', 'depthTolerance'];

const metricSizeChecks: Check<number>[] = metricLimits.rows.flatMap((row: Row) =>
  METRIC_FIELDS.map((id, index) => ({
    id, case: `bore up to ${row[1]}`, source: 'DIN 6885-1:1968 = ISO/R 773:1969', standing: seen,
    inputs: row[1] ?? NaN, expected: row[index + 2] ?? NaN, digits: 1,
  })),
);

function named(caseNumber: number, source: string, bore: number, figures: Partial<Record<MetricKeyQuantityId, number>>): Check<number>[] {
  return Object.entries(figures).map(([id, expected]) => ({ id, case: `keyway ${caseNumber}`, source, standing: seen, inputs: bore, expected, digits: 2 }));
}

const namedSizeChecks: Check<number>[] = [
  ...named(1, 'Westermann technical drawing, sample p. 50', 34, { keyWidth: 10, keyHeight: 8, shaftDepth: 5, hubDepth: 3.3 }),
  ...named(2, 'ISO/R 773 table', 20, { keyWidth: 6, keyHeight: 6, hubDepth: 2.8, depthTolerance: 0.1 }),
  ...named(3, 'DIN 6885-1', 50, { keyWidth: 14, keyHeight: 9, shaftDepth: 5.5, hubDepth: 3.8, depthTolerance: 0.2 }),
  ...named(4, 'ISO/R 773 table, JIS', 100, { keyWidth: 28, keyHeight: 16, hubDepth: 6.4, depthTolerance: 0.2, cornerRadiusMin: 0.4, cornerRadiusMax: 0.6 }),
  ...named(5, 'ISO/R 773 table', 140, { keyWidth: 36, keyHeight: 20, shaftDepth: 12, hubDepth: 8.4, depthTolerance: 0.3, cornerRadiusMin: 0.7, cornerRadiusMax: 1 }),
  ...named(6, 'ISO/R 773 table', 500, { keyWidth: 100, keyHeight: 50, hubDepth: 19.5, depthTolerance: 0.3 }),
];

interface DepthInput { sixteenths: number; shape: KeyShape; kind: KeyKind | 'shaft' }

/** What the table's columns hold, in their order after the diameter. */
const DEPTH_COLUMNS: readonly Omit<DepthInput, 'sixteenths'>[] = [
  { shape: 'square', kind: 'shaft' }, { shape: 'rectangular', kind: 'shaft' },
  { shape: 'square', kind: 'parallel' }, { shape: 'rectangular', kind: 'parallel' },
  { shape: 'square', kind: 'taper' }, { shape: 'rectangular', kind: 'taper' },
];

function depthDimension({ sixteenths, shape, kind }: DepthInput): number {
  const key = inchKeyFigures({ boreDiameter: sixteenths / 16, shape, fit: 'CLASS1', ...(kind === 'shaft' ? {} : { kind }) });
  return (kind === 'shaft' ? key.shaftDimension : key.hubDimension).value;
}

const depthControlChecks: Check<DepthInput>[] = depthControl.rows.flatMap((row: Row) =>
  DEPTH_COLUMNS.map((column, index) => ({
    id: column.kind === 'shaft' ? 'shaftDimension' : 'hubDimension', case: `${row[0]}/16 inch`, source: depthControl.source, standing: recomputed,
    inputs: { sixteenths: row[0] ?? NaN, ...column }, expected: row[index + 1] ?? NaN, digits: 3,
  })),
);

interface FitInput { width: number; fit: string; shape: KeyShape; part: 'seat' | 'key'; side: 'upper' | 'lower' }

function inchLimit({ width, fit, shape, part, side }: FitInput): number {
  return (part === 'seat' ? inchSeatLimits : inchKeyLimits)(width, fit, shape)[side];
}

/** Every row of the class tables at the upper end of its range. */
const INCH_FITS: readonly [fit: string, shape: KeyShape, width: number, keyUpper: number, keyLower: number, seatUpper: number, source: string, seatStanding: Standing][] = [
  ['CLASS1', 'square', 1 / 2, 0, -0.002, 0.002, 'ASME B17.1 fit tables, two sources', seen],
  ['CLASS1', 'square', 3 / 4, 0, -0.002, 0.003, 'ASME B17.1 fit tables, two sources', seen],
  ['CLASS1', 'square', 1, 0, -0.003, 0.003, 'ASME B17.1 fit tables, two sources', seen],
  ['CLASS1', 'square', 1.5, 0, -0.003, 0.004, 'ASME B17.1 fit tables, one source', seen],
  ['CLASS1', 'square', 2.5, 0, -0.004, 0.004, 'ASME B17.1 fit tables, one source', seen],
  ['CLASS1', 'rectangular', 1 / 2, 0, -0.003, 0.002, 'ASME B17.1 fit tables, one source', seen],
  ['CLASS1', 'rectangular', 3, 0, -0.005, 0.004, 'ASME B17.1 fit tables, one source', seen],
  ['CLASS1', 'rectangular', 4, 0, -0.006, 0.004, 'ASME B17.1 fit tables, one source', seen],
  ['CLASS2', 'square', 1.25, 0.001, 0, 0.002, 'key: one published source; keyseat: from memory', 'from memory'],
  ['CLASS2', 'square', 3, 0.002, 0, 0.002, 'key: one published source; keyseat: from memory', 'from memory'],
];

const inchFitChecks: Check<FitInput>[] = INCH_FITS.flatMap(([fit, shape, width, keyUpper, keyLower, seatUpper, source, seatStanding]) => [
  { id: 'seatWidthUpper', case: `${fit} ${shape} ${width}`, source, standing: seatStanding, inputs: { width, fit, shape, part: 'seat', side: 'upper' }, expected: seatUpper, digits: 4 },
  { id: 'keyWidthUpper', case: `${fit} ${shape} ${width}`, source, standing: seen, inputs: { width, fit, shape, part: 'key', side: 'upper' }, expected: keyUpper, digits: 4 },
  { id: 'keyWidthLower', case: `${fit} ${shape} ${width}`, source, standing: seen, inputs: { width, fit, shape, part: 'key', side: 'lower' }, expected: keyLower, digits: 4 },
]);

/** The table of sizes gives an inch key for every bore; these are by bore and so through the figures that users read. */
const INCH_BY_BORE: readonly [bore: number, id: InchKeyQuantityId, expected: number][] = [
  [1, 'keyWidth', 1 / 4], [1.5, 'keyWidth', 3 / 8], [2, 'keyHeight', 1 / 2], [7, 'keyWidth', 7 / 4], [7, 'keyHeight', 3 / 2],
  [1.5, 'seatWidthUpper', 0.002], [1.5, 'keyWidthUpper', 0], [1.5, 'keyWidthLower', -0.002],
  [1, 'hubDepthUpper', 0.01], [9, 'hubDepthUpper', 0.01], [1, 'shaftDepthLower', -0.015], [9, 'shaftDepthLower', -0.015],
];

const inchByBoreChecks: Check<number>[] = INCH_BY_BORE.map(([bore, id, expected]) => ({
  id, case: `bore ${bore} inch`, source: 'ASME B17.1 size and fit tables', standing: seen, inputs: bore, expected, digits: 4,
}));

export const fitCheckTables: readonly CheckTable[] = [
  checkTable('limits of keyway widths', limit, keywayLimitChecks),
  checkTable('limits printed elsewhere', limit, [...printedLimitChecks, ...specialCaseChecks]),
  checkTable('standard tolerances', ({ size, grade }) => fitFigures(size, `H${grade}`).standardTolerance.value, toleranceChecks),
  checkTable('tolerance unit', (size) => fitFigures(size, 'H8').toleranceUnit.value, toleranceUnitChecks),
];

export const keyCheckTables: readonly CheckTable[] = [
  checkTable('metric key sizes', (bore, id) => metricKeyFigures(bore)[id as MetricKeyQuantityId].value, [...metricSizeChecks, ...namedSizeChecks]),
  checkTable('depth control dimensions S and T', depthDimension, depthControlChecks),
  checkTable('limits of inch keys and keyseats', inchLimit, inchFitChecks),
  checkTable('inch keys by bore', (boreDiameter, id) => inchKeyFigures({ boreDiameter, fit: 'CLASS1' })[id as InchKeyQuantityId].value, inchByBoreChecks),
];
