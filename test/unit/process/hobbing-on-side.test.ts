/**
 * Hobbing in the sub-spindle. The directions of a block are held against a
 * second computation that knows no law and no axes of the face: hob and work as
 * bodies in the space of the machine, turned and moved as the block says, and
 * the threads of the hob must run along with the teeth. [vector geometry, derived]
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { machineCardSchema, type MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard } from '../../invented-machine.ts';
import { figureOf, values } from './figures.ts';
import { composed, numberIn, subCard } from './sub-spindle.ts';

type Sign = 1 | -1;
type Vector = readonly [x: number, y: number, z: number];

const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (factor: number, [x, y, z]: Vector): Vector => [factor * x, factor * y, factor * z];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
/** Right-handed about a unit vector to which the turned one is square. */
const turned = (vector: Vector, about: Vector, angle: number): Vector => add(times(Math.cos(angle), vector), times(Math.sin(angle), cross(about, vector)));

/** The room of the machine. The main spindle's face looks to +Z, so the face in the sub-spindle looks to -Z. */
const [roomX, roomY, outOfFace]: [Vector, Vector, Vector] = [[1, 0, 0], [0, 1, 0], [0, 0, -1]];

/** Which way X and Y words of the turret go in the room, and about which way its drive turns a hob that is not swivelled. */
interface Turret { x: Vector; y: Vector; drive: Vector }

interface Mixture { gearHand: Sign; hobHand: Sign; side: Sign; workRotation: Sign; zSense: Sign; toolRotation: Sign; climb: boolean; turret: keyof typeof turrets }

/** One turret serves both spindles; its Y words are mirrored for the other; another one cuts there, from below. */
const turrets = {
  same: (drive: Sign): Turret => ({ x: roomX, y: roomY, drive: times(drive, roomY) }),
  mirrored: (drive: Sign): Turret => ({ x: roomX, y: times(-1, roomY), drive: times(drive, roomY) }),
  other: (drive: Sign): Turret => ({ x: times(-1, roomX), y: roomY, drive: times(drive, roomY) }),
  otherMirrored: (drive: Sign): Turret => ({ x: times(-1, roomX), y: times(-1, roomY), drive: times(drive, roomY) }),
} as const;
const turretOf = ({ turret, toolRotation }: Mixture) => turrets[turret](toolRotation);

const names = ['gearHand', 'hobHand', 'side', 'workRotation', 'zSense', 'toolRotation'] as const;
const mixtures: Mixture[] = (Object.keys(turrets) as (keyof typeof turrets)[]).flatMap((turret) => Array.from({ length: 128 }, (_, number) => {
  const signs = Object.fromEntries(names.map((name, bit) => [name, number & (1 << bit) ? -1 : 1]));
  return { ...(signs as Omit<Mixture, 'climb' | 'turret'>), climb: number < 64, turret };
}));

/**
 * What the owner of such a machine would write, by the words of the card alone:
 * he looks at the face with +X up, so right is his look crossed with up. Of one
 * turret for both spindles he need say nothing; of another, what the card says of
 * the main spindle is made wrong on purpose.
 */
function cardOf(mixture: Mixture): MachineCard {
  const { side, workRotation, zSense, toolRotation, turret } = mixture;
  const { x, y, drive } = turretOf(mixture);
  const left = times(-1, cross(times(-1, outOfFace), x));
  const hobSide = side > 0 ? '+X' : '-X';
  const ofTurret = turret === 'same' ? {} : { toolRotation: dot(drive, left), hobSide };
  return machineCardSchema.parse({
    name: 'Invented for the signs of a sub-spindle', decimals: 6, angleDecimals: 6, differentialByWorkAxis: 'absolute',
    senses: turret === 'same' ? { workRotation: 1, toolRotation, hobSide } : { workRotation: 1, toolRotation: dot(drive, left), hobSide: side > 0 ? '-X' : '+X' },
    subSpindle: { zSense, ySense: dot(y, left), workRotation, ...ofTurret },
    codes: {
      feedPerMinute: 'G94', syncOn: 'G137 P{starts} Q{sense}{teeth}', syncOff: 'G138', workAxisOn: 'M191', workAxisOff: 'M192', subAxisOn: 'M291', subAxisOff: 'M292',
      drivenStart: 'M123 S{rpm}', drivenReverse: 'M124 S{rpm}', drivenStop: 'M125',
    },
  });
}

