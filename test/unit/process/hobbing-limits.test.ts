/** What a hobbing job may not do, or should not: room, length of the hob, tooth, marks; and what is only told. */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import type { Problem, Setting } from '../../../server/src/process/process.ts';
import { inventedCard, cardOf } from '../../invented-machine.ts';
import { figureOf, inch, metric, values } from './figures.ts';

const gear = 'MODULE=2 TEETH=33 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';

function problems(text: string, setting: Setting = metric): Problem[] {
  return hobbing.evaluate(values(text), setting).problems;
}

function figure(text: string, id: string): number {
  return figureOf(hobbing.evaluate(values(text), metric), id);
}

function check(text: string, expected: { parameter: string; rule: Problem['rule']; severity: Problem['severity']; message: RegExp }, setting: Setting = metric): void {
  expect(problems(text, setting)).toMatchObject([{ ...expected, message: expect.stringMatching(expected.message) as string }]);
}

describe('room round the teeth [two crossed cylinders, derived]', () => {
  /** A hob without swivel has a lead angle of nearly 0; over a disc it reaches sqrt(r^2 - (a - R)^2), by Pythagoras. */
  const small = 'MODULE=.5 TEETH=61 FACE=20 HOB-DIA=60 SPEED=60 FEED=.5 CLEARANCE=2';
  const reach = Math.sqrt(30 ** 2 - ((figure(small, 'rootDiameter') + 60) / 2 - 25) ** 2);

  it('a shoulder needs overrun, half the clearance and the reach of the hob', () => {
    const needed = figure(`${small} SHOULDER-DIA=50 SHOULDER-GAP=100`, 'neededRoom');
    expect(Math.abs(needed - (figure(small, 'overrun') + 1 + reach))).toBeLessThan(0.02 * reach);
    expect(problems(`${small} SHOULDER-DIA=50 SHOULDER-GAP=${(needed + 0.001).toFixed(4)}`)).toEqual([]);
    check(`${small} SHOULDER-DIA=50 SHOULDER-GAP=${(needed - 0.001).toFixed(4)}`, { parameter: 'SHOULDER-GAP', rule: 'hob-room', severity: 'error', message: /must be at least \d+\.\d+ mm for the hob to pass 50 in diameter, or SHOULDER-DIA at most 29\.25\.$/ });
  });

  it('a collar before the teeth needs the approach too', () => {
    const needed = figure(`${small} FRONT-DIA=50 FRONT-GAP=100`, 'neededEntryRoom');
    expect(Math.abs(needed - (figure(small, 'approach') + 1 + reach))).toBeLessThan(0.02 * reach);
    check(`${small} FRONT-DIA=50 FRONT-GAP=5`, { parameter: 'FRONT-GAP', rule: 'hob-room', severity: 'error', message: /^FRONT-GAP: 5 is not allowed/ });
  });

  it('what is smaller than the root needs none', () => {
    expect(problems(`${gear} SHOULDER-DIA=60 SHOULDER-GAP=0 FRONT-DIA=60 FRONT-GAP=0`)).toEqual([]);
    expect(figure(`${gear} SHOULDER-DIA=60 SHOULDER-GAP=0`, 'harmlessShoulder')).toBeCloseTo(figure(gear, 'rootDiameter'), 9);
  });

  it('the hob is retracted clear of a shoulder that is larger than the gear', () => {
    const clear = (text: string) => Number(/^G00 X([\d.]+)/.exec(hobbing.compose(values(text), { units: 'mm', card: inventedCard }).lines.map((line) => (line.kind === 'block' ? line.words : '')).find((words) => words.startsWith('G00 X')) ?? '')?.[1]);
    expect(clear(`${gear} SHOULDER-DIA=100 SHOULDER-GAP=60`)).toBeCloseTo(100 + 63 + 2 * 2, 6);
    expect(clear(gear)).toBeCloseTo(70 + 63 + 2 * 2, 6);
  });

  it('a groove that is larger than the root is cut into, by half the difference [root of 33 teeth of module 2: 66 - 5, ISO 21771]', () => {
    expect(problems(`${gear} GROOVE-DIA=61`)).toEqual([]);
    check(`${gear} GROOVE-DIA=62`, { parameter: 'GROOVE-DIA', rule: 'hob-room', severity: 'warning', message: /cuts 0\.5 mm into its floor\. At most 61 stays free\.$/ });
    expect(problems(`${gear} GROOVE-DIA=62 DEPTH=4`)).toEqual([]);
    check(`${gear} GROOVE-DIA=62.01 DEPTH=4`, { parameter: 'GROOVE-DIA', rule: 'hob-room', severity: 'warning', message: /^GROOVE-DIA: 62\.01 / });
  });

  it.each([['SHOULDER-DIA=50', 'SHOULDER-GAP'], ['FRONT-GAP=5', 'FRONT-DIA']])('half of it is not enough: %s', (text, parameter) => check(`${gear} ${text}`, { parameter, rule: 'missing-parameter', severity: 'error', message: /are given together or not at all\.$/ }));

  it('the chuck of the card counts, in the units of the card', () => {
    const card: MachineCard = cardOf('{ "name": "M", "chuck": { "diameter": 200, "z": -60 } }');
    const inches = { units: 'inch', card } as const;
    const onChuck = `${gear} FACE-Z=`;
    check(`${onChuck}-10`, { parameter: 'FACE-Z', rule: 'hob-room', severity: 'error', message: /^FACE-Z: -10 is beyond the machine: it must be at least -?\d+\.\d+, so that the hob stays off the chuck of diameter 200 at Z -60\.$/ }, { units: 'mm', card });
    const least = Number(/at least (-?[\d.]+),/.exec(problems(`${onChuck}-10`, { units: 'mm', card })[0]?.message ?? '')?.[1]);
    expect(problems(`${onChuck}${least}`, { units: 'mm', card })).toEqual([]);
    const inInches = `DP=12.7 TEETH=33 FACE=${20 / 25.4} HOB-DIA=${63 / 25.4} SPEED=200 FEED=.05 CLEARANCE=${2 / 25.4} FACE-Z=`;
    expect(problems(`${inInches}${(least + 0.01) / 25.4}`, inches)).toEqual([]);
    expect(problems(`${inInches}${(least - 0.01) / 25.4}`, inches)).toMatchObject([{ parameter: 'FACE-Z', rule: 'hob-room' }]);
  });
});

