/** Slots whose strokes go through a subprogram: the same moves as written out, a number of their own, and nothing where the card leaves anything open. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import type { Setting } from '../../../server/src/process/process.ts';
import { slotting } from '../../../server/src/process/slotting.ts';
import { readProgram, type Move } from '../../../server/src/program/index.ts';
import { inventedCard } from '../../invented-machine.ts';
import { values } from './figures.ts';
import { callingCard, programOf } from './subprogram-cards.ts';

const standing = 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=0.05';
const driven = 'BORE=30 LENGTH=25 RPM=500 FEED=0.05';

const fresh = (card: MachineCard, used: number[] = [], mayCall = true): Setting => ({ units: 'mm', card, fresh: { programNumbers: new Set(used), mayCall } });

function madeNew(text: string, setting: Setting) {
  const composed = composeText(keyway, keyway.settled(values(text), setting), setting, { comment: 'parentheses', maxLineLength: 80 });
  return { ...composed, blocks: composed.lines.filter((line) => !line.startsWith('(')) };
}

describe('a standing tool', () => {
  it('makes the strokes that are alike by repeating one in steps, and the last one and those without feed on the floor itself', () => {
    const { blocks, subprogram, lines } = madeNew(`${standing} SPARK-OUT=1`, fresh(callingCard));
    // 3.3 and 0.5432 of sagitta at 0.05 are 77 strokes, 76 of them whole; the geometry is that of the reference case with a bore of 30 [derived].
    expect(blocks.slice(8, -2)).toEqual(['M898 P8000 L76', 'G00 X36.6', 'G01 Z-27.0 F8000.0', 'G00 X35.6', 'G00 Z2.0', 'G00 X36.6', 'G01 Z-27.0 F8000.0', 'G00 X35.6', 'G00 Z2.0', 'G00 X27.914', 'M09']);
    expect(subprogram).toEqual(['O8000', '(ONE STROKE OF THE KEYWAY BLOCK WITH PROGRAM=8000)', 'G00 U1.1', 'G01 W-29.0 F8000.0', 'G00 U-1.0', 'G00 W29.0', 'M899']);
    expect(lines.slice(0, 2)).toEqual(['(KEYWAY: BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=0.05 SPARK-OUT=1)', '(+ PROGRAM=8000)']);
  });

  it('steps between the words for incremental and absolute where there are no letters for it', () => {
    const { subprogram } = madeNew(standing, fresh({ ...callingCard, incrementalAxes: {} }));
    expect(subprogram.slice(2)).toEqual(['G91', 'G00 X1.1', 'G01 Z-29.0 F8000.0', 'G00 X-1.0', 'G00 Z29.0', 'G90', 'M899']);
  });

  it('steps by half where X is a radius, and needs no word on diameters then', () => {
    const { subprogram } = madeNew(standing, fresh({ ...callingCard, diameterProgramming: false, subprograms: { place: 'behindEnd', numbers: [8000, 8099] } }));
    expect(subprogram.slice(2, 5)).toEqual(['G00 U0.55', 'G01 W-29.0 F8000.0', 'G00 U-0.5']);
  });

  it('calls several times where a call does not repeat so often', () => {
    const { blocks } = madeNew(standing, fresh({ ...callingCard, subprograms: { ...callingCard.subprograms!, mostRepeats: 30 } }));
    expect(blocks.filter((block) => block.startsWith('M898'))).toEqual(['M898 P8000 L30', 'M898 P8000 L30', 'M898 P8000 L16']);
  });

  it('may make more strokes than a block that is written out', () => {
    const fine = standing.replace('FEED=0.05', 'FEED=0.001');
    expect(madeNew(fine, fresh(callingCard)).blocks).toContain('M898 P8000 L3843');
    expect(madeNew(fine, fresh(inventedCard)).problems).toEqual([expect.objectContaining({ rule: 'too-many-strokes', parameter: 'FEED' })]);
  });
});

describe('several slots', () => {
  it('of a driven unit call one slot at each angle', () => {
    const { blocks, subprogram } = madeNew(`${driven} COUNT=3`, fresh(callingCard));
    expect(blocks.slice(7, -5)).toEqual(['0.0', '120.0', '240.0'].flatMap((angle) => ['M11', `G00 C${angle}`, 'M10', 'M898 P8000 L1']));
    expect(subprogram).toEqual(['O8000', '(ONE SLOT OF THE KEYWAY BLOCK WITH PROGRAM=8000)', 'G01 X36.6 F25.0', 'G04 P0.24', 'G00 X27.914', 'M899']);
  });

  it('of a standing tool call one slot where strokes cannot be steps', () => {
    const absolute = { ...callingCard, incrementalAxes: {}, codes: { ...callingCard.codes, incremental: '' } };
    const { blocks, subprogram } = madeNew(`${standing} COUNT=2 SPARK-OUT=0`, fresh(absolute));
    expect(blocks.filter((block) => block.startsWith('M898'))).toEqual(['M898 P8000 L1', 'M898 P8000 L1']);
    expect(subprogram).toHaveLength(3 + 4 * 77 + 1);
  });

  it('of a square or a hexagon do so too', () => {
    const raw = slotting.settled(values('SHAPE=HEXAGON BORE=10 ACROSS-FLATS=10 LENGTH=12 RPM=600 FEED=.04'), fresh(callingCard));
    expect(raw['PROGRAM']).toBe('8000');
    expect(programOf(slotting, raw, callingCard).match(/^M898 P8000 L1$/gm)).toHaveLength(6);
  });
});

describe('written out', () => {
  it.each<[string, string, Partial<MachineCard>, RegExp]>([
    ['there is no range of numbers', standing, { subprograms: undefined }, /does not say subprograms /],
    ['there is no word for the return', standing, { codes: { ...callingCard.codes, subprogramReturn: '' } }, /does not say codes\.subprogramReturn /],
    ['the number is not read back', standing, { codes: { ...callingCard.codes, subprogramCall: 'M898 P{repeats}{program}' } }, /does not say codes\.subprogramCall /],
    ['the first words are no program number', standing, { codes: { ...callingCard.codes, subprogramStart: '<{program}>'.replace(/[<>]/g, 'L') } }, /does not say codes\.subprogramStart /],
    ['calls do not repeat', standing, { codes: { ...callingCard.codes, subprogramCall: 'M898 P{program}' } }, /no \{repeats\}/],
    ['it is open whether steps count on the diameter', standing, { subprograms: { place: 'behindEnd', numbers: [8000, 8099] } }, /count on the diameter/],
    ['nothing steps', standing, { incrementalAxes: {}, codes: { ...callingCard.codes, absolute: '' } }, /no incremental words/],
    ['the feed is finer than X', standing.replace('0.05', '0.05003'), {}, /0\.05003 has more decimals than an X word/],
  ])('where %s, and it is said', (_name, text, change, why) => {
    const { subprogram, problems, lines } = madeNew(text, fresh({ ...callingCard, ...change } as MachineCard));
    expect(subprogram).toEqual([]);
    expect(lines.join('\n')).not.toContain('PROGRAM');
    expect(problems).toEqual([expect.objectContaining({ parameter: 'PROGRAM', rule: 'written-out', severity: 'information', message: expect.stringMatching(why) as string })]);
  });

  it.each<[string, string, Setting]>([
    ['the card does not speak of subprograms', standing, fresh(inventedCard)],
    ['nothing repeats', driven, fresh(callingCard)],
    ['the block goes where it may not call', standing, fresh(callingCard, [], false)],
    ['it is asked for', `${standing} PROGRAM=0`, fresh(callingCard)],
    ['the block is an older one whose note names no number', standing, { units: 'mm', card: callingCard }],
  ])('where %s, without a word', (_name, text, setting) => {
    const { subprogram, problems } = madeNew(text, setting);
    expect([subprogram, problems]).toEqual([[], []]);
  });

  it('all numbers in use are said, and none is taken', () => {
    const card: MachineCard = { ...callingCard, subprograms: { ...callingCard.subprograms!, numbers: [8000, 8001] } };
    expect(madeNew(standing, fresh(card, [8000])).lines[0]).toContain('PROGRAM=8001');
    expect(madeNew(standing, fresh(card, [8001, 8000])).problems).toEqual([expect.objectContaining({ rule: 'written-out', message: expect.stringMatching(/every number .* is in use/) as string })]);
  });
});

describe('a number that is given', () => {
  const problemsOf = (text: string, setting: Setting) => madeNew(text, setting).problems;

  it('is taken as it is, also by a card without a range', () => {
    expect(madeNew(`${standing} PROGRAM=8042`, fresh(callingCard)).subprogram[0]).toBe('O8042');
    expect(madeNew(`${driven} COUNT=2 PROGRAM=77`, fresh({ ...callingCard, subprograms: undefined })).subprogram[0]).toBe('O77');
  });

  it('must be of the range and free', () => {
    expect(problemsOf(`${standing} PROGRAM=9000`, fresh(callingCard))).toEqual([expect.objectContaining({ parameter: 'PROGRAM', rule: 'machine-limit', message: expect.stringMatching(/from 8000 to 8099, or 0/) as string })]);
    expect(problemsOf(`${standing} PROGRAM=8007`, fresh(callingCard, [8007]))).toEqual([expect.objectContaining({ parameter: 'PROGRAM', rule: 'bad-value', message: expect.stringMatching(/8007 is a program that this file has or calls already/) as string })]);
  });

  it('without a use is a warning, and the block is written out', () => {
    const { problems, subprogram } = madeNew(`${driven} PROGRAM=8000`, fresh(callingCard));
    expect(problems).toEqual([expect.objectContaining({ parameter: 'PROGRAM', rule: 'written-out', severity: 'warning', message: expect.stringMatching(/8000 has no use: a driven unit strokes by itself/) as string })]);
    expect(subprogram).toEqual([]);
  });

  it('makes holes of words that the card does not say', () => {
    const { problems, subprogram, blocks } = madeNew(`${driven} COUNT=2 PROGRAM=8000`, fresh(inventedCard));
    expect(problems.map(({ rule, cardKey }) => `${rule} ${cardKey}`).sort()).toEqual(['hole codes.subprogramCall', 'hole codes.subprogramCall', 'hole codes.subprogramReturn', 'hole codes.subprogramStart']);
    expect([blocks.filter((block) => block === '<subprogramCall>').length, subprogram[0], subprogram.at(-1)]).toEqual([2, '<subprogramStart>', '<subprogramReturn>']);
  });
});

/** Where every axis goes, how, and how long it takes; not from which line. */
function movesOf(text: string, card: MachineCard): Partial<Move>[] {
  const moves = [...readProgram(text, dialectOf(card)).moves()].filter(({ secondary }) => secondary === undefined);
  return moves.map(({ kind, start, end, seconds, feed, driven: unit }) => ({ kind, start: rounded(start), end: rounded(end), ...(seconds === undefined ? {} : { seconds: Number(seconds.toFixed(9)) }), ...(feed === undefined ? {} : { feed }), ...(unit ? { driven: unit } : {}) }));
}

