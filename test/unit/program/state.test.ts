import { describe, expect, test } from 'vitest';
import { type Dialect, type ModalState, openStandardDialect, readProgram } from '../../../server/src/program/index.ts';
import { atZero, standingAt } from './helpers.ts';

const after = (text: string, dialect: Dialect = atZero): ModalState => readProgram(text, dialect).stateAfter(text.split('\n').length - 1);

test('before the first line: what a program end restores (NISTIR 6556 §3.6.1), and nothing more', () => {
  expect(readProgram('').stateBefore(0)).toMatchObject({
    units: 'mm', plane: 17, distance: 'absolute', feedMode: 'perMinute', speedMode: 'rpm', spindle: 'stopped', coolant: [],
    compensation: { side: 'off' }, workOffset: 54, workAxis: false, ended: false,
  });
  const { motion, tool, feed, speed, driven, sync, position } = readProgram('').stateBefore(0);
  expect([motion, tool, feed, speed, driven, sync, position.X]).toEqual(Array(7).fill(undefined));
});

test('what the machine states about the start', () => {
  const dialect: Dialect = { ...openStandardDialect, units: 'inch', start: { plane: 18, feedMode: 'perRevolution', returnLevel: 'initial', position: { X: 3 } } };
  expect(readProgram('', dialect).stateBefore(0)).toMatchObject({ units: 'inch', plane: 18, feedMode: 'perRevolution', returnLevel: 'initial', position: { X: 3 } });
});

describe('M02 and M30 (NISTIR 6556 §3.6.1)', () => {
  const set = 'G20 G18 G91 G95 G41 D3 G99 M4 M8 S500 F0.1 T7 M6\nG3 X1 Z1 R5 M4\n';
  test.each(['M2', 'M30'])('%s puts back these modes', (end) => {
    expect(after(set + end)).toMatchObject({ plane: 17, distance: 'absolute', feedMode: 'perMinute', compensation: { side: 'off' }, spindle: 'stopped', coolant: [], motion: 1, workOffset: 54, ended: true });
  });
  test('and leaves those', () => expect(after(`${set}M2`)).toMatchObject({ units: 'inch', returnLevel: 'retract', feed: 0.1, speed: 500, tool: 7, selectedTool: 7 }));
  test('offsets of G92 go', () => expect(after('G0 X4\nG92 X7\nM2').position.X).toBe(4));
});

describe('order of execution (NISTIR 6556 §3.8)', () => {
  test('units before the coordinates of their line', () => expect(after('G0 X1 G20').position.X).toBe(1));
  test('the distance mode too', () => expect(after('G0 X1\nX1 G91').position.X).toBe(2));
  test('a tool change before spindle and motion', () => expect(after('G0 X1 M3 T4 M6')).toMatchObject({ tool: 4, spindle: 'clockwise' }));
  test('a spindle stop before the motion', () => expect([...readProgram('M3 S100\nG0 X1 M5', atZero).moves()][0]!.spindle.direction).toBe('stopped'));
});

describe('units', () => {
  test('a change re-expresses the position and keeps feed figures (NISTIR 6556 §2.1.2.9)', () => {
    expect(after('G21 G0 X25.4 C90 F100\nG20', standingAt({ X: 0, C: 0 }))).toMatchObject({ units: 'inch', position: { X: 1, C: 90 }, feed: 100 });
  });
  test.each([['G70', 'inch'], ['G71', 'mm'], ['G20', 'inch'], ['G21', 'mm']])('%s (RS-274-D, NISTIR 6556)', (word, units) => expect(after(word).units).toBe(units));
  test('which words they are is the dialect\'s business', () => expect(after('G70', { ...atZero, unitsWords: { inch: [20], mm: [21] } }).units).toBe('mm'));
});

describe('G92 (NISTIR 6556 §3.5.18, its own numbers)', () => {
  test('at X4 with offset 0, G92 x7: X reads 7, offset -3', () => {
    const state = after('G0 X4\nG92 x7');
    expect(state.position.X).toBe(7);
    expect(state.parameter(5211)).toBe(-3);
  });
  test('then G92 x9: offset -5', () => expect(after('G0 X4\nG92 x7\nG92 x9').parameter(5211)).toBe(-5));
  test('G92.2 counts without the offset and keeps it, G92.3 takes it up again', () => {
    expect(after('G0 X4\nG92 x7\nG92.2').position.X).toBe(4);
    expect(after('G0 X4\nG92 x7\nG92.2').parameter(5211)).toBe(-3);
    expect(after('G0 X4\nG92 x7\nG92.2\nG92.3').position.X).toBe(7);
  });
  test('G92.1 forgets it', () => expect(after('G0 X4\nG92 x7\nG92.1').parameter(5211)).toBe(0));
});

