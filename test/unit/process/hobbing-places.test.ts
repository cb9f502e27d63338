/** Where a hobbing block goes and in which order, and the angular place of its teeth. */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import type { Composition } from '../../../server/src/process/process.ts';
import { inventedCard, withCodes } from '../../invented-machine.ts';
import { values } from './figures.ts';

const gear = 'MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';

function compose(text: string, card: MachineCard = inventedCard): Composition {
  return hobbing.compose(values(text), { units: 'mm', card });
}

function blocks(text: string, card: MachineCard = inventedCard): string[] {
  return compose(text, card).lines.flatMap((line) => (line.kind === 'block' ? [line.words] : []));
}

function comments(text: string, card: MachineCard = inventedCard): string[] {
  return compose(text, card).lines.flatMap((line) => (line.kind === 'comment' ? [line.text] : []));
}

const number = (words: string, letter: string) => Number(new RegExp(`${letter}(-?[\\d.]+)`).exec(words)?.[1] ?? NaN);

describe('the order of a block [own rule: nothing moves along the work unless the hob is clear of it or cuts]', () => {
  const words = blocks(`${gear} CUTS=3 SHIFT=4`);
  const at = (pattern: RegExp) => words.findIndex((each) => pattern.test(each));

  it('clear, place, couple, cut, uncouple, home', () => {
    const order = [/^G94/, /^G00 X/, /^G00 Y/, /^M11/, /^M881/, /^M883/, /^G881/, /^M08/, /^G01/, /^M09/, /^G880/, /^M885/, /^M880/, /^G00 Y0\.0$/].map(at);
    expect(order).toEqual([...order].sort((first, second) => first - second));
    expect(order).not.toContain(-1);
  });

  it('every rapid along Z is made at the clear X, and every feed at the X of a cut', () => {
    const clear = number(words[at(/^G00 X/)] ?? '', 'X');
    let x = NaN;
    for (const each of words) {
      if (each.includes('X')) x = number(each, 'X');
      if (/^G00 .*Z/.test(each)) expect(x).toBe(clear);
      if (each.startsWith('G01')) expect(x).toBeLessThan(clear);
    }
  });

  it('each cut begins at its own approach: deeper cuts farther out, the last as far as a single one', () => {
    const starts = words.filter((each) => /^G00 .*Z/.test(each)).map((each) => number(each, 'Z'));
    const [first = NaN, second = NaN, third = NaN, back = NaN] = starts;
    expect(first).toBeLessThan(second);
    expect(second).toBeLessThan(third);
    expect(back).toBe(third);
    expect(third).toBe(number(blocks(`${gear} SHIFT=4`).find((each) => /^G00 Y/.test(each)) ?? '', 'Z'));
    expect(new Set(words.filter((each) => each.startsWith('G01')).map((each) => number(each, 'Z'))).size).toBe(1);
  });

  it('the length of the feed moves is the travel of which the cutting time counts', () => {
    const evaluation = hobbing.evaluate(values(`${gear} CUTS=3`), { units: 'mm', card: inventedCard });
    const figure = (id: string) => evaluation.quantities.find((each) => each.id === id)?.value ?? NaN;
    const all = blocks(`${gear} CUTS=3`);
    let z = NaN;
    let travel = 0;
    for (const each of all) {
      if (each.startsWith('G01')) travel += z - number(each, 'Z');
      if (each.includes('Z')) z = number(each, 'Z');
    }
    expect(travel).toBeCloseTo((figure('cuttingTime') * figure('feedPerMinute')) / 60, 2);
  });
});

describe('what the operator is told', () => {
  it('which hob, and what a shift does to the teeth [D21: 7.950931 degrees for 5 mm on the spur gear, derived]', () => {
    const spur = 'MODULE=3 TEETH=24 HOB-DIA=80 HOB-STARTS=1 FACE=30 SPEED=70 FEED=2.5 SHIFT=5';
    const roomy: MachineCard = { ...inventedCard, toolUnits: [] };
    expect(comments(spur, roomy)).toContain('HOB 80.0 DIA, 1 START, RIGHT HAND, CLIMB');
    expect(comments(spur, roomy)).toContain('HOB SHIFT 5: TURNING C BY 7.951 DEG KEEPS THE TEETH IN THEIR PLACE');
    expect(comments(gear).some((text) => text.includes('SHIFT'))).toBe(false);
  });

  it('nothing of a sign that the card does not state', () => {
    const card: MachineCard = { ...inventedCard, senses: { toolRotation: 1 } };
    expect(comments(`${gear} SHIFT=5`, card).some((text) => text.includes('SHIFT'))).toBe(false);
  });

  it('every comment fits a line of 80', () => {
    const texts = comments(`${gear} SHIFT=-4.5 METHOD=CONVENTIONAL HOB-STARTS=3 HAND=LEFT`);
    for (const text of texts) expect(text.length, text).toBeLessThanOrEqual(78);
  });
});

