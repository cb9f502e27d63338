/**
 * The directions that a composed block gives, against the law of the trade
 * library and, for the law itself, against the vector geometry of a rack that
 * hob and gear share. Every mixture of hands, sides and senses is taken.
 */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { machineCardSchema } from '../../../server/src/machine/card.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { gearGeometry } from '../../../server/src/trade/gear.ts';
import { hobGeometry } from '../../../server/src/trade/hob.ts';
import { hobRotationSense, workRotationDegrees } from '../../../server/src/trade/hobbing-law.ts';
import { values } from './figures.ts';

type Sign = 1 | -1;

interface Mixture {
  gearHand: Sign;
  hobHand: Sign;
  side: Sign;
  workRotation: Sign;
  toolRotation: Sign;
  climb: boolean;
  diameterProgramming: boolean;
  units: 'mm' | 'inch';
  ratio: number;
}

const signs: readonly Sign[] = [1, -1];
const mixtures: Mixture[] = signs.flatMap((gearHand) => signs.flatMap((hobHand) => signs.flatMap((side) => signs.flatMap((workRotation) => signs.flatMap((toolRotation) =>
  [true, false].flatMap((climb) => [true, false].flatMap((diameterProgramming) => (['mm', 'inch'] as const).map((units, index): Mixture => ({ gearHand, hobHand, side, workRotation, toolRotation, climb, diameterProgramming, units, ratio: [1, 1.5][index] ?? 1 })))))))));

function cardOf(mixture: Mixture, syncOn: string, change: object = {}): MachineCard {
  return machineCardSchema.parse({
    name: 'Invented for the signs', decimals: 4, angleDecimals: 4, diameterProgramming: mixture.diameterProgramming,
    senses: { workRotation: mixture.workRotation, toolRotation: mixture.toolRotation, hobSide: mixture.side > 0 ? '+X' : '-X' },
    codes: {
      feedPerMinute: 'G94', syncOn, syncOff: 'G138', workAxisOn: 'M191', workAxisOff: 'M192',
      drivenStart: 'M123 S{rpm}', drivenReverse: 'M124 S{rpm}', drivenStop: 'M125',
    },
    toolUnits: [{ kind: 'hobbing', name: 'invented hob unit', ratio: mixture.ratio }],
    ...change,
  });
}

const lengths = { mm: 'FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5', inch: 'FACE=.8 HOB-DIA=2.5 SPEED=200 FEED=.06' } as const;

function note({ gearHand, hobHand, climb, units }: Mixture, more = ''): string {
  const hand = (sign: Sign) => (sign > 0 ? 'RIGHT' : 'LEFT');
  return `MODULE=2 TEETH=31 HELIX=20 HAND=${hand(gearHand)} HOB-STARTS=2 HOB-HAND=${hand(hobHand)} METHOD=${climb ? 'CLIMB' : 'CONVENTIONAL'} ${lengths[units]} ${more}`;
}

function blocks(mixture: Mixture, card: MachineCard, more = ''): string[] {
  const { lines, problems } = hobbing.compose(values(note(mixture, more)), { units: mixture.units, card });
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return lines.flatMap((line) => (line.kind === 'block' ? [line.words] : []));
}

/** The gear and the hob of the notes, in mm. */
function pair({ gearHand, hobHand, units }: Mixture) {
  const gear = gearGeometry({ units: 'mm', normalModule: 2, teeth: 31, helixAngleDegrees: 20, gearHand, normalPressureAngleDegrees: 20, profileShift: 0 });
  return { gear, hob: hobGeometry({ hobTipDiameter: units === 'mm' ? 63 : 63.5, hobStarts: 2, hobHand, hobGashes: 12 }, gear) };
}

function numberIn(lines: readonly string[], line: RegExp, letter: string): number {
  const found = lines.find((each) => line.test(each)) ?? '';
  return Number(new RegExp(`${letter}(-?[\\d.]+)`).exec(found)?.[1] ?? NaN);
}