/** Steps are added up in the computer's numbers; words have at most six decimals. */
function rounded(position: Move['start']): Move['start'] {
  return Object.fromEntries(Object.entries(position).map(([axis, value]) => [axis, Number(value.toFixed(7))]));
}

const anyKeyway = fc.record({
  BORE: fc.constantFrom('20', '30', '47.3'), LENGTH: fc.constantFrom('8', '25'), FEED: fc.constantFrom('0.04', '0.05', '0.125'), COUNT: fc.constantFrom('1', '2', '3'),
  ANGLE: fc.constantFrom('0', '-33.3'), INSERT: fc.constantFrom('', '4.3', '6'), 'SPARK-OUT': fc.constantFrom('0', '1', '3'), 'FACE-Z': fc.constantFrom('0', '-3.25'), SPINDLE: fc.constantFrom('MAIN', 'SUB'), METHOD: fc.constantFrom('STATIC', 'DRIVEN'),
});
const anyStyle = fc.record({ decimals: fc.constantFrom(3, 4), diameterProgramming: fc.boolean(), byLetters: fc.boolean(), mostRepeats: fc.constantFrom(undefined, 7) });

describe('any keyway through a subprogram', () => {
  it('moves exactly as the same keyway written out, in the same time', () => {
    let compared = 0;
    fc.assert(fc.property(anyKeyway, anyStyle, (raw, { decimals, diameterProgramming, byLetters, mostRepeats }) => {
      const card = {
        ...callingCard, decimals, diameterProgramming, limits: {}, toolUnits: [], subSpindle: { zSense: -1, ySense: -1, workRotation: 1 }, incrementalAxes: byLetters ? callingCard.incrementalAxes : {},
        codes: { ...callingCard.codes, subAxisOn: 'M981', subAxisOff: 'M980', subClamp: 'M910', subUnclamp: 'M911' },
        rapids: { x: 9000, y: 9000, z: 9000, c: 9000 }, subprograms: { ...callingCard.subprograms, mostRepeats },
      } as MachineCard;
      const given = { ...Object.fromEntries(Object.entries(raw).filter(([, value]) => value !== '')), ...(raw.METHOD === 'STATIC' ? { SPEED: '8' } : { RPM: '500' }) };
      const settled = keyway.settled(given, fresh(card));
      const called = programOf(keyway, settled, card);
      expect(called.includes('M898')).toBe(raw.METHOD === 'STATIC' || raw.COUNT !== '1');
      if (called.includes('M898')) compared += 1;
      expect(movesOf(called, card)).toEqual(movesOf(programOf(keyway, given, card), card));
      expect(readProgram(called, dialectOf(card)).problems().filter(({ severity }) => severity === 'error')).toEqual([]);
    }), { numRuns: 60 });
    expect(compared).toBeGreaterThan(20);
  });
});
