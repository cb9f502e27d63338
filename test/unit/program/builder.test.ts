/** The machine builder's own words. All codes are invented. */
import { describe, expect, test } from 'vitest';
import { type Dialect, readProgram, type WordPattern } from '../../../server/src/program/index.ts';
import { marks, standingAt } from './helpers.ts';

const pattern = (name: string, template: string): WordPattern => ({
  name,
  words: template.split(' ').map((word) => {
    const [, letter, slot] = /^([A-Z])(?:\{(\w+)\})?/.exec(word)!;
    return slot === undefined ? { letter: letter!, value: Number(word.slice(1)) } : { letter: letter!, slot };
  }),
});

const dialect: Dialect = standingAt({ X: 0, Y: 0, Z: 0 }, {
  patterns: [
    pattern('syncOn', 'G137 P{starts} Q{teeth}'), pattern('syncOff', 'G138'), pattern('drivenStart', 'M203 S{rpm}'), pattern('drivenReverse', 'M204 S{rpm}'),
    pattern('drivenStop', 'M205'), pattern('workAxisOn', 'M210'), pattern('workAxisOff', 'M211'), pattern('feedPerMinute', 'G98'), pattern('feedPerRevolution', 'G99'),
    pattern('speedLimit', 'G126 S{rpm}'), pattern('subprogramCall', 'M98 P{program} L{repeats}'), pattern('subprogramCall', 'M98 P{program}'), pattern('subprogramReturn', 'M99'),
    pattern('jump', 'G127 P{target}'), pattern('workClamp', 'M10'),
  ],
});

describe('words that set modes', () => {
  const state = (text: string): ReturnType<ReturnType<typeof readProgram>['stateAfter']> => readProgram(text, dialect).stateAfter(text.split('\n').length - 1);

  test('sync on, with the numbers that stand there', () => {
    expect(state('G137 P1 Q-24').sync).toMatchObject({ slots: { starts: 1, teeth: -24 }, line: 0 });
    expect(state('G21\nQ32 G137 P2\nG1 X1 F1').sync).toMatchObject({ slots: { starts: 2, teeth: 32 }, line: 1 });
    expect(state('G137 P1 Q24\nG138').sync).toBeUndefined();
  });
  test('half a pattern is none', () => expect(state('G137 P1').sync).toBeUndefined());
  test('driven tools, whose S is not the spindle\'s', () => {
    expect(state('S800 M3\nM203 S240')).toMatchObject({ speed: 800, driven: { rpm: 240, direction: 'clockwise' } });
    expect(state('M204 S240').driven).toEqual({ rpm: 240, direction: 'counterclockwise' });
    expect(state('M203 S240\nM205').driven).toBeUndefined();
    expect(state('M203 S240\nM203 S#1').driven).toEqual({ direction: 'clockwise' });
  });
  test('the work axis', () => expect([state('M210').workAxis, state('M210\nM211').workAxis]).toEqual([true, false]));
  test('feed modes under other names, which then mean nothing else', () => {
    expect(state('G99 F0.2')).toMatchObject({ feedMode: 'perRevolution' });
    expect(state('G99').returnLevel).toBeUndefined();
    expect(state('G99\nG98')).toMatchObject({ feedMode: 'perMinute' });
  });
  test('a speed limit is no speed', () => expect([state('G126 S3000').speedLimit, state('G126 S3000').speed]).toEqual([3000, undefined]));
  test('none of these words is unknown', () => expect(marks('G137 P1 Q24\nM203 S240\nM210\nG126 S3000', dialect)).toEqual([]));
  test('without a dialect they are', () => expect(marks('G137 P1 Q24')).toEqual(['1:1 unknown-code']));
});

