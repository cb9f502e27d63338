import { describe, expect, it } from 'vitest';
import { toldIn } from '../../../server/src/cut/told.ts';
import { composedProgram, figure, inventedCard, provedStretch, usualMachine } from './composed-programs.ts';

const card = inventedCard({ ...usualMachine, units: 'inch' });

describe('programs in inches', () => {
  it('a length is told with one decimal more than in mm', () => {
    expect([toldIn('inch').size(0.3175), toldIn('inch').place(25.4 / 3, 2), toldIn('mm').size(0.3175), toldIn().place(25.4 / 3, 2)]).toEqual(['0.0125 inch', '0.333', '0.318 mm', '8.47']);
  });

  it('a gear by diametral pitch, measured in inches', () => {
    const note = { DP: '16', TEETH: '24', FACE: '0.3', 'HOB-DIA': '2', 'HOB-GASHES': '10', SPEED: '160', FEED: '0.05' };
    const stretch = provedStretch(composedProgram('hobbing', note, card), card);
    expect(stretch.proof!.findings).toEqual([]);
    // d_a = (z + 2)/P and d_f = (z - 2.5)/P: elementary, as in the gear notes, section 1.
    expect(figure(stretch, 'tipDiameter')).toMatchObject({ value: expect.closeTo(26 / 16, 6), unit: 'inch' });
    expect(figure(stretch, 'rootDiameter').value).toBeCloseTo(21.5 / 16, 3);
  });

  it('a keyway of ASME B17.1: bore 1, square key 1/4, T 1.114 (keyway notes, case 7, handbook)', () => {
    const stretch = provedStretch(composedProgram('keyway', { BORE: '1', LENGTH: '1.2', RPM: '600', FEED: '0.002', FIT: 'CLASS1' }, card), card);
    expect(stretch.proof!.findings).toEqual([]);
    expect(1 + figure(stretch, 'slotDepth1').value).toBeCloseTo(1.114, 3);
    expect(figure(stretch, 'slotWidth1').value).toBeCloseTo(0.251, 3);
  });

  it('findings and what is taken for granted speak inches, and no mm', () => {
    const gear = { DP: '16', TEETH: '24', HELIX: '10', FACE: '0.3', 'HOB-DIA': '2', 'HOB-GASHES': '10', SPEED: '160', FEED: '0.05' };
    const keyway = { BORE: '1', LENGTH: '1.2', RPM: '600', FEED: '0.002', FIT: 'CLASS1', RELIEF: '0.3' };
    const square = { SHAPE: 'SQUARE', BORE: '0.4', 'ACROSS-FLATS': '0.4', LENGTH: '0.5', RPM: '600', FEED: '0.002' };
    const handover = { RPM: '300', 'GRIP-Z': '-16', 'RETRACT-Z': '0', OVERLAP: '0.7', FEED: '8' };
    const own = inventedCard({ ...usualMachine, units: 'inch' }, { codes: { ...card.codes, mainChuckOpen: 'M220', mainChuckClose: 'M221', subChuckOpen: 'M226', subChuckClose: 'M227', spindleSyncOn: 'G236 S{rpm} C{angle}', spindleSyncOff: 'G239', subRapid: 'G225 W{z}', subFeed: 'G229 W{z} F{feed}' }, rapids: undefined, toolUnits: [{ kind: 'stroke', name: 'invented stroke unit', leadIn: 0.08, leadOut: 0.08, ratio: 1 }] });
    const wrong = [
      composedProgram('hobbing', gear, own).replaceAll(/X(\d)/g, 'X1$1'),
      composedProgram('hobbing', gear, own).replace(/(G01 Z-)[\d.]+/, '$10.1'),
      composedProgram('hobbing', gear, own).replace(/(G01 Z\S+ F)\S+/, '$10.1').replace(/ R[\d.]+/, ' R0.0'),
      composedProgram('hobbing', { ...gear, 'SHOULDER-DIA': '3', 'SHOULDER-GAP': '2' }, own).replace('SHOULDER-GAP=2', 'SHOULDER-GAP=0.1'),
      composedProgram('keyway', keyway, own).replaceAll(/G01 X\S+/g, 'G01 X1.1').replace('Z0.08', 'Z-0.3'),
      composedProgram('keyway', keyway, own).replace(/G01 X(\S+) F\S+/, 'G01 X1.3 F90.0').replace(/Y0\.0/, 'Y0.02'),
      composedProgram('slotting', square, own).replace('Y0.0', 'Y0.01').replaceAll(/G01 X\S+/g, 'G01 X0.5'),
      composedProgram('handover', handover, own).replace('G225 W-15.1', 'G225 W-15.9').replace('G229 W-16.0', 'G229 W-15.95'),
    ].map((text) => provedStretch(text, own));
    for (const { refused, proof } of wrong) {
      expect(refused).toBeUndefined();
      expect(proof!.findings).not.toEqual([]);
      const told = [...proof!.findings.map(({ message }) => message), ...proof!.assumptions, ...proof!.figures.map(({ name, unit }) => `${name} ${unit}`)].join('\n');
      expect(told).not.toMatch(/\bmm\b/);
      expect(told).toMatch(/inch/);
    }
  });
});
