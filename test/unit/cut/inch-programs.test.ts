import { describe, expect, it } from 'vitest';
import { composedProgram, figure, inventedCard, provedStretch, usualMachine } from './composed-programs.ts';

const card = inventedCard({ ...usualMachine, units: 'inch' });

describe('programs in inches', () => {
  it('a gear by diametral pitch, measured in inches', () => {
    const note = { DP: '16', TEETH: '24', FACE: '0.3', 'HOB-DIA': '2', 'HOB-GASHES': '10', SPEED: '160', FEED: '0.05' };
    const stretch = provedStretch(composedProgram('hobbing', note, card), card);
    expect(stretch.proof!.findings).toEqual([]);
    // d_a = (z + 2)/P and d_f = (z - 2.5)/P: elementary, as in the gear notes, section 1.
    expect(figure(stretch, 'tipDiameter')).toMatchObject({ value: expect.closeTo(26 / 16, 6), unit: 'in' });
    expect(figure(stretch, 'rootDiameter').value).toBeCloseTo(21.5 / 16, 3);
  });

  it('a keyway of ASME B17.1: bore 1, square key 1/4, T 1.114 (keyway notes, case 7, handbook)', () => {
    const stretch = provedStretch(composedProgram('keyway', { BORE: '1', LENGTH: '1.2', RPM: '600', FEED: '0.002', FIT: 'CLASS1' }, card), card);
    expect(stretch.proof!.findings).toEqual([]);
    expect(1 + figure(stretch, 'slotDepth1').value).toBeCloseTo(1.114, 3);
    expect(figure(stretch, 'slotWidth1').value).toBeCloseTo(0.251, 3);
  });
});