describe('modes in words of the machine\'s own', () => {
  const own: Dialect = standingAt({ X: 10 }, {
    patterns: [pattern('absolute', 'G190'), pattern('incremental', 'G191'), pattern('inverseTime', 'G193'), pattern('coolantOn', 'M808'), pattern('coolantOff', 'M809'), pattern('dwell', 'G104 X{seconds}')],
    replaced: { G90: 'G190', G91: 'G191', G93: 'G193' }, dwellSeconds: {},
  });
  const last = (text: string): ReturnType<ReturnType<typeof readProgram>['stateAfter']> => readProgram(text, own).stateAfter(99);

  test('count for the positions and the feed of their own line', () => {
    expect(last('G191 G0 X5')).toMatchObject({ distance: 'incremental', position: { X: 15 } });
    expect(last('G191\nG190 G0 X5')).toMatchObject({ distance: 'absolute', position: { X: 5 } });
    expect(last('G193')).toMatchObject({ feedMode: 'inverseTime' });
    expect([...readProgram('G193 G1 X20 F4', own).moves()]).toMatchObject([{ seconds: 15, feedMode: 'inverseTime' }]);
  });
  test('the open words then set nothing, and are pointed out with the word that does', () => {
    expect(last('G91 G93 G0 X5')).toMatchObject({ distance: 'absolute', feedMode: 'perMinute', position: { X: 5 } });
    expect(readProgram('G91 M30', own).problems()).toMatchObject([{ rule: 'unknown-code', start: 0, end: 3, message: expect.stringContaining('G191') as string }]);
    expect(last('G191\nG90 G0 X5').position.X).toBe(15);
  });
  test('coolant', () => {
    expect(last('M808').coolant).toEqual([8]);
    expect(last('M07 M808').coolant).toEqual([7, 8]);
    expect(last('M07\nM808\nM809').coolant).toEqual([]);
  });
  test('a dwell takes its time and moves nothing; G04 has none that is known', () => {
    expect([...readProgram('G0 X3\nG104 X1.5', own).moves()]).toMatchObject([{ kind: 'rapid' }, { kind: 'dwell', seconds: 1.5, end: { X: 3 } }]);
    expect([...readProgram('G4 P2', own).moves()][0]).not.toHaveProperty('seconds');
    expect(marks('G4 P2', own)).toEqual(['1:1 dwell-word']);
  });
});

describe('T words that hold the offset too', () => {
  const digits = (toolOffsetDigits: number, more: Partial<Dialect> = {}): Dialect => ({ ...dialect, toolChange: 'T', toolOffsetDigits, ...more });
  const after = (text: string, of: Dialect): unknown[] => {
    const { tool, toolOffset } = readProgram(text, of).stateAfter(99);
    return [tool, toolOffset];
  };

  test.each([['T0101', 2, [1, 1]], ['T1215', 2, [12, 15]], ['T101', 2, [1, 1]], ['T0000', 2, [0, 0]], ['T0005', 2, [0, 5]], ['T123', 1, [12, 3]], ['T010203', 3, [10, 203]]])('%s with %d digits of offset', (text, count, expected) => {
    expect(after(text, digits(count))).toEqual(expected);
    expect(marks(text, digits(count))).toEqual([]);
  });
  test('without that, the number is the tool (NISTIR 6556 §3.7)', () => expect(after('T0101', digits(0))).toEqual([101, undefined]));
  test('one that leaves no digit for the tool is an error, and the tool is not known', () => {
    expect(marks('T5', digits(2))).toEqual(['1:1 tool-word']);
    expect(after('T0101\nT5', digits(2))).toEqual([undefined, 5]);
  });
  test('another offset of the same tool begins no operation', () => {
    const parts = (text: string): unknown[] => readProgram(text, digits(2)).operations().map(({ fromLine, tool }) => [fromLine, tool]);
    expect(parts('T0101\nG0 X1\nT0111\nG0 X2\nT0202\nT0200')).toEqual([[0, 1], [4, 2]]);
  });
  test('where M06 changes the tool, the offset comes with it', () => {
    const of = digits(2, { toolChange: 'M06' });
    expect(after('T0101 M6\nT0207', of)).toEqual([1, 1]);
    expect(after('T0101 M6\nT0207\nM6', of)).toEqual([2, 7]);
  });
});