describe('teeth that must have their angular place', () => {
  const phased = withCodes({ syncOn: 'G881 P{starts} Q{sense}{teeth} R{helix} D{phase}' });
  const phase = (text: string, card: MachineCard = phased) => number(blocks(text, card).find((each) => each.startsWith('G881')) ?? '', 'D');
  const straight = gear.replace('HELIX=15', 'HELIX=0');

  it('where the card does not say the phase: a hole and an error, and only if they are asked for', () => {
    const { lines, problems } = compose(`${gear} TOOTH-ANGLE=30`);
    expect(lines).toContainEqual({ kind: 'block', words: 'G00 C<phase>' });
    expect(problems).toMatchObject([{ parameter: 'TOOTH-ANGLE', rule: 'hole', severity: 'error', cardKey: 'codes.syncOn' }]);
    expect(compose(gear).problems).toEqual([]);
  });

  it('where the phase of the hob is not known: a hole in the word itself', () => {
    const { lines, problems } = compose(`${gear} TOOTH-ANGLE=30`, phased);
    expect(lines).toContainEqual({ kind: 'block', words: 'G881 P1 Q-32 R15.0 D<phase>' });
    expect(problems).toMatchObject([{ rule: 'hole', severity: 'error' }]);
  });

  it('any angle does for teeth that may stand anywhere', () => expect(phase(gear)).toBe(0));

  it('the phase follows the tooth, and the shift by the turn of D21 [derived]', () => {
    const wide: MachineCard = { ...phased, toolUnits: [] };
    const d21 = 'MODULE=3 TEETH=24 HOB-DIA=80 FACE=30 SPEED=70 FEED=2.5 TOOTH-ANGLE=20 HOB-PHASE=10';
    expect(phase(d21, wide)).toBe(30);
    expect(phase(`${d21} SHIFT=5`, wide)).toBeCloseTo(30 + 7.950931, 3);
    expect(phase(`${straight} TOOTH-ANGLE=-20 HOB-PHASE=10`)).toBe(350);
  });

  it('a shift by one axial pitch of the hob is a whole tooth [D21: 12 degrees for 30 teeth, derived]', () => {
    const wide: MachineCard = { ...phased, toolUnits: [], limits: {} };
    const d15 = 'MODULE=3 TEETH=30 HELIX=20 HOB-DIA=80 FACE=30 SPEED=70 FEED=2.5 TOOTH-ANGLE=0 HOB-PHASE=200';
    expect(phase(`${d15} SHIFT=9.432857`, wide) - phase(d15, wide)).toBeCloseTo(12, 2);
  });

  it('on helical teeth the phase is that of the start, from which the control turns along the lead to FACE-Z [derived]', () => {
    const text = `${gear} TOOTH-ANGLE=0 HOB-PHASE=100`;
    const startZ = number(blocks(text, phased).find((each) => each.startsWith('G00 Y')) ?? '', 'Z');
    const lead = (Math.PI * 2 * 32) / Math.sin((15 * Math.PI) / 180);
    expect(phase(text)).toBeCloseTo(100 - (360 * startZ) / lead, 2);
    expect(phase(`${text} HAND=LEFT`)).toBeCloseTo(100 + (360 * number(blocks(`${text} HAND=LEFT`, phased).find((each) => each.startsWith('G00 Y')) ?? '', 'Z')) / lead, 2);
  });
});

describe('the speed word', () => {
  it.each([['RPM=303.15', 'M883 S303'], ['RPM=24.37', 'M883 S24.4'], ['RPM=3.333', 'M883 S3.33'], ['RPM=50', 'M883 S50']])('%s is written %s, fine enough for the feed that is computed from it', (rpm, word) => {
    expect(blocks(gear.replace('SPEED=60', rpm))).toContain(word);
  });
});
