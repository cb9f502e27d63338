import { describe, expect, it } from 'vitest';
import { hobbingGrid, keywayGrid, proveKeyway, proveSetting } from './proof-grid.ts';

/** Every so manieth setting of the grid; the script beside the benchmarks takes them all. */
const PART = 27;
const part = hobbingGrid.filter((_, index) => index % PART === 5);

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
    const subs = hobbingGrid.flatMap(({ machine: { sub } }) => (sub ? [[sub.zSense, sub.ySense, sub.toolRotation, sub.workRotation, sub.helixSign].join()] : []));
    expect(new Set(subs).size).toBe(32);
    expect(hobbingGrid.filter(({ more }) => more['ENTRY'] === 'PLUNGE').length).toBe(56);
    expect(new Set(hobbingGrid.map(({ name }) => name)).size).toBe(hobbingGrid.length);
  });

  it('the part of it that runs here holds every kind', () => {
    expect(part.some(({ more }) => more['SPINDLE'] === 'SUB' && more['ENTRY'] === 'PLUNGE')).toBe(true);
    expect(part.some(({ more }) => more['SPINDLE'] === 'SUB' && !more['ENTRY'])).toBe(true);
    expect(part.some(({ more }) => more['ENTRY'] === 'PLUNGE' && !more['SPINDLE'])).toBe(true);
  });

  it.each(part)('$name', (each) => {
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
