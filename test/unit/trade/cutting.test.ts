import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clampDiameter, facingSeconds, rpmUnderClamp } from '../../../server/src/trade/constant-surface-speed.ts';
import { GENERAL_RANGES, positionInRange, slottingFeedRange, slottingSpeedRange, turningSpeedRange } from '../../../server/src/trade/cutting-data.ts';
import { cutting, facing, type CuttingInput, type FacingInput } from '../../../server/src/trade/cutting.ts';
import { OutOfRange } from '../../../server/src/trade/quantity.ts';
import { presetOffsets } from '../../../server/src/trade/presetting.ts';
import { decimalDegrees } from '../../../server/src/trade/small-angles.ts';
import { chipLoadOf, cuttingSpeedOf, diameterOf, feedPerMinuteOf, feedPerRevolutionOf, feedPerRevolutionOfTeeth, rpmOf } from '../../../server/src/trade/speeds-and-feeds.ts';
import { feedForPeakToValley, meanRoughness, peakToValley, scallopHeight, stepoverForScallop } from '../../../server/src/trade/surface-finish.ts';
import { runCheckTables } from './checks.ts';
import { cuttingCheckTables, smallAngleCheckTables, toolAndCutCheckTables } from './cutting.cases.ts';

runCheckTables([...cuttingCheckTables, ...toolAndCutCheckTables, ...smallAngleCheckTables]);

describe('what is given decides what comes out', () => {
  it('leaves out what does not follow', () => {
    expect(Object.keys(cutting({ units: 'mm', cuttingSpeed: 100 }))).toEqual([]);
    expect(Object.keys(cutting({ units: 'mm', cuttingSpeed: 100, clampRpm: 3000 }))).toEqual(['clampDiameter']);
    expect(Object.keys(cutting({ units: 'mm', rpm: 100 }))).toEqual(['rpm']);
  });

  it('refuses the same figure given twice', () => {
    expect(() => cutting({ units: 'mm', rpm: 100, cuttingSpeed: 100 })).toThrow(/a cutting speed is given too/);
    expect(() => cutting({ units: 'mm', rpm: 100, chipLoad: 0.1, feedPerMinute: 100 })).toThrow(/another feed is given too/);
  });
});

describe('second computations', () => {
  it('time of facing against small steps of the radius', () => {
    const css = { units: 'mm' as const, cuttingSpeed: 200, clampRpm: 3000 };
    for (const [from, to] of [[100, 20], [100, 0], [40, 30], [15, 5], [5, 80]] as const) {
      const steps = 200000;
      let minutes = 0;
      for (let i = 0; i < steps; i += 1) {
        const diameter = from + ((i + 0.5) * (to - from)) / steps;
        minutes += Math.abs(to - from) / 2 / steps / (0.2 * rpmUnderClamp(css, diameter));
      }
      expect(facingSeconds(css, from, to, 0.2)).toBeCloseTo(60 * minutes, 5);
    }
  });

  it('mean roughness against integration over one ridge', () => {
    const [feed, radius, steps] = [0.2, 0.8, 20000];
    const heightAt = (x: number) => radius - Math.sqrt(radius ** 2 - x ** 2);
    const places = Array.from({ length: steps }, (_, i) => -feed / 2 + ((i + 0.5) * feed) / steps);
    const mean = places.reduce((sum, x) => sum + heightAt(x), 0) / steps;
    const roughness = places.reduce((sum, x) => sum + Math.abs(heightAt(x) - mean), 0) / steps;
    expect(meanRoughness(feed, radius) / roughness).toBeCloseTo(1, 2);
  });
});

describe('presetting and small angles', () => {
  it('refuses corners in the wrong order', () => {
    expect(() => presetOffsets({ edgeX: 1, lowerCornerY: 2, upperCornerY: 1, frontZ: 0 }, false)).toThrow(/upperCornerY/);
  });

  it('keeps the sign of the degrees, also at minus nought', () => {
    expect(decimalDegrees(-12, 30, 0)).toBe(-12.5);
    expect(decimalDegrees(-0, 30, 0)).toBe(-0.5);
    expect(() => decimalDegrees(1, 60, 0)).toThrow(OutOfRange);
  });
});

describe('cutting data', () => {
  it('are ranges that say where they stand', () => {
    for (const range of [...Object.values(GENERAL_RANGES), turningSpeedRange('mildSteel', 'carbide'), slottingSpeedRange('brass', 'highSpeedSteel'), slottingFeedRange('mildSteel')]) {
      expect(range.low).toBeLessThan(range.high);
      expect(range.source).not.toBe('');
      expect(['seen in source', 'from memory', 'common practice']).toContain(range.standing);
    }
  });

  it('speed up with carbide and slow down in slotting', () => {
    expect(turningSpeedRange('mildSteel', 'highSpeedSteel')).toMatchObject({ low: 25, high: 45, unit: 'm/min' });
    expect(turningSpeedRange('mildSteel', 'carbide')).toMatchObject({ low: 75, high: 270 });
    expect(slottingSpeedRange('mildSteel', 'highSpeedSteel')).toMatchObject({ low: 15, high: 36 });
  });

  it('are refused where no range is known', () => {
    expect(() => turningSpeedRange('heatTreatedSteel', 'carbide')).toThrow(/material/);
  });

  it('say on which side a value lies', () => {
    expect([0.01, 0.1, 1].map((value) => positionInRange(value, GENERAL_RANGES.engravingDepth))).toEqual(['below', 'inside', 'above']);
    expect(() => positionInRange(NaN, GENERAL_RANGES.engravingDepth)).toThrow(OutOfRange);
  });
});

