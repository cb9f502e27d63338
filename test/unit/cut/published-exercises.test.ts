/**
 * Gears and splines of published exercises and standards, composed, read back
 * and cut virtually. What is wanted is written here from the source, not taken
 * from the trade library.
 */
import { describe, expect, it } from 'vitest';
import { composedProgram, figure, inventedCard, provedStretch } from './composed-programs.ts';

const card = inventedCard();
const speeds = { SPEED: '60', FEED: '1' };

function proved(raw: Record<string, string>) {
  const stretch = provedStretch(composedProgram('hobbing', { ...raw, ...speeds }, card), card);
  expect(stretch.refused).toBeUndefined();
  expect(stretch.proof?.findings).toEqual([]);
  return stretch;
}

describe('published exercises', () => {
  it('D33, textbook exercise: 48 teeth of module 3, face 38, hob of 75 diameter and 75 length (seen in source; sizes by ISO 53, recomputed)', () => {
    const stretch = proved({ MODULE: '3', TEETH: '48', FACE: '38', 'HOB-DIA': '75', 'HOB-LENGTH': '75' });
    expect(figure(stretch, 'teeth').value).toBe(48);
    expect(figure(stretch, 'tipDiameter').value).toBeCloseTo(150, 2);
    expect(figure(stretch, 'rootDiameter').value).toBeCloseTo(136.5, 2);
  });

  it('D30, ANSI B92.1 16/32, 30 degrees flat root, 15 teeth: a shaft of 1.00 inch (nominal seen in source)', () => {
    const stretch = proved({ SPLINE: 'B92.1-16/32-N15-30-FLAT', FACE: '12', 'HOB-DIA': '45' });
    expect(figure(stretch, 'teeth').value).toBe(15);
    expect(figure(stretch, 'tipDiameter').value).toBeCloseTo(25.4, 2);
    // D_re = (N - 1.35) / P = 0.853125 inch (formula seen in source).
    expect(figure(stretch, 'rootDiameter').value).toBeCloseTo(0.853125 * 25.4, 2);
  });

  it('D30 with 9 teeth: 5/8 inch over the tips, 0.47813 inch at the root (formula seen in source)', () => {
    const stretch = proved({ SPLINE: 'B92.1-16/32-N9-30-FLAT', FACE: '12', 'HOB-DIA': '45' });
    expect(figure(stretch, 'teeth').value).toBe(9);
    expect(figure(stretch, 'tipDiameter').value).toBeCloseTo(15.875, 2);
    expect(figure(stretch, 'rootDiameter').value).toBeCloseTo(0.47813 * 25.4, 2);
  });

  it('D28, DIN 5480 W30 x 2 x 14: 29.6 over the tips, 25.4 at the root (derived; every line confirmed by a published data sheet)', () => {
    const stretch = proved({ SPLINE: 'DIN5480-W30X2X14', FACE: '12', 'HOB-DIA': '50' });
    expect(figure(stretch, 'teeth').value).toBe(14);
    expect(figure(stretch, 'tipDiameter').value).toBeCloseTo(29.6, 2);
    expect(figure(stretch, 'rootDiameter').value).toBeCloseTo(25.4, 2);
  });
});
