import { describe, expect, it } from 'vitest';
import { hobbingGrid, keywayGrid, proveKeyway, proveSetting } from './proof-grid.ts';

/** Every so manieth setting of the grid; the script beside the benchmarks takes them all. */
const PART = 27;

describe('composed hobbing blocks, read back and cut virtually', () => {
  it('the grid covers the range that it promises', () => {
    const settings = hobbingGrid.map(({ setting }) => setting);
    const span = (values: number[]): [number, number] => [Math.min(...values), Math.max(...values)];
    expect(settings.length).toBeGreaterThanOrEqual(200);
    expect(span(settings.map(({ teeth }) => teeth))).toEqual([6, 120]);
    expect(span(settings.map(({ module }) => module))).toEqual([0.3, 4]);
    expect(span(settings.map(({ helix }) => helix))).toEqual([-30, 30]);
    expect(span(settings.map(({ starts }) => starts))).toEqual([1, 3]);
    expect(span(settings.map(({ cuts }) => cuts))).toEqual([1, 3]);
    const ways = hobbingGrid.map(({ setting, machine }) => [setting.hobHand, setting.climb, machine.hobSide, machine.workRotation].join());
    expect(new Set(ways).size).toBe(16);
  });

  it.each(hobbingGrid.filter((_, index) => index % PART === 5))('$name', (each) => {
    const { rules, teeth, spanError, helixErrorDegrees } = proveSetting(each);
    expect(rules).toEqual([]);
    expect(teeth).toBe(each.setting.teeth);
    // Span within two micrometres beyond the predicted marks (derived); NaN would mean that no caliper fits.
    expect(spanError).toBeLessThan(0.002);
    expect(helixErrorDegrees).toBeLessThan(0.01);
  });
});

describe('composed keyway blocks, read back and cut virtually', () => {
  it.each(keywayGrid)('$name', (each) => {
    const { rules, slots, depth, wantedDepth } = proveKeyway(each);
    expect(rules).toEqual([]);
    expect(slots).toBe(each.count);
    expect(Math.abs(depth - wantedDepth)).toBeLessThan(0.001);
  });
});
