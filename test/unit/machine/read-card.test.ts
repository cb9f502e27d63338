import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCard } from '../../../server/src/machine/read-card.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { inventedCard, inventedCardText } from '../../invented-machine.ts';

/** Reads a card and compares each problem by the text that it marks, its path and its message. */
function check(text: string, expected: { marked: string; path: string; message: string | RegExp }[]): void {
  const { card, problems } = readCard(text);
  expect(card).toBeUndefined();
  expect(problems.map(({ start, end, path }) => ({ marked: text.slice(start, end), path }))).toEqual(expected.map(({ marked, path }) => ({ marked, path })));
  expected.forEach(({ message }, index) => expect(problems[index]?.message).toMatch(message));
}

describe('a card that is right', () => {
  it('is read with its comments and trailing commas', () => {
    const { card, problems } = readCard('{ // a comment\n "name": "M", "codes": { "syncOn": "G881 P{starts}", }, }');
    expect(problems).toEqual([]);
    expect(card?.codes.syncOn).toBe('G881 P{starts}');
  });

  it('has defaults that the contract names, and nothing where it says nothing', () => {
    const { card } = readCard('{ "name": "M" }');
    expect(card).toMatchObject({ units: 'mm', diameterProgramming: true, xFeedOnDiameter: false, comment: 'parentheses', decimals: 3, toolChange: 'T', toolOffsetDigits: 0 });
    expect(card).toMatchObject({ codes: {}, limits: {}, senses: {}, meanings: {}, toolUnits: [] });
    expect(card?.sequenceNumbers).toBeUndefined();
  });

  it('may hold a template of several blocks', () => {
    expect(readCard('{ "name": "M", "codes": { "workAxisOn": ["M05", "M881"] } }').card?.codes.workAxisOn).toEqual(['M05', 'M881']);
  });

  it('is the invented one of these tests, with all its keys', () => {
    expect(inventedCard.toolUnits.map(({ kind }) => kind)).toEqual(['hobbing', 'stroke']);
  });

  it('built in says only words of the open definitions (ISO 6983-1 from memory; NISTIR 6556 for the dwell)', () => {
    const said = Object.entries(openStandardCard.codes).filter(([, template]) => template !== '');
    expect(Object.fromEntries(said)).toEqual({
      feedPerMinute: 'G94', feedPerRevolution: 'G95', inverseTime: 'G93', absolute: 'G90', incremental: 'G91',
      workClamp: 'M10', workUnclamp: 'M11', coolantOn: 'M08', coolantOff: 'M09', dwell: 'G04 P{seconds}',
    });
  });
});

