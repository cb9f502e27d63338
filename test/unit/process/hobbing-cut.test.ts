/** Blocks that the proof grid does not reach, cut virtually: the helix by C words, splines by name, a shifted hob. */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composedProgram, figure, inventedCard, provedStretch, rulesOf, usualMachine, type Machine } from '../cut/composed-programs.ts';

const helical = { MODULE: '1.5', TEETH: '20', HELIX: '15', FACE: '8', 'HOB-DIA': '50', 'HOB-GASHES': '10', 'HOB-LENGTH': '50', SPEED: '50', FEED: '1' };

/** A control without a differential of its own, that takes C words beside Z. */
function cardWithC(machine: Machine, differentialByWorkAxis: 'absolute' | 'incremental'): MachineCard {
  const { codes } = inventedCard(machine);
  return inventedCard(machine, { codes: { ...codes, syncOn: 'G137 P{starts} Q{sense}{teeth}' }, differentialByWorkAxis, incrementalAxes: { H: 'C' } });
}

describe('the helix by C words gives the wanted hand and angle [measured on the cut shape]', () => {
  it.each([
    ['RIGHT', 'RIGHT', 1, '+X', 'absolute'], ['LEFT', 'RIGHT', 1, '+X', 'incremental'], ['RIGHT', 'LEFT', -1, '+X', 'incremental'], ['LEFT', 'LEFT', -1, '-X', 'absolute'],
  ] as const)('%s gear, %s hob, C sense %d, hob on %s, %s', (hand, hobHand, workRotation, hobSide, kind) => {
    const card = cardWithC({ ...usualMachine, workRotation, hobSide }, kind);
    const stretch = provedStretch(composedProgram('hobbing', { ...helical, HAND: hand, 'HOB-HAND': hobHand, CUTS: '2' }, card), card);
    expect(figure(stretch, 'teeth').value).toBe(20);
    expect(Math.abs(figure(stretch, 'helixAngle').value - (hand === 'RIGHT' ? 15 : -15))).toBeLessThan(0.01);
  });
});

describe('splines by name', () => {
  it.each([['DIN5480-W30X2X14', 'mm', 25.4, 29.6], ['B92.1-16/32-N15-30-FLAT', 'inch', 13.65 / 16, 1]] as const)('%s in a program in %s: nothing to object to [D28, D30]', (spline, units, root, tip) => {
    const card = inventedCard({ ...usualMachine, units });
    const cutting = units === 'mm' ? { FACE: '8', 'HOB-DIA': '50', SPEED: '50', FEED: '1' } : { FACE: '.3', 'HOB-DIA': '2', SPEED: '150', FEED: '.04' };
    const stretch = provedStretch(composedProgram('hobbing', { SPLINE: spline, ...cutting }, card), card);
    expect(rulesOf(stretch)).toEqual([]);
    expect(Math.abs(figure(stretch, 'rootDiameter').value - root)).toBeLessThan(0.005);
    expect(Math.abs(figure(stretch, 'tipDiameter').value - tip)).toBeLessThan(1e-6);
  });
});

describe('a shifted hob', () => {
  it.each([['RIGHT', 'RIGHT', '+X', '-3'], ['LEFT', 'RIGHT', '+X', '3'], ['RIGHT', 'LEFT', '-X', '3'], ['LEFT', 'LEFT', '-X', '-3']] as const)('%s gear, %s hob on %s, shift %s: nothing to object to', (hand, hobHand, hobSide, shift) => {
    const card = inventedCard({ ...usualMachine, hobSide });
    const stretch = provedStretch(composedProgram('hobbing', { ...helical, HAND: hand, 'HOB-HAND': hobHand, SHIFT: shift }, card), card);
    expect(rulesOf(stretch)).toEqual([]);
    expect(figure(stretch, 'teeth').value).toBe(20);
  });
});
