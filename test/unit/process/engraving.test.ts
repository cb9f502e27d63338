import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { composed, numberIn, plainAxes, subCard, subCodes } from './sub-spindle.ts';

const tool = 'DEPTH=.1 TIP-DIA=.1 TIP-ANGLE=60 FLUTES=1 RPM=5000 CHIP-LOAD=.003 RUN-OUT=.002';
const face = `TEXT=L HEIGHT=5 ${tool} AT-X=40`;
const cylinder = `TEXT=L HEIGHT=5 ${tool} SURFACE=CYLINDER DIA=50 AT-Z=-10`;
const fullCard: MachineCard = { ...subCard, codes: { ...subCard.codes, inverseTime: 'G93' } };

describe('the whole block', () => {
  it('on the face', () => {
    expect(composed(engraving, face)).toMatchObject({
      problems: [],
      blocks: [
        'G94', 'M881', 'G00 X50.0 Y-0.952', 'G00 Z0.5', 'M11', 'G00 C0.0', 'M10', 'M883 S5000', 'M08',
        'G00 X50.0 Y-0.952', 'G01 Z-0.1 F5.25', 'G01 X40.0 Y-0.952 F15.0', 'G00 Z0.5', 'G00 X40.0 Y-0.952', 'G01 Z-0.1 F5.25', 'G01 X40.0 Y-3.81 F15.0', 'G00 Z0.5',
        'G00 Y0.0', 'M11', 'M09', 'M885', 'M880',
      ],
    });
  });

  it('round a cylinder: inverse time is in force only where C and Z move together', () => {
    const { blocks } = composed(engraving, cylinder, fullCard);
    // L 5 mm high: 2.857 mm of arc on diameter 50 are 6.548 deg; at 15 mm/min a step of 5 mm takes 1/3 minute, one of 2.857 mm 1/5.25 [derived].
    expect(blocks).toEqual([
      'G94', 'M881', 'M11', 'G00 C-2.183 Z-5.0 Y0.0', 'G00 X51.0', 'M883 S5000', 'M08',
      'G00 C-2.183 Z-5.0', 'G01 X49.8 F5.25', 'G93', 'G01 C-2.183 Z-10.0 F3.0', 'G94', 'G00 X51.0',
      'G00 C-2.183 Z-10.0', 'G01 X49.8 F5.25', 'G93', 'G01 C-8.731 Z-10.0 F5.25', 'G94', 'G00 X51.0',
      'M09', 'M885', 'M880',
    ]);
  });

  it('a card without inverse time gets a hole round a cylinder, and none on a face', () => {
    const round = composed(engraving, cylinder);
    expect(round.blocks).toContain('<inverseTime>');
    expect([...new Set(round.problems.map(({ cardKey }) => cardKey))]).toEqual(['codes.inverseTime']);
    expect(composed(engraving, face).problems).toEqual([]);
  });
});

