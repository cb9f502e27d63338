import { describe, expect, test } from 'vitest';
import { type Item, type Meaning, meaningOf, openStandardDialect, readProgram } from '../../../server/src/program/index.ts';
import { allNistPrograms, nistProgram } from './helpers.ts';

const meanings = (line: string, before = '', dialect = openStandardDialect): Meaning[] => {
  const program = readProgram(`${before}\n${line}`, dialect);
  return program.items(1).map((item: Item) => meaningOf(item, program.stateBefore(1), dialect));
};
const title = (line: string, before?: string, dialect?: typeof openStandardDialect): string | undefined => meanings(line, before, dialect)[0]?.title;

test('every letter has a meaning and a source', () => {
  for (const letter of 'ABCDEFGHIJKLMNOPQRSTUVWXYZ') {
    const [found] = meanings(`G4 ${letter}1`.slice(letter === 'G' || letter === 'M' ? 0 : 3));
    expect(found!.title).not.toBe('');
    expect(found!.source).not.toBe('');
  }
});

test('every G and M number has one, and so have numbers of no table', () => {
  for (let number = 0; number <= 1200; number++) {
    for (const word of [`G${number / 10}`, `M${number}`]) {
      const [found] = meanings(word);
      expect(found!.title, word).not.toBe('');
      expect(found!.source, word).not.toBe('');
    }
  }
});

test('every item of the published programs has one', () => {
  for (const name of allNistPrograms) {
    const program = readProgram(nistProgram(name));
    for (let line = 0; line < program.lineCount; line++) {
      for (const item of program.items(line)) expect(meaningOf(item, program.stateBefore(line), openStandardDialect).title.length).toBeGreaterThan(3);
    }
  }
});

describe('what is free for the machine builder', () => {
  // Published table of EIA RS-274-D: G25-G29 and G36-G39; JB 3208-83: M20-M29 and M90-M99.
  test.each(['G25', 'G26', 'G27', 'G29', 'G36', 'G39', 'M20', 'M29', 'M90', 'M98', 'M99'])('%s', (word) => expect(title(word)).toBe('Free for the machine builder'));
  // GOST 20999-83 and JB 3208-83: not assigned, and a later edition may.
  test.each(['G5', 'G7', 'G12', 'G22', 'G31', 'G66', 'G76', 'M12', 'M17', 'M33', 'M70', 'M88'])('%s is unassigned', (word) => expect(title(word)).toBe('Unassigned'));
  test.each(['G137', 'M203'])('%s is outside the tables', (word) => expect(title(word)).toBe('Outside the two-digit tables'));
});

describe('what is in force decides', () => {
  test.each([
    ['F0.2', 'G95', 'Feed per revolution'], ['F200', 'G94', 'Feed per minute'], ['F2', 'G93', 'Inverse time feed'],
    ['S200', 'G96', 'Cutting speed'], ['S200', 'G97', 'Spindle speed'],
  ])('%s after %s', (word, before, expected) => expect(title(word, before)).toBe(expected));
  test('feet in an inch program', () => expect(meanings('S600', 'G20 G96')[0]!.detail).toContain('feet'));
});

describe('the machine card', () => {
  const dialect = { ...openStandardDialect, meanings: { M203: 'Driven tool forward', G05: 'Chuck pressure' }, incrementalAxes: { U: 'X' }, unitsWords: { inch: [70], mm: [71] } };
  test('explains its own words', () => expect(meanings('M203', '', dialect)[0]).toEqual({ title: 'Driven tool forward', detail: '', source: 'machine card' }));
  test('with one digit or two', () => expect(title('G5', '', dialect)).toBe('Chuck pressure'));
  test('names its incremental letters', () => expect(title('U5', '', dialect)).toBe('Incremental X'));
  test('and its units words', () => {
    expect(title('G71', '', dialect)).toBe('Millimetre programming');
    expect(title('G20', '', dialect)).toBe('Unassigned');
  });
});

test('items that are no words', () => {
  expect(meanings('% O7 (x) #1=2 <syncOn> !'.slice(2)).map((found) => found.title)).toEqual(['Program number', 'Comment', 'Parameter setting', 'Missing word', 'Not a word']);
  expect(meanings('/N10').map((found) => found.title)).toEqual(['Block skip', 'Sequence number']);
});

test('Q says what it counts along X, where X words are diameters', () => {
  expect(meanings('Q2', '', { ...openStandardDialect, diameterProgramming: true })[0]!.detail).toContain('not as a change of the diameter');
  expect(meanings('Q2')[0]!.detail).not.toContain('diameter');
});