describe('a card that is wrong has one problem on the very word, with what is allowed', () => {
  it.each<[string, string, { marked: string; path: string; message: RegExp }]>([
    ['a wrong key', '{ "name": "M", "unit": "mm" }', { marked: '"unit"', path: 'unit', message: /^"unit" is not a key of a machine card\. Allowed: name, units, / }],
    ['a wrong key of the codes', '{ "name": "M", "codes": { "sync": "G1" } }', { marked: '"sync"', path: 'codes.sync', message: /^"sync" is not a key of codes\. Allowed: feedPerMinute, .*syncOn/ }],
    ['a wrong key of a unit', '{ "name": "M", "toolUnits": [{ "kind": "stroke", "name": "K", "maxModule": 2 }] }', { marked: '"maxModule"', path: 'toolUnits.0.maxModule', message: /Allowed: kind, name, totalStroke, / }],
    ['an unknown kind of unit', '{ "name": "M", "toolUnits": [{ "kind": "saw", "name": "K" }] }', { marked: '"saw"', path: 'toolUnits.0.kind', message: /its kind must be "hobbing" or "stroke" or "highSpeed"/ }],
    ['a figure that is too large', '{ "name": "M", "decimals": 9 }', { marked: '9', path: 'decimals', message: /^decimals: 9 is not allowed: it must be at most 6\. .*0 to 6/ }],
    ['a figure that is too small', '{ "name": "M", "maxLineLength": 5 }', { marked: '5', path: 'maxLineLength', message: /^maxLineLength: 5 is not allowed: it must be at least 30\. .*30 to 1000/ }],
    ['a figure that is not whole', '{ "name": "M", "decimals": 2.5 }', { marked: '2.5', path: 'decimals', message: /^decimals: 2\.5 is not allowed: it must be a whole number/ }],
    ['another type', '{ "name": "M", "diameterProgramming": "yes" }', { marked: '"yes"', path: 'diameterProgramming', message: /it must be true or false/ }],
    ['another choice', '{ "name": "M", "units": "cm" }', { marked: '"cm"', path: 'units', message: /it must be "mm" or "inch"/ }],
    ['a sign that is none', '{ "name": "M", "senses": { "workRotation": 2 } }', { marked: '2', path: 'senses.workRotation', message: /it must be 1, or it must be -1/ }],
    ['one word for both units', '{ "name": "M", "unitWords": { "inch": "G20", "mm": "G020" } }', { marked: '{ "inch": "G20", "mm": "G020" }', path: 'unitWords', message: /inch and mm must be two different words/ }],
    ['a word for units that is no G code', '{ "name": "M", "unitWords": { "inch": "M20", "mm": "G21" } }', { marked: '"M20"', path: 'unitWords.inch', message: /must be G and a number, such as G21/ }],
    ['a travel the wrong way round', '{ "name": "M", "limits": { "x": [420, -10] } }', { marked: '[420, -10]', path: 'limits.x', message: /the first figure must be less than the second/ }],
    ['an unknown placeholder', '{ "name": "M", "codes": { "syncOn": "G1 P{start}" } }', { marked: '"G1 P{start}"', path: 'codes.syncOn', message: /\{start\} is not known; allowed are \{rpm\} \{starts\} \{teeth\}/ }],
    ['a brace alone', '{ "name": "M", "codes": { "syncOn": "G1 P{starts" } }', { marked: '"G1 P{starts"', path: 'codes.syncOn', message: /a brace stands alone/ }],
    ['a fixed sign before a placeholder', '{ "name": "M", "codes": { "syncOn": "G1 P-{teeth}" } }', { marked: '"G1 P-{teeth}"', path: 'codes.syncOn', message: /a fixed sign before a placeholder is not allowed/ }],
    ['a meaning of what is no word', '{ "name": "M", "meanings": { "203": "x" } }', { marked: '"203"', path: 'meanings.203', message: /must be a letter and a number, such as M203/ }],
    ['no name', '{ "units": "mm" }', { marked: '{ "units": "mm" }', path: 'name', message: /^name is missing: it must be a text/ }],
    ['no object', '[1]', { marked: '[1]', path: '', message: /^the card: \[1\] is not allowed: it must be an object in braces/ }],
  ])('%s', (_name, text, expected) => check(text, [expected]));

  it('each of several wrong keys is marked', () => {
    check('{ "name": "M", "unit": "mm", "units": "cm" }', [
      { marked: '"cm"', path: 'units', message: /it must be "mm" or "inch"/ },
      { marked: '"unit"', path: 'unit', message: /is not a key/ },
    ]);
  });

  it.each([
    ['broken off', '{ "name": "M"', /^The card is not valid JSON here: /],
    ['a missing comma', '{ "name": "M" "units": "mm" }', /comma expected/],
    ['empty', '', /^The card is not valid JSON here: /],
    ['words', 'no card', /invalid symbol/],
  ])('broken JSON: %s', (_name, text, message) => {
    const { card, problems } = readCard(text);
    expect(card).toBeUndefined();
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ kind: 'syntax', path: '' });
    expect(problems[0]?.message).toMatch(message);
  });
});

describe('any text', () => {
  it('gives a card or problems inside the text, and never throws', () => {
    fc.assert(fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.json()), (text) => {
      const { card, problems } = readCard(text);
      expect(card === undefined).toBe(problems.length > 0);
      for (const { start, end, message } of problems) {
        expect(start).toBeGreaterThanOrEqual(0);
        expect(end).toBeGreaterThan(start);
        expect(message).not.toBe('');
      }
    }));
  });

  it('cut or changed in one place gives a card or problems', () => {
    fc.assert(fc.property(fc.nat(inventedCardText.length), fc.nat(40), fc.constantFrom('', '"', '}', '1', 'x', '\u0000', '\ud800'), (at, gone, instead) => {
      const text = inventedCardText.slice(0, at) + instead + inventedCardText.slice(at + gone);
      const { card, problems } = readCard(text);
      expect(card === undefined).toBe(problems.length > 0);
    }));
  });
});