const hand = (sign: Sign) => (sign > 0 ? 'RIGHT' : 'LEFT');
const beta = Math.PI / 9;
const pitchRadius = (2 * 31) / Math.cos(beta) / 2;
const hobPitchRadius = 63 / 2 - 2.5;
const leadAngle = Math.asin((2 * 2) / (2 * hobPitchRadius));

function blockOf(mixture: Mixture, more = '') {
  const { gearHand, hobHand, climb } = mixture;
  const text = `MODULE=2 TEETH=31 HELIX=20 HAND=${hand(gearHand)} HOB-STARTS=2 HOB-HAND=${hand(hobHand)} METHOD=${climb ? 'CLIMB' : 'CONVENTIONAL'} FACE=20 HOB-DIA=63 RPM=300 FEED=1.5 FACE-Z=7 SPINDLE=SUB ${more}`;
  const { blocks, comments, problems } = composed(hobbing, text, cardOf(mixture));
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return { blocks, comments };
}

/** The hob and the teeth where they meet, read from the block as somebody at the machine would. */
function bodiesOf(mixture: Mixture, more = '') {
  const { blocks, comments } = blockOf(mixture, more);
  const swivel = /SWIVEL HOB AXIS ([\d.]+) DEG (COUNTER-)?CLOCKWISE, SEEN FROM HOB TO WORK, FACE UP\)/.exec(comments.join(' '));
  const angle = ((Number(swivel?.[1] ?? NaN) * Math.PI) / 180) * (swivel?.[2] ? -1 : 1);
  const { x, y, drive } = turretOf(mixture);
  const towardWork = times(-mixture.side, x);
  // Clockwise to somebody who looks along a direction is right-handed about it.
  const hobAxis = turned(y, towardWork, angle);
  const towardHob = times(-1, towardWork);
  const roundWork = cross(outOfFace, towardHob);
  const toothTrace = add(times(Math.cos(beta), outOfFace), times(mixture.gearHand * Math.sin(beta), roundWork));
  return { blocks, comments, towardWork, hobAxis, roundWork, acrossTeeth: cross(toothTrace, towardHob), toothTrace, forward: dot(drive, y) };
}

/** Radians of the hob about its axis for one of the drive's forward turn, and of the work about the way out of its face. */
function turnsOf(mixture: Mixture, { blocks, forward }: ReturnType<typeof bodiesOf>) {
  const sync = blocks.find((each) => each.startsWith('G137')) ?? '';
  const perDrive = numberIn(sync, 'P') / numberIn(sync, 'Q');
  return { hobTurn: forward, workTurn: mixture.workRotation * perDrive };
}

/** A right-hand thread that turns right-handed without moving shows its threads moving back along its axis. */
const threadMotion = (mixture: Mixture, hobAxis: Vector, hobTurn: number) => times(-mixture.hobHand * ((Math.PI * 2 * 2) / Math.cos(leadAngle) / (2 * Math.PI)) * hobTurn, hobAxis);

