/**
 * What speeds and feeds are usual for the material: shown where they are typed,
 * and held against what is given. Nothing is filled in from it and nothing
 * refused: the ranges of the trade library are where shops begin, mostly without
 * a published source, and each is shown with its standing.
 */
import { slottingFeedRange, slottingSpeedRange, GENERAL_RANGES, type DataRange, type Material, type ToolMaterial } from '../trade/cutting-data.ts';
import { hobbingCuttingData, TURRET_FEED_RANGE_MM, type HobbingMaterial, type HobMaterial, type ValueRange } from '../trade/hobbing-cutting-data.ts';
import { lengthPerSpeedUnit, unitsPerMillimetre } from '../trade/lengths.ts';
import { OutOfRange, shown, type Units } from '../trade/quantity.ts';
import type { Problem } from './process.ts';

/** The parameters that decide which range is usual. */
export const materialFields = {
  MATERIAL: {
    kind: 'choice', label: 'Material of the work', optional: true, absent: 'not said',
    choices: ['FREE-CUTTING-STEEL', 'MILD-STEEL', 'ALLOY-STEEL', 'HEAT-TREATED-STEEL', 'STAINLESS-STEEL', 'CAST-IRON', 'ALUMINIUM', 'BRASS'],
    help: 'Decides which speeds and feeds are usual. Nothing is computed from it.',
  },
  'TOOL-MATERIAL': {
    kind: 'choice', label: 'Material of the tool', optional: true, absent: 'not said', choices: ['HSS', 'CARBIDE'],
    help: 'HSS: high-speed steel. CARBIDE: sintered carbide. Decides between the usual speeds. Nothing is computed from it.',
  },
} as const;

type MaterialChoice = (typeof materialFields)['MATERIAL']['choices'][number];
type ToolChoice = (typeof materialFields)['TOOL-MATERIAL']['choices'][number];

/** The values of both parameters, as far as they are given. */
export interface Materials {
  MATERIAL?: MaterialChoice | undefined;
  'TOOL-MATERIAL'?: ToolChoice | undefined;
}

/** Hints by parameter. */
export type Hints = Readonly<Record<string, string>>;

interface NamedRange extends ValueRange {
  /** What it holds for, such as "with carbide". */
  readonly holdsFor: string;
}

interface Usual {
  readonly ranges: readonly NamedRange[];
  readonly unit: string;
  /** Where the ranges stand. */
  readonly standing: string;
}

const hobbedMaterials: Readonly<Record<MaterialChoice, HobbingMaterial>> = {
  'FREE-CUTTING-STEEL': 'free-cutting and low-carbon steel', 'MILD-STEEL': 'free-cutting and low-carbon steel', 'ALLOY-STEEL': 'case-hardening and alloy steel',
  'HEAT-TREATED-STEEL': 'heat-treated steel', 'STAINLESS-STEEL': 'stainless steel', 'CAST-IRON': 'grey iron', ALUMINIUM: 'aluminium', BRASS: 'brass and bronze',
};

const slottedMaterials: Readonly<Record<MaterialChoice, Material | undefined>> = {
  'FREE-CUTTING-STEEL': 'freeCuttingSteel', 'MILD-STEEL': 'mildSteel', 'ALLOY-STEEL': undefined, 'HEAT-TREATED-STEEL': 'heatTreatedSteel',
  'STAINLESS-STEEL': 'stainlessSteel', 'CAST-IRON': 'castIron', ALUMINIUM: 'aluminium', BRASS: 'brass',
};

const hobMaterials: Readonly<Record<ToolChoice, HobMaterial>> = { HSS: 'coated high-speed steel', CARBIDE: 'coated carbide' };
const insertMaterials: Readonly<Record<ToolChoice, readonly [ToolMaterial, string]>> = { HSS: ['highSpeedSteel', 'high-speed steel'], CARBIDE: ['carbide', 'carbide'] };

const noSource = 'common practice, no source';

/** A tool whose material is not said may be of either. */
function tools(chosen: ToolChoice | undefined): readonly ToolChoice[] {
  return chosen === undefined ? ['HSS', 'CARBIDE'] : [chosen];
}

/** Usual speed and feed of a hob, for the rows of the sheet. */
export function hobbingHints(values: Materials, units: Units): Hints {
  const speed = usualHobSpeed(values, units);
  if (!speed || values.MATERIAL === undefined) return { SPEED: 'MATERIAL gives the usual range.' };
  const { finishingFeed, roughingFeed } = hobbingCuttingData(hobbedMaterials[values.MATERIAL], hobMaterials.HSS, units);
  const inTurret = scaled(TURRET_FEED_RANGE_MM, unitsPerMillimetre(units));
  const ranges = [{ ...finishingFeed, holdsFor: 'to finish' }, { ...roughingFeed, holdsFor: 'to rough' }, { ...inTurret, holdsFor: 'in a turret with driven tools, whatever the material' }];
  const feed: Usual = { ranges, unit: units === 'mm' ? 'mm/rev' : 'inch/rev', standing: noSource };
  return { SPEED: hint(speed, values.MATERIAL), RPM: hint(speed, values.MATERIAL), FEED: hint(feed, values.MATERIAL) };
}

/** Says that the speed of a hob is not a usual one. `parameter` is the one that gives it. */
export function hobSpeedProblems(values: Materials, parameter: string, cuttingSpeed: number | undefined, units: Units): Problem[] {
  return unusual(usualHobSpeed(values, units), values.MATERIAL, parameter, 'the cutting speed', cuttingSpeed);
}

