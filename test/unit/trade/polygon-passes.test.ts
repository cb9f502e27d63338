/** Side passes of a pointed insert in the corner of a polygon, against the shape that the passes leave point by point. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cornerAngleDegrees } from '../../../server/src/trade/polygon-slots.ts';
import { flankLength, pointedPasses, type CornerToCut } from '../../../server/src/trade/polygon-passes.ts';
import { indexedSlotsPlan } from '../../../server/src/trade/slots.ts';

function cornerOf(sides: number, acrossFlats: number, boreDiameter: number): CornerToCut {
  const { floorRadius, contactRadius, slotWidth } = indexedSlotsPlan({ units: 'mm', shape: { kind: 'polygon', sides, acrossFlats, boreDiameter }, startAngleDegrees: 0, diameterProgramming: true });
  return { sides, cornerRadius: floorRadius, boreRadius: contactRadius, slotWidth };
}

const cases = fc.record({ sides: fc.constantFrom(4, 6), acrossFlats: fc.constantFrom(10, 27), boreShare: fc.constantFrom(0.75, 0.95, 1, 1.05), share: fc.double({ min: 0.15, max: 0.95, noNaN: true }) });

describe('side passes in a corner', () => {
  it('leave both flats plane from end to end, and nothing beyond them [derived: the flats are the sides of the corner angle, looked at point by point]', () => {
    fc.assert(fc.property(cases, ({ sides, acrossFlats, boreShare, share }) => {
      const corner = cornerOf(sides, acrossFlats, acrossFlats * boreShare);
      const insert = share * corner.slotWidth;
      const passes = pointedPasses(corner, insert);
      const flank = 1 / Math.tan((cornerAngleDegrees(sides) / 2) * (Math.PI / 180));
      for (let index = 0; index <= 200; index += 1) {
        const y = corner.slotWidth * (index / 200 - 0.5) * (1 - 1e-9);
        const wanted = corner.cornerRadius - Math.abs(y) * flank;
        const cut = passes.filter(({ offsetY }) => Math.abs(y - offsetY) <= insert / 2 + 1e-9).map(({ offsetY, floorRadius }) => floorRadius - Math.abs(y - offsetY) * flank);
        expect(Math.abs(Math.max(...cut) - wanted)).toBeLessThan(1e-9);
      }
    }), { numRuns: 100 });
  });

  it('start where no place of the insert is in the wall, and where one touches it [derived: the bore point by point]', () => {
    fc.assert(fc.property(cases, ({ sides, acrossFlats, boreShare, share }) => {
      const corner = cornerOf(sides, acrossFlats, acrossFlats * boreShare);
      const insert = share * corner.slotWidth;
      const flank = 1 / Math.tan((cornerAngleDegrees(sides) / 2) * (Math.PI / 180));
      for (const { offsetY, contactRadius, floorRadius } of pointedPasses(corner, insert)) {
        const gaps = Array.from({ length: 401 }, (_, index) => insert * (index / 400 - 0.5)).map((s) => Math.sqrt(corner.boreRadius ** 2 - (offsetY + s) ** 2) - (contactRadius - Math.abs(s) * flank));
        expect(Math.abs(Math.min(...gaps))).toBeLessThan(1e-9);
        expect(floorRadius).toBeGreaterThan(contactRadius);
      }
    }), { numRuns: 100 });
  });

  it('are one where the insert reaches from end to end, and come in pairs of one distance where it does not', () => {
    const corner = cornerOf(4, 20, 20);
    expect(pointedPasses(corner, 14.15)).toEqual([{ offsetY: 0, contactRadius: 10, floorRadius: corner.cornerRadius }]);
    expect(pointedPasses(corner, 3).map(({ offsetY }) => offsetY).slice(1).reduce((sum, y) => sum + y, 0)).toBeCloseTo(0, 12);
    expect(pointedPasses(corner, 3)).toHaveLength(11);
  });

  it('cut with flanks half as wide as the insert over the sine of half the corner angle [derived: 45 degrees, root 2]', () => expect(flankLength(4, 2)).toBeCloseTo(Math.SQRT2, 12));
});