describe('the sub-spindle', () => {
  const own: Dialect = standingAt({ X: 0 }, {
    patterns: [
      pattern('subStart', 'M303 S{rpm}'), pattern('subReverse', 'M304 S{rpm}'), pattern('subStop', 'M305'), pattern('subAxisOn', 'M310'), pattern('subAxisOff', 'M311'),
      pattern('spindleSyncOn', 'G136 S{rpm}'), pattern('spindleSyncOff', 'G138'), pattern('drivenStart', 'M203 S{rpm}'),
    ],
  });
  const last = (text: string): ReturnType<ReturnType<typeof readProgram>['stateAfter']> => readProgram(text, own).stateAfter(99);

  test('has a speed and a direction of its own, and the main spindle keeps its', () => {
    expect(last('S800 M3\nM304 S1200\nM203 S99')).toMatchObject({ spindle: 'clockwise', speed: 800, subSpindle: { direction: 'counterclockwise', rpm: 1200, axis: false }, driven: { rpm: 99 } });
    expect(last('M303 S1200\nM5')).toMatchObject({ spindle: 'stopped', subSpindle: { direction: 'clockwise', rpm: 1200 } });
    expect(last('S800 M3\nM303 S1200\nM305').subSpindle).toBeUndefined();
    expect(last('S800 M3').subSpindle).toBeUndefined();
  });
  test('can be an axis', () => {
    expect(last('M310').subSpindle).toEqual({ direction: 'stopped', axis: true });
    expect(last('M310\nM311')).toMatchObject({ workAxis: false });
    expect(last('M310\nM311').subSpindle).toBeUndefined();
  });
  test('which line set it can be asked', () => expect(last('\nM303 S1200\nG0 X1').lineOf('subSpindle')).toBe(1));
  test('counts the feed a revolution while the main spindle stands', () => {
    const seconds = (text: string): (number | undefined)[] => [...readProgram(`G95 F0.1 ${text}`, own).moves()].map((move) => move.seconds);
    // 10 mm at 0.1 mm a revolution are 100 revolutions: 60 s at 100 rev/min, 6 s at 1000.
    expect(seconds('M303 S1000\nG1 X10')).toEqual([6]);
    expect(seconds('M303 S1000\nS100 M3\nG1 X10')).toEqual([60]);
    expect(seconds('M303 S1000\nM305\nG1 X10')).toEqual([undefined]);
    expect(marks('G95 F0.1 M303 S1000\nG1 X10', own)).toEqual([]);
    expect(marks('G95 F0.1 M303 S1000\nM305\nG1 X10', own)).toEqual(['3:1 feed-without-spindle']);
  });
  test('coupled spindles turn with the speed of their word', () => {
    expect(last('G136 S500').coupled).toEqual({ rpm: 500 });
    expect(last('G136 S500\nG138').coupled).toBeUndefined();
    expect([...readProgram('S900 M3 G95 F0.1\nG136 S500\nG1 X10\nG138\nX20', own).moves()].map(({ seconds, coupled }) => [seconds, coupled])).toEqual([[12, { rpm: 500 }], [expect.closeTo((100 / 900) * 60, 9), undefined]]);
  });
});

describe('events', () => {
  test('where the words stand and what they capture', () => {
    expect(readProgram('N10 G137 P1 Q24 M10', dialect).events(0)).toEqual([
      { name: 'syncOn', start: 4, end: 15, slots: { starts: 1, teeth: 24 } }, { name: 'workClamp', start: 16, end: 19, slots: {} },
    ]);
  });
  test('a value that is not known is not a number', () => expect(readProgram('G137 P#1 Q24', dialect).events(0)[0]!.slots).toEqual({ starts: NaN, teeth: 24 }));
  test('none on a blank line after one', () => expect(readProgram('M10\n\n', dialect).events(1)).toEqual([]));
  test('a word that lacks its companions is said to be the machine\'s', () => {
    expect(readProgram('G137 P1', dialect).problems()[0]).toMatchObject({ rule: 'unknown-code', message: expect.stringContaining('only together with others') });
  });
  test('the longer pattern wins', () => expect(readProgram('M98 P7 L3', dialect).events(0)).toMatchObject([{ slots: { program: 7, repeats: 3 } }]));
});

