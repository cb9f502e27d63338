import { describe, expect, it } from 'vitest';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { checkFigures, figureOf, inch, metric, values } from './figures.ts';

const hob = 'FACE=12 HOB-DIA=50 SPEED=55 FEED=1.2';
const inchHob = 'FACE=.5 HOB-DIA=2 SPEED=180 FEED=.05';

describe('splines by their standard', () => {
  checkFigures(hobbing, [
    { name: 'DIN 5480 W30 x 2 x 14, D28', source: 'data sheet of one DIN 5480 spline', standing: 'seen in source', values: `SPLINE=DIN5480-W30X2X14 ${hob}`, expected: { referenceDiameter: [28, 6], baseDiameter: [24.24871, 5], tipDiameter: [29.6, 6], rootDiameter: [25.4, 6], wholeDepth: [2.1, 6], syncRatio: [1 / 14, 9] } },
    { name: 'DIN 5480 W50 x 2 x 24, D29', source: 'formulas of the same data sheet', standing: 'derived', values: `SPLINE=DIN5480-W50X2X24 ${hob}`, expected: { tipDiameter: [49.6, 6], rootDiameter: [45.4, 6] } },
    { name: 'ANSI B92.1 16/32, 9 teeth, D30', source: 'ANSI B92.1-1970 table of basic dimensions', standing: 'recomputed published value', setting: inch, values: `SPLINE=B92.1-16/32-N9-30-FLAT ${inchHob}`, expected: { referenceDiameter: [0.5625, 6], baseDiameter: [0.48714, 5], tipDiameter: [0.625, 6], rootDiameter: [0.478125, 6] } },
    { name: 'ANSI B92.1 16/32, 15 teeth, D30', source: 'a 15-tooth 16/32 shaft is listed as 1.00 inch', standing: 'seen in source', setting: inch, values: `SPLINE=B92.1-16/32-N15-30-FLAT ${inchHob}`, expected: { referenceDiameter: [0.9375, 6], tipDiameter: [1, 6] } },
    { name: 'ANSI B92.1 12/24, 20 teeth, fillet root', source: 'ANSI B92.1-1970: minor diameter (N - 1.8)/P', standing: 'recomputed published value', setting: inch, values: `SPLINE=B92.1-12/24-N20-30-FILLET ${inchHob}`, expected: { tipDiameter: [21 / 12, 6], rootDiameter: [18.2 / 12, 6] } },
    { name: 'ANSI B92.1 10/20, 20 teeth, 37.5 degrees', source: 'ANSI B92.1-1970: minor diameter (N - 1.3)/P', standing: 'recomputed published value', setting: inch, values: `SPLINE=B92.1-10/20-N20-37.5-FILLET ${inchHob}`, expected: { tipDiameter: [2.1, 6], rootDiameter: [1.87, 6], baseDiameter: [2 * Math.cos((37.5 * Math.PI) / 180), 6] } },
  ]);

  it('a spline is the gear of the same sizes, in every figure [derived]', () => {
    const byName = hobbing.evaluate(values(`SPLINE=DIN5480-W30X2X14 ${hob}`), metric);
    const bySizes = hobbing.evaluate(values(`MODULE=2 TEETH=14 PRESSURE-ANGLE=30 PROFILE-SHIFT=-.05 TIP-DIA=29.6 DEPTH=2.1 ${hob}`), metric);
    expect(byName.problems).toEqual(bySizes.problems);
    expect(byName.quantities.map(({ id, value }) => [id, value.toFixed(9)])).toEqual(bySizes.quantities.map(({ id, value }) => [id, value.toFixed(9)]));
  });

  it.each([['DIN5480-W30X2X14', hob, metric, inchHob, inch], ['B92.1-16/32-N15-30-FLAT', inchHob, inch, hob, metric]] as const)('%s has the same sizes in programs of either unit [derived]', (name, own, ownSetting, other, otherSetting) => {
    const tip = (rest: string, setting: typeof metric) => figureOf(hobbing.evaluate(values(`SPLINE=${name} ${rest}`), setting), 'tipDiameter') * (setting.units === 'inch' ? 25.4 : 1);
    expect(tip(other, otherSetting)).toBeCloseTo(tip(own, ownSetting), 7);
  });

  it.each(['DIN5480-W30X2X14', 'DIN 5480 - W 30 x 2 x 14', 'din5480 w30x2x14'])('is read however its parts are set off: %s', (name) => {
    expect(figureOf(hobbing.evaluate({ SPLINE: name, ...values(hob) }, metric), 'tipDiameter')).toBeCloseTo(29.6, 9);
  });

  it('may stand beside sizes that say the same', () => {
    const { problems } = hobbing.evaluate(values(`SPLINE=DIN5480-W30X2X14 MODULE=2 TEETH=14 PROFILE-SHIFT=-.05 ${hob}`), metric);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

describe('what a spline cannot be is refused once, on its word', () => {
  it.each<[string, string, string, RegExp]>([
    ['no designation', 'SPLINE=SQUARE', 'SPLINE', /^SPLINE: SQUARE is not allowed: it must be like DIN5480-W30X2X14/],
    ['a hub', 'SPLINE=DIN5480-N30X2X14', 'SPLINE', /a shaft, W: a hob cuts no hub/],
    ['teeth that do not belong to the diameter', 'SPLINE=DIN5480-W30X2X20', 'SPLINE', /of a reference diameter of at least 42 and at most 44/],
    ['a standard that is not verified', 'SPLINE=ISO4156-24Z-2.5M', 'SPLINE', /the basic data of ISO 4156 are not verified/],
    ['a form that is not verified', 'SPLINE=B92.1-16/32-N15-45-FILLET', 'SPLINE', /the data of other forms are not verified/],
    ['a fillet root that is not verified', 'SPLINE=B92.1-16/32-N15-30-FILLET', 'SPLINE', /finer fillet roots is not verified/],
    ['a pair of pitches that is none', 'SPLINE=B92.1-16/16-N15-30-FLAT', 'SPLINE', /twice the first: 16\/32/],
    ['another module', 'SPLINE=DIN5480-W30X2X14 MODULE=3', 'MODULE', /^MODULE: 3 is not allowed: DIN5480-W30X2X14 gives 2\./],
    ['a pitch beside a module', 'SPLINE=DIN5480-W30X2X14 DP=12', 'DP', /^DP: 12 is not allowed: DIN5480-W30X2X14 needs none\./],
    ['another number of teeth', 'SPLINE=DIN5480-W30X2X14 TEETH=15', 'TEETH', /gives 14/],
    ['another tip diameter', 'SPLINE=DIN5480-W30X2X14 TIP-DIA=29.5', 'TIP-DIA', /gives 29\.6/],
    ['helical teeth', 'SPLINE=DIN5480-W30X2X14 HELIX=10', 'HELIX', /are straight, so it must be 0/],
  ])('%s', (_name, text, parameter, message) => {
    const errors = hobbing.evaluate(values(`${text} ${hob}`), metric).problems.filter(({ severity }) => severity === 'error');
    expect(errors).toMatchObject([{ parameter, rule: 'bad-value', message: expect.stringMatching(message) as string }]);
  });

  it('nothing is computed or written for it', () => {
    const raw = values(`SPLINE=ISO4156-24Z-2.5M ${hob}`);
    expect(hobbing.evaluate(raw, metric).quantities).toEqual([]);
    expect(hobbing.compose(raw, metric).lines).toEqual([]);
  });
});
