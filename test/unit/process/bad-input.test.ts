import { describe, expect, it } from 'vitest';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import type { Process, Setting } from '../../../server/src/process/process.ts';
import { inventedCard } from '../../invented-machine.ts';
import { inch, metric, values } from './figures.ts';

const gear = 'MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';
const slot = 'BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=32 RPM=1000 FEED=0.05';
const onMachine: Setting = { units: 'mm', card: inventedCard };
const onMachineInInches: Setting = { units: 'inch', card: inventedCard };

/** Replaces values by name, or leaves them out. */
function changed(text: string, changes: Record<string, string | undefined>): Record<string, string> {
  return Object.fromEntries(Object.entries({ ...values(text), ...changes }).filter((each): each is [string, string] => each[1] !== undefined));
}

/** The one error that the values lead to: its parameter, its rule and its message. */
function check(process: Process, raw: Record<string, string>, setting: Setting, expected: { parameter: string; rule: string; message: string | RegExp }): void {
  const errors = process.evaluate(raw, setting).problems.filter(({ severity }) => severity === 'error');
  expect(errors.map(({ parameter, rule }) => ({ parameter, rule }))).toEqual([{ parameter: expected.parameter, rule: expected.rule }]);
  if (typeof expected.message === 'string') expect(errors[0]?.message).toBe(expected.message);
  else expect(errors[0]?.message).toMatch(expected.message);
}

