/** Radial entry: where it goes in, how fast, how long it stays, and when it is refused or proposed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { solveWord } from '../../../server/src/process/solve.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard, withCodes } from '../../invented-machine.ts';
import { figureOf, values } from './figures.ts';
import { composed, numberIn } from './sub-spindle.ts';

const gear = 'MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 RPM=300 FEED=1.5';
const plunge = `${gear} ENTRY=PLUNGE RADIAL-FEED=.4`;
const roomyCard: MachineCard = { ...inventedCard, limits: {}, toolUnits: [] };

/** The blocks from the coupling to its end. */
function coupledBlocks(text: string, card: MachineCard = roomyCard): string[] {
  const { blocks, problems } = composed(hobbing, text, card);
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return blocks.slice(blocks.findIndex((block) => block.startsWith('G881')) + 1, blocks.indexOf('G880')).filter((block) => !/^M0[89]$/.test(block));
}

const shapeOf = (block: string) => block.replace(/-?\d*\.\d*/g, '#').replace(/S\d+/, 'S#');
const figure = (text: string, id: string) => figureOf(hobbing.evaluate(values(text), { units: 'mm', card: roomyCard }), id);

describe('the block of a plunge', () => {
  it('goes in at a feed along X alone, stays, feeds along, comes out, goes back; once a cut', () => {
    const one = ['G00 X#', 'G01 X# F#', 'G04 P#', 'G01 Z# F#', 'G00 X#', 'G00 Z#'];
    expect(coupledBlocks(plunge).map(shapeOf)).toEqual(one);
    expect(coupledBlocks(`${plunge} CUTS=3 HELIX=20`).map(shapeOf)).toEqual([...one, ...one, ...one]);
  });

  it('feeds in from half the clearance before the blank, later cuts from half the clearance before the depth of the one before [derived]', () => {
    // Tip diameter 68 and hob 63 touch at a diameter of 131; the clearance is 2, so 1 in radius.
    const blocks = coupledBlocks(`${plunge} CUTS=2 CLEARANCE=2`);
    const starts = [0, 6].map((index) => numberIn(blocks[index] ?? '', 'X'));
    const depths = [1, 7].map((index) => numberIn(blocks[index] ?? '', 'X'));
    expect(starts[0]).toBeCloseTo(131 + 2, 6);
    expect(starts[1]).toBeCloseTo((depths[0] ?? NaN) + 2, 6);
    // The root of 32 teeth of module 2 without shift: 64 - 2.5 x 2 = 59.
    expect(depths[1]).toBeCloseTo(59 + 63, 6);
  });

  it('stands off the first face by as much as it passes the last one [derived: the generating zone is finished from either side alike]', () => {
    const any = fc.record({ HELIX: fc.integer({ min: 0, max: 40 }), HAND: fc.constantFrom('RIGHT', 'LEFT'), 'HOB-HAND': fc.constantFrom('RIGHT', 'LEFT'), CLEARANCE: fc.constantFrom(0, 1, 4), CUTS: fc.integer({ min: 1, max: 3 }), 'FACE-Z': fc.integer({ min: -9, max: 9 }) });
    fc.assert(fc.property(any, (raw) => {
      const text = `${plunge} ${Object.entries(raw).map(([name, value]) => `${name}=${value}`).join(' ')}`;
      const { blocks } = composed(hobbing, text, roomyCard);
      const start = numberIn(blocks.find((block) => block.startsWith('G00 Y')) ?? '', 'Z') - raw['FACE-Z'];
      const ends = blocks.filter((block) => block.startsWith('G01 Z')).map((block) => numberIn(block, 'Z') - raw['FACE-Z']);
      // Z words are rounded one by one.
      for (const end of ends) expect(Math.abs(start + (end + 20))).toBeLessThan(0.0011);
      expect(start).toBeLessThan(figure(text.replace('ENTRY=PLUNGE RADIAL-FEED=.4', ''), 'approach'));
    }), { numRuns: 40 });
  });

  it('lasts as long as it is said to: radial feed, spark-out and axial feed [time of the program engine, which knows no hob]', () => {
    for (const more of ['', ' CUTS=3', ' SPARK-OUT=0', ' SPARK-OUT=2.5 HELIX=15 HAND=LEFT']) {
      const { blocks } = composed(hobbing, plunge + more, roomyCard);
      const program = readProgram(['G21 G90 G94', 'G00 X400.0 Z200.0', ...blocks, 'M30'].join('\n'), dialectOf({ ...roomyCard, rapids: { x: 1e6, y: 1e6, z: 1e6 } }));
      const cutting = [...program.moves()].filter(({ kind }) => kind !== 'rapid').reduce((sum, { seconds }) => sum + (seconds ?? NaN), 0);
      expect(Math.abs(cutting / figure(plunge + more, 'cuttingTime') - 1), more).toBeLessThan(1e-3);
    }
  });

  it('stays at least as many revolutions of the work as asked, never less by rounding', () => {
    for (const [rpm, sparkOut] of [[300, 1], [310, 0.5], [310, 1], [307, 3]] as const) {
      const seconds = numberIn(coupledBlocks(`${plunge.replace('RPM=300', `RPM=${rpm}`)} SPARK-OUT=${sparkOut}`)[2] ?? '', 'P');
      const wanted = (60 * sparkOut) / (rpm / 32);
      expect(seconds).toBeGreaterThanOrEqual(wanted - 1e-12);
      expect(seconds).toBeLessThan(wanted + 0.0011);
    }
    expect(coupledBlocks(`${plunge} SPARK-OUT=0`).some((block) => block.startsWith('G04'))).toBe(false);
  });

  it('turns no C on the way in, also where C makes the helix', () => {
    const byC: MachineCard = { ...roomyCard, ...withCodes({ syncOn: 'G881 P{starts} Q{sense}{teeth}' }), limits: {}, toolUnits: [], differentialByWorkAxis: 'absolute' };
    const blocks = coupledBlocks(`${plunge} HELIX=20 CUTS=2`, byC);
    expect(blocks.map(shapeOf)).toEqual(Array.from({ length: 2 }, () => ['G00 X#', 'G01 X# F#', 'G04 P#', 'G01 Z# C# F#', 'G00 X#', 'G00 Z# C#']).flat());
    expect(blocks.at(-1)).toMatch(/C0\.0$/);
  });

  it('counts its feed as the card counts X, and X as a diameter or a radius', () => {
    const [feed, along] = [1, 3].map((index) => numberIn(coupledBlocks(plunge)[index] ?? '', 'F'));
    expect(feed).toBeCloseTo(0.4 * (300 / 32), 3);
    const onDiameter = coupledBlocks(plunge, { ...roomyCard, xFeedOnDiameter: true });
    expect([1, 3].map((index) => numberIn(onDiameter[index] ?? '', 'F'))).toEqual([2 * (feed ?? NaN), along]);
    expect(figureOf(hobbing.evaluate(values(plunge), { units: 'mm', card: { ...roomyCard, xFeedOnDiameter: true } }), 'radialFeedPerMinute')).toBeCloseTo(2 * 0.4 * (300 / 32), 9);
    const radii = coupledBlocks(plunge, { ...roomyCard, diameterProgramming: false });
    coupledBlocks(plunge).forEach((block, index) => {
      if (block.includes('X')) expect(numberIn(radii[index] ?? '', 'X')).toBeCloseTo(numberIn(block, 'X') / 2, 3);
      if (block.includes('F')) expect(numberIn(radii[index] ?? '', 'F')).toBe(numberIn(block, 'F'));
    });
  });

  it('on the -X side goes in from the other side with the same words', () => {
    const there: MachineCard = { ...roomyCard, senses: { ...roomyCard.senses, hobSide: '-X' } };
    const mirrored = coupledBlocks(plunge, there).map((block) => block.replace('X-', 'X'));
    expect(mirrored).toEqual(coupledBlocks(plunge));
    expect(coupledBlocks(plunge, there).filter((block) => block.includes('X')).every((block) => block.includes('X-'))).toBe(true);
  });

  it('tells the operator', () => {
    expect(composed(hobbing, plunge, roomyCard).comments.join(' ')).toContain('RADIAL ENTRY: X FEEDS IN BESIDE THE FACE');
    expect(composed(hobbing, gear, roomyCard).comments.join(' ')).not.toContain('RADIAL');
  });
});

