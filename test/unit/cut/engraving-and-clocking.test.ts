import { describe, expect, it } from 'vitest';
import { composedProgram, figure, inventedCard, prove, provedStretch, rulesOf, usualMachine } from './composed-programs.ts';

const card = inventedCard(usualMachine, {
  codes: {
    feedPerMinute: 'G94', feedPerRevolution: 'G95', inverseTime: 'G93', absolute: 'G90', workAxisOn: 'M191', workAxisOff: 'M192', workClamp: 'M193', workUnclamp: 'M194',
    syncOn: 'G137 P{starts} Q{sense}{teeth} R{helix}', syncOff: 'G138', drivenStart: 'M123 S{rpm}', drivenReverse: 'M124 S{rpm}', drivenStop: 'M125', dwell: 'G04 P{seconds}',
  },
});

describe('engraving', () => {
  const note = { TEXT: 'K7', HEIGHT: '4', DEPTH: '0.12', 'TIP-DIA': '0.1', 'TIP-ANGLE': '60', FLUTES: '2', RPM: '30000', 'CHIP-LOAD': '0.01' };
  const onFace = composedProgram('engraving', { ...note, 'AT-X': '44' }, card);
  const round = composedProgram('engraving', { ...note, SURFACE: 'CYLINDER', DIA: '40', 'AT-Z': '-10' }, card);

  it.each([['on a face', onFace], ['round a cylinder', round]])('%s: nothing to object to', (_, text) => {
    const stretch = provedStretch(text, card);
    expect(stretch.refused).toBeUndefined();
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'depth').value).toBeCloseTo(0.12, 6);
    // K is three strokes in the single-stroke Roman letters, 7 is two.
    expect(figure(stretch, 'strokes').value).toBe(5);
  });

  it('is as long on the cylinder as on the face', () => {
    expect(figure(provedStretch(round, card), 'pathLength').value).toBeCloseTo(figure(provedStretch(onFace, card), 'pathLength').value, 1);
  });

  it.each([
    ['too deep', onFace.replaceAll('Z-0.12', 'Z-0.2'), 'engrave-depth'],
    ['never down', onFace.replaceAll('Z-0.12', 'Z0.12'), 'engrave-nothing'],
    ['not lifted between strokes', onFace.replaceAll('Z0.5', 'Z-0.05'), 'engrave-rapid'],
    ['cutter not started', onFace.replace(/M123.*\n/, ''), 'engrave-standing'],
  ])('%s', (_, text, rule) => {
    expect(rulesOf(provedStretch(text, card))).toContain(rule);
  });
});

describe('clocking of a keyway to the teeth', () => {
  const gear = { MODULE: '2', TEETH: '18', FACE: '5', 'HOB-DIA': '50', 'HOB-GASHES': '10', RPM: '400', FEED: '1.2' };
  const slot = { BORE: '20', LENGTH: '5', RPM: '800', FEED: '0.05' };
  const whole = (angle: string): string => {
    const [hobbing, keyway] = [composedProgram('hobbing', gear, card), composedProgram('keyway', { ...slot, ANGLE: angle }, card)];
    return hobbing.replace(/M30\n$/, '') + keyway;
  };
  const clocking = (angle: string): number => {
    const keyway = prove(whole(angle), card).find(({ process }) => process === 'KEYWAY')!;
    return figure(keyway, 'slotToGap1').value;
  };

  it('goes with the C word, and repeats every tooth', () => {
    const at = clocking('0');
    // A tooth of the hob points at the work at C0, so a gap lies there.
    expect(Math.abs(at)).toBeLessThan(0.01);
    expect(clocking('3')).toBeCloseTo(at + 3, 6);
    expect(clocking('20')).toBeCloseTo(at, 6);
    expect(Math.abs(clocking('10'))).toBeCloseTo(10, 1);
  });

  it('is not given for a keyway on another zero', () => {
    const moved = whole('0').replace(/(\(KEYWAY)/, 'G55\n$1');
    const keyway = prove(moved, card).find(({ process }) => process === 'KEYWAY')!;
    expect(keyway.proof!.figures.some(({ id }) => id === 'slotToGap1')).toBe(false);
  });
});