describe('subprograms', () => {
  const withSub = (main: string, sub = 'O7\nG91 G0 X1\nG90\nM99\n'): string => `${main}\nM30\n${sub}`;
  const x = (text: string, line: number): number | undefined => readProgram(text, dialect).stateAfter(line).position.X;

  test('a call executes the lines up to the return, as often as it says', () => {
    expect(x(withSub('G90 M98 P7'), 0)).toBe(1);
    expect(x(withSub('G90 M98 P7 L3'), 0)).toBe(3);
  });
  test('its moves are those of the line that calls', () => {
    expect([...readProgram(withSub('M98 P7 L2'), dialect).moves()].map(({ line, end, secondary }) => [line, end.X, secondary])).toEqual([[0, 1, undefined], [0, 2, undefined], [3, undefined, true]]);
  });
  test('calls within calls', () => expect(x(withSub('M98 P7', 'O7\nM98 P8\nM98 P8\nM99\nO8\nG91 G0 X1\nG90\nM99\n'), 0)).toBe(2));
  test('one that is not there is said, and the place then is not known', () => {
    expect(marks(withSub('G0 X5\nM98 P9'), dialect)).toEqual(['2:1 subprogram']);
    expect(x(withSub('G0 X5\nM98 P9'), 1)).toBeUndefined();
  });
  test.each([['0'], ['-1'], ['1.5']])('%s repeats are refused, and the place then is not known', (repeats) => {
    expect(marks(withSub(`M98 P7 L${repeats}`), dialect)).toEqual(['1:1 subprogram']);
    expect(x(withSub(`M98 P7 L${repeats}`), 0)).toBeUndefined();
  });
  test('a subprogram that calls itself is given up', () => {
    expect(marks(withSub('M98 P7', 'O7\nM98 P7\nM99'), dialect)).toContain('1:1 subprogram');
  });
  test('endless repeats are given up', () => expect(marks(withSub('M98 P7 L99999999'), dialect)).toContain('1:1 subprogram'));
  test('a program that follows the end begins afresh, its caller not known', () => {
    const program = readProgram(withSub('G18 G0 X5'), dialect);
    expect(program.stateAfter(1).ended).toBe(true);
    expect(program.stateAfter(2)).toMatchObject({ ended: false, plane: 17 });
  });
  test('what is wrong in a subprogram is said once, at its own line', () => expect(marks(withSub('M98 P7 L2', 'O7\nX1 X2\nM99'), dialect).filter((mark) => mark.endsWith('twice'))).toEqual(['4:4 word-twice']));
  test('what its caller may have said is not missed in it: motion, feed, spindle, speed limit, return level, tool', () => {
    const sub = 'O7\nX1\nG95 G1 X2\nG84 X3 Z-1 R1\nG83 Z-1 R1 Q1\nG80\nG96 G1 X0\nG53 G0 X1\nG41 X5\nG40 X6\nM99';
    expect(marks(withSub('T1 M6', sub), { ...dialect, toolDiameters: new Map([[1, 2]]) })).toEqual([]);
    expect(marks(withSub('', 'O7\nG53 X1\nG2 X5 I2\nG53 X1\nG93 G1 X5\nG54 X1\nM99'), dialect)).toEqual(['6:1 machine-coordinates', '7:8 feed-missing', '8:5 feed-missing']);
  });
  test('time counts as often as it runs', () => expect(readProgram(withSub('M98 P7 L3', 'O7\nG4 P2\nM99'), dialect).totals().seconds).toBe(6));
  test('and the time before a line of the subprogram is that of the program', () => expect(readProgram(withSub('M98 P7 L3', 'O7\nG4 P2\nM99'), dialect).secondsBefore(4)).toBe(6));
});