describe('properties', () => {
  const positive = fc.double({ min: 1, max: 500, noNaN: true });

  it('inverse functions invert', () => {
    fc.assert(fc.property(positive, positive, (a, b) => {
      for (const units of ['mm', 'inch'] as const) {
        expect(cuttingSpeedOf(rpmOf(a, b, units), b, units) / a).toBeCloseTo(1, 10);
        expect(diameterOf(a, rpmOf(a, b, units), units) / b).toBeCloseTo(1, 10);
      }
      expect(feedPerRevolutionOf(feedPerMinuteOf(a, b), b) / a).toBeCloseTo(1, 10);
      expect(chipLoadOf(feedPerRevolutionOfTeeth(a, 4), 4) / a).toBeCloseTo(1, 10);
    }));
  });

  it('feed and stepover for a height give the height back', () => {
    fc.assert(fc.property(positive, fc.double({ min: 1e-4, max: 0.95, noNaN: true }), (radius, share) => {
      const height = radius * share;
      expect(peakToValley(feedForPeakToValley(height, radius), radius) / height).toBeCloseTo(1, 6);
      expect(scallopHeight(stepoverForScallop(height, radius), radius) / height).toBeCloseTo(1, 6);
    }));
  });

  it('facing times add up and the way back takes as long', () => {
    const css = { units: 'mm' as const, cuttingSpeed: 180, clampRpm: 2500 };
    fc.assert(fc.property(positive, positive, positive, (a, b, c) => {
      const [low = 0, middle = 0, high = 0] = [a, b, c].sort((x, y) => x - y);
      const whole = facingSeconds(css, high, low, 0.2);
      expect(facingSeconds(css, high, middle, 0.2) + facingSeconds(css, middle, low, 0.2)).toBeCloseTo(whole, 6);
      expect(facingSeconds(css, low, high, 0.2)).toBeCloseTo(whole, 9);
    }));
  });

  it('turns never pass the limit and reach it at the clamp diameter', () => {
    fc.assert(fc.property(positive, positive, (cuttingSpeed, diameter) => {
      const css = { units: 'mm' as const, cuttingSpeed, clampRpm: 2500 };
      expect(rpmUnderClamp(css, diameter)).toBeLessThanOrEqual(2500 * (1 + 1e-12));
      expect(rpmUnderClamp(css, clampDiameter(css) * 1.0001)).toBeCloseTo(2500 / 1.0001, 6);
    }));
  });

  it('inch and metric agree', () => {
    fc.assert(fc.property(positive, positive, fc.double({ min: 0.01, max: 1, noNaN: true }), (cuttingSpeed, diameter, feedPerRevolution) => {
      const metric = cutting({ units: 'mm', cuttingSpeed, diameter, feedPerRevolution, depthOfCut: 2, noseRadius: 0.8 });
      const inch = cutting({ units: 'inch', cuttingSpeed: cuttingSpeed / 0.3048, diameter: diameter / 25.4, feedPerRevolution: feedPerRevolution / 25.4, depthOfCut: 2 / 25.4, noseRadius: 0.8 / 25.4 });
      const ratio = (id: keyof typeof metric) => (inch[id]?.value ?? NaN) / (metric[id]?.value ?? NaN);
      expect(ratio('rpm')).toBeCloseTo(1, 9);
      expect(ratio('feedPerMinute') * 25.4).toBeCloseTo(1, 9);
      expect(ratio('removalRate') * 16.387064).toBeCloseTo(1, 9);
      expect(ratio('peakToValley') * 25.4).toBeCloseTo(1, 9);
    }));
  });

  const wild = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(0, -0, NaN, Infinity, -Infinity, 1e-320, 1e308, undefined));
  const units = fc.constantFrom('mm' as const, 'inch' as const);

  it('wild inputs to cutting give figures that are finite or a refusal that names a field', () => {
    const fields = fc.record({
      units, diameter: wild, cuttingSpeed: wild, rpm: wild, clampRpm: wild, feedPerRevolution: wild, feedPerMinute: wild, chipLoad: wild, flutes: wild, depthOfCut: wild, noseRadius: wild,
    }, { requiredKeys: ['units'] });
    fc.assert(fc.property(fields, (input) => {
      expect(finiteOrRefused(input, () => Object.values(cutting(input as CuttingInput)))).toBe('right');
    }), { numRuns: 5000 });
  });

  it('wild inputs to facing likewise', () => {
    const fields = fc.record({ units, cuttingSpeed: wild, clampRpm: wild, fromDiameter: wild, toDiameter: wild, feedPerRevolution: wild });
    fc.assert(fc.property(fields, (input) => {
      expect(finiteOrRefused(input, () => Object.values(facing(input as FacingInput)))).toBe('right');
    }), { numRuns: 5000, examples: [[{ units: 'mm', cuttingSpeed: 1, clampRpm: 1, fromDiameter: 0, toDiameter: 1e-323, feedPerRevolution: 1 }]] });
  });
});

function finiteOrRefused(input: object, compute: () => { value: number; working: string; id: string }[]): string {
  try {
    const wrong = compute().filter(({ value, working }) => !Number.isFinite(value) || /NaN|Infinity|undefined/.test(working));
    return wrong.length === 0 ? 'right' : `not finite: ${wrong.map(({ id, working }) => `${id} ${working}`).join('; ')}`;
  } catch (error) {
    return error instanceof OutOfRange && error.parameter in input ? 'right' : `threw ${String(error)}`;
  }
}
