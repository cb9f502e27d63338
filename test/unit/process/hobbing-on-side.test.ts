/**
 * Hobbing in the sub-spindle. The directions of a block are held against a
 * second computation that knows no law and no axes of the face: hob and work as
 * bodies in the space of the machine, turned and moved as the block says, and
 * the threads of the hob must run along with the teeth. [vector geometry, derived]
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { machineCardSchema, type MachineCard } from '../../../server/src/machine/card.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
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

/** The machine's axes. The main spindle's face looks to +Z, so the face in the sub-spindle looks to -Z. */
const [machineX, machineY, outOfFace]: Vector[] = [[1, 0, 0], [0, 1, 0], [0, 0, -1]];
if (!machineX || !machineY || !outOfFace) throw new Error('three axes');

interface Mixture { gearHand: Sign; hobHand: Sign; side: Sign; workRotation: Sign; zSense: Sign; toolRotation: Sign; climb: boolean }

const names = ['gearHand', 'hobHand', 'side', 'workRotation', 'zSense', 'toolRotation'] as const;
const mixtures: Mixture[] = Array.from({ length: 128 }, (_, number) => {
  const signs = Object.fromEntries(names.map((name, bit) => [name, number & (1 << bit) ? -1 : 1]));
  return { ...(signs as Omit<Mixture, 'climb'>), climb: number < 64 };
});

/** Y is one slide for both spindles and is not mirrored, so growing Y goes to the right of somebody who looks at the face of the sub-spindle. */
function cardOf({ side, workRotation, zSense, toolRotation }: Mixture): MachineCard {
  return machineCardSchema.parse({
    name: 'Invented for the signs of a sub-spindle', decimals: 6, angleDecimals: 6, differentialByWorkAxis: 'absolute',
    senses: { workRotation: 1, toolRotation, hobSide: side > 0 ? '+X' : '-X' },
    subSpindle: { zSense, ySense: -1, workRotation },
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
  const towardWork = times(-mixture.side, machineX as Vector);
  // Clockwise to somebody who looks along a direction is right-handed about it.
  const hobAxis = turned(machineY as Vector, towardWork, angle);
  const towardHob = times(-1, towardWork);
  const roundWork = cross(outOfFace as Vector, towardHob);
  const toothTrace = add(times(Math.cos(beta), outOfFace as Vector), times(mixture.gearHand * Math.sin(beta), roundWork));
  return { blocks, comments, towardWork, hobAxis, roundWork, acrossTeeth: cross(toothTrace, towardHob), toothTrace };
}

/** Radians of the hob about its axis for one of the drive's forward turn, and of the work about the way out of its face. */
function turnsOf(mixture: Mixture, blocks: readonly string[]) {
  const sync = blocks.find((each) => each.startsWith('G137')) ?? '';
  const perDrive = numberIn(sync, 'P') / numberIn(sync, 'Q');
  return { hobTurn: mixture.toolRotation, workTurn: mixture.workRotation * perDrive };
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
      const { blocks, hobAxis, roundWork, acrossTeeth } = bodiesOf(mixture);
      const { hobTurn, workTurn } = turnsOf(mixture, blocks);
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
      const slip = add(times(out, outOfFace as Vector), times(-turn * pitchRadius, roundWork));
      expect(Math.abs(dot(slip, acrossTeeth)), JSON.stringify(mixture)).toBeLessThan(1e-4);
    }
  });

  it('climb cuts against the feed, conventional with it [definition]', () => {
    for (const mixture of mixtures) {
      const { blocks, hobAxis, towardWork } = bodiesOf(mixture);
      const forward = blocks.some((each) => each.startsWith('M123'));
      expect(forward).not.toBe(blocks.some((each) => each.startsWith('M124')));
      const cutting = cross(times((forward ? 1 : -1) * mixture.toolRotation, hobAxis), towardWork);
      expect(dot(cutting, outOfFace as Vector) > 0, JSON.stringify(mixture)).toBe(mixture.climb);
    }
  });

  it('a shift goes along the hob axis to the end where Y grows, and the turn of C that is told keeps the teeth', () => {
    for (const mixture of mixtures) {
      const shifted = bodiesOf(mixture, 'SHIFT=4');
      const placeOf = (blocks: readonly string[]) => blocks.find((each) => each.startsWith('G00 Y')) ?? '';
      const [here, there] = [placeOf(blockOf(mixture).blocks), placeOf(shifted.blocks)];
      const moved = add(times(numberIn(there, 'Y'), machineY as Vector), times(mixture.zSense * (numberIn(there, 'Z') - numberIn(here, 'Z')), outOfFace as Vector));
      expect(Math.hypot(...add(moved, times(-4, shifted.hobAxis))), JSON.stringify(mixture)).toBeLessThan(1e-4);
      const told = /TURNING C BY (-?[\d.]+) DEG/.exec(shifted.comments.join(' '));
      const turn = (mixture.workRotation * Number(told?.[1] ?? NaN) * Math.PI) / 180;
      expect(Math.abs(dot(add(moved, times(-turn * pitchRadius, shifted.roundWork)), shifted.acrossTeeth)), JSON.stringify(mixture)).toBeLessThan(1e-3);
    }
  });

  it('the figures of a shift are those of the words', () => {
    for (const mixture of mixtures.slice(0, 64)) {
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
    ['Y mirrored, or another turret', gear, withSub({ ySense: 1 }), 'SPINDLE', 'subSpindle.ySense'],
    ['the sign of a helix where C and Z count against each other otherwise', `${gear} HELIX=15`, withSub({ zSense: -1, workRotation: 1 }), 'HELIX', 'subSpindle.workRotation'],
    ['the sign of a helix where C of the main spindle is not said', `${gear} HELIX=15`, withSub({}, { senses: { toolRotation: 1 } }), 'HELIX', 'senses.workRotation'],
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
});