it('the words of its feeds and of its stay are taken back into the parameters that give them', () => {
  const raw = values(plunge);
  const setting = { units: 'mm', card: roomyCard } as const;
  const lines = hobbing.compose(raw, setting).lines.flatMap((line) => (line.kind === 'block' ? [line.words] : []));
  const taken = (start: string, letter: string, target: number) => {
    const block = lines.findIndex((words) => words.startsWith(start));
    const word = (lines[block] ?? '').split(' ').findIndex((each) => each.startsWith(letter));
    return solveWord(hobbing, raw, setting, { block, word }, target)[0];
  };
  expect(taken('G01 X', 'F', 3)).toEqual({ parameter: 'RADIAL-FEED', value: '0.32' });
  expect(taken('G01 Z', 'F', 9.375)).toEqual({ parameter: 'FEED', value: '1' });
  expect(taken('G04', 'P', 12.8)).toEqual({ parameter: 'SPARK-OUT', value: '2' });
});

it('the sum of axial and radial time is not passed off as a published one', () => {
  const time = (text: string) => hobbing.evaluate(values(text), { units: 'mm', card: roomyCard }).quantities.find(({ id }) => id === 'cuttingTime');
  expect(time(gear)?.source).toMatch(/recomputed published value/);
  expect(time(plunge)).toMatchObject({ source: 'elementary (derived)', working: expect.stringMatching(/^60 L \/ v_f \+ t_r = /) as string });
});