describe('a text that does not fit', () => {
  it('beyond the rim is an error that says how far it reaches: sqrt(25^2 + 0.952^2) and half a line [derived]', () => {
    const { lines, problems } = composed(engraving, `${face} DIA=50`);
    expect(lines).toEqual([]);
    expect(problems).toEqual([expect.objectContaining({ parameter: 'TEXT', rule: 'text-off-face', severity: 'error', message: expect.stringMatching(/^TEXT reaches to a diameter of 50\.25\d mm, and the face has 50: it must be shorter, smaller \(HEIGHT\) or nearer to the axis \(AT-X\)\.$/) as string })]);
    expect(composed(engraving, `${face} DIA=50.3`).problems).toEqual([]);
  });

  it('beyond the travel of Y is an error', () => {
    expect(composed(engraving, face.replace('TEXT=L', 'TEXT=LLLLLLLLLLLLLLLLL')).problems).toEqual([expect.objectContaining({ parameter: 'TEXT', rule: 'machine-limit', message: expect.stringMatching(/reaches \d+\.\d+ along Y is beyond the machine: it must be such that Y is from -50 to 50/) as string })]);
  });

  it.each<[string, string, string, RegExp]>([
    ['the travel of X', face.replace('AT-X=40', 'AT-X=420'), 'AT-X', /^AT-X: X would go to 430, which is beyond the machine: it must be from -20 to 420 mm\.$/],
    ['the travel of X beyond the axis', face.replace('AT-X=40', 'AT-X=-31'), 'AT-X', /^AT-X: X would go to -21, /],
    ['the travel of Z in front of the face', `${face} FACE-Z=49.8`, 'FACE-Z', /^FACE-Z: Z would go to 50\.3, /],
    ['the travel of X round a cylinder', cylinder.replace('DIA=50', 'DIA=419.5'), 'DIA', /^DIA: X would go to 420\.5, /],
    ['the travel of Z along a cylinder', cylinder.replace('AT-Z=-10', 'AT-Z=46'), 'AT-Z', /^AT-Z: Z would go to 51, /],
  ])('beyond %s is an error', (_name, text, parameter, message) => {
    const limited: MachineCard = { ...fullCard, limits: { x: [-20, 420], y: [-50, 50], z: [-600, 50] } };
    const { lines, problems } = composed(engraving, text, limited);
    expect(lines).toEqual([]);
    expect(problems[0]).toMatchObject({ parameter, rule: 'machine-limit', severity: 'error', message: expect.stringMatching(message) as string });
  });

  it('in the sub-spindle Z is not judged by limits that count from the zero of the main one', () => {
    expect(composed(engraving, `${face} FACE-Z=200 SPINDLE=SUB`, fullCard).problems).toEqual([]);
  });
});

type Point = readonly [number, number, number];

/** The end points of all cutting moves of a face engraving, X as a radius, in the order of the block. */
function drawn(blocks: readonly string[]): Point[] {
  let z = 0;
  return blocks.flatMap((block): Point[] => {
    if (block.includes(' Z')) z = numberIn(block, 'Z');
    return /^G0[01] X\S+ Y/.test(block) ? [[numberIn(block, 'X') / 2, numberIn(block, 'Y'), z]] : [];
  });
}

/** Down the L, then along its foot: the first step goes against the letters' tops, the second in reading direction. */
function readingCrossTops(points: readonly Point[]): number {
  const [, top = [NaN, NaN, NaN], foot = [NaN, NaN, NaN], , end = [NaN, NaN, NaN]] = points;
  const tops = [top[0] - foot[0], top[1] - foot[1]] as const;
  const reading = [end[0] - foot[0], end[1] - foot[1]] as const;
  return reading[0] * tops[1] - reading[1] * tops[0];
}

