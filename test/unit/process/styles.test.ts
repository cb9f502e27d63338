/** Hobbing in the sub-spindle, slots, engraving and hand-over in every style that a card can ask for: inch and metric, diameter and radius, both comment styles, short lines. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { handover } from '../../../server/src/process/handover.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import type { Process } from '../../../server/src/process/process.ts';
import { slotting } from '../../../server/src/process/slotting.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import type { Units } from '../../../server/src/trade/quantity.ts';
import { subCard } from './sub-spindle.ts';

/** Each process with lengths in millimetres, and which of its values are lengths. */
const jobs: readonly { process: Process; plain: Record<string, string>; lengths: Record<string, number> }[] = [
  { process: keyway, plain: { RPM: '500', COUNT: '2', ANGLE: '15', FIT: 'H9' }, lengths: { BORE: 30, WIDTH: 8, DEPTH: 3.3, LENGTH: 25, FEED: 0.05, 'LEAD-IN': 2, 'LEAD-OUT': 2, 'FACE-Z': -3 } },
  { process: hobbing, plain: { MODULE: '2', TEETH: '31', RPM: '300', SPINDLE: 'SUB', CUTS: '2' }, lengths: { FACE: 20, 'HOB-DIA': 63, FEED: 1.5, CLEARANCE: 2, 'FACE-Z': -3, SHIFT: 2 } },
  { process: hobbing, plain: { MODULE: '2', TEETH: '31', HELIX: '12', RPM: '300', CUTS: '2', ENTRY: 'PLUNGE' }, lengths: { FACE: 20, 'HOB-DIA': 63, FEED: 1.5, 'RADIAL-FEED': 0.4, CLEARANCE: 2, 'FACE-Z': -3 } },
  { process: slotting, plain: { SHAPE: 'HEXAGON', RPM: '600' }, lengths: { BORE: 10, 'ACROSS-FLATS': 10, LENGTH: 12, FEED: 0.04, 'LEAD-IN': 2, 'LEAD-OUT': 2 } },
  { process: engraving, plain: { TEXT: 'R2', FLUTES: '2', RPM: '5000', 'TIP-ANGLE': '60' }, lengths: { HEIGHT: 5, DEPTH: 0.1, 'TIP-DIA': 0.1, 'CHIP-LOAD': 0.01, 'RUN-OUT': 0.002, 'AT-X': 40 } },
  { process: handover, plain: { RPM: '300', 'SUB-ANGLE': '90' }, lengths: { 'GRIP-Z': -400, 'RETRACT-Z': 0, OVERLAP: 10, APPROACH: 5, FEED: 200 } },
];

const fineCard: MachineCard = { ...subCard, codes: { ...subCard.codes, inverseTime: 'G93' }, limits: {}, decimals: 5 };

function blockOf({ process, plain, lengths }: (typeof jobs)[number], units: Units, card: MachineCard): string[] {
  const scaled = Object.entries(lengths).map(([name, value]) => [name, units === 'mm' ? String(value) : (value / 25.4).toFixed(12)] as const);
  const { lines, problems } = composeText(process, { ...plain, ...Object.fromEntries(scaled) }, { units, card }, { comment: card.comment, maxLineLength: card.maxLineLength });
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return lines;
}

const isComment = (line: string) => /^[(;]/.test(line);
const numbersOf = (lines: readonly string[], letters: RegExp) => lines.filter((line) => !isComment(line)).flatMap((line) => [...line.matchAll(letters)].map((match) => Number(match[1])));

describe('every style', () => {
  it('gives a block that reads back without an error and keeps the line limit', () => {
    const style = fc.record({ comment: fc.constantFrom('parentheses', 'semicolon'), diameterProgramming: fc.boolean(), maxLineLength: fc.constantFrom(60, 80, 200), decimals: fc.constantFrom(3, 4, 5) });
    fc.assert(fc.property(fc.constantFrom(...jobs), fc.constantFrom<Units>('mm', 'inch'), style, (job, units, own) => {
      const card = { ...fineCard, ...own } as MachineCard;
      const lines = blockOf(job, units, card);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(own.maxLineLength);
      const program = readProgram([`${units === 'mm' ? 'G21' : 'G20'} G90 G18 G40`, 'M05', ...lines, 'M30'].join('\n'), dialectOf(card));
      expect(program.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
    }), { numRuns: 120 });
  });

  it.each(jobs.map((job) => [job.process.keyword, job] as const))('%s: inch and metric blocks go to the same places', (_keyword, job) => {
    // The stand-off and the gap before the cut are round figures in each unit, so places that only they decide differ by up to 0.02 mm.
    const [metric, inch] = (['mm', 'inch'] as const).map((units) => numbersOf(blockOf(job, units, fineCard), /[XYZW](-?[\d.]+)/g));
    expect(inch).toHaveLength(metric?.length ?? NaN);
    (inch ?? []).forEach((value, index) => expect(Math.abs(value * 25.4 - (metric?.[index] ?? NaN))).toBeLessThan(0.021));
    const cuts = (units: Units) => numbersOf(blockOf(job, units, fineCard).filter((line) => /^(G01|M951)/.test(line)), /[XYZW](-?[\d.]+)/g);
    const [metricCuts, inchCuts] = [cuts('mm'), cuts('inch')];
    expect(metricCuts.length).toBeGreaterThan(0);
    inchCuts.forEach((value, index) => expect(Math.abs(value * 25.4 - (metricCuts[index] ?? NaN))).toBeLessThan(0.0003));
  });

  it.each(jobs.map((job) => [job.process.keyword, job] as const))('%s: X is half of it where the card programs radii, and nothing else changes', (_keyword, job) => {
    const diameters = blockOf({ ...job, lengths: { ...job.lengths } }, 'mm', fineCard).filter((line) => !isComment(line));
    const atX = job.lengths['AT-X'];
    const radii = blockOf({ ...job, lengths: { ...job.lengths, ...(atX === undefined ? {} : { 'AT-X': atX / 2 }) } }, 'mm', { ...fineCard, diameterProgramming: false }).filter((line) => !isComment(line));
    expect(radii).toHaveLength(diameters.length);
    radii.forEach((line, index) => {
      const other = diameters[index] ?? '';
      expect(line.replace(/X\S+/, '')).toBe(other.replace(/X\S+/, ''));
      const [radius, diameter] = [line, other].map((each) => /X(-?[\d.]+)/.exec(each)?.[1]);
      if (radius !== undefined) expect(Math.abs(2 * Number(radius) - Number(diameter))).toBeLessThan(0.000021);
    });
  });
});
