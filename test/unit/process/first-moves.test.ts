/** The way to the work and the words on it: which axis moves first, what is clamped, what comes to nothing, free travel. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { handover } from '../../../server/src/process/handover.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import type { Process } from '../../../server/src/process/process.ts';
import { slotting } from '../../../server/src/process/slotting.ts';
import { inventedCard } from '../../invented-machine.ts';
import { values } from './figures.ts';
import { composed, numberIn, plainAxes, subCard, subCodes } from './sub-spindle.ts';

const gear = 'MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';
const cutter = 'HEIGHT=5 DEPTH=.1 TIP-DIA=.1 TIP-ANGLE=60 FLUTES=1 RPM=5000 CHIP-LOAD=.003';
const round = `TEXT=L7 SURFACE=CYLINDER DIA=50 AT-Z=-10 ${cutter}`;
const flat = `TEXT=L SURFACE=FACE AT-X=40 ${cutter}`;

/** The invented machine with everything that a block may ask for, and no limits in the way. */
const roomyCard: MachineCard = { ...subCard, limits: {}, toolUnits: [], codes: { ...inventedCard.codes, ...subCodes, inverseTime: 'G93' } };
const otherSide: MachineCard = { ...roomyCard, senses: { ...roomyCard.senses, hobSide: '-X' } };

const rapidsOf = (blocks: readonly string[]) => blocks.filter((block) => block.startsWith('G00 '));
const withLetter = (blocks: readonly string[], letter: string) => blocks.findIndex((block) => block.startsWith('G0') && block.includes(letter));

const anyCard = fc.record({ diameterProgramming: fc.boolean(), zSense: fc.constantFrom<1 | -1>(1, -1), workRotation: fc.constantFrom<1 | -1>(1, -1), decimals: fc.constantFrom(2, 3, 4) })
  .map(({ zSense, workRotation, ...own }): MachineCard => ({ ...roomyCard, ...own, senses: { ...roomyCard.senses, workRotation }, subSpindle: { ...plainAxes, zSense, workRotation } }));

/** How far a Z word is before the face, on either spindle. */
function before(z: number, faceZ: number, spindle: string, card: MachineCard): number {
  return (z - faceZ) * (spindle === 'SUB' ? (card.subSpindle?.zSense ?? NaN) : 1);
}

