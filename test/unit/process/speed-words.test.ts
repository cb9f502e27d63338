/** The speed in a word: near enough to the one that is asked for, and never outside of what the machine reaches. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { handover } from '../../../server/src/process/handover.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { speedFigure } from '../../../server/src/process/words.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { composed, subCard } from './sub-spindle.ts';

const open = { least: 0, most: Infinity };

describe('a speed in a word', () => {
  it.each([[900, '900'], [303.15, '303'], [100.4, '100'], [99.96, '100'], [24.37, '24.4'], [2.5, '2.5'], [0.4, '0.4']])('%d is written %s', (rpm, word) => {
    expect(speedFigure(rpm, open)).toBe(word);
  });

  it.each([[1499.5, { least: 0, most: 1499.5 }, '1499'], [99.96, { least: 0, most: 99.96 }, '99.9'], [3000.4, { least: 3000.4, most: 9000 }, '3001'], [6000, { least: 0, most: 6000 }, '6000']])('%d within %o is written %s', (rpm, range, word) => {
    expect(speedFigure(rpm, range)).toBe(word);
  });

  const speeds = fc.double({ min: 0.01, max: 2e5, noNaN: true });

  it('is off by half a per cent at most', () => {
    fc.assert(fc.property(speeds, (rpm) => {
      expect(Math.abs(Number(speedFigure(rpm, open)) / rpm - 1)).toBeLessThanOrEqual(0.005 + 1e-9);
    }));
  });

  it('is within the range when the speed is, and one step off at most', () => {
    fc.assert(fc.property(speeds, (rpm) => {
      const [below, above] = [{ least: 0, most: rpm }, { least: rpm, most: Infinity }].map((range) => Number(speedFigure(rpm, range)));
      expect(below).toBeLessThanOrEqual(rpm + 1e-8);
      expect(above).toBeGreaterThanOrEqual(rpm - 1e-8);
      expect([below, above].map((written) => Math.abs(written! / rpm - 1) <= 0.01 + 1e-9)).toEqual([true, true]);
    }));
  });
});

describe('a block at the very limit of a machine whose limit is no whole number', () => {
  const limits = { mainSpindleRpm: 499.6, drivenToolRpm: 899.6, syncHobRpm: 399.6 };
  const card: MachineCard = { ...subCard, limits, toolUnits: [] };

  it.each([
    ['a keyway', keyway, 'BORE=30 LENGTH=25 FEED=0.05 RPM=899.6', 'S899'],
    ['an engraving', engraving, 'TEXT=H HEIGHT=4 DEPTH=0.1 TIP-DIA=0.1 TIP-ANGLE=60 FLUTES=2 CHIP-LOAD=0.01 AT-X=40 RPM=899.6', 'S899'],
    ['a hand-over', handover, 'GRIP-Z=-400 RETRACT-Z=0 FEED=200 RPM=499.6', 'S499'],
    ['a gear', hobbing, 'MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 FEED=1 RPM=399.6', 'S399'],
  ] as const)('%s does not go beyond it', (_name, process, text, word) => {
    const { lines, problems } = composed(process, text, card);
    expect(problems.filter(({ rule }) => rule === 'machine-limit')).toEqual([]);
    expect(lines.join(' ')).toMatch(new RegExp(` ${word}\\b(?!\\.)`));
    expect(readProgram(lines.join('\n'), dialectOf(card)).problems().filter(({ rule }) => rule === 'speed-beyond-machine')).toEqual([]);
  });

  it('a cutter on a geared unit stays within the speeds of the unit', () => {
    const geared: MachineCard = { ...subCard, limits: {}, toolUnits: [{ kind: 'highSpeed', name: 'invented', rpm: [20_003, 60_004], ratio: 0.15 }] };
    const speedOf = (rpm: number) => Number(/ S(\d+)/.exec(composed(engraving, `TEXT=H HEIGHT=4 DEPTH=0.1 TIP-DIA=0.1 TIP-ANGLE=60 FLUTES=2 CHIP-LOAD=0.01 AT-X=40 RPM=${rpm}`, geared).lines.join(' '))?.[1]) / 0.15;
    expect(speedOf(60_004)).toBeLessThanOrEqual(60_004);
    expect(speedOf(20_003)).toBeGreaterThanOrEqual(20_003);
  });
});