describe('a file that holds subprograms alone', () => {
  const rules = (text: string, of: Dialect): string[] => readProgram(text, of).problems().map(({ line, rule }) => `${line + 1} ${rule}`);
  const messageAtEnd = (text: string, of: Dialect): string => readProgram(text, of).problems().find(({ rule }) => rule === 'end-missing')!.message;

  test.each([
    ['O7\nG91 G1 X1 F1\nM99'], [':7\nG1 X1 F1\nN10 M99\n\n(LAST LINE)\n'], ['O7\nG1 X1 F1\nM99\nO8\nG1 X1 F1\nM99'], ['O7\nM98 P8\nM99\nO8\nG0 X1\nM99'], ['%\nO7\nG1 X1 F1\nM99\n%'],
  ])('%j has an end: the word that returns', (text) => expect(rules(text, dialect)).toEqual([]));

  test.each([['O7\nG1 X1 F1', '2 end-missing'], ['O7\nG1 X1 F1\nM99\nO8\nG1 X1 F1', '5 end-missing'], ['O7\nM98 P8\nO8\n(M99)', '4 end-missing']])('%j has none', (text, expected) => {
    expect(rules(text, dialect)).toContain(expected);
    expect(messageAtEnd(text, dialect)).toContain('a subprogram ends with the word that returns');
  });

  test('where no card says which word returns, nobody knows, and the message says what is missing', () => {
    expect(messageAtEnd('O7\nG1 X1 F1\nM99', standingAt({}))).toContain('the machine card must say which word returns');
    expect(messageAtEnd('G1 X1 F1', standingAt({}))).not.toContain('subprogram');
  });
});

test('a jump is said and not followed', () => {
  expect(marks('G127 P50\nG0 X1', dialect)).toEqual(['1:1 jump']);
  expect(readProgram('G127 P50\nG0 X1', dialect).stateAfter(1).position.X).toBe(1);
});

describe('operations', () => {
  const text = ['%', 'T1 M6', 'G1 F60 X60', '(HOBBING: TEETH=24)', '(+ MODULE=2)', 'G137 P1 Q24', 'G1 Z-30', 'G138', '(END HOBBING)', 'G0 X0', 'T2 M6', 'G4 P1', 'M30', '%'].join('\n');
  const operations = readProgram(text, dialect).operations();

  test('tool changes, notes and synchronism divide a program', () => {
    expect(operations.map(({ fromLine, toLine, tool, note, sync }) => [fromLine, toLine, tool, note, sync])).toEqual([
      [0, 1, undefined, undefined, false], [1, 3, 1, undefined, false], [3, 5, 1, 'HOBBING', false], [5, 7, 1, 'HOBBING', true],
      [7, 9, 1, 'HOBBING', false], [9, 10, 1, undefined, false], [10, 14, 2, undefined, false],
    ]);
  });
  test('where names are given, other comments that look like notes do not count', () => {
    const parts = (names?: readonly string[]): unknown[] => readProgram('(HOBBING: TEETH=24)\n(UNIT: 5)\nG0 X1\n(END HOBBING)\n(NOTE: A)\nG0 X2', dialect).operations(names).map(({ fromLine, note }) => [fromLine, note]);
    expect(parts(['HOBBING'])).toEqual([[0, 'HOBBING'], [4, undefined]]);
    expect(parts()).toEqual([[0, 'HOBBING'], [1, 'UNIT'], [4, 'NOTE']]);
  });
  test('they cover every line once, and their times add up', () => {
    expect(operations[0]!.fromLine).toBe(0);
    operations.slice(1).forEach((operation, index) => expect(operation.fromLine).toBe(operations[index]!.toLine));
    expect(operations.reduce((sum, { totals }) => sum + totals.seconds, 0)).toBeCloseTo(readProgram(text, dialect).totals().seconds, 9);
    expect(operations[3]!.totals.seconds).toBe(30);
  });
});

