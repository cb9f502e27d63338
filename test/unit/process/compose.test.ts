import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import type { Process, Setting } from '../../../server/src/process/process.ts';
import { readProgram, type Program } from '../../../server/src/program/index.ts';
import { inventedCard, withCodes } from '../../invented-machine.ts';
import { figureOf, values } from './figures.ts';

const gear = 'MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';
const slot = 'BORE=30 LENGTH=25 RPM=500 FEED=0.05';

function composed(process: Process, text: string, card: MachineCard = inventedCard, modes?: Setting['modes']): { lines: string[]; rules: string[]; messages: string[] } {
  const setting: Setting = { units: 'mm', card, ...(modes ? { modes } : {}) };
  const { lines, problems } = composeText(process, values(text), setting, { comment: card.comment, maxLineLength: card.maxLineLength });
  return { lines, rules: problems.map(({ rule }) => rule), messages: problems.map(({ message }) => message) };
}

/** The whole block, line by line. */
function check(process: Process, text: string, expected: string, card: MachineCard = inventedCard): void {
  expect(composed(process, text, card).lines).toEqual(expected.trim().split('\n').map((line) => line.trim()));
}

describe('the whole block', () => {
  it('of hobbing in two cuts', () => {
    check(hobbing, `${gear} CUTS=2`, `
      (HOBBING: MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5)
      (+ CUTS=2)
      (PROVE BY SIMULATION AND DRY RUN BEFORE CUTTING.)
      (GUARDS, LOCAL CODES AND QUALIFIED PRACTICE DECIDE.)
      (UNIT: HOBBING UNIT H1)
      (SWIVEL HOB AXIS 13.024 DEG CLOCKWISE, SEEN FROM HOB TO WORK, +Z UP)
      (HOB 63.0 DIA, 1 START, RIGHT HAND, CLIMB)
      (MOUNT THE HOB SO THAT AT THE WORK IT CUTS AWAY FROM THE CHUCK)
      (X, Y, Z ARE OF THE CENTRE OF THE HOB: OFFSETS MEASURED TO ITS AXIS)
      (START FROM A CLEAR PLACE: X MOVES FIRST)
      (HOB 303.2 REV/MIN, WORK 9.47 REV/MIN, RATIO 1/32)
      G94
      G00 X137.258
      G00 Y0.0 Z15.597
      M11
      M881
      M883 S303
      G881 P1 Q-32 R15.0
      M08
      G00 X126.894
      G01 Z-22.156 F14.21
      G00 X137.258
      G00 Z18.19
      G00 X124.258
      G01 Z-22.156 F14.21
      G00 X137.258
      G00 Z18.19
      M09
      G880
      M885
      M880
      G00 Y0.0
      (END HOBBING)
    `);
  });

  it('of two keyways wider than the insert, by a driven unit', () => {
    const lines = composed(keyway, `${slot} COUNT=2 INSERT=5`).lines.filter((line) => !line.startsWith('('));
    const passes = ['G00 Y0.0', 'G00 X28.58', 'G01 X36.6 F25.0', 'G04 P0.24', 'G00 X27.914', 'G00 Y-1.5', 'G01 X36.6 F25.0', 'G04 P0.24', 'G00 X27.914', 'G00 Y1.5', 'G01 X36.6 F25.0', 'G04 P0.24', 'G00 X27.914'];
    expect(lines).toEqual([
      'G94', 'G00 Z31.0', 'G00 X27.914 Y0.0', 'G00 Z2.0', 'M881', 'M883 S500', 'M08',
      'M11', 'G00 C0.0', 'M10', ...passes,
      'M11', 'G00 C180.0', 'M10', ...passes,
      'M09', 'M885', 'G00 Y0.0', 'G00 Z31.0', 'M11', 'M880',
    ]);
  });

  it('of a keyway stroke by stroke, with a tool that stands', () => {
    const lines = composed(keyway, 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=2 SPARK-OUT=1').lines.filter((line) => !line.startsWith('('));
    const stroke = (x: string, lifted: string) => [`G00 X${x}`, 'G01 Z-27.0 F8000.0', `G00 X${lifted}`, 'G00 Z2.0'];
    expect(lines).toEqual([
      'G94', 'G00 Z2.0', 'G00 X27.914 Y0.0', 'M881', 'M08', 'M11', 'G00 C0.0', 'M10',
      ...stroke('32.914', '31.914'), ...stroke('36.6', '35.6'), ...stroke('36.6', '35.6'),
      'G00 X27.914', 'M09', 'M11', 'M880',
    ]);
  });
});

/** The number of a word on the first line that matches. */
function wordOn(lines: readonly string[], line: RegExp, letter: string): number {
  const found = lines.find((each) => line.test(each)) ?? '';
  return Number(new RegExp(`${letter}(-?[\\d.]+)`).exec(found)?.[1] ?? NaN);
}

describe('places of a block [derived]', () => {
  it('the hob ends at the root circle: X is root diameter and hob diameter', () => {
    const { lines } = composed(hobbing, gear);
    const rootDiameter = (2 * 32) / Math.cos((15 * Math.PI) / 180) - 2 * 1.25 * 2;
    expect(wordOn(lines.slice(lines.indexOf('M08')), /^G00 X/, 'X')).toBeCloseTo(rootDiameter + 63, 3);
  });

  it('X is half of it where the card programs radii', () => {
    const radii = { ...inventedCard, diameterProgramming: false };
    const diameter = composed(hobbing, gear).lines;
    const radius = composed(hobbing, gear, radii).lines;
    const cutX = (lines: string[]) => wordOn(lines.slice(lines.indexOf('M08')), /^G00 X/, 'X');
    expect(cutX(radius)).toBeCloseTo(cutX(diameter) / 2, 3);
  });

  it('the hob on the other side stands at negative X, and the work turns the other way', () => {
    const other = { ...inventedCard, limits: {}, senses: { ...inventedCard.senses, hobSide: '-X' as const } };
    const { lines } = composed(hobbing, gear, other);
    expect(wordOn(lines, /^G00 X/, 'X')).toBeLessThan(0);
    expect(lines).toContain('G881 P1 Q32 R15.0');
  });

  it('the feed covers approach, face and overrun', () => {
    const evaluation = hobbing.evaluate(values(gear), { units: 'mm', card: inventedCard });
    const { lines } = composed(hobbing, gear);
    const start = wordOn(lines, /^G00 Y/, 'Z');
    const end = wordOn(lines, /^G01/, 'Z');
    expect(start - end).toBeCloseTo(figureOf(evaluation, 'travel'), 2);
    expect(start).toBeGreaterThanOrEqual(figureOf(evaluation, 'approach'));
    expect(end).toBeLessThanOrEqual(-20 - figureOf(evaluation, 'overrun'));
  });

  it.each([
    ['HOB-HAND=RIGHT', 1, 'Q-32'], ['HOB-HAND=LEFT', 1, 'Q32'], ['HOB-HAND=RIGHT', -1, 'Q32'], ['HOB-HAND=LEFT', -1, 'Q-32'],
  ] as const)('the work turns by the law of the two hands: %s, C sense %d', (hand, workRotation, word) => {
    const card = { ...inventedCard, senses: { ...inventedCard.senses, workRotation } };
    expect(composed(hobbing, `${gear} ${hand}`, card).lines.filter((line) => line.includes('G881'))).toEqual([`G881 P1 ${word} R15.0`]);
  });

  it.each([['CLIMB', 'M883'], ['CONVENTIONAL', 'M884']])('%s starts the hob with %s, since the feed goes toward -Z', (method, code) => {
    expect(composed(hobbing, `${gear} METHOD=${method}`).lines).toContain(`${code} S303`);
  });

  it('a left-hand gear has a negative helix where the card has no {hand}', () => {
    expect(composed(hobbing, `${gear} HAND=LEFT`).lines).toContain('G881 P1 Q-32 R-15.0');
    const withHand = withCodes({ syncOn: 'G881 P{starts} Q{sense}{teeth} R{helix} D{hand}' });
    expect(composed(hobbing, `${gear} HAND=LEFT`, withHand).lines).toContain('G881 P1 Q-32 R15.0 D-1');
  });

  it('a drive ratio of the unit goes into the speed and into the ratio of the synchronous word', () => {
    const [unit, ...others] = inventedCard.toolUnits;
    const geared = { ...inventedCard, toolUnits: [{ ...unit, ratio: 1.5 }, ...others] } as MachineCard;
    const { lines } = composed(hobbing, gear, geared);
    expect(lines).toContain('G881 P1 Q-48 R15.0');
    expect(lines).toContain('M883 S455');
  });
});

describe('holes stay holes', () => {
  it('what the card does not say is a hole and an error that names the key', () => {
    const card = withCodes({ syncOn: '', drivenStop: undefined });
    const { lines, rules, messages } = composed(hobbing, gear, card);
    expect(lines).toContain('<syncOn>');
    expect(lines).toContain('<drivenStop>');
    expect(rules).toEqual(['hole', 'hole']);
    expect(messages[0]).toBe('The machine card does not say codes.syncOn: the block holds <syncOn>, which a control refuses.');
  });

  it('a sign that the card does not settle is a hole, never a guess', () => {
    const card = { ...inventedCard, senses: { hobSide: '+X' as const, toolRotation: 1 as const } };
    const { problems } = hobbing.compose(values(gear), { units: 'mm', card });
    expect(composed(hobbing, gear, card).lines).toContain('G881 P1 Q<sense>32 R15.0');
    expect(problems).toMatchObject([{ rule: 'hole', severity: 'error', cardKey: 'senses.workRotation' }]);
  });

  it('the engine calls each hole of the built-in card an error', () => {
    const { lines, rules } = composed(hobbing, gear, openStandardCard);
    const program = readProgram(lines.join('\n'), dialectOf(openStandardCard));
    const holes = program.problems().filter(({ rule }) => rule === 'hole');
    expect(holes.length).toBe(rules.length);
    expect(holes.every(({ severity }) => severity === 'error')).toBe(true);
  });

  it.each<[string, Partial<MachineCard['codes']>, string, string]>([
    ['a helical gear without {helix} or {lead}', { syncOn: 'G881 P{starts} Q{sense}{teeth}' }, gear, 'no-differential'],
    ['a helical gear with a word without figures', { syncOn: 'G881' }, gear, 'no-differential'],
    ['a left-hand hob without {sense}', { syncOn: 'G881 P{starts} Q{teeth} R{helix}' }, `${gear} HOB-HAND=LEFT`, 'unstated-sense'],
  ])('%s is refused, and no line is written', (_name, codes, text, rule) => {
    const { lines, rules } = composed(hobbing, text, withCodes(codes));
    expect(lines).toEqual([]);
    expect(rules).toContain(rule);
  });

  it('a spur gear needs no differential', () => {
    const { lines, rules } = composed(hobbing, gear.replace('HELIX=15', 'HELIX=0'), withCodes({ syncOn: 'G881 P{starts} Q{sense}{teeth}' }));
    expect(rules).toEqual([]);
    expect(lines).toContain('G881 P1 Q-32');
  });
});

describe('modes in force', () => {
  it('are taken and given back', () => {
    for (const [process, text] of [[hobbing, gear], [keyway, slot]] as const) {
      const codes = composed(process, text, inventedCard, { incremental: true, feedPerRevolution: true }).lines.filter((line) => !line.startsWith('('));
      expect(codes.slice(0, 2)).toEqual(['G90', 'G94']);
      expect(codes.slice(-2)).toEqual(['G95', 'G91']);
    }
  });

  it('that are right already are only stated', () => {
    const codes = composed(hobbing, gear, inventedCard, { incremental: false, feedPerRevolution: false }).lines.filter((line) => /^G9/.test(line));
    expect(codes).toEqual(['G94']);
  });
});

describe('what cannot be kept in a note', () => {
  const mark = values('HEIGHT=5 DEPTH=.1 TIP-DIA=.1 TIP-ANGLE=60 FLUTES=1 RPM=5000 CHIP-LOAD=.003 SURFACE=FACE AT-X=20');
  const engraved = (text: string, comment: 'parentheses' | 'semicolon') =>
    composeText(engraving, { ...mark, TEXT: text }, { units: 'mm', card: inventedCard }, { comment, maxLineLength: 80 });

  it.each(['5" DIA', 'A (B)'])('is refused by name: %s', (text) => {
    const { lines, problems } = engraved(text, 'parentheses');
    expect(lines).toEqual([]);
    expect(problems.filter(({ severity }) => severity === 'error')).toMatchObject([{ parameter: 'TEXT', rule: 'bad-value', message: expect.stringContaining('cannot be kept in a comment') as string }]);
  });

  it.each([['A B', 'parentheses', '(ENGRAVING: TEXT="A B" '], ['A (B)', 'semicolon', ';ENGRAVING: TEXT="A (B)" '], ['A=B', 'parentheses', '(ENGRAVING: TEXT="A=B" ']] as const)('is kept in quotes where it can be: %s, %s', (text, style, head) => {
    const { lines, problems } = engraved(text, style);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    const all = lines.filter((line) => /ENGRAVING:|^.\+/.test(line)).join(' ');
    expect(lines.join('\n')).toContain(head.split(' TEXT')[0]);
    expect(all).toContain(/TEXT="[^"]*"/.exec(head)?.[0]);
  });
});

/** Settings that the invented machine can do. */
const anyHobbing = fc.record({
  MODULE: fc.constantFrom('1', '1.25', '2', '2.5'), TEETH: fc.integer({ min: 17, max: 60 }).map(String), HELIX: fc.integer({ min: 0, max: 20 }).map(String),
  HAND: fc.constantFrom('RIGHT', 'LEFT'), 'HOB-HAND': fc.constantFrom('RIGHT', 'LEFT'), 'HOB-STARTS': fc.constantFrom('1', '2'), 'HOB-DIA': fc.constantFrom('50', '63', '70'),
  FACE: fc.integer({ min: 5, max: 60 }).map(String), SPEED: fc.integer({ min: 20, max: 200 }).map(String), FEED: fc.constantFrom('.5', '1.25', '2.'),
  CUTS: fc.integer({ min: 1, max: 3 }).map(String), METHOD: fc.constantFrom('CLIMB', 'CONVENTIONAL'), SHIFT: fc.integer({ min: -10, max: 10 }).map(String),
});
const anyKeyway = fc.record({
  BORE: fc.integer({ min: 8, max: 30 }).map(String), LENGTH: fc.integer({ min: 1, max: 36 }).map(String), RPM: fc.integer({ min: 50, max: 1200 }).map(String),
  FEED: fc.constantFrom('.03', '0.05', '.1'), COUNT: fc.integer({ min: 1, max: 3 }).map(String), ANGLE: fc.integer({ min: -90, max: 90 }).map(String), 'SPARK-OUT': fc.constantFrom('0', '2'),
});

it('the gears drawn at random stay within the swivel of the unit, the steepest included', () => {
  const most = inventedCard.toolUnits.find((unit) => unit.kind === 'hobbing')?.maxSetting ?? NaN;
  const swivels = ['RIGHT', 'LEFT'].flatMap((hand) => ['RIGHT', 'LEFT'].map((hobHand) => {
    const steepest = `MODULE=2.5 TEETH=17 HELIX=20 HAND=${hand} HOB-HAND=${hobHand} HOB-STARTS=2 HOB-DIA=50 FACE=60 SPEED=20 FEED=1`;
    return Math.abs(figureOf(hobbing.evaluate(values(steepest), { units: 'mm', card: inventedCard }), 'settingAngle'));
  }));
  // asin(2 x 2.5 / (50 - 2 x 1.25 x 2.5)) = 6.56 degrees of lead on top of 20 of helix where the hands are unlike.
  expect(Math.max(...swivels)).toBeCloseTo(26.562, 2);
  expect(Math.max(...swivels)).toBeLessThan(most);
});

function readBack(process: Process, raw: Record<string, string>): Program {
  const setting: Setting = { units: 'mm', card: inventedCard };
  const { lines, problems } = composeText(process, raw, setting, { comment: 'parentheses', maxLineLength: 80, numbering: { first: 10, step: 10 } });
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  return readProgram(['G21 G90 G18 G40', 'M05', ...lines, 'M30'].join('\n'), dialectOf(inventedCard));
}

describe('every block reads back', () => {
  it('hobbing: without an error, with the ratio and the helix of its note', () => {
    fc.assert(fc.property(anyHobbing, (raw) => {
      const program = readBack(hobbing, raw);
      expect(program.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
      const events = Array.from({ length: program.lineCount }, (_, line) => program.events(line)).flat();
      const [sync, ...others] = events.filter(({ name }) => name === 'syncOn');
      expect(others).toEqual([]);
      expect(sync?.slots).toMatchObject({ starts: Number(raw['HOB-STARTS']), helix: (raw.HAND === 'LEFT' ? -1 : 1) * Number(raw.HELIX) || 0 });
      expect(Math.abs(sync?.slots['teeth'] ?? NaN)).toBe(Number(raw.TEETH));
      expect(program.stateAfter(program.lineCount).sync).toBeUndefined();
    }), { numRuns: 60 });
  });

  it('keyway: without an error, back at the centre with the unit stopped', () => {
    fc.assert(fc.property(anyKeyway, (raw) => {
      const program = readBack(keyway, raw);
      expect(program.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
      const codes = Array.from({ length: program.lineCount }, (_, line) => program.events(line)).flat().map(({ name }) => name);
      expect(codes.filter((name) => name === 'workClamp')).toHaveLength(Number(raw.COUNT));
      expect(codes.indexOf('drivenStop')).toBeGreaterThan(codes.lastIndexOf('workClamp'));
    }), { numRuns: 60 });
  });
});