describe('directions on the sub-spindle, by bodies in the space of the machine [derived]', () => {
  it('the threads lie along the teeth as swivelled', () => {
    for (const mixture of mixtures) {
      const { hobAxis, towardWork, toothTrace } = bodiesOf(mixture);
      const thread = add(times(Math.cos(leadAngle), cross(hobAxis, towardWork)), times(mixture.hobHand * Math.sin(leadAngle), hobAxis));
      expect(Math.abs(Math.abs(dot(thread, toothTrace)) - 1), JSON.stringify(mixture)).toBeLessThan(1e-9);
    }
  });

  it('the threads run along with the teeth', () => {
    for (const mixture of mixtures) {
      const bodies = bodiesOf(mixture);
      const { hobAxis, roundWork, acrossTeeth } = bodies;
      const { hobTurn, workTurn } = turnsOf(mixture, bodies);
      const slip = add(threadMotion(mixture, hobAxis, hobTurn), times(-workTurn * pitchRadius, roundWork));
      expect(Math.abs(workTurn)).toBeCloseTo(2 / 31, 12);
      expect(Math.abs(dot(slip, acrossTeeth)), JSON.stringify(mixture)).toBeLessThan(1e-4);
    }
  });

  it('the feed runs into the work, and C beside it keeps the hob in its tooth space', () => {
    for (const mixture of mixtures) {
      const { blocks, roundWork, acrossTeeth } = bodiesOf(mixture);
      const place = blocks.find((each) => each.startsWith('G00 Y')) ?? '';
      const cut = blocks.find((each) => each.startsWith('G01')) ?? '';
      const out = mixture.zSense * (numberIn(cut, 'Z') - numberIn(place, 'Z'));
      expect(mixture.zSense * (numberIn(place, 'Z') - 7)).toBeGreaterThan(0);
      expect(mixture.zSense * (numberIn(cut, 'Z') - 7)).toBeLessThan(-20);
      const turn = (mixture.workRotation * numberIn(cut, 'C') * Math.PI) / 180;
      const slip = add(times(out, outOfFace), times(-turn * pitchRadius, roundWork));
      expect(Math.abs(dot(slip, acrossTeeth)), JSON.stringify(mixture)).toBeLessThan(1e-4);
    }
  });

  it('climb cuts against the feed, conventional with it [definition]', () => {
    for (const mixture of mixtures) {
      const { blocks, comments, hobAxis, towardWork, forward } = bodiesOf(mixture);
      const starts = blocks.some((each) => each.startsWith('M123'));
      expect(starts).not.toBe(blocks.some((each) => each.startsWith('M124')));
      const cutting = cross(times((starts ? 1 : -1) * forward, hobAxis), towardWork);
      expect(dot(cutting, outOfFace) > 0, JSON.stringify(mixture)).toBe(mixture.climb);
      // The teeth must point the way in which they move, or the hob rubs with their backs.
      expect(comments.join(' ')).toContain(dot(cutting, outOfFace) > 0 ? 'IT CUTS AWAY FROM THE CHUCK' : 'IT CUTS TOWARD THE CHUCK');
    }
  });

  it('a shift goes along the hob axis to the end where Y grows, and the turn of C that is told keeps the teeth', () => {
    for (const mixture of mixtures) {
      const shifted = bodiesOf(mixture, 'SHIFT=4');
      const placeOf = (blocks: readonly string[]) => blocks.find((each) => each.startsWith('G00 Y')) ?? '';
      const [here, there] = [placeOf(blockOf(mixture).blocks), placeOf(shifted.blocks)];
      const moved = add(times(numberIn(there, 'Y'), turretOf(mixture).y), times(mixture.zSense * (numberIn(there, 'Z') - numberIn(here, 'Z')), outOfFace));
      expect(Math.hypot(...add(moved, times(-4, shifted.hobAxis))), JSON.stringify(mixture)).toBeLessThan(1e-4);
      const told = /TURNING C BY (-?[\d.]+) DEG/.exec(shifted.comments.join(' '));
      const turn = (mixture.workRotation * Number(told?.[1] ?? NaN) * Math.PI) / 180;
      expect(Math.abs(dot(add(moved, times(-turn * pitchRadius, shifted.roundWork)), shifted.acrossTeeth)), JSON.stringify(mixture)).toBeLessThan(1e-3);
    }
  });

  it('the figures of a shift are those of the words', () => {
    for (const mixture of mixtures.filter((_, index) => index % 8 === 0)) {
      const text = `MODULE=2 TEETH=31 HELIX=20 HAND=${hand(mixture.gearHand)} FACE=20 HOB-DIA=63 RPM=300 FEED=1.5 SPINDLE=SUB`;
      const card = cardOf(mixture);
      const evaluation = hobbing.evaluate(values(`${text} SHIFT=4`), { units: 'mm', card });
      const place = (more: string) => composed(hobbing, `${text} ${more}`, card).blocks.find((each) => each.startsWith('G00 Y')) ?? '';
      expect(figureOf(evaluation, 'shiftY')).toBeCloseTo(numberIn(place('SHIFT=4'), 'Y'), 5);
      expect(figureOf(evaluation, 'shiftZ')).toBeCloseTo(numberIn(place('SHIFT=4'), 'Z') - numberIn(place(''), 'Z'), 5);
    }
  });
});

const gear = 'MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';
const withSub = (change: object, more: Partial<MachineCard> = {}): MachineCard => ({ ...subCard, subSpindle: { ...subCard.subSpindle, ...change }, ...more });

