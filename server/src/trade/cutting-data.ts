/**
 * Starting ranges of cutting data, for the user to change. They are ranges and
 * not single numbers, because tool, setup and coolant decide within them. Every
 * row says where it stands: some were read in a published table, most are from
 * memory or common practice. Metric; nothing here is computed with by itself.
 */
import { LARGEST_LENGTH } from './domain.ts';
import { OutOfRange } from './quantity.ts';
import type { Standing } from './standing.ts';

export type Material =
  | 'aluminium' | 'brass' | 'castIron' | 'mildSteel' | 'freeCuttingSteel' | 'stainlessSteel' | 'heatTreatedSteel';

export type ToolMaterial = 'highSpeedSteel' | 'carbide';

export interface DataRange {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly source: string;
  readonly standing: Standing;
}

const COLLEGE_TABLES = 'college design tables, single-point turning with high-speed steel';

/** Turning speeds of high-speed steel in m/min. Read in one published table. */
const TURNING_SPEED: Readonly<Partial<Record<Material, readonly [number, number]>>> = {
  aluminium: [60, 150],
  brass: [45, 120],
  castIron: [22, 30],
  mildSteel: [25, 45],
  stainlessSteel: [9, 18],
};

/** Radial advance of a slotting stroke in mm. From memory. */
const SLOTTING_FEED: Readonly<Partial<Record<Material, readonly [number, number]>>> = {
  stainlessSteel: [0.02, 0.03],
  heatTreatedSteel: [0.02, 0.03],
  freeCuttingSteel: [0.05, 0.08],
  castIron: [0.05, 0.08],
  brass: [0.05, 0.12],
  aluminium: [0.05, 0.12],
};

/** Carbide runs at three to six times the speed of high-speed steel in the same tables. */
const CARBIDE_FACTOR = [3, 6] as const;
/** Share of the turning speed that slotting takes as its peak speed, with interrupted strokes. */
const STROKE_SHARE = [0.6, 0.8] as const;
/** Carbide in slotting serves stiffness more than speed: about half as much again. */
const STROKE_CARBIDE_FACTOR = 1.5;

/** Turning speed in m/min. Throws `OutOfRange` on `material` where no table is known. */
export function turningSpeedRange(material: Material, tool: ToolMaterial): DataRange {
  const [low, high] = rowOf(TURNING_SPEED, material);
  const [slow, fast] = tool === 'carbide' ? CARBIDE_FACTOR : [1, 1];
  return { low: low * slow, high: high * fast, unit: 'm/min', source: COLLEGE_TABLES, standing: 'seen in source' };
}

/** Peak speed of a slotting stroke in m/min: a share of the turning speed. Throws as `turningSpeedRange` does. */
export function slottingSpeedRange(material: Material, tool: ToolMaterial): DataRange {
  const [low, high] = rowOf(TURNING_SPEED, material);
  const factor = tool === 'carbide' ? STROKE_CARBIDE_FACTOR : 1;
  return {
    low: low * STROKE_SHARE[0] * factor, high: high * STROKE_SHARE[1] * factor, unit: 'm/min',
    source: '60 to 80 % of the turning speed as peak speed', standing: 'from memory',
  };
}

/** Radial advance of a slotting stroke in mm. Without a row of its own a material takes what a trade article says for all. */
export function slottingFeedRange(material: Material): DataRange {
  const row = SLOTTING_FEED[material];
  return row
    ? { low: row[0], high: row[1], unit: 'mm', source: 'slotting practice by material', standing: 'from memory' }
    : { low: 0.02, high: 0.05, unit: 'mm', source: 'trade article on slotting inserts', standing: 'seen in source' };
}

/** Ranges that no material decides, each with the unit it is in. */
export const GENERAL_RANGES = {
  slottingSparkOutStrokes: { low: 2, high: 5, unit: 'strokes', source: 'slotting practice', standing: 'from memory' },
  slottingStrokeRate: { low: 1, high: 1000, unit: '1/min', source: 'driven stroke units', standing: 'common practice' },
  slottingInsertWidthDriven: { low: 2, high: 10, unit: 'mm', source: 'driven stroke units; wider slots by side passes', standing: 'common practice' },
  slottingLeadInAndOut: { low: 1.5, high: 2, unit: 'mm', source: 'free travel before and behind the cut', standing: 'common practice' },
  staticStrokeSpeed: { low: 5, high: 15, unit: 'm/min', source: 'box cycle with a static tool', standing: 'from memory' },
  staticLiftOff: { low: 0.2, high: 0.5, unit: 'mm', source: 'box cycle with a static tool', standing: 'from memory' },
  engravingDepth: { low: 0.05, high: 0.3, unit: 'mm', source: 'engraving of metals', standing: 'from memory' },
  engravingChipLoad: { low: 0.002, high: 0.01, unit: 'mm', source: 'engraving of metals', standing: 'from memory' },
  engravingPlungeShare: { low: 0.2, high: 0.5, unit: 'of the feed', source: 'engraving of metals', standing: 'from memory' },
  runOutShareOfChipLoad: { low: 0.1, high: 0.5, unit: 'of the chip load', source: 'a tenth is the rule; micro tools take a quarter to a half', standing: 'from memory' },
} as const satisfies Record<string, DataRange>;

/** Whether a value lies in a range, and on which side it does not. */
export function positionInRange(value: number, range: DataRange): 'below' | 'inside' | 'above' {
  if (!(Math.abs(value) <= LARGEST_LENGTH)) throw new OutOfRange('value', value, 'a finite number');
  if (value < range.low) return 'below';
  return value > range.high ? 'above' : 'inside';
}

function rowOf(table: Readonly<Partial<Record<Material, readonly [number, number]>>>, material: Material): readonly [number, number] {
  const row = table[material];
  if (row) return row;
  throw new OutOfRange('material', material, Object.keys(table).join(', '), 'no published range is known for it');
}