describe('directions over the whole grid', () => {
  it('takes every mixture once', () => {
    expect(new Set(mixtures.map((mixture) => JSON.stringify(mixture))).size).toBe(256);
  });

  it('the hob turns as climb or conventional asks [definition: climb cuts against the feed]', () => {
    for (const mixture of mixtures) {
      const words = blocks(mixture, cardOf(mixture, 'G137 P{starts} Q{sense}{teeth} R{helix}'));
      const forward = words.some((each) => each.startsWith('M123'));
      expect(forward).not.toBe(words.some((each) => each.startsWith('M124')));
      const turns = (forward ? 1 : -1) * mixture.toolRotation;
      expect(turns, JSON.stringify(mixture)).toBe(hobRotationSense(mixture.climb, -1, mixture.side));
      // Vector geometry: at the side of the hob that faces the work, omega x r is toward +Z for a hob on +X that turns about +Y.
      const cutTowardPlusZ = turns * mixture.side > 0;
      expect(cutTowardPlusZ, JSON.stringify(mixture)).toBe(mixture.climb);
      const { lines } = hobbing.compose(values(note(mixture)), { units: mixture.units, card: cardOf(mixture, 'G137 P{starts} Q{sense}{teeth} R{helix}') });
      expect(lines).toContainEqual({ kind: 'comment', text: `MOUNT THE HOB SO THAT AT THE WORK IT CUTS ${cutTowardPlusZ ? 'AWAY FROM' : 'TOWARD'} THE CHUCK` });
    }
  });

  it('the work turns by the law for one turn of the drive, in sign and amount', () => {
    for (const mixture of mixtures) {
      const words = blocks(mixture, cardOf(mixture, 'G137 P{starts} Q{sense}{teeth} R{helix}'));
      const perDriveTurn = numberIn(words, /^G137/, 'P') / numberIn(words, /^G137/, 'Q');
      const { gear, hob } = pair(mixture);
      const senses = { hobSide: mixture.side, workRotationSense: mixture.workRotation };
      const byLaw = workRotationDegrees(gear, hob, senses, { hobDegrees: (360 * mixture.toolRotation) / mixture.ratio, deltaY: 0, deltaZ: 0 }) / 360;
      expect(Math.abs(perDriveTurn - byLaw), JSON.stringify(mixture)).toBeLessThan(1e-12);
      // A right-hand worm on +X that turns right-handed about +Y carries the wheel left-handed about +Z.
      expect(Math.sign(perDriveTurn)).toBe(-mixture.hobHand * mixture.side * mixture.toolRotation * mixture.workRotation);
    }
  });

  it('the swivel is called out as seen from the hob, whatever side it stands on [vector geometry, derived]', () => {
    for (const mixture of mixtures) {
      const { lines } = hobbing.compose(values(note(mixture)), { units: mixture.units, card: cardOf(mixture, 'G137 P{starts} Q{sense}{teeth} R{helix}') });
      const text = lines.map((line) => (line.kind === 'comment' ? line.text : '')).find((each) => each.startsWith('SWIVEL'));
      expect(text, JSON.stringify(mixture)).toContain(mixture.gearHand > 0 ? ' CLOCKWISE' : 'COUNTER-CLOCKWISE');
    }
  });

  it('X carries the side, and is a diameter or a radius; lengths are in the units of the program', () => {
    for (const mixture of mixtures) {
      const words = blocks(mixture, cardOf(mixture, 'G137 P{starts} Q{sense}{teeth} R{helix}'));
      const { gear, hob } = pair(mixture);
      const millimetres = numberIn(words.slice(words.findIndex((each) => each.startsWith('G137'))), /^G00 X/, 'X') * (mixture.units === 'inch' ? 25.4 : 1) / (mixture.diameterProgramming ? 2 : 1);
      expect(Math.abs(millimetres - mixture.side * (gear.rootDiameter / 2 + hob.tipDiameter / 2)), JSON.stringify(mixture)).toBeLessThan(0.002);
    }
  });

  it('the speed word is of the drive: hob speed times the ratio of the unit', () => {
    for (const mixture of mixtures) {
      const words = blocks(mixture, cardOf(mixture, 'G137 P{starts} Q{sense}{teeth} R{helix}'));
      const metresPerMinute = mixture.units === 'mm' ? 60 : 200 * 0.3048;
      const { hob } = pair(mixture);
      const wanted = ((1000 * metresPerMinute) / (Math.PI * hob.tipDiameter)) * mixture.ratio;
      expect(Math.abs(numberIn(words, /^M12[34]/, 'S') - wanted), JSON.stringify(mixture)).toBeLessThanOrEqual(0.5);
    }
  });
});