describe('a block on the sub-spindle', () => {
  it('is the block of the main spindle mirrored in Z and Y on plain machine axes, with the codes of the other axis', () => {
    const any = fc.record({
      teeth: fc.integer({ min: 17, max: 60 }), face: fc.integer({ min: 5, max: 60 }), cuts: fc.integer({ min: 1, max: 3 }), hobHand: fc.constantFrom('RIGHT', 'LEFT'), method: fc.constantFrom('CLIMB', 'CONVENTIONAL'),
    });
    const mirrored = withSub({}, { limits: {} });
    fc.assert(fc.property(any, ({ teeth, face, cuts, hobHand, method }) => {
      const text = `MODULE=2 TEETH=${teeth} FACE=${face} CUTS=${cuts} HOB-HAND=${hobHand} METHOD=${method} HOB-DIA=63 SPEED=60 FEED=1.5`;
      const [main, sub] = [composed(hobbing, text, mirrored), composed(hobbing, `${text} SPINDLE=SUB`, mirrored)];
      expect([main.problems, sub.problems].flat().filter(({ severity }) => severity === 'error')).toEqual([]);
      const codes: Record<string, string> = { M881: 'M981', M880: 'M980', M11: 'M911', M883: 'M884', M884: 'M883' };
      const expected = main.blocks.map((block) => block
        .replace(/^M\d+/, (code) => codes[code] ?? code)
        .replace(/Z(-?)/, (_, minus: string) => (minus ? 'Z' : 'Z-')));
      // The hob turns the other way about the face, so a forward turn of its drive carries the work the other way as C counts there.
      const flipped = (block: string) => block.replace(/Q(-?)(\d+)/, (_, minus: string, number: string) => `Q${minus ? '' : '-'}${number}`);
      expect(sub.blocks).toEqual(expected.map(flipped));
    }), { numRuns: 40 });
  });

  it('tells the operator, in a line that the control takes', () => {
    const { comments } = composed(hobbing, `${gear} SPINDLE=SUB`, subCard);
    expect(comments).toContain('(WORK IN THE SUB-SPINDLE: ITS C AXIS IS THE ONE THAT THE HOB IS COUPLED TO)');
    expect(composed(hobbing, gear, subCard).comments.some((each) => each.includes('SUB-SPINDLE'))).toBe(false);
  });

  it('is held against the speed of the sub-spindle, and not against chuck and Z of the main spindle', () => {
    const card = withSub({ maxRpm: 5 }, { chuck: { diameter: 200, z: -10 } });
    const rules = (text: string, own: MachineCard = card) => composed(hobbing, text, own).problems.filter(({ severity }) => severity === 'error').map(({ parameter, rule }) => `${parameter} ${rule}`);
    expect(rules(`${gear} SPINDLE=SUB`)).toEqual(['SPEED machine-limit']);
    expect(rules(gear)).toEqual(['FACE-Z hob-room']);
    expect(rules(`${gear} FACE-Z=400`, subCard)).toEqual(['FACE-Z machine-limit']);
    expect(rules(`${gear} FACE-Z=400 SPINDLE=SUB`, subCard)).toEqual([]);
  });

  it('leaves holes for the codes that the card does not say', () => {
    const card: MachineCard = { ...inventedCard, subSpindle: { zSense: -1, ySense: -1, workRotation: 1 } };
    const { blocks, problems } = composed(hobbing, `${gear} SPINDLE=SUB`, card);
    expect(blocks).toContain('<subAxisOn>');
    expect(blocks).toContain('<subAxisOff>');
    expect(problems.map(({ rule, cardKey }) => `${rule} ${cardKey}`)).toEqual(['hole codes.subAxisOn', 'hole codes.subAxisOff']);
  });
});