describe('numbers with an implied point (ISO 6983 detailed format, from memory)', () => {
  const leading: Dialect = standingAt({}, { fixedFormat: { letters: 'XZ', integerDigits: 4, fractionDigits: 3, suppressedZeros: 'leading' } });
  const trailing: Dialect = standingAt({}, { fixedFormat: { letters: 'XZ', integerDigits: 4, fractionDigits: 3, suppressedZeros: 'trailing' } });
  const value = (text: string, of: Dialect): number | undefined => readProgram(`G0 ${text}`, of).stateAfter(0).position.X;

  test.each([['X25000', 25], ['X-5', -0.005], ['X25.0', 25], ['X[20+5]', 25]])('leading zeros left out: %s is %d', (text, expected) => expect(value(text, leading)).toBe(expected));
  test.each([['X0025', 25], ['X00255', 25.5], ['X25', 2500]])('trailing zeros left out: %s is %d', (text, expected) => expect(value(text, trailing)).toBe(expected));
  test('items have the value that counts', () => expect(readProgram('X25000', leading).items(0)).toMatchObject([{ value: 25 }]));
  test('letters outside the format are plain', () => expect(readProgram('F250', leading).stateAfter(0).feed).toBe(250));
  test('a mixture on one letter is pointed out at the first word of each kind that follows the other', () => {
    expect(marks('G0 X25000\nX25.0\nZ1.0 X30000', leading)).toEqual(['2:1 implied-point', '3:6 implied-point']);
    expect(marks('G0 X25000\nX26000', leading)).toEqual([]);
    expect(marks('G0 X0 Z5.\nX1.', leading)).toEqual([]);
  });
});

describe('programs in one file', () => {
  const told = (text: string, own: Dialect = dialect): string[] => readProgram(text, own).problems().filter(({ rule }) => rule === 'subprogram' || rule === 'program-runs-on').map(({ line, rule, message }) => `${line + 1} ${rule} ${message}`);
  const sub = 'O70\nG91 G0 Z-1\nG90 M99';

  test('a subprogram that does not return is told at its call, and the lines behind the call are read all the same', () => {
    const text = '%\nG0 Z0\nM98 P70\nG0 Z5\nM30\nO70\nG0 Z-1\n%';
    expect(told(text)).toEqual([expect.stringMatching(/^3 subprogram Program 70 does not return: the text ends first\. /)]);
    expect(readProgram(text, dialect).stateAfter(3).position.Z).toBe(5);
    expect(told(`G0 Z0\nM98 P70\nM30\n${sub.replace(' M99', '')}`)).toHaveLength(1);
    expect(told(`G0 Z0\nM98 P70\nM30\n${sub}`)).toEqual([]);
    expect(told('G0 Z0\nM98 P70\nM30\nO70\nG0 Z1\nM30')).toEqual([]);
  });

  test('names the key of the card where it has no word that returns, and cannot tell the ends of subprograms apart', () => {
    const without = { ...dialect, patterns: dialect.patterns.filter(({ name }) => name !== 'subprogramReturn') };
    expect(told('G0 Z0\nM98 P70\nM30\nO70\nG0 Z1', without)[0]).toMatch(/has no word for it \(subprogramReturn\)/);
    expect(told('G0 Z0\nM30\nO70\nG0 Z1\nM99\nO71\nG0 Z2', without)).toEqual([]);
  });

  test('a program without end runs on into the next', () => {
    expect(told(`O1\nG0 Z0\nM98 P70\n${sub}`)).toEqual([expect.stringMatching(/^4 program-runs-on /)]);
    expect(told(`O1\nG0 Z0\nM30\n${sub.replace('M99', '')}\nO71\nM99`)).toEqual([expect.stringMatching(/^7 program-runs-on /)]);
  });

  test('does not where the one before has ended, at the head, or on a machine without subprograms', () => {
    expect(told(`%\nO1\n(A)\nO2\nG0 Z0\nM98 P70\nM30\n${sub}\nO71\nM99\n%`)).toEqual([]);
    expect(told('O1\nG0 Z0\nO2\nM30', { ...dialect, patterns: [] })).toEqual([]);
  });
});