describe('what the synchronous word says of the helix [right hand is plus: ISO 21771 as in the setting angle; sign for the control: machine card]', () => {
  it.each(mixtures.filter(({ diameterProgramming, units, toolRotation }) => diameterProgramming && units === 'mm' && toolRotation > 0).map((mixture) => [JSON.stringify(mixture), mixture] as const))('%s', (_name, mixture) => {
    const lead = (Math.PI * 2 * 31) / Math.sin((20 * Math.PI) / 180);
    const word = (template: string) => blocks(mixture, cardOf(mixture, template)).find((each) => each.startsWith('G137')) ?? '';
    expect(Number(/R(\S+)/.exec(word('G137 Q{sense}{teeth} R{helix}'))?.[1])).toBe(20 * mixture.gearHand);
    expect(Number(/R(\S+)/.exec(word('G137 Q{sense}{teeth} R{lead}'))?.[1])).toBeCloseTo(lead * mixture.gearHand, 3);
    expect(word('G137 Q{sense}{teeth} R{helix} D{hand}')).toMatch(mixture.gearHand > 0 ? /R20\.0 D1$/ : /R20\.0 D-1$/);
    expect(Number(/R(\S+)/.exec(word('G137 Q{sense}{teeth} R{lead} D{hand}'))?.[1])).toBeCloseTo(lead, 3);
  });

  it('straight teeth have no lead: a hole, unless the card says what stands for it', () => {
    const [mixture] = mixtures;
    if (!mixture) throw new Error('no mixture');
    const straight = values(note(mixture).replace('HELIX=20', 'HELIX=0'));
    const compose = (card: MachineCard) => hobbing.compose(straight, { units: mixture.units, card });
    const open = compose(cardOf(mixture, 'G137 Q{sense}{teeth} R{lead}'));
    expect(open.problems).toMatchObject([{ rule: 'hole', severity: 'error', cardKey: 'straightLead' }]);
    expect(open.lines).toContainEqual({ kind: 'block', words: 'G137 Q-31 R<lead>' });
    const stated = compose(cardOf(mixture, 'G137 Q{sense}{teeth} R{lead}', { straightLead: 0 }));
    expect(stated.problems).toEqual([]);
    expect(stated.lines).toContainEqual({ kind: 'block', words: 'G137 Q-31 R0.0' });
  });
});