describe('what the card leaves open of the sub-spindle is refused, and nothing is written', () => {
  it.each<[string, string, MachineCard, string, string]>([
    ['no sub-spindle at all', gear, inventedCard, 'SPINDLE', 'subSpindle.zSense'],
    ['the way of Z', gear, withSub({ zSense: undefined }), 'SPINDLE', 'subSpindle.zSense'],
    ['the way of Y', gear, withSub({ ySense: undefined }), 'SPINDLE', 'subSpindle.ySense'],
    ['the way of C', gear, withSub({ workRotation: undefined }), 'SPINDLE', 'subSpindle.workRotation'],
    ['the rotation of the hob', gear, withSub({}, { senses: { workRotation: 1, hobSide: '+X' } }), 'SPINDLE', 'senses.toolRotation'],
    ['Y mirrored, or another turret', gear, withSub({ ySense: 1 }), 'SPINDLE', 'subSpindle.toolRotation'],
    ['the side of the hob there', gear, withSub({ ySense: 1, toolRotation: 1 }), 'SPINDLE', 'subSpindle.hobSide'],
    ['the sign of a helix where C and Z count against each other otherwise', `${gear} HELIX=15`, withSub({ zSense: -1, workRotation: 1 }), 'HELIX', 'subSpindle.helixSign'],
    ['the sign of a helix where C of the main spindle is not said', `${gear} HELIX=15`, withSub({}, { senses: { toolRotation: 1 } }), 'HELIX', 'subSpindle.helixSign'],
  ])('%s', (_name, text, card, parameter, cardKey) => {
    const { lines, problems } = composed(hobbing, `${text} SPINDLE=SUB`, card);
    expect(lines).toEqual([]);
    expect(problems.filter(({ severity }) => severity === 'error')).toMatchObject([{ parameter, cardKey }]);
  });

  it.each([[1, 'RIGHT', ['error']], [1, 'LEFT', ['warning']], [-1, 'RIGHT', ['warning']], [-1, 'LEFT', ['error']]] as const)('a synchronous word without a sign, C sense %d, %s hand hob: %s', (workRotation, hobHand, severities) => {
    // The hob turns about the face the other way than on the main spindle, so C must count the other way too for the word to fit.
    const card = withSub({ workRotation }, { codes: { ...subCard.codes, syncOn: 'G881 P{starts} Q{teeth}' } });
    const { lines, problems } = composed(hobbing, `${gear} HOB-HAND=${hobHand} SPINDLE=SUB`, card);
    expect(problems.map(({ severity }) => severity)).toEqual(severities);
    expect(problems).toMatchObject([{ rule: 'unstated-sense', cardKey: 'codes.syncOn' }]);
    expect(lines.length > 0).toBe(severities[0] === 'warning');
  });

  it('a helix is written where C and Z count against each other as on the main spindle', () => {
    for (const [zSense, workRotation] of [[1, 1], [-1, -1]] as const) {
      const { blocks } = composed(hobbing, `${gear} HELIX=15 HAND=LEFT SPINDLE=SUB`, withSub({ zSense, workRotation }));
      expect(blocks.find((each) => each.startsWith('G881'))).toMatch(/R-15\.0$/);
    }
  });

  it('what the card says of the sub-spindle itself goes before what follows from the main one', () => {
    const codeOf = (change: object) => composed(hobbing, `${gear} SPINDLE=SUB`, withSub(change)).blocks;
    const [derived, said, other] = [{}, { toolRotation: -1 }, { toolRotation: 1 }].map(codeOf);
    expect(said).toEqual(derived);
    expect((other ?? []).filter((block) => /^M88[34]/.test(block))).not.toEqual((derived ?? []).filter((block) => /^M88[34]/.test(block)));
    expect(codeOf({ hobSide: '-X' }).filter((block) => block.includes('X')).every((block) => block.includes('X-'))).toBe(true);
    expect(codeOf({ ySense: 1, toolRotation: 1, hobSide: '+X' }).length).toBeGreaterThan(10);
  });
});

it('the swivel as a figure is known of the one turret that serves both spindles, and a hole elsewhere', () => {
  const word = { codes: { ...subCard.codes, drivenStart: 'M883 S{rpm} B{angle}', drivenReverse: 'M884 S{rpm} B{angle}' } };
  const swivels = (own: MachineCard, spindle: string) => composed(hobbing, `${gear} SPINDLE=${spindle}`, own).blocks.filter((each) => /^M88[34]/.test(each)).map((each) => each.split(' ')[2]);
  expect(swivels(withSub({}, word), 'SUB')).toEqual(swivels(withSub({}, word), 'MAIN'));
  const other = withSub({ ySense: 1, toolRotation: 1, hobSide: '+X' }, word);
  expect(swivels(other, 'SUB')).toEqual(['B<angle>']);
  expect(swivels(other, 'MAIN')).toEqual(swivels(withSub({}, word), 'MAIN'));
});