/** Usual speed and feed of slotting, for the rows of the sheet. */
export function slottingHints(values: Materials & { METHOD?: 'DRIVEN' | 'STATIC' | undefined }, units: Units): Hints {
  const standing = inUnits(GENERAL_RANGES.staticStrokeSpeed, perSpeed(units), units === 'mm' ? 'm/min' : 'ft/min');
  const ofStatic: Hints = values.METHOD === 'STATIC' ? { SPEED: hint(standing) } : {};
  const speed = usualPeakSpeed(values, units);
  if (values.MATERIAL === undefined) return { ...ofStatic, FEED: 'MATERIAL gives the usual range.' };
  const material = slottedMaterials[values.MATERIAL];
  const feed = material && inUnits(slottingFeedRange(material), unitsPerMillimetre(units), units === 'mm' ? 'mm/stroke' : 'inch/stroke');
  return { ...ofStatic, ...(feed ? { FEED: hint(feed, values.MATERIAL) } : {}), ...(speed ? { RPM: hint(speed, values.MATERIAL, ' peak speed') } : {}) };
}

/** Says that the peak speed of driven strokes is not a usual one. */
export function strokeSpeedProblems(values: Materials, peakSpeed: number | undefined, units: Units): Problem[] {
  return unusual(usualPeakSpeed(values, units), values.MATERIAL, 'RPM', 'the peak speed', peakSpeed);
}

/** Usual chip load and depth of engraving, whatever the material. */
export function engravingHints(units: Units): Hints {
  const factor = unitsPerMillimetre(units);
  const unit = units === 'mm' ? 'mm' : 'inch';
  return { 'CHIP-LOAD': hint(inUnits(GENERAL_RANGES.engravingChipLoad, factor, `${unit}/tooth`)), DEPTH: hint(inUnits(GENERAL_RANGES.engravingDepth, factor, unit)) };
}

function usualHobSpeed({ MATERIAL: material, 'TOOL-MATERIAL': tool }: Materials, units: Units): Usual | undefined {
  if (material === undefined) return undefined;
  const ranges = tools(tool).map((each) => ({ ...hobbingCuttingData(hobbedMaterials[material], hobMaterials[each], units).cuttingSpeed, holdsFor: `with ${hobMaterials[each]}` }));
  return { ranges, unit: units === 'mm' ? 'm/min' : 'ft/min', standing: noSource };
}

/** Not every material has a published turning speed, from which the peak speed of a stroke follows. */
function usualPeakSpeed({ MATERIAL: choice, 'TOOL-MATERIAL': tool }: Materials, units: Units): Usual | undefined {
  const material = choice && slottedMaterials[choice];
  if (!material) return undefined;
  try {
    const found = tools(tool).map((each) => ({ range: slottingSpeedRange(material, insertMaterials[each][0]), holdsFor: `with ${insertMaterials[each][1]}` }));
    const ranges = found.map(({ range, holdsFor }) => ({ ...scaled({ least: range.low, most: range.high }, perSpeed(units)), holdsFor }));
    return { ranges, unit: units === 'mm' ? 'm/min' : 'ft/min', standing: standingOf(found[0]?.range) };
  } catch (error) {
    if (error instanceof OutOfRange) return undefined;
    throw error;
  }
}

/** Feet in a metre, for inch programs. */
function perSpeed(units: Units): number {
  return (1000 * unitsPerMillimetre(units)) / lengthPerSpeedUnit(units);
}

function inUnits(range: DataRange, factor: number, unit: string): Usual {
  return { ranges: [{ ...scaled({ least: range.low, most: range.high }, factor), holdsFor: '' }], unit, standing: standingOf(range) };
}

function standingOf(range: DataRange | undefined): string {
  return range ? `${range.source}; ${range.standing}` : noSource;
}

function scaled({ least, most }: ValueRange, factor: number): ValueRange {
  return { least: least * factor, most: most * factor };
}

/** The ranges in words, behind the material that they are for. */
function hint(usual: Usual, material?: MaterialChoice, what = ''): string {
  const ofMaterial = material === undefined ? '' : ` for ${material.toLowerCase().replaceAll('-', ' ')}`;
  return `Usual${what}${ofMaterial}: ${inWords(usual)}.`;
}

function inWords({ ranges, unit, standing }: Usual): string {
  return `${ranges.map(({ least, most, holdsFor }) => `${rounded(least)} to ${rounded(most)} ${unit}${holdsFor === '' ? '' : ` ${holdsFor}`}`).join(', ')} (${standing})`;
}

/** Converted bounds with no more figures than such a range bears. */
function rounded(value: number): string {
  return shown(Number(value.toPrecision(3)), 6);
}

function unusual(usual: Usual | undefined, material: MaterialChoice | undefined, parameter: string, what: string, value: number | undefined): Problem[] {
  if (!usual || material === undefined || value === undefined || usual.ranges.some(({ least, most }) => least - 1e-9 <= value && value <= most + 1e-9)) return [];
  const message = `${parameter}: ${what} of ${shown(value, 1)} ${usual.unit} is outside what is usual for ${material.toLowerCase().replaceAll('-', ' ')}: ${inWords(usual)}.`;
  return [{ parameter, rule: 'usual-range', severity: 'information', message }];
}
