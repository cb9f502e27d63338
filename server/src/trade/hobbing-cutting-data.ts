/**
 * Where to start with speed and feed when nothing is known: ranges by material
 * and tool, common practice written down from memory, without a source. They
 * are defaults to be edited, never limits.
 */
import { MILLIMETRES_PER_INCH } from './lengths.ts';
import type { Units } from './quantity.ts';

export type HobbingMaterial =
  | 'free-cutting and low-carbon steel'
  | 'case-hardening and alloy steel'
  | 'heat-treated steel'
  | 'stainless steel'
  | 'grey iron'
  | 'aluminium'
  | 'brass and bronze';

export type HobMaterial = 'coated high-speed steel' | 'coated carbide';

export interface ValueRange {
  readonly least: number;
  readonly most: number;
}

export interface HobbingCuttingData {
  /** m/min, or ft/min for inches. */
  readonly cuttingSpeed: ValueRange;
  /** Per work revolution, finishing. */
  readonly finishingFeed: ValueRange;
  /** Per work revolution, roughing. */
  readonly roughingFeed: ValueRange;
  readonly standing: 'common practice';
}

/** Per work revolution in a turret with driven tools, mm: less than on a hobbing machine, whatever the material. */
export const TURRET_FEED_RANGE_MM: ValueRange = { least: 0.4, most: 1.2 };

/** Thickest chip that a tool usually bears, mm, from memory. */
export const CHIP_THICKNESS_LIMIT_MM: Readonly<Record<HobMaterial, ValueRange>> = {
  'coated high-speed steel': { least: 0.2, most: 0.25 },
  'coated carbide': { least: 0.12, most: 0.2 },
};

/** Ranges in the caller's units. */
export function hobbingCuttingData(material: HobbingMaterial, tool: HobMaterial, units: Units): HobbingCuttingData {
  const row = ROWS[material];
  const speed = tool === 'coated carbide' ? row.carbide : row.highSpeedSteel;
  const [perSpeed, perLength] = units === 'mm' ? [1, 1] : [1000 / (12 * MILLIMETRES_PER_INCH), 1 / MILLIMETRES_PER_INCH];
  return {
    cuttingSpeed: scaled(speed, perSpeed),
    finishingFeed: scaled(row.finishing, perLength),
    roughingFeed: scaled(row.roughing, perLength),
    standing: 'common practice',
  };
}

type Range = readonly [least: number, most: number];

interface Row {
  readonly highSpeedSteel: Range;
  readonly carbide: Range;
  readonly finishing: Range;
  readonly roughing: Range;
}

const ROWS: Readonly<Record<HobbingMaterial, Row>> = {
  'free-cutting and low-carbon steel': { highSpeedSteel: [80, 120], carbide: [200, 320], finishing: [1, 1.8], roughing: [2, 3.5] },
  'case-hardening and alloy steel': { highSpeedSteel: [60, 100], carbide: [160, 260], finishing: [1, 1.6], roughing: [2, 3] },
  'heat-treated steel': { highSpeedSteel: [35, 60], carbide: [100, 180], finishing: [0.8, 1.2], roughing: [1.2, 2] },
  'stainless steel': { highSpeedSteel: [25, 45], carbide: [80, 140], finishing: [0.8, 1.2], roughing: [1, 1.8] },
  'grey iron': { highSpeedSteel: [40, 70], carbide: [120, 200], finishing: [1.2, 2], roughing: [2, 4] },
  aluminium: { highSpeedSteel: [150, 300], carbide: [300, 600], finishing: [1, 2], roughing: [2, 4] },
  'brass and bronze': { highSpeedSteel: [90, 180], carbide: [200, 350], finishing: [1, 2], roughing: [2, 3] },
};

const scaled = ([least, most]: Range, factor: number): ValueRange => ({ least: least * factor, most: most * factor });