describe('on the face in the sub-spindle', () => {
  it('the text is not mirrored: reading direction, tops and the way out of the face are right-handed on both spindles of plain machine axes', () => {
    // The main face looks to +Z, the other to -Z; in right-handed machine axes the cross product of reading and tops points out of the face.
    expect(readingCrossTops(drawn(composed(engraving, face, subCard).blocks))).toBeGreaterThan(0);
    expect(readingCrossTops(drawn(composed(engraving, `${face} SPINDLE=SUB`, subCard).blocks))).toBeLessThan(0);
  });

  it('the tool plunges toward the work, by the sense of Z and with the codes of the sub-spindle', () => {
    const { blocks } = composed(engraving, `${face} SPINDLE=SUB FACE-Z=200`, subCard);
    expect(blocks.slice(0, 8)).toEqual(['G94', 'M981', 'G00 X50.0 Y0.952', 'G00 Z199.5', 'M911', 'G00 C0.0', 'M910', 'M883 S5000']);
    expect(blocks.filter((block) => block.startsWith('G01 Z'))).toEqual(['G01 Z200.1 F5.25', 'G01 Z200.1 F5.25']);
    expect(blocks.slice(-2)).toEqual(['M885', subCodes.subAxisOff]);
  });

  it.each([[1, 'G00 C-30.0'], [-1, 'G00 C30.0']] as const)('its place follows the sense of C there: %d', (workRotation, word) => {
    expect(composed(engraving, `${face} SPINDLE=SUB ANGLE=30`, { ...subCard, subSpindle: { ...plainAxes, workRotation } }).blocks).toContain(word);
  });

  it.each<[string, string, MachineCard['subSpindle'], string]>([
    ['the sense of Z', face, { ySense: -1, workRotation: 1 }, 'subSpindle.zSense'],
    ['the side of Y', face, { zSense: -1, workRotation: 1 }, 'subSpindle.ySense'],
    ['the sense of C, for an angle', `${face} ANGLE=10`, { zSense: -1, ySense: -1 }, 'subSpindle.workRotation'],
    ['the sense of C, round a cylinder', cylinder, { zSense: -1 }, 'subSpindle.workRotation'],
  ])('without %s it is an error that names the key', (_name, text, subSpindle, cardKey) => {
    const { lines, problems } = composed(engraving, `${text} SPINDLE=SUB`, { ...fullCard, subSpindle });
    expect(lines).toEqual([]);
    expect(problems).toEqual([expect.objectContaining({ parameter: 'SPINDLE', cardKey, rule: 'unstated-sense', severity: 'error' })]);
  });

  it('round a cylinder the tops of the letters point out of the face', () => {
    const zs = composed(engraving, `${cylinder} SPINDLE=SUB`, fullCard).blocks.filter((block) => block.startsWith('G00 C')).map((block) => numberIn(block, 'Z'));
    expect(zs).toEqual([-15, -15, -10]);
  });
});

describe('every block', () => {
  it('reads back without an error, and the tool is off the surface before it moves in rapid', () => {
    const any = fc.record({
      TEXT: fc.constantFrom('A', 'B7', 'H-32', 'X.Y'), HEIGHT: fc.constantFrom('2', '4.5'), SURFACE: fc.constantFrom('FACE', 'CYLINDER'), ANGLE: fc.integer({ min: -180, max: 180 }).map(String), SPINDLE: fc.constantFrom('MAIN', 'SUB'),
    });
    fc.assert(fc.property(any, fc.constantFrom<1 | -1>(1, -1), fc.constantFrom<1 | -1>(1, -1), (raw, zSense, ySense) => {
      const card: MachineCard = { ...fullCard, subSpindle: { ...plainAxes, zSense, ySense } };
      const place = raw.SURFACE === 'FACE' ? 'AT-X=40 FACE-Z=-5' : 'DIA=50 AT-Z=-10';
      const { lines, blocks, problems } = composed(engraving, `${Object.entries(raw).map(([name, value]) => `${name}=${value}`).join(' ')} ${tool} ${place}`, card);
      expect(problems).toEqual([]);
      const program = readProgram(['G21 G90 G18 G40', 'M05', ...lines, 'M30'].join('\n'), dialectOf(card));
      expect(program.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
      const depthLetter = raw.SURFACE === 'FACE' ? 'Z' : 'X';
      const floor = raw.SURFACE === 'FACE' ? -5 - 0.1 * (raw.SPINDLE === 'SUB' ? zSense : 1) : 49.8;
      let depth = NaN;
      for (const block of blocks) {
        const isRapidAlong = block.startsWith('G00') && (raw.SURFACE === 'FACE' ? block.includes(' X') : block.includes(' C'));
        if (isRapidAlong && !Number.isNaN(depth)) expect(Math.abs(depth - floor), block).toBeGreaterThan(0.5);
        if (new RegExp(` ${depthLetter}`).test(block) && !/ [YC]/.test(block)) depth = numberIn(block, depthLetter);
      }
    }), { numRuns: 60 });
  });
});
