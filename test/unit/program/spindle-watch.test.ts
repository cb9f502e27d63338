/**
 * Spindles that are asked for two things at once. The words are those of an
 * invented machine; what must be marked follows from what they do (derived).
 */
import { describe, expect, it } from 'vitest';
import { machineCardSchema } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { readProgram } from '../../../server/src/program/index.ts';

const codes = {
  workAxisOn: 'M191', workAxisOff: 'M192', workClamp: 'M193', workUnclamp: 'M194', drivenStart: 'M123 S{rpm}', drivenStop: 'M125',
  subStart: 'M128 S{rpm}', subReverse: 'M129 S{rpm}', subStop: 'M127', subAxisOn: 'M195', subAxisOff: 'M196', subClamp: 'M197', subUnclamp: 'M198',
  mainChuckOpen: 'M120', mainChuckClose: 'M121', subChuckOpen: 'M126', subChuckClose: 'M130', spindleSyncOn: 'G236 S{rpm}', spindleSyncOff: 'G239',
};

const OURS = /^(axis|chuck)-(not-on|clamped|while-turning)$/;

/** "line rule word" of every mark. */
function marked(text: string, own: object = codes): string[] {
  const lines = text.split('\n');
  const dialect = dialectOf(machineCardSchema.parse({ name: 'Invented for tests', plane: 18, incrementalAxes: { H: 'C' }, codes: own }));
  return readProgram(text, dialect).problems().filter(({ rule }) => OURS.test(rule)).map(({ line, start, end, rule }) => `${line + 1} ${rule} ${lines[line]!.slice(start, end)}`);
}

const without = (...names: string[]): object => Object.fromEntries(Object.entries(codes).filter(([name]) => !names.includes(name)));

describe('C and the axis', () => {
  it.each<[string, string, string[]]>([
    ['C while the spindle is none', 'G00 X50. C0.', ['1 axis-not-on C0.']],
    ['told once', 'G00 C0.\nC90.\nC180.', ['1 axis-not-on C0.']],
    ['after the axis has been given back', 'M191\nG00 C0.\nM192\nG01 C90. F100', ['4 axis-not-on C90.']],
    ['an increment', 'G00 H90.', ['1 axis-not-on H90.']],
    ['C while it is one', 'M191\nG00 C0.\nH90.\nM192', []],
    ['C of the sub-spindle', 'M195\nG00 C0.\nM196', []],
    ['a word that is of the coupling is not C', 'G236 S500', []],
    ['home, and codes that set numbers', 'G28 C0.\nG92 C0.', []],
    ['C behind a code that nobody knows', 'G333 C90.', []],
    ['clamped', 'M191\nG00 C0.\nM193\nC90.', ['4 axis-clamped C90.']],
    ['clamped, by an increment', 'M191\nM193\nG00 H90.', ['3 axis-clamped H90.']],
    ['released', 'M191\nG00 C0.\nM193\nG01 Z-5. F100\nM194\nG00 C90.', []],
    ['released on the line of the turn', 'M191\nG00 C0.\nM193\nM194 C90.', []],
    ['C where it stands', 'M191\nG00 C0.\nM193\nG00 X50. C0.\nH0.', []],
    ['clamped in the sub-spindle, while only the main spindle is an axis', 'M191\nM197\nG00 C90.', []],
    ['clamped in the sub-spindle', 'M195\nM197\nG00 C90.', ['3 axis-clamped C90.']],
    ['both are axes and one is free: which of them turns is not said', 'M191\nM195\nM197\nG00 C90.', []],
  ])('%s', (_name, text, expected) => expect(marked(text)).toEqual(expected));

  it('asks nothing where the card has no word for it', () => {
    expect(marked('G00 C0.', without('workAxisOn', 'workAxisOff'))).toEqual([]);
  });

  it('does not judge a subprogram by itself, whose caller may have made it an axis', () => {
    expect(marked('M191\nM30\nO7000\nG00 C90.')).toEqual([]);
  });
});

describe('an axis and speed', () => {
  it.each<[string, string, string[]]>([
    ['an axis of a spindle that turns', 'G97 S500 M03\nM191', ['2 axis-while-turning M191']],
    ['stopped on the same line', 'G97 S500 M03\nM05 M191', []],
    ['a spindle that starts while it is an axis', 'M191\nG97 S500 M04', ['2 axis-while-turning M04']],
    ['given back on the same line', 'M191\nG97 S500 M03 M192', []],
    ['the sub-spindle as an axis while it turns', 'M128 S500\nM195', ['2 axis-while-turning M195']],
    ['the sub-spindle started while it is an axis', 'M195\nM129 S500', ['2 axis-while-turning M129']],
    ['left turning by the coupling', 'G236 S500\nG239\nM191', ['3 axis-while-turning M191']],
    ['carried along by the main spindle, and never stopped', 'S500 M03\nG236 S500\nG239\nM05\nM195', ['5 axis-while-turning M195']],
    ['the driven tool may turn', 'M191\nM123 S2000\nG00 C90.', []],
  ])('%s', (_name, text, expected) => expect(marked(text)).toEqual(expected));

  it('leaves M03 alone where it may be of the driven tool or of the sub-spindle', () => {
    expect(marked('M191\nS500 M03', without('drivenStart'))).toEqual([]);
    expect(marked('M191\nS500 M03', without('subStart', 'subReverse'))).toEqual([]);
  });
});

describe('chucks', () => {
  it.each<[string, string, string[]]>([
    ['the main chuck while its spindle turns', 'S500 M03\nM120', ['2 chuck-while-turning M120']],
    ['after its stop', 'S500 M03\nM05\nM120', []],
    ['the sub-spindle turns, and the main chuck opens', 'M128 S500\nM120', []],
    ['the chuck of the sub-spindle while it turns', 'M128 S500\nM126', ['2 chuck-while-turning M126']],
    ['while both turn coupled, as at a hand-over', 'S500 M03\nG236 S500\nM120\nM126', []],
    ['a spindle that starts with its chuck open', 'M120\nG01 Z30. F100\nS500 M04', ['3 chuck-while-turning M04']],
    ['closed before', 'M120\nM121\nS500 M04', []],
    ['closed on the line of the start', 'M120\nM121 S500 M04', []],
    ['the chuck of the sub-spindle is open, as before it takes the part', 'M126\nM128 S500\nS500 M03', []],
    ['a chuck that closes', 'S500 M03\nM121', []],
  ])('%s', (_name, text, expected) => expect(marked(text)).toEqual(expected));
});

it('does not know that a chuck is still open where no word closes it, or M03 may be of another', () => {
  expect(marked('M120\nS500 M03', without('mainChuckClose'))).toEqual([]);
  expect(marked('M120\nS500 M03', without('drivenStart'))).toEqual([]);
});
