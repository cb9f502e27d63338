import { describe, expect, it } from 'vitest';
import { limitDeviations, olderSymmetricDeviationMicrometres } from '../../../server/src/trade/fits.ts';
import { inchKeyForBore, inchKeyHeight, metricKeyForBore, thinKeyForBore } from '../../../server/src/trade/key-standards.ts';
import { METRIC_KEY_SIZES } from '../../../server/src/trade/key-tables.ts';
import { OutOfRange } from '../../../server/src/trade/quantity.ts';
import { runCheckTables } from './checks.ts';
import { fitCheckTables, keyCheckTables } from './key-tables.cases.ts';

runCheckTables([...fitCheckTables, ...keyCheckTables]);

describe('key sizes by bore', () => {
  it('takes the size that ends at the bore, not the one that starts there', () => {
    expect([22, 30, 38].map((bore) => metricKeyForBore(bore).width)).toEqual([6, 8, 10]);
  });

  it('takes the first size at 6 mm and nothing below', () => {
    expect(metricKeyForBore(6).width).toBe(2);
    expect(() => metricKeyForBore(5.999)).toThrow(OutOfRange);
  });

  it('leaves no gap between the ranges', () => {
    METRIC_KEY_SIZES.slice(1).forEach((row, index) => expect(row.boreOver).toBe(METRIC_KEY_SIZES[index]?.boreUpTo));
  });

  it('refuses a rectangular key where B17.1 has none', () => {
    expect(() => inchKeyHeight(inchKeyForBore(0.375), 'rectangular')).toThrow(/keyShape/);
  });

  it('refuses thin keys: their depths are not verified', () => {
    expect(() => thinKeyForBore(14)).toThrow(/not verified/);
  });
});

describe('classes that are refused', () => {
  it.each(['Z9', 'J7', 'JS4', 'P13', 'K9', 'js', '', 'p', 'R7'])('%s', (isoClass) => {
    expect(() => limitDeviations(10, isoClass)).toThrow(/fit/);
  });

  it('sizes outside 0 to 500', () => {
    for (const size of [0, -1, 500.1, NaN, Infinity]) expect(() => limitDeviations(size, 'H7')).toThrow(/nominal/);
  });
});

describe('the older rounding of JS', () => {
  // Rule: a machine-drawing textbook quoting older ISO text (one published source).
  it.each([[2, 12], [14, 21], [100, 43], [8, 18]])('width %d: ±%d', (width, expected) => {
    expect(olderSymmetricDeviationMicrometres(width, 9)).toBe(expected);
  });
});
