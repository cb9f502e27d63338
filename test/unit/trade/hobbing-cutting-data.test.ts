import { describe, expect, it } from 'vitest';
import { CHIP_THICKNESS_LIMIT_MM, hobbingCuttingData, TURRET_FEED_RANGE_MM } from '../../../server/src/trade/hobbing-cutting-data.ts';
import { nearestStandardModule, DIAMETRAL_PITCHES, PREFERRED_MODULES, SECOND_CHOICE_MODULES } from '../../../server/src/trade/standard-modules.ts';

describe('cutting data for hobbing (common practice, no source)', () => {
  it.each([
    ['free-cutting and low-carbon steel', 'coated high-speed steel', [80, 120]],
    ['case-hardening and alloy steel', 'coated carbide', [160, 260]],
    ['heat-treated steel', 'coated high-speed steel', [35, 60]],
    ['stainless steel', 'coated carbide', [80, 140]],
    ['grey iron', 'coated high-speed steel', [40, 70]],
    ['aluminium', 'coated carbide', [300, 600]],
    ['brass and bronze', 'coated high-speed steel', [90, 180]],
  ] as const)('%s with %s', (material, tool, [least, most]) => {
    const data = hobbingCuttingData(material, tool, 'mm');
    expect(data.cuttingSpeed).toEqual({ least, most });
    expect(data.standing).toBe('common practice');
    expect(data.finishingFeed.most).toBeLessThanOrEqual(data.roughingFeed.most);
  });

  it('is the same in feet and inches', () => {
    const inch = hobbingCuttingData('grey iron', 'coated carbide', 'inch');
    // 120 m/min is 393.7 ft/min, 4 mm is 0.157 inch: definition of the inch.
    expect(inch.cuttingSpeed.least).toBeCloseTo(393.7, 1);
    expect(inch.roughingFeed.most).toBeCloseTo(0.157, 3);
  });

  it('holds ranges, not single numbers', () => {
    for (const range of [TURRET_FEED_RANGE_MM, ...Object.values(CHIP_THICKNESS_LIMIT_MM)]) expect(range.least).toBeLessThan(range.most);
  });
});

describe('standard modules (ISO 54 and DIN 780, from memory)', () => {
  it('are their own nearest, and rise', () => {
    for (const module of [...PREFERRED_MODULES, ...SECOND_CHOICE_MODULES]) expect(nearestStandardModule(module).module).toBe(module);
    for (const series of [PREFERRED_MODULES, SECOND_CHOICE_MODULES, DIAMETRAL_PITCHES]) expect([...series].sort((a, b) => a - b)).toEqual([...series]);
  });

  it('say which series they belong to', () => {
    expect(nearestStandardModule(2).series).toBe('ISO 54, series I');
    expect(nearestStandardModule(2.25).series).toBe('ISO 54, series II');
    expect(nearestStandardModule(0.5).series).toBe('DIN 780, below 1 mm');
  });
});