describe('the working length of the hob [technical articles on hob position; margins of 1 and 2 modules: from the same; ends: derived]', () => {
  const shortest = figure(gear, 'shortestHob');
  const zone = figure(gear, 'generatingLength');

  it('shorter than the generating length is an error, shorter than entry, zone and margins a warning', () => {
    check(`${gear} HOB-LENGTH=${(zone - 0.01).toFixed(3)}`, { parameter: 'HOB-LENGTH', rule: 'hob-too-short', severity: 'error', message: /at least the generating length/ });
    check(`${gear} HOB-LENGTH=${(shortest + 6 - 0.01).toFixed(3)}`, { parameter: 'HOB-LENGTH', rule: 'hob-position', severity: 'warning', message: /leaves no working position/ });
    expect(figure(`${gear} HOB-LENGTH=${(shortest + 6 + 0.01).toFixed(3)}`, 'usableShift')).toBeCloseTo(0.01, 3);
    expect(figure(`${gear} HOB-LENGTH=${shortest.toFixed(3)}`, 'usableShift')).toBeNaN();
  });

  it('a shift outside the working length names the range, whose length is the usable shift', () => {
    const text = `${gear} HOB-LENGTH=60 SHIFT=`;
    const [warning] = problems(`${text}22`);
    expect(warning).toMatchObject({ parameter: 'SHIFT', rule: 'hob-position', severity: 'warning' });
    const [, low, high] = (/from (-?[\d.]+) to (-?[\d.]+) mm/.exec(warning?.message ?? '') ?? []).map(Number);
    expect((high ?? NaN) - (low ?? NaN)).toBeCloseTo(figure(`${gear} HOB-LENGTH=60`, 'usableShift'), 2);
    for (const inside of [low ?? NaN, high ?? NaN]) expect(problems(`${text}${(inside * 0.999).toFixed(3)}`)).toEqual([]);
    check(`${text}${((high ?? NaN) + 0.01).toFixed(3)}`, { parameter: 'SHIFT', rule: 'hob-position', severity: 'warning', message: /^SHIFT: / });
    check(`${text}${((low ?? NaN) - 0.01).toFixed(3)}`, { parameter: 'SHIFT', rule: 'hob-position', severity: 'warning', message: /^SHIFT: / });
  });

  it('the range is mirrored for the other hand of hob, since the other end leads', () => {
    const range = (hand: string) => (/from (-?[\d.]+) to (-?[\d.]+)/.exec(problems(`${gear} HOB-HAND=${hand} HOB-LENGTH=60 SHIFT=22`).at(-1)?.message ?? '') ?? []).slice(1).map(Number);
    const [right, left] = [range('RIGHT'), range('LEFT')];
    expect(right.length).toBe(2);
    expect(left).toEqual([...right].reverse().map((each) => -each));
  });

  it('an end of the hob inside the generating zone is an error', () => {
    const farthest = (60 - zone) / 2;
    check(`${gear} HOB-LENGTH=60 SHIFT=${(farthest + 0.01).toFixed(3)}`, { parameter: 'SHIFT', rule: 'hob-too-short', severity: 'error', message: /an end of the hob comes inside the generating zone/ });
  });
});