describe('slots in a bore [own rule: nothing crosses the wall of the bore]', () => {
  const any = fc.record({
    slots: fc.constantFrom<readonly [Process, string]>([keyway, 'BORE=30 FEED=.05 LENGTH=25'], [slotting, 'SHAPE=HEXAGON BORE=10 ACROSS-FLATS=10 LENGTH=12 FEED=.04']),
    method: fc.constantFrom('METHOD=DRIVEN RPM=500', 'METHOD=STATIC SPEED=8'),
    spindle: fc.constantFrom('MAIN', 'SUB'), faceZ: fc.integer({ min: -50, max: 50 }), leadIn: fc.constantFrom(0, 0.2, 1, 4),
  });

  it('the first rapid goes in front of the face along Z alone, and X moves only there', () => {
    fc.assert(fc.property(any, anyCard, ({ slots: [process, text], method, spindle, faceZ, leadIn }, card) => {
      const { blocks } = composed(process, `${text} ${method} SPINDLE=${spindle} FACE-Z=${faceZ} LEAD-IN=${leadIn}`, card);
      const [first = '', second = ''] = rapidsOf(blocks);
      expect(first).toMatch(/^G00 Z\S+$/);
      expect(before(numberIn(first, 'Z'), faceZ, spindle, card)).toBeGreaterThanOrEqual(Math.max(0.5, leadIn) - 1e-9);
      expect(second).toMatch(/^G00 X\S+ Y0\.0$/);
      expect(withLetter(blocks, 'X')).toBe(blocks.indexOf(second));
      const cutFrom = blocks.findIndex((block) => block.startsWith('G01'));
      const last = blocks.slice(0, cutFrom).filter((block) => /Z/.test(block)).at(-1) ?? '';
      expect(before(numberIn(last, 'Z'), faceZ, spindle, card)).toBeCloseTo(leadIn, 6);
    }), { numRuns: 100 });
  });

  it('X crosses the wall only where a unit that stopped with its insert out, or a tool that stands, is before the face; so it does behind the block', () => {
    fc.assert(fc.property(any, anyCard, ({ slots: [process, text], method, spindle, faceZ, leadIn }, card) => {
      const { blocks, comments } = composed(process, `${text} ${method} SPINDLE=${spindle} FACE-Z=${faceZ} LEAD-IN=${leadIn}`, card);
      const stroke = method.includes('DRIVEN') ? Number(/SET STROKE ([\d.]+)/.exec(comments.join())?.[1]) : 0;
      const reach = Math.max(0.5, leadIn) + stroke - 10 ** -card.decimals;
      const places = blocks.filter((block) => /^G0[01] Z/.test(block)).map((block) => before(numberIn(block, 'Z'), faceZ, spindle, card));
      expect(places[0]).toBeGreaterThanOrEqual(reach);
      expect(places.at(-1)).toBeGreaterThanOrEqual(reach);
      if (stroke > 0) expect(blocks.findLastIndex((block) => block.startsWith('G00 Z'))).toBeGreaterThan(blocks.findIndex((block) => block === card.codes.drivenStop));
    }), { numRuns: 100 });
  });

  it('the way along Z before the face is held against the travel', () => {
    const short: MachineCard = { ...roomyCard, limits: { z: [-100, 28] } };
    const far = composed(keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=.05', short);
    expect(far.problems).toEqual([expect.objectContaining({ parameter: 'FACE-Z', rule: 'machine-limit', severity: 'error' })]);
    expect(composed(keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=.05 FACE-Z=-3', short).problems).toEqual([]);
  });

  it('the operator reads from where the block may start', () => {
    const { comments } = composed(keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=.05');
    expect(comments).toEqual(expect.arrayContaining(['(START FROM A CLEAR PLACE IN FRONT OF THE WORK: Z MOVES FIRST)', '(X MOVES A WHOLE STROKE BEFORE THE FACE, WHEREVER THE INSERT STANDS)']));
    expect(composed(keyway, 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=.05').comments.join('\n')).not.toContain('WHEREVER THE INSERT STANDS');
  });
});

/** How far the swivelled tip cylinder of an endless hob reaches below its axis, looked for point by point over the width of the work. */
function reachTowardWork(hobRadius: number, workRadius: number, swivelDegrees: number): number {
  const swivel = (swivelDegrees * Math.PI) / 180;
  let reach = 0;
  for (let step = -200; step <= 200; step += 1) {
    const y = (workRadius * step) / 200;
    for (let turn = 0; turn < 360; turn += 0.5) {
      const round = (turn * Math.PI) / 180;
      // A point of the surface: along the axis so far that it lies at this y, round it by the angle.
      const along = (y + hobRadius * Math.cos(round) * Math.sin(swivel)) / Math.cos(swivel);
      reach = Math.max(reach, Math.abs(along * Math.sin(swivel) + hobRadius * Math.cos(round) * Math.cos(swivel)));
    }
  }
  return reach;
}

describe('a hob on the other side of the work', () => {
  const anyGear = fc.record({
    HELIX: fc.integer({ min: 0, max: 35 }), HAND: fc.constantFrom('RIGHT', 'LEFT'), TEETH: fc.integer({ min: 17, max: 80 }), 'HOB-DIA': fc.constantFrom(40, 63, 90), 'FACE-Z': fc.integer({ min: -30, max: 30 }),
    SPINDLE: fc.constantFrom('MAIN', 'SUB'), CLEARANCE: fc.constantFrom(0.5, 2, 5), SHIFT: fc.integer({ min: -4, max: 4 }),
  });
  const noteOf = (raw: object) => `MODULE=2 FACE=20 RPM=300 FEED=1 ${Object.entries(raw).map(([name, value]) => `${name}=${String(value)}`).join(' ')}`;

  it('goes so far before the face first that the whole hob passes the work [derived: its tip cylinder, point by point], then X, then Y and Z', () => {
    fc.assert(fc.property(anyGear, anyCard, (drawn, card) => {
      // Whether a card knows the sign of a helix in the sub-spindle is another matter.
      const raw = drawn.SPINDLE === 'SUB' ? { ...drawn, HELIX: 0 } : drawn;
      const there: MachineCard = { ...card, senses: { ...card.senses, hobSide: '-X' } };
      const { blocks } = composed(hobbing, noteOf(raw), there);
      const [first = '', second = '', third = ''] = rapidsOf(blocks);
      expect([first, second, third].map((block) => block.replace(/-?[\d.]+/g, ''))).toEqual(['G Z', 'G X', 'G Y Z']);
      expect(numberIn(second, 'X')).toBeLessThan(0);
      const figure = (id: string) => hobbing.evaluate(values(noteOf(raw)), { units: 'mm', card: there }).quantities.find((each) => each.id === id)?.value ?? NaN;
      const reach = reachTowardWork(raw['HOB-DIA'] / 2, figure('tipDiameter') / 2, figure('settingAngle'));
      expect(before(numberIn(first, 'Z'), raw['FACE-Z'], raw.SPINDLE, there)).toBeGreaterThanOrEqual(reach + raw.CLEARANCE - 0.011);
      expect(rapidsOf(blocks).at(-1)).toBe(first);
    }), { numRuns: 25 });
  });

  it('a hob on the side that X points to goes clear in X first', () => {
    const { blocks, comments } = composed(hobbing, gear);
    expect(rapidsOf(blocks).slice(0, 2).map((block) => block.replace(/-?[\d.]+/g, ''))).toEqual(['G X', 'G Y Z']);
    expect(comments).toContain('(START FROM A CLEAR PLACE: X MOVES FIRST)');
    expect(composed(hobbing, gear, otherSide).comments).toContain('(START FROM A CLEAR PLACE: Z MOVES FIRST, THEN X ACROSS IN FRONT OF THE WORK)');
  });

  it('a collar before the teeth, of which nobody says how far it reaches, is refused there', () => {
    const collar = `${gear} FRONT-DIA=30 FRONT-GAP=60`;
    expect(composed(hobbing, collar, otherSide)).toMatchObject({ lines: [], problems: [{ parameter: 'FRONT-DIA', rule: 'hob-room', severity: 'error' }] });
    expect(composed(hobbing, collar, roomyCard).problems).toEqual([]);
  });

  it('the travel of Z counts for the way round too', () => {
    const short: MachineCard = { ...otherSide, limits: { z: [-600, 35] } };
    expect(composed(hobbing, gear, short).problems).toMatchObject([{ parameter: 'FACE-Z', rule: 'machine-limit' }]);
    expect(composed(hobbing, gear, { ...roomyCard, limits: { z: [-600, 35] } }).problems).toEqual([]);
  });
});

describe('engraving', () => {
  it('round a cylinder C and Z of the first stroke come before X', () => {
    fc.assert(fc.property(anyCard, fc.constantFrom('MAIN', 'SUB'), fc.integer({ min: -90, max: 90 }), (card, spindle, angle) => {
      const { blocks } = composed(engraving, `${round} SPINDLE=${spindle} ANGLE=${angle}`, card);
      const [first = '', second = '', third = ''] = rapidsOf(blocks);
      expect(first).toMatch(/^G00 C\S+ Z\S+ Y0\.0$/);
      expect(second).toMatch(/^G00 X\S+$/);
      expect(third).toBe(first.replace(' Y0.0', ''));
      expect(withLetter(blocks, 'X')).toBe(blocks.indexOf(second));
    }), { numRuns: 50 });
  });

  it('the operator reads from where the block may start', () => {
    expect(composed(engraving, flat, roomyCard).comments).toContain('(START FROM A CLEAR PLACE IN FRONT OF THE WORK: X AND Y MOVE FIRST)');
    expect(composed(engraving, round, roomyCard).comments).toContain('(START FROM A CLEAR PLACE OUTSIDE THE CYLINDER: C, Y AND Z MOVE FIRST)');
  });

  it('the plunge round a cylinder counts on the diameter where the card says so, and nothing else changes', () => {
    const feeds = (card: MachineCard) => composed(engraving, round, card).blocks.filter((block) => block.startsWith('G01 '));
    const [plain, doubled] = [feeds(roomyCard), feeds({ ...roomyCard, xFeedOnDiameter: true })];
    plain.forEach((block, index) => expect(numberIn(doubled[index] ?? '', 'F')).toBeCloseTo(numberIn(block, 'F') * (block.includes('X') ? 2 : 1), 6));
    expect(plain.filter((block) => block.includes('X')).length).toBeGreaterThan(1);
    const face = (xFeedOnDiameter: boolean) => composed(engraving, flat, { ...roomyCard, xFeedOnDiameter }).blocks;
    expect(face(true)).toEqual(face(false));
  });
});

const without = (...names: (keyof MachineCard['codes'])[]): MachineCard => ({ ...roomyCard, codes: Object.fromEntries(Object.entries(roomyCard.codes).filter(([name]) => !names.includes(name as keyof MachineCard['codes']))) });
const holesOf = (process: Process, text: string, card: MachineCard) => [...new Set(composed(process, text, card).blocks.filter((block) => block.startsWith('<')))];

describe('a clamp without its release [own rule: nothing is guessed]', () => {
  it.each<[string, Process, string]>([['hobbing', hobbing, gear], ['round a cylinder', engraving, round], ['on a face', engraving, flat], ['keyway', keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=.05']])('%s: the release is a hole and an error, on either spindle', (_name, process, text) => {
    expect(holesOf(process, text, without('workUnclamp'))).toEqual(['<workUnclamp>']);
    expect(composed(process, text, without('workUnclamp')).problems).toContainEqual(expect.objectContaining({ rule: 'hole', severity: 'error', cardKey: 'codes.workUnclamp' }));
    expect(holesOf(process, `${text.replace('HELIX=15', 'HELIX=0')} SPINDLE=SUB`, without('subUnclamp'))).toEqual(['<subUnclamp>']);
  });

  it.each<[string, Process, string]>([['hobbing', hobbing, gear], ['round a cylinder', engraving, round]])('%s: a machine that has neither needs neither', (_name, process, text) => {
    expect(composed(process, text, without('workUnclamp', 'workClamp'))).toMatchObject({ problems: [] });
    expect(holesOf(process, text, without('workUnclamp', 'workClamp'))).toEqual([]);
  });

  it('indexing needs both', () => {
    expect(holesOf(keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=.05', without('workUnclamp', 'workClamp'))).toEqual(['<workUnclamp>', '<workClamp>']);
    expect(holesOf(engraving, flat, without('workClamp'))).toEqual(['<workClamp>']);
  });
});

it.each<[string, Process, string]>([['hobbing', hobbing, gear], ['engraving', engraving, flat], ['keyway', keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=.05'], ['static keyway', keyway, 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=.05']])('coolant, %s: on and off go together', (_name, process, text) => {
  const coolant = (card: MachineCard) => composed(process, text, card).blocks.filter((block) => ['M08', 'M09'].includes(block));
  expect(coolant(roomyCard)).toEqual(['M08', 'M09']);
  expect(coolant(without('coolantOn'))).toEqual([]);
  expect(coolant(without('coolantOff'))).toEqual([]);
});

describe('a word that comes to nothing', () => {
  const coarse: MachineCard = { ...roomyCard, decimals: 0 };
  it.each<[string, Process, string, MachineCard, string, RegExp]>([
    ['feed of a hob', hobbing, 'MODULE=2 TEETH=100 FACE=20 HOB-DIA=63 RPM=10 FEED=.004', roomyCard, 'FEED', /the word F0\.0, rounded to 3 decimals/],
    ['feed with no decimals', hobbing, gear.replace('FEED=1.5', 'FEED=.04'), coarse, 'FEED', /the word F0\., rounded to 0 decimals/],
    ['radial feed of a slow unit', keyway, 'BORE=30 LENGTH=25 RPM=.6 FEED=.0005', roomyCard, 'FEED', /the word F0\.0, /],
    ['speed of the unit', keyway, 'BORE=30 LENGTH=25 RPM=.000004 FEED=.05', roomyCard, 'RPM', /speed comes to nothing in the word of codes\.drivenStart, 0, rounded to 5 decimals/],
    ['stroke of the axes', keyway, 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=.0000004 FEED=.05', roomyCard, 'SPEED', /the word F0\.0, /],
    ['feed of a cutter', engraving, flat.replace('CHIP-LOAD=.003', 'CHIP-LOAD=.00000004 RUN-OUT=0'), roomyCard, 'CHIP-LOAD', /the word F0\.0, /],
    ['speed of a cutter', engraving, flat.replace('RPM=5000', 'RPM=.000004'), roomyCard, 'RPM', /drivenStart/],
    ['creep of the sub-spindle', handover, 'RPM=300 GRIP-Z=-400 RETRACT-Z=0 OVERLAP=10 FEED=.0004', roomyCard, 'FEED', /codes\.subFeed, 0\.0, rounded/],
    ['speed of both spindles', handover, 'RPM=.000004 GRIP-Z=-400 RETRACT-Z=0 OVERLAP=10 FEED=200', roomyCard, 'RPM', /codes\.spindleSyncOn, 0, rounded/],
  ])('%s', (_name, process, text, card, parameter, message) => {
    const { lines, problems } = composed(process, text, card);
    const found = problems.filter(({ rule }) => rule === 'zero-word');
    expect(lines).toEqual([]);
    expect(found).toContainEqual({ parameter, rule: 'zero-word', severity: 'error', message: expect.stringMatching(message) as string });
    expect(new Set(found.map((each) => each.message)).size).toBe(found.length);
  });

  it('the smallest word that is left is none', () => {
    expect(composed(keyway, 'BORE=30 LENGTH=25 RPM=.5 FEED=.05', roomyCard).problems).toEqual([]);
    expect(composed(keyway, 'BORE=30 LENGTH=25 RPM=1 FEED=.0005', roomyCard).problems).toEqual([]);
  });
});

describe('free travel of a driven insert [common practice, no source]', () => {
  const slot = 'BORE=30 LENGTH=25 RPM=500 FEED=.05';
  it.each([['LEAD-IN=0', ['LEAD-IN']], ['LEAD-OUT=0', ['LEAD-OUT']], ['LEAD-IN=0 LEAD-OUT=0', ['LEAD-IN', 'LEAD-OUT']], ['LEAD-IN=.1 LEAD-OUT=.1', []]] as const)('%s', (text, parameters) => {
    const { lines, problems } = composed(keyway, `${slot} ${text}`);
    expect(problems.map(({ parameter, rule, severity }) => ({ parameter, rule, severity }))).toEqual(parameters.map((parameter) => ({ parameter, rule: 'no-free-travel', severity: 'warning' })));
    expect(lines.length).toBeGreaterThan(10);
  });

  it('a tool that stands needs it only before the face, where X moves in rapid', () => {
    const standing = 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=.05';
    expect(composed(keyway, `${standing} LEAD-IN=0`).problems).toEqual([expect.objectContaining({ parameter: 'LEAD-IN', rule: 'no-free-travel', severity: 'warning' })]);
    expect(composed(keyway, `${standing} LEAD-OUT=0`).problems).toEqual([]);
  });
});
