import { describe, expect, it } from 'vitest';
import { capitalised, figure, valueWithUnit, workingWithSymbol } from '../../../server/src/assist/figures.ts';

describe('figures for readers', () => {
  it.each<[number, string]>([
    [0, '0'], [24, '24'], [1000000, '1000000'], [278.5211504, '278.521'], [2.3715369468, '2.37154'], [0.041666666, '0.0416667'], [0.000732586, '0.000732586'], [-17.371537, '-17.3715'], [0.1 + 0.2, '0.3'], [1e-12, '1.00000e-12'], [1.5e15 + 0.5, '1.50000e+15'],
  ])('%d is %s', (value, expected) => expect(figure(value)).toBe(expected));

  it.each<[string, number, string, string]>([
    ['syncRatio', 1 / 24, '', '1/24 (0.0416667)'], ['syncRatio', 2 / 33, '', '2/33 (0.0606061)'], ['syncRatio', 1 / 997, '', '1/997 (0.00100301)'],
    ['hobRpm', 278.521, 'rpm', '278.521 rpm'], ['feedMarkDepth', 0.009619, 'mm', '0.009619 mm (9.619 µm)'], ['approach', 22.236, 'mm', '22.236 mm'], ['spanTeeth', 3, '', '3'], ['shiftY', 0, 'mm', '0 mm'],
  ])('%s %d %s is %s', (id, value, unit, expected) => expect(valueWithUnit({ id, value, unit, name: '', symbol: '', working: '', source: '' })).toBe(expected));

  it('every ratio of starts to teeth is shown as it goes into the control', () => {
    for (let starts = 1; starts <= 7; starts += 1) {
      for (let teeth = 8; teeth <= 1000; teeth += 31) {
        const [shown = ''] = valueWithUnit({ id: 'syncRatio', value: starts / teeth, unit: '', name: '', symbol: '', working: '', source: '' }).split(' ');
        const [over = NaN, under = NaN] = shown.split('/').map(Number);
        expect(over * teeth, shown).toBe(starts * under);
      }
    }
  });

  it('headings begin with a capital', () => {
    expect(capitalised('speed of the hob')).toBe('Speed of the hob');
    expect(capitalised('')).toBe('');
  });
});

describe('a working', () => {
  const quantity = (symbol: string, working: string) => ({ id: 'x', name: 'x', symbol, value: 0, unit: '', working, source: '' });
  it.each([
    ['delta_x', 'f sin alpha_n / (4 d_a0)', 'δ_x = f sin α_n / (4 d_a0)'],
    ['eta', 'eta = beta - gamma_0', 'η = β - γ_0'],
    ['n', '1000 v_c / (pi D) = 1000 x 60 / (pi x 63)', 'n = 1000 v_c / (π D) = 1000 × 60 / (π × 63)'],
  ])('of %s is typeset as on paper', (symbol, working, expected) => expect(workingWithSymbol(quantity(symbol, working))).toBe(expected));
});