describe('clearance [common practice, no source]', () => {
  it('of nothing lets a rapid end on the work: a warning, for both ways in', () => {
    const expected = { parameter: 'CLEARANCE', rule: 'no-free-travel', severity: 'warning', message: /met in rapid/ } as const;
    check(`${gear} CLEARANCE=0`, expected);
    check(`${gear} CLEARANCE=0 ENTRY=PLUNGE RADIAL-FEED=.4`, expected);
    expect(problems(`${gear} CLEARANCE=.1`)).toEqual([]);
  });
});

describe('the tooth', () => {
  it('12 teeth are undercut below x 0.298, 17 are not [D16: textbook 17; 0.29813 derived]', () => {
    check(gear.replace('TEETH=33', 'TEETH=12'), { parameter: 'TEETH', rule: 'undercut', severity: 'warning', message: /PROFILE-SHIFT of at least 0\.2982 avoids it/ });
    check(`${gear.replace('TEETH=33', 'TEETH=12')} PROFILE-SHIFT=.2`, { parameter: 'PROFILE-SHIFT', rule: 'undercut', severity: 'warning', message: /^PROFILE-SHIFT: 0\.2 / });
    expect(problems(`${gear.replace('TEETH=33', 'TEETH=12')} PROFILE-SHIFT=.299`)).toEqual([]);
    expect(problems(gear.replace('TEETH=33', 'TEETH=17'))).toEqual([]);
    expect(problems(gear.replace('TEETH=33', 'TEETH=16')).map(({ rule }) => rule)).toEqual(['undercut']);
  });

  it('the stub teeth of splines are not, however few [x_min = h* - z sin^2 30 / 2 with h* below 0.6: derived]', () => {
    const spline = 'FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5 SPLINE=';
    for (const name of ['DIN5480-W14X2X6', 'DIN5480-W30X2X14']) expect(problems(spline + name).filter(({ rule }) => rule === 'undercut')).toEqual([]);
    expect(figure(`${spline}DIN5480-W14X2X6`, 'referenceDiameter')).toBe(12);
  });

  it('a tip thinner than 0.2 modules is told [usual limit, from memory]', () => {
    const thin = `${gear.replace('TEETH=33', 'TEETH=12')} PROFILE-SHIFT=.8`;
    check(thin, { parameter: 'PROFILE-SHIFT', rule: 'thin-tip', severity: 'warning', message: /usual is at least 0\.2 \(from memory\)/ });
    expect(problems(`${thin} TIP-DIA=30 DEPTH=4.3`)).toEqual([]);
  });
});

describe('marks against the class [ISO 1328-1:2013, from memory]', () => {
  it('the feed is held against what the class leaves to feed marks, not against the whole tolerance', () => {
    const most = figure(gear, 'maxFeedForClass');
    const at = (feed: number) => gear.replace('FEED=1.5', `FEED=${feed.toFixed(4)}`);
    expect(problems(at(most - 0.001))).toEqual([]);
    check(at(most + 0.001), { parameter: 'FEED', rule: 'feed-marks', severity: 'warning', message: /^FEED: [\d.]+ leaves feed marks of [\d.]+ mm; class 8 allows [\d.]+ mm: at most [\d.]+ mm\/rev\.$/ });
    expect(figure(at(most + 0.001), 'feedMarkDepth')).toBeLessThan(figure(gear, 'profileTolerance'));
  });

  it('generating marks that alone are too deep are told on the gashes', () => {
    check(`${gear} HOB-GASHES=3 HOB-STARTS=2 CLASS=1`, { parameter: 'HOB-GASHES', rule: 'generating-marks', severity: 'warning', message: /alone are deeper than class 1 allows/ });
  });
});

describe('a figure that is left out says why, on the word whose hover would show it', () => {
  it.each<[string, string, string, RegExp]>([
    ['a face outside the standard', gear.replace('FACE=20', 'FACE=3'), 'CLASS', /^There is no flank tolerance here: a face width \(mm\) of 3 would have to be at least 4 and at most 1200 \(the scope of ISO 1328-1:2013\)\.$/],
    ['a helical gear too narrow for a span', `${gear.replace('FACE=20', 'FACE=5')} HELIX=25 `, 'FACE', /^There is no span over teeth here: FACE 5 would have to be at least \d+\.\d+ \(/],
  ])('%s', (_name, text, parameter, message) => check(text, { parameter, rule: 'no-figure', severity: 'information', message }));

  it('nobody misses the lead of a spur gear', () => expect(problems(gear)).toEqual([]));
});

describe('inch programs', () => {
  it('speak inches in their messages', () => {
    const text = 'DP=12 TEETH=33 FACE=.75 HOB-DIA=2.5 SPEED=200 FEED=.05';
    check(`${text} HOB-LENGTH=.2`, { parameter: 'HOB-LENGTH', rule: 'hob-too-short', severity: 'error', message: /\d inch\.$/ }, inch);
    check(`${text} SHOULDER-DIA=3 SHOULDER-GAP=.1`, { parameter: 'SHOULDER-GAP', rule: 'hob-room', severity: 'error', message: /at least [\d.]+ inch for the hob/ }, inch);
  });
});