describe('the helix by C words, where the control has no differential of its own', () => {
  const word = 'G137 P{starts} Q{sense}{teeth}';
  const byC = mixtures.filter(({ diameterProgramming, units, toolRotation }) => diameterProgramming && units === 'mm' && toolRotation > 0);

  it.each(byC.map((mixture) => [JSON.stringify(mixture), mixture] as const))('absolute: C goes with Z by 360 degrees a lead, forth and back: %s', (_name, mixture) => {
    const words = blocks(mixture, cardOf(mixture, word, { differentialByWorkAxis: 'absolute' }), 'CUTS=2');
    const atTheWork = words.slice(words.findIndex((each) => each.startsWith('G00 Y')), words.indexOf('G138'));
    const moves = atTheWork.flatMap((each) => (/Z/.test(each) ? [{ z: Number(/Z(-?[\d.]+)/.exec(each)?.[1]), c: Number(/C(-?[\d.]+)/.exec(each)?.[1] ?? 0) }] : []));
    expect(words.indexOf('G00 C0.0')).toBeLessThan(words.findIndex((each) => each.startsWith('G137')));
    expect(moves.length).toBe(5);
    // D20 in another size: 360 tan(beta) / (pi d) degrees a mm; a right-hand tooth turns left-handed about +Z toward +Z.
    const perMillimetre = (-mixture.gearHand * mixture.workRotation * 360 * Math.sin((20 * Math.PI) / 180)) / (Math.PI * 2 * 31);
    for (const { z, c } of moves) expect(Math.abs(c - perMillimetre * (z - (moves[0]?.z ?? NaN)))).toBeLessThan(1e-4);
    expect(Math.abs(moves[1]?.c ?? 0)).toBeGreaterThan(10);
  });

  it('incremental: the letter of the card, and all increments of two cuts add up to the difference of the starts', () => {
    for (const mixture of byC) {
      const change = { differentialByWorkAxis: 'incremental', incrementalAxes: { H: 'C' } };
      const incremental = blocks(mixture, cardOf(mixture, word, change), 'CUTS=2').flatMap((each) => (/H/.test(each) ? [Number(/H(-?[\d.]+)/.exec(each)?.[1])] : []));
      const absolute = blocks(mixture, cardOf(mixture, word, { differentialByWorkAxis: 'absolute' }), 'CUTS=2').flatMap((each) => (/ C/.test(each) && /Z/.test(each) ? [Number(/C(-?[\d.]+)/.exec(each)?.[1])] : []));
      expect(incremental.length).toBe(4);
      const sums = incremental.map((_, index) => Number(incremental.slice(0, index + 1).reduce((sum, each) => sum + each, 0).toFixed(4)));
      expect(sums).toEqual(absolute);
    }
  });

  it('a straight gear needs none, and a control that makes the helix itself gets none', () => {
    const [mixture] = byC;
    if (!mixture) throw new Error('no mixture');
    const card = cardOf(mixture, word, { differentialByWorkAxis: 'absolute' });
    const straight = hobbing.compose(values(note(mixture).replace('HELIX=20', 'HELIX=0')), { units: 'mm', card });
    expect(straight.lines.some((line) => line.kind === 'block' && / C-?\d/.test(line.words))).toBe(false);
    expect(blocks(mixture, cardOf(mixture, `${word} R{helix}`, { differentialByWorkAxis: 'absolute' })).some((each) => / C-?\d/.test(each))).toBe(false);
  });

  it('a sense that the card does not state is a hole, not a guess', () => {
    const [mixture] = byC;
    if (!mixture) throw new Error('no mixture');
    const card = cardOf(mixture, 'G137 P{starts} Q{teeth}', { differentialByWorkAxis: 'absolute', senses: { toolRotation: 1 } });
    const { lines, problems } = hobbing.compose(values(note(mixture).replace('HOB-HAND=LEFT', '')), { units: 'mm', card });
    expect(lines.some((line) => line.kind === 'block' && line.words.includes('C<sense>'))).toBe(true);
    expect(problems.filter(({ severity }) => severity === 'error')).toMatchObject([{ rule: 'hole', cardKey: 'senses.workRotation' }]);
  });

  it('incremental without a letter for C is refused by name', () => {
    const [mixture] = byC;
    if (!mixture) throw new Error('no mixture');
    const { problems } = hobbing.compose(values(note(mixture)), { units: 'mm', card: cardOf(mixture, word, { differentialByWorkAxis: 'incremental' }) });
    expect(problems.filter(({ severity }) => severity === 'error')).toMatchObject([{ parameter: 'HELIX', rule: 'no-differential', cardKey: 'incrementalAxes' }]);
  });
});

describe('a card that does not say which way drivenStart turns the hob', () => {
  const [mixture] = mixtures;
  if (!mixture) throw new Error('no mixture');
  const compose = (syncOn: string, senses: object, more = '') => hobbing.compose(values(note(mixture, more)), { units: mixture.units, card: cardOf(mixture, syncOn, { senses }) });

  it.each([
    [{ workRotation: 1, hobSide: '+X' }, 'senses.toolRotation'], [{ workRotation: 1, toolRotation: 1 }, 'senses.hobSide'], [{ hobSide: '+X', toolRotation: 1 }, 'senses.workRotation'],
  ] as const)('the sign of the coupling is a hole that names the key, for it decides whether teeth are cut or milled away: %j', (senses, cardKey) => {
    const { lines, problems } = compose('G137 P{starts} Q{sense}{teeth} R{helix}', senses);
    expect(lines).toContainEqual({ kind: 'block', words: 'G137 P2 Q<sense>31 R20.0' });
    expect(problems.filter(({ severity }) => severity === 'error')).toMatchObject([{ rule: 'hole', cardKey }]);
  });

  it('a word without a sign couples right whichever way the drive turns, so there is a warning of climb and conventional and no hole', () => {
    const { lines, problems } = compose('G137 P{starts} Q{teeth} R{helix}', { workRotation: 1, hobSide: '+X' });
    expect(lines.some((line) => line.kind === 'block' && line.words.includes('<'))).toBe(false);
    expect(problems.map(({ severity, cardKey }) => `${severity} ${cardKey}`)).toEqual(['warning codes.syncOn', 'warning senses.toolRotation']);
  });
});