test('G10 L2 P1 x3.5 y17.2 sets system 1 (NISTIR 6556 §3.5.5)', () => {
  const state = after('G10 L2 P1 x3.5 y17.2');
  expect([state.parameter(5221), state.parameter(5222)]).toEqual([3.5, 17.2]);
  expect(state.position.X).toBeUndefined();
  expect(after('G10 L2 P2 x3.5').parameter(5241)).toBe(3.5);
});

test('coordinate systems are numbered 1 to 9 in #5220 (NISTIR 6556 §3.2.2)', () => {
  expect([after('G55').parameter(5220), after('G59.3').parameter(5220), after('G59.3').workOffset]).toEqual([2, 9, 59.3]);
});

describe('modes', () => {
  test.each<[string, Partial<ModalState>]>([
    ['M3 S1200', { spindle: 'clockwise', speed: 1200, speedMode: 'rpm' }],
    ['M13', { spindle: 'clockwise', coolant: [8] }],
    ['M7\nM8', { coolant: [7, 8] }],
    ['M8\nM9', { coolant: [] }],
    ['M4\nM19', { spindle: 'stopped' }],
    ['G96 S180', { speedMode: 'css', speed: 180 }],
    ['G95 F0.2', { feedMode: 'perRevolution', feed: 0.2 }],
    ['G93 F2', { feedMode: 'inverseTime', feed: 2 }],
    ['G42 D5', { compensation: { side: 'right', number: 5 } }],
    ['G43 H2', { lengthCompensation: { mode: 'plus', number: 2 } }],
    ['G61.1', { pathMode: 61.1 }],
    ['G98', { returnLevel: 'initial' }],
    ['G19 G91', { plane: 19, distance: 'incremental' }],
    ['T0303', { selectedTool: 303 }],
  ])('%s', (text, expected) => expect(after(text)).toMatchObject(expected));

  test('words of cycles stay in force within a run and no longer (NISTIR 6556 §3.5.16)', () => {
    expect(after('M3 F1 G99 G83 X1 Z-5 R2 Q1').cycle).toEqual({ retract: 2, depth: -5, peck: 1 });
    expect(after('M3 F1 G99 G83 X1 Z-5 R2 Q1\nG81 X2').cycle).toEqual({ retract: 2, depth: -5, peck: 1 });
    expect(after('M3 F1 G99 G83 X1 Z-5 R2 Q1\nG0 X2').cycle).toEqual({});
  });

  test('a turret changes tools at T', () => expect(after('T0505', { ...atZero, toolChange: 'T' })).toMatchObject({ tool: 505 }));
});

describe('the block skip switch', () => {
  test('off: the line is executed', () => expect(after('/G0 X5').position.X).toBe(5));
  test('on: it is not', () => expect(after('/G0 X5', { ...atZero, skipBlocks: true }).position.X).toBe(0));
});

describe('which line set a value', () => {
  const program = readProgram('G21 G18\nG1 X1 F100\n\n(rest)\nX2 S500 M3\nF200', atZero);
  test.each([['units', 0], ['plane', 0], ['motion', 1], ['feed', 5], ['X', 4], ['speed', 4], ['spindle', 4], ['tool', undefined], ['Z', undefined]] as const)('%s: %s', (field, line) => {
    expect(program.stateAfter(5).lineOf(field)).toBe(line);
  });
  test('looks no further than its own line', () => expect(program.stateBefore(5).lineOf('feed')).toBe(1));
});

describe('places outside the program', () => {
  const program = readProgram('G0 X1\nX2', atZero);
  test('count as its ends', () => {
    expect(program.stateBefore(-5).position.X).toBe(0);
    expect(program.stateBefore(99).position.X).toBe(2);
    expect(program.lineText(99)).toBe('');
    expect(program.items(-1)).toEqual([]);
    expect(program.events(99)).toEqual([]);
  });
});

describe('the end of most lines', () => {
  test.each([['a\nb\nc', '\n'], ['a\r\nb\r\nc\n', '\r\n'], ['a\rb\rc', '\r'], ['', '\n']])('%j', (text, expected) => expect(readProgram(text).lineEnding).toBe(expected));
});
