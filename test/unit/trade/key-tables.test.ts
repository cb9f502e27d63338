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

  it('gives inch bores over 5/16 up to 11 and no others', () => {
    expect(() => inchKeyForBore(5 / 16)).toThrow(OutOfRange);
    expect(inchKeyForBore(0.3126).width).toBe(3 / 32);
    expect(inchKeyForBore(11).width).toBe(2.5);
    expect(() => inchKeyForBore(11.01)).toThrow(OutOfRange);
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

describe('where a limit stands', () => {
  it('says from memory only for grade 12 over 315', () => {
    expect(limitDeviations(400, 'H12').standing).toBe('from memory');
    expect([limitDeviations(315, 'H12'), limitDeviations(400, 'H11')].map(({ standing }) => standing)).toEqual(['seen in source', 'seen in source']);
  });

  it('lowers M6 over 250 up to 315 only, and no other M', () => {
    // The rule -m + correction gives -20 + 9 = -11 there; the standard prints -9 (one published source).
    const upper = (size: number, isoClass: string) => limitDeviations(size, isoClass).upperMicrometres;
    expect([upper(250, 'M6'), upper(300, 'M6'), upper(316, 'M6'), upper(300, 'M7')]).toEqual([-8, -9, -10, 0]);
  });

  it('has k of nought from grade 8 on', () => {
    expect([limitDeviations(20, 'k7').lowerMicrometres, limitDeviations(20, 'k8').lowerMicrometres]).toEqual([2, 0]);
  });
});

describe('the older rounding of JS', () => {
  // Rule: a machine-drawing textbook quoting older ISO text (one published source).
  it.each([[2, 12], [14, 21], [100, 43], [8, 18]])('width %d: ±%d', (width, expected) => {
    expect(olderSymmetricDeviationMicrometres(width, 9)).toBe(expected);
  });

  it('lowers only the grades 7 to 11', () => {
    expect([5, 7, 11, 6].map((grade) => olderSymmetricDeviationMicrometres(20, grade))).toEqual([4.5, 10, 65, 6.5]);
  });
});