describe('hobbing refuses by name, with the allowed range', () => {
  it.each<[string, Record<string, string | undefined>, Setting, { parameter: string; rule: string; message: string | RegExp }]>([
    ['an unknown name', { TOOTH: '32' }, metric, { parameter: 'TOOTH', rule: 'unknown-parameter', message: /^TOOTH is not a parameter here\. Allowed: MODULE, DP, TEETH, / }],
    ['a missing name', { TEETH: undefined }, metric, { parameter: 'TEETH', rule: 'missing-parameter', message: 'TEETH is missing: number of teeth, a whole number from 3 to 1000.' }],
    ['no teeth', { TEETH: '0' }, metric, { parameter: 'TEETH', rule: 'bad-value', message: 'TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.' }],
    ['half a tooth', { TEETH: '24.5' }, metric, { parameter: 'TEETH', rule: 'bad-value', message: /a whole number from 3 to 1000/ }],
    ['a helix of 95', { HELIX: '95' }, metric, { parameter: 'HELIX', rule: 'bad-value', message: 'HELIX: 95 is not allowed: it must be from 0 to 60 deg.' }],
    ['a signed helix', { HELIX: '-15' }, metric, { parameter: 'HELIX', rule: 'bad-value', message: /from 0 to 60 deg/ }],
    ['no number', { MODULE: 'two' }, metric, { parameter: 'MODULE', rule: 'bad-value', message: 'MODULE: two is not allowed: it must be more than 0, at most 40 mm.' }],
    ['nothing', { MODULE: '' }, metric, { parameter: 'MODULE', rule: 'bad-value', message: 'MODULE has no value: it must be more than 0, at most 40 mm.' }],
    ['a number with an exponent', { FEED: '1e0' }, metric, { parameter: 'FEED', rule: 'bad-value', message: /FEED: 1e0 is not allowed: it must be more than 0, at most 20 mm\/rev/ }],
    ['another choice', { HAND: 'UP' }, metric, { parameter: 'HAND', rule: 'bad-value', message: 'HAND: UP is not allowed: it must be RIGHT or LEFT.' }],
    ['neither module nor pitch', { MODULE: undefined }, metric, { parameter: 'MODULE', rule: 'missing-parameter', message: 'MODULE or DP is missing: give one of them.' }],
    ['module and pitch', { DP: '12' }, metric, { parameter: 'DP', rule: 'bad-value', message: 'MODULE and DP are both given: give one of them.' }],
    ['speed and rpm', { RPM: '300' }, metric, { parameter: 'RPM', rule: 'bad-value', message: 'SPEED and RPM are both given: give one of them.' }],
    ['an inch feed beyond its converted range', { FEED: '20', 'HOB-DIA': '2.5', FACE: '1', SPEED: '200' }, inch, { parameter: 'FEED', rule: 'bad-value', message: 'FEED: 20 is not allowed: it must be more than 0, at most 0.7874 inch/rev.' }],
    ['a hob smaller than its own teeth', { 'HOB-DIA': '4' }, metric, { parameter: 'HOB-DIA', rule: 'bad-value', message: /^HOB-DIA: 4 is not allowed: it must be / }],
    ['a hob beyond the unit', { 'HOB-DIA': '80' }, onMachine, { parameter: 'HOB-DIA', rule: 'machine-limit', message: 'HOB-DIA: 80 is beyond the machine: it must be more than 0, at most 75 mm (Hobbing unit H1).' }],
    ['a hob beyond the unit, in inches', { 'HOB-DIA': '3', FACE: '1', SPEED: '200', FEED: '.05' }, onMachineInInches, { parameter: 'HOB-DIA', rule: 'machine-limit', message: /at most 2\.9528 inch \(Hobbing unit H1\)/ }],
    ['a module beyond the unit', { MODULE: '3' }, onMachine, { parameter: 'MODULE', rule: 'machine-limit', message: 'MODULE: 3 is beyond the machine: it must be more than 0, at most 2.5 mm (Hobbing unit H1).' }],
    ['a pitch beyond the unit', { MODULE: undefined, DP: '10' }, onMachine, { parameter: 'DP', rule: 'machine-limit', message: /^DP: 10 is beyond the machine: it must be at least 10\.16 \(module 2\.5 mm/ }],
    ['a hob speed beyond the card', { SPEED: '400' }, onMachine, { parameter: 'SPEED', rule: 'machine-limit', message: /^SPEED: 400 is beyond the machine: it must be such that the hob, now 2021 rev\/min, turns at most 2000 rev\/min/ }],
    ['a swivel beyond the unit', { HELIX: '45' }, onMachine, { parameter: 'HELIX', rule: 'machine-limit', message: /from -30 to 30 deg \(Hobbing unit H1\)/ }],
    ['a place beyond the travel of Z', { 'FACE-Z': '-590' }, onMachine, { parameter: 'FACE-Z', rule: 'machine-limit', message: /such that Z, now -6\d\d.*is from -600 to 50/ }],
    ['a shift beyond the travel of Y', { SHIFT: '60' }, onMachine, { parameter: 'SHIFT', rule: 'machine-limit', message: /such that Y, now 5\d\..*is from -50 to 50/ }],
    ['a hob shorter than its generating length', { 'HOB-LENGTH': '5' }, metric, { parameter: 'HOB-LENGTH', rule: 'hob-too-short', message: /at least the generating length, \d/ }],
  ])('%s', (_name, changes, setting, expected) => check(hobbing, changed(gear, changes), setting, expected));

  it('the values of these cases are right before they are changed', () => {
    expect(hobbing.evaluate(values(gear), metric).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(hobbing.evaluate(values(gear), onMachine).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

describe('keyways refuse by name, with the allowed range', () => {
  it.each<[string, Record<string, string | undefined>, Setting, { parameter: string; rule: string; message: string | RegExp }]>([
    ['an unknown name', { BREADTH: '14' }, metric, { parameter: 'BREADTH', rule: 'unknown-parameter', message: /Allowed: BORE, WIDTH, DEPTH, / }],
    ['a missing name', { BORE: undefined }, metric, { parameter: 'BORE', rule: 'missing-parameter', message: 'BORE is missing: bore diameter, more than 0, at most 500 mm.' }],
    ['no speed for the driven unit', { RPM: undefined }, metric, { parameter: 'RPM', rule: 'missing-parameter', message: /METHOD=DRIVEN needs the speed of the driven tool, more than 0, at most 20000 rev\/min/ }],
    ['no speed for the static tool', { METHOD: 'STATIC' }, metric, { parameter: 'SPEED', rule: 'missing-parameter', message: /METHOD=STATIC needs the speed of the cutting stroke/ }],
    ['a keyway longer than the stroke that is set', { STROKE: '30' }, metric, { parameter: 'STROKE', rule: 'bad-value', message: /^STROKE: 30 is not allowed: it must be at least 36 / }],
    ['a keyway longer than the unit strokes', { LENGTH: '37', WIDTH: '8', DEPTH: '3.3' }, onMachine, { parameter: 'LENGTH', rule: 'machine-limit', message: 'LENGTH: 37 is beyond the machine: it must be more than 0, at most 36 mm: the stroke of 40 less lead-in and lead-out (Stroke unit K1).' }],
    ['a stroke beyond the unit', { STROKE: '45', WIDTH: '8', DEPTH: '3.3', 'FACE-Z': '-20' }, onMachine, { parameter: 'STROKE', rule: 'machine-limit', message: 'STROKE: 45 is beyond the machine: it must be at most 40 mm (Stroke unit K1).' }],
    ['an insert wider than the keyway', { INSERT: '14.5' }, metric, { parameter: 'INSERT', rule: 'bad-value', message: /^INSERT: 14\.5 is not allowed: it must be .*at most 14/ }],
    ['an insert wider than the unit takes', {}, onMachine, { parameter: 'INSERT', rule: 'machine-limit', message: 'INSERT: 14 is beyond the machine: it must be more than 0, at most 10 mm (Stroke unit K1); give a narrower INSERT, which cuts the width in several passes.' }],
    ['more strokes a minute than the unit makes', { RPM: '1300', INSERT: '8' }, onMachine, { parameter: 'RPM', rule: 'machine-limit', message: /^RPM: 1300 is beyond the machine: it must be more than 0, at most 1200 rev\/min \(now 1300 strokes a minute/ }],
    ['a keyway wider than its bore', { WIDTH: '60' }, metric, { parameter: 'WIDTH', rule: 'bad-value', message: /^WIDTH: 60 is not allowed: it must be .*50/ }],
    ['a bore that the standard does not have', { BORE: '5', WIDTH: undefined, DEPTH: undefined }, metric, { parameter: 'BORE', rule: 'bad-value', message: /at least 6 and at most 500.*outside it give width and depth/ }],
    ['a class of fit that is none', { FIT: 'JS-9' }, metric, { parameter: 'FIT', rule: 'bad-value', message: /an ISO 286 class of a hole such as JS9, P9 or D10/ }],
    ['a class of fit that is not tabulated', { FIT: 'Q4' }, metric, { parameter: 'FIT', rule: 'bad-value', message: /^FIT: Q4 is not allowed: it must be / }],
    ['a relief groove narrower than the lead-out', { RELIEF: '1' }, metric, { parameter: 'RELIEF', rule: 'bad-value', message: /^RELIEF: 1 is not allowed: it must be at least 2 / }],
    ['more keyways than fit', { COUNT: '40' }, metric, { parameter: 'COUNT', rule: 'bad-value', message: /^COUNT: 40 is not allowed: it must be at least 1 and at most \d+/ }],
    ['no feed', { FEED: '0' }, metric, { parameter: 'FEED', rule: 'bad-value', message: 'FEED: 0 is not allowed: it must be more than 0, at most 2 mm/stroke.' }],
  ])('%s', (_name, changes, setting, expected) => check(keyway, changed(slot, changes), setting, expected));

  it('the values of these cases are right before they are changed', () => {
    expect(keyway.evaluate(values(slot), metric).problems).toEqual([]);
    expect(keyway.evaluate(changed(slot, { INSERT: '8' }), onMachine).problems).toEqual([]);
  });
});

describe('what is legal and still likely to spoil the part is a warning', () => {
  it.each<[string, Record<string, string>, string, RegExp]>([
    ['starts and teeth with a common factor [rule of practice, from memory]', { 'HOB-STARTS': '2' }, 'common-factor', /HOB-STARTS: 2 and 32 teeth have a common factor/],
    ['feed marks deeper than the class allows [ISO 1328-1:2013, from memory]', { FEED: '4', CLASS: '5' }, 'feed-marks', /^FEED: 4 leaves feed marks of 0\.0\d+ mm; class 5 allows 0\.\d+ mm: at most \d\.\d+ mm\/rev/],
  ])('%s', (_name, changes, rule, message) => {
    const problems = hobbing.evaluate(changed(gear, changes), metric).problems;
    expect(problems.map((problem) => ({ rule: problem.rule, severity: problem.severity }))).toEqual([{ rule, severity: 'warning' }]);
    expect(problems[0]?.message).toMatch(message);
  });
});