describe('what is wrong with a plunge', () => {
  it.each<[string, string, string, RegExp]>([
    ['no radial feed', `${gear} ENTRY=PLUNGE`, 'missing-parameter', /^RADIAL-FEED is missing: ENTRY=PLUNGE needs/],
    ['a radial feed and no plunge', `${gear} RADIAL-FEED=.4`, 'bad-value', /^RADIAL-FEED is given, but the hob comes in along the work/],
    ['a feed that comes to nothing', `${plunge.replace('RADIAL-FEED=.4', 'RADIAL-FEED=.00002')}`, 'zero-word', /^RADIAL-FEED is too small: the feed comes to nothing in the word F0\.0/],
    ['a feed out of range', plunge.replace('RADIAL-FEED=.4', 'RADIAL-FEED=21'), 'bad-value', /RADIAL-FEED: 21 is not allowed: it must be more than 0, at most 20/],
  ])('%s', (_name, text, rule, message) => {
    const { problems } = composed(hobbing, text, roomyCard);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([expect.objectContaining({ parameter: 'RADIAL-FEED', rule, message: expect.stringMatching(message) as string })]);
  });

  it('without a word for a dwell there is a hole, unless none is wanted', () => {
    const silent: MachineCard = { ...withCodes({ dwell: undefined }), limits: {}, toolUnits: [] };
    const { blocks, problems } = composed(hobbing, plunge, silent);
    expect(blocks).toContain('<dwell>');
    expect(problems).toMatchObject([{ rule: 'hole', cardKey: 'codes.dwell' }]);
    expect(composed(hobbing, `${plunge} SPARK-OUT=0`, silent).problems).toEqual([]);
  });
});

describe('room before the teeth', () => {
  const collar = `${gear} FRONT-DIA=66`;
  const [axial, radial] = [`${collar} FRONT-GAP=100`, `${collar.replace(gear, plunge)} FRONT-GAP=100`].map((text) => figure(text, 'neededEntryRoom'));

  it('a plunge needs what the hob needs behind the teeth, which is less than an approach [derived]', () => {
    expect(radial).toBeCloseTo(figure(`${gear} SHOULDER-DIA=66 SHOULDER-GAP=100`, 'neededRoom'), 9);
    expect((axial ?? NaN) - (radial ?? NaN)).toBeCloseTo(figure(gear, 'approach') - figure(gear, 'overrun'), 9);
  });

  it('where an approach finds no room but a plunge does, the check proposes it, and it is then accepted', () => {
    const gap = (((axial ?? NaN) + (radial ?? NaN)) / 2).toFixed(2);
    const { problems } = composed(hobbing, `${collar} FRONT-GAP=${gap}`, roomyCard);
    expect(problems).toMatchObject([{ parameter: 'FRONT-GAP', rule: 'hob-room', message: expect.stringMatching(/ENTRY=PLUNGE finds room: it needs [\d.]+ mm\.$/) as string }]);
    expect(composed(hobbing, `${plunge} FRONT-DIA=66 FRONT-GAP=${gap}`, roomyCard).problems).toEqual([]);
  });

  it('where neither does, it says what a plunge would need; a plunge is not told of itself', () => {
    expect(composed(hobbing, `${collar} FRONT-GAP=3`, roomyCard).problems[0]?.message).toMatch(/ENTRY=PLUNGE would need [\d.]+ mm\.$/);
    const { problems } = composed(hobbing, `${plunge} FRONT-DIA=66 FRONT-GAP=3`, roomyCard);
    expect(problems).toMatchObject([{ parameter: 'FRONT-GAP', rule: 'hob-room' }]);
    expect(problems[0]?.message).not.toContain('ENTRY');
  });
});