describe('the sign of a helix figure', () => {
  const helixIn = (text: string, card: MachineCard, letter = 'R') => numberIn(composed(hobbing, text, card).blocks.find((each) => each.startsWith('G881')) ?? '', letter);

  it('is what the card says of each spindle, else that of the main one where both count alike', () => {
    const helical = `${gear} HELIX=15 HAND=LEFT`;
    expect(helixIn(helical, subCard)).toBe(-15);
    expect(helixIn(helical, { ...subCard, senses: { ...subCard.senses, helixSign: -1 } })).toBe(15);
    for (const [change, senses, expected] of [
      [{ zSense: -1, workRotation: 1, helixSign: 1 }, {}, -15], [{ zSense: -1, workRotation: 1, helixSign: -1 }, {}, 15],
      [{ zSense: 1, workRotation: 1 }, { helixSign: -1 }, 15], [{ zSense: 1, workRotation: 1, helixSign: 1 }, { helixSign: -1 }, -15],
    ] as const) expect(helixIn(`${helical} SPINDLE=SUB`, withSub(change, { senses: { ...subCard.senses, ...senses } }))).toBe(expected);
  });

  it('goes into {hand} where the word asks for that', () => {
    const card: MachineCard = { ...subCard, codes: { ...subCard.codes, syncOn: 'G881 P{starts} Q{sense}{teeth} R{helix} J{hand}' }, senses: { ...subCard.senses, helixSign: -1 } };
    expect([helixIn(`${gear} HELIX=15`, card), helixIn(`${gear} HELIX=15`, card, 'J')]).toEqual([15, -1]);
  });
});

describe('words of its own for the coupling on the sub-spindle', () => {
  const own: MachineCard = { ...subCard, codes: { ...subCard.codes, subSyncOn: 'G781 K{starts} L{sense}{teeth} R{helix}', subSyncOff: 'G780' } };
  const syncWords = (text: string, card: MachineCard) => composed(hobbing, text, card).blocks.filter((each) => /^G[78]8[01]/.test(each)).map((each) => each.slice(0, 4));

  it('are used there and only there; where the card has none, one pair serves both', () => {
    expect(syncWords(`${gear} SPINDLE=SUB`, own)).toEqual(['G781', 'G780']);
    expect(syncWords(gear, own)).toEqual(['G881', 'G880']);
    expect(syncWords(`${gear} SPINDLE=SUB`, subCard)).toEqual(['G881', 'G880']);
    expect(syncWords(`${gear} SPINDLE=SUB`, { ...own, codes: { ...own.codes, subSyncOff: '' } })).toEqual(['G781', 'G880']);
  });

  it('are read back as coupling and its end', () => {
    const { blocks } = composed(hobbing, `${gear} SPINDLE=SUB`, own);
    const program = readProgram(['G21 G90 G94', ...blocks].join('\n'), dialectOf(own));
    const at = (start: string) => blocks.findIndex((each) => each.startsWith(start)) + 1;
    expect(program.stateAfter(at('G781')).sync?.slots).toMatchObject({ starts: 1, teeth: numberIn(blocks[at('G781') - 1] ?? '', 'L') });
    expect(program.stateAfter(at('G780')).sync).toBeUndefined();
  });

  it('decide whether a helix can be had and a sign be written, and holes name them', () => {
    const card = (subSyncOn: string): MachineCard => ({ ...own, codes: { ...own.codes, subSyncOn } });
    const errors = (text: string, own: MachineCard) => composed(hobbing, `${text} SPINDLE=SUB`, own).problems.filter(({ severity }) => severity === 'error').map(({ parameter, cardKey }) => `${parameter} ${cardKey}`);
    expect(errors(`${gear} HELIX=15`, card('G781 K{starts} L{sense}{teeth}'))).toEqual(['HELIX codes.subSyncOn']);
    expect(errors(`${gear} HOB-HAND=LEFT`, card('G781 K{starts} L{teeth}'))).toEqual(['HOB-HAND codes.subSyncOn']);
    expect(errors(gear, card('G781 K{starts} L{teeth}'))).toEqual([]);
    expect(errors(`${gear} TOOTH-ANGLE=10 HOB-PHASE=3`, own)).toEqual(['TOOTH-ANGLE codes.subSyncOn']);
  });
});
