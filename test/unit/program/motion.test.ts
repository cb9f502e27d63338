import { describe, expect, test } from 'vitest';
import { readProgram } from '../../../server/src/program/index.ts';
import { atZero, ends, marks, nistProgram, onlyMove, standingAt } from './helpers.ts';

describe('arcs in centre form (NISTIR 6556 §3.5.3)', () => {
  test("the report's example: from (7,7) G2 x10 y16 i3 j4 z9 has centre (10,11) and radius 5", () => {
    const move = onlyMove('G17 G2 x10 y16 i3 j4 z9 F100', standingAt({ X: 7, Y: 7, Z: 0 }));
    expect(move.arc?.centre).toEqual({ X: 10, Y: 11 });
    expect(move.kind).toBe('arc');
    expect(move.length).toBeCloseTo(Math.hypot(5 * (Math.abs(move.arc!.sweepDegrees) * Math.PI) / 180, 9), 12);
  });

  test.each([
    // The published tolerance: 0.002 mm, 0.0002 inch (NISTIR 6556 §3.5.3.2).
    ['G21 G2 X10.0019 Y0 I5 F1', []],
    ['G21 G2 X10.0021 Y0 I5 F1', ['1:8 arc-radius']],
    ['G20 G2 X10.00019 Y0 I5 F1', []],
    ['G20 G2 X10.00021 Y0 I5 F1', ['1:8 arc-radius']],
  ])('%s', (line, expected) => expect(marks(line, atZero)).toEqual(expected));

  test('a centre on the start is no arc (derived: it has no direction)', () => expect(marks('G2 X0 Y0 I0 J0 F1', atZero)).toEqual(['1:4 arc-radius']));
  test('ends that sums of increments keep apart by rounding are one place', () => {
    for (const arc of ['G2', 'G3']) {
      const [, , , circle] = readProgram(`G91 G1 F1 Y0.1\nY0.1\nY0.1\nG90 ${arc} Y0.3 I5`, atZero).moves();
      expect(circle!.length).toBeCloseTo(10 * Math.PI, 9);
      expect(marks(`G91 G1 F1 Y0.1\nY0.1\nY0.1\nG90 ${arc} Y0.3 R5`, atZero)).toEqual(['4:13 arc-radius']);
    }
  });
  test('end = start is a full circle (NISTIR 6556 §3.5.3.2)', () => {
    const move = onlyMove('G2 X0 I5 F60');
    expect(move.arc?.sweepDegrees).toBe(-360);
    expect(move.length).toBeCloseTo(10 * Math.PI, 12);
    expect(move.seconds).toBeCloseTo(10 * Math.PI, 12);
  });

  test('in the ZX plane the direction is seen from plus Y: Z first, then X', () => {
    // Derived: from Z0 X10 about Z0 X0, counter-clockwise from Z to X, a quarter turn ends at Z-10 X0.
    const move = onlyMove('G18 G3 Z-10 X0 I-10 K0 F1', standingAt({ X: 10, Y: 0, Z: 0 }));
    expect(move.arc?.sweepDegrees).toBeCloseTo(90, 12);
  });

  test('with diameter programming X is a diameter and I a radius (common practice, no source)', () => {
    const move = onlyMove('G18 G2 X60 Z-5 I5 K0 F1', standingAt({ X: 50, Y: 0, Z: 0 }, { diameterProgramming: true }));
    expect(move.arc?.centre).toEqual({ X: 60, Z: 0 });
    expect(move.arc?.sweepDegrees).toBeCloseTo(-90, 12);
    expect(move.length).toBeCloseTo((5 * Math.PI) / 2, 12);
  });
});

describe('arcs in radius form (NISTIR 6556 §3.5.3)', () => {
  test.each([
    ['G2 X10 Y0 R5 F1', -180], ['G3 X10 Y0 R5 F1', 180], ['G2 X10 Y10 R10 F1', -90], ['G2 X10 Y10 R-10 F1', -270], ['G3 X10 Y10 R-10 F1', 270],
  ])('%s sweeps %d degrees (derived)', (line, degrees) => expect(onlyMove(line).arc?.sweepDegrees).toBeCloseTo(degrees, 9));

  test.each([
    ['G2 X0 Y0 R5 F1', ['1:10 arc-radius']],
    ['G2 X10 Y0 R4.9 F1', ['1:11 arc-radius']],
    ['G2 X10 Y0 R0 F1', ['1:11 arc-radius']],
    // The advice of the report: near a half turn small errors are large.
    ['G2 X10 Y0 R5.01 F1', ['1:11 arc-sensitive']],
    ['G2 X10 Y0 R6 F1', []],
    ['G2 Z1 R5 F1', ['1:4 arc-words']],
    ['G2 X10 F1', ['1:4 arc-words']],
    ['G18 G2 X10 J5 F1', ['1:8 arc-words']],
    ['G2 X10 I5 R5 F1', ['1:4 arc-centre-and-radius']],
  ])('%s', (line, expected) => expect(marks(line, atZero)).toEqual(expected));

  test("the report's example G17 G2 x10 y15 r20 z5 keeps both radii at 20 (derived check)", () => {
    const { arc } = onlyMove('G17 G2 x10 y15 r20 z5 F1');
    expect(Math.hypot(arc!.centre.X!, arc!.centre.Y!)).toBeCloseTo(20, 12);
    expect(Math.hypot(arc!.centre.X! - 10, arc!.centre.Y! - 15)).toBeCloseTo(20, 12);
  });
});

describe('published programs', () => {
  test('App. C.1: 25 rapids, 29 feeds, 5 arcs; path and box computed outside the project', () => {
    const moves = [...readProgram(nistProgram('C1-hello-world.ngc'), atZero).moves()];
    const count = (kind: string): number => moves.filter((move) => move.kind === kind).length;
    expect([count('rapid'), count('feed'), count('arc')]).toEqual([25, 29, 5]);
    const totals = readProgram(nistProgram('C1-hello-world.ngc'), atZero).totals();
    expect(totals.rapidLength).toBeCloseTo(252.0528, 4);
    expect(totals.feedLength).toBeCloseTo(183.4305, 4);
    const arcs = moves.flatMap(({ arc }) => (arc === undefined ? [] : [arc]));
    expect(arcs.map(({ sweepDegrees }) => Math.round(sweepDegrees * 1000) / 1000)).toEqual([270, -360, -360, -77.364, -180]);
    expect(arcs[0]!.centre).toEqual({ X: 13.5, Y: 2.5 });
    expect(arcs[3]!.centre.X).toBeCloseTo(66.5, 9);
    expect(arcs[3]!.centre.Y).toBeCloseTo(0.8775, 4);
    const box = (axis: 'X' | 'Y' | 'Z'): number[] => [Math.min(...moves.map(({ end }) => end[axis]!)), Math.max(...moves.map(({ end }) => end[axis]!))];
    expect([box('X'), box('Y'), box('Z')]).toEqual([[0, 81], [0, 10], [-0.5, 50]]);
  });

  test.each([['T12-cutter-comp-material-edge.ngc', 25.953], ['T13-cutter-comp-nominal-path.ngc', 28.4303]])('table of %s: every arc closes; path %d computed outside the project', (name, length) => {
    const program = readProgram(nistProgram(name), atZero);
    expect(program.totals().feedLength).toBeCloseTo(length, 3);
    expect(program.problems().filter(({ rule }) => rule === 'arc-radius')).toEqual([]);
  });

  test('table 10, the keyboard session (§5.1.2), first part', () => {
    const [first, second] = [...readProgram(nistProgram('T10-session-input.ngc'), atZero).moves()];
    expect(first).toMatchObject({ kind: 'feed', end: { X: 3, Y: 1, Z: 0 }, feed: 20 });
    expect(second).toMatchObject({ kind: 'arc', end: { X: 0, Y: 1, Z: 0.5 } });
    expect(second!.arc!.centre.X).toBeCloseTo(1.5, 4);
    expect(second!.arc!.centre.Y).toBeCloseTo(7.8476, 4);
    expect(second!.arc!.sweepDegrees).toBeLessThan(0);
    const after = readProgram(nistProgram('T10-session-input.ngc'), atZero).stateBefore(5);
    expect(after).toMatchObject({ tool: 2, selectedTool: 2, lengthCompensation: { mode: 'plus', number: 2 } });
  });

  test('table 10, second part: lines after m2, typed at the keyboard, begin with what m2 leaves', () => {
    const session = nistProgram('T10-session-input.ngc').split('\n').slice(6).join('\n');
    // The report counts Z without the tool length of 1.0: its -0.5 is the programmed 0.5.
    const afterM2 = standingAt({ X: 0, Y: 1, Z: 0.5 }, { start: { returnLevel: 'retract' } });
    const dialect = { ...afterM2, start: { ...afterM2.start, position: { X: 0, Y: 1, Z: 0.5 } } };
    expect(marks(session, dialect)).toContain('1:6 expression');
    expect(readProgram(session, dialect).problems().map(({ message }) => message).join()).toContain('Unknown function: ASIM');
    const moves = ends(session, dialect);
    expect(moves[1]).toBe('feed 30,1,0.5');
    // Printed with the tool length taken off: (30,1,1) (33,3,1) (33,3,0.2) (33,3,1) (36,5,1) (36,5,0.2) (36,5,1).
    expect(moves.slice(2)).toEqual(['rapid 30,1,2', 'rapid 33,3,2', 'feed 33,3,1.2', 'rapid 33,3,2', 'rapid 36,5,2', 'feed 36,5,1.2', 'rapid 36,5,2']);
  });
});

describe('fixed cycles (NISTIR 6556 §3.5.16)', () => {
  const at123 = standingAt({ X: 1, Y: 2, Z: 3 });

  test("the report's example 1", () => {
    expect(ends('G90 G81 G98 X4 Y5 Z1.5 R2.8 F1', at123)).toEqual(['rapid 4,5,3', 'rapid 4,5,2.8', 'feed 4,5,1.5', 'rapid 4,5,3']);
  });

  test("the report's example 2", () => {
    expect(ends('G91 G81 G98 X4 Y5 Z-0.6 R1.8 L3 F1', at123)).toEqual([
      'rapid 1,2,4.8', 'rapid 5,7,4.8', 'feed 5,7,4.2', 'rapid 5,7,4.8', 'rapid 9,12,4.8', 'feed 9,12,4.2', 'rapid 9,12,4.8', 'rapid 13,17,4.8', 'feed 13,17,4.2', 'rapid 13,17,4.8',
    ]);
  });

  describe('App. C.3, derived from the text of §3.5.16 outside the project', () => {
    const lines = (level: 'initial' | 'retract', first: number, last: number): string[] => {
      const dialect = standingAt({ X: 0, Y: 0, Z: 0 }, { start: { returnLevel: level } });
      const program = readProgram(nistProgram('C3-canned-cycles.ngc'), { ...dialect, start: { ...dialect.start, position: { X: 0, Y: 0, Z: -2 } } });
      return [...program.moves(first, last + 1)].map(({ kind, end, seconds }) => (kind === 'dwell' ? `dwell ${seconds}` : `${kind} ${[end.X, end.Y, end.Z].map((value) => (value === undefined ? '?' : Math.round(value * 1e6) / 1e6)).join(',')}`));
    };
    test('n0030', () => expect(lines('retract', 2, 2)).toEqual(['rapid 0,0,0.2', 'rapid 3,4,0.2', 'feed 3,4,-1.1', 'rapid 3,4,0.2']));
    test('n0040', () => expect(lines('retract', 3, 3)).toEqual([4, 5, 6].flatMap((x) => [`rapid ${x},4,0.2`, `feed ${x},4,-0.9`, `rapid ${x},4,0.2`])));
    test('n0050', () => expect(lines('retract', 4, 4)).toEqual(['rapid 6,4,0.3', 'rapid 6,2,0.3', 'feed 6,2,-0.8', 'rapid 6,2,0.3']));
    test('n0060 under G98 and G99', () => {
      const common = ['rapid 4,5,0.3', 'rapid 4,5,0.2', 'feed 4,5,-1.1', 'dwell 0.6'];
      expect(lines('initial', 5, 5)).toEqual([...common, 'rapid 4,5,0.3']);
      expect(lines('retract', 5, 5)).toEqual([...common, 'rapid 4,5,0.2']);
    });
    test('n0090: seven pecks', () => {
      expect(lines('retract', 8, 8).filter((line) => line.startsWith('feed')).map((line) => line.split(',')[2])).toEqual(['-0.01', '-0.22', '-0.43', '-0.64', '-0.85', '-1.06', '-1.1']);
    });
    test('all its lines are read without objection, in all three planes', () => {
      expect(readProgram(nistProgram('C3-canned-cycles.ngc'), standingAt({ X: 0, Y: 0, Z: 0 }, { start: { returnLevel: 'retract' } })).problems()).toEqual([]);
    });
  });

  test('more pecks than any part has are not followed', () => {
    const most = 'G99 G83 X1 Z-7998 R2 Q0.8 F1';
    expect([marks(most, at123), marks(`${most} L2`, at123), marks(`${most}\nX2 Q0.79`, at123)]).toEqual([[], ['1:9 not-computed'], ['2:1 not-computed']]);
    expect(readProgram(`${most} L2`, at123).stateAfter(0).position.X).toBeUndefined();
  });
  /** What a cycle does with X as a radius it does with X, R and depth as twice that on the diameter; lengths such as Q and I stay (derived). */
  test.each([
    ['G19 G98 G83 X-10 Y1 Z2 R3 Q2 F100', 'G19 G98 G83 X-20 Y1 Z2 R6 Q2 F100', 'Q2'],
    ['G19 G99 G91 G83 X-10 Y1 R1 Q3 L2 F100', 'G19 G99 G91 G83 X-20 Y1 R2 Q3 L2 F100', 'Q3'],
    ['G19 G98 G81 X-10 Y1 R3 F100', 'G19 G98 G81 X-20 Y1 R6 F100', undefined],
    ['M3 G98 G83 X4 Y5 Z-5 R1 Q2 F100', 'M3 G98 G83 X8 Y5 Z-5 R1 Q2 F100', undefined],
    ['M3 G98 G87 X4 Y5 Z-5 R1 I1 J2 K-3 F100', 'M3 G98 G87 X8 Y5 Z-5 R1 I1 J2 K-3 F100', 'I1'],
    ['G18 M3 G98 G87 X4 Y-5 Z2 R1 I1 J-3 K2 F100', 'G18 M3 G98 G87 X8 Y-5 Z2 R1 I1 J-3 K2 F100', 'I1'],
    ['M3 G98 G87 X4 Y5 Z-5 R1 I0 J2 K-3 F100', 'M3 G98 G87 X8 Y5 Z-5 R1 I0 J2 K-3 F100', undefined],
  ])('%s moves as %s does with diameter programming', (asRadius, asDiameter, said) => {
    const radii = [...readProgram(asRadius, standingAt({ X: 5, Y: 0, Z: 0 })).moves()];
    const program = readProgram(asDiameter, standingAt({ X: 10, Y: 0, Z: 0 }, { diameterProgramming: true }));
    const diameters = [...program.moves()];
    const seen = (moves: typeof radii, scale: number): unknown => moves.map(({ kind, end, length, seconds }) => [kind, (end.X! * scale).toFixed(9), end.Y, end.Z, length?.toFixed(9), seconds?.toFixed(9)]);
    expect(radii.length).toBeGreaterThan(2);
    expect(seen(diameters, 0.5)).toEqual(seen(radii, 1));
    const hint = program.problems().find(({ rule }) => rule === 'cycle-diameter');
    expect(hint === undefined ? undefined : asDiameter.slice(hint.start, hint.end)).toBe(said);
  });

  test('an axis that has no word and stands somewhere unknown does not move, so times are known', () => {
    const lathe = standingAt({ X: 0, Z: 5 }, { rapid: { x: 600, z: 600 } });
    const seconds = [...readProgram('G98 G81 X6 Z-5 R2 F60', lathe).moves()].map((move) => move.seconds);
    expect(seconds).toEqual([0.6, 0.3, 7, 1]);
  });
  test('without G98 or G99 the level after a cycle from above R is not known, and that is said', () => {
    expect(ends('G81 X4 Y5 Z1 R2 F1', at123).at(-1)).toBe('rapid 4,5,?');
    expect(marks('G81 X4 Y5 Z1 R2 F1', at123)).toEqual(['1:5 cycle-return']);
  });

  test.each([
    ['G81 Z1 F1', ['1:1 cycle-words']], ['G81 X1 R2 F1', ['1:1 cycle-words']], ['G81 F1', ['1:1 cycle-words']],
    ['G99 G81 X1 Z2 R1 F1', ['1:5 cycle-words']], ['G99 G81 X1 Z1 R2 L0 F1', ['1:18 cycle-words']], ['G99 G81 X1 Z1 R2 L1.5 F1', ['1:18 cycle-words']],
    ['G99 G82 X1 Z1 R2 F1', ['1:5 cycle-words']], ['G99 G82 X1 Z1 R2 P-1 F1', ['1:5 cycle-words']],
    ['G99 G83 X1 Z1 R2 F1', ['1:5 cycle-words']], ['G99 G83 X1 Z1 R2 Q0 F1', ['1:5 cycle-words']],
    ['G99 G81 X1 Z1 R2 C90 F1', ['1:5 cycle-words']], ['G99 G41 G81 X1 Z1 R2 F1', ['1:9 compensation-on']],
    ['G93 G99 G81 X1 Z1 R2 F1', ['1:9 feed-mode']],
    ['M4 G99 G84 X1 Z1 R2 F1', ['1:8 cycle-spindle']], ['M3 G99 G84 X1 Z1 R2 F1', []],
    ['G99 G86 X1 Z1 R2 P1 F1', ['1:5 cycle-spindle']], ['M3 G99 G86 X1 Z1 R2 P1 F1', []],
  ])('%s', (line, expected) => expect(marks(line, at123)).toEqual(expected));

  test('after an objection the place of the axes is not known', () => expect(readProgram('G81 X4 Y5 F1', at123).stateAfter(0).position).toMatchObject({ X: undefined, Z: undefined }));
  test('after a manual retract (G88) the place along the depth is not known', () => expect(ends('M3 G99 G88 X1 Y1 Z1 R2 P1 F1\nG0 X2', at123).at(-1)).toBe('rapid 2,1,?'));
});

describe('what the text does not say', () => {
  test.each([
    ['before any motion code', 'F100 X3 Y4', 0],
    ['before any motion code, with inverse time', 'G93 F2 X3', 0],
    ['after G80, which NISTIR 6556 §3.5.15 refuses', 'G80 F100\nX3', 0],
    ['in machine coordinates before any motion code', 'F100 G53 X3', 0],
    ['in machine coordinates under an arc, which NISTIR 6556 §3.5.12 refuses', 'G2 X10 R5 F100\nG53 X3', 1],
    ['on a parabola (G06), whose path is not computed', 'G6 X3 I4 F100', 0],
    ['in a subprogram whose caller says the motion', 'G1 X1 F100\nM30\nO5\nX3', 1],
  ])('an axis word %s makes a move of unknown kind', (_name, text, index) => {
    const move = [...readProgram(text, atZero).moves()][index]!;
    expect(move.kind).toBe('unknown');
    expect([move.length, move.seconds, move.feed]).toEqual([undefined, undefined, undefined]);
  });

  test('a move of unknown kind goes to its place all the same, and counts as one without length and time', () => {
    const program = readProgram('X3 Y4\nG1 Y6 F60', atZero);
    expect(ends('X3 Y4\nG1 Y6 F60')).toEqual(['unknown 3,4,0', 'feed 3,6,0']);
    expect(program.totals()).toMatchObject({ moves: 2, feedLength: 2, rapidLength: 0, seconds: 2, movesWithoutTime: 1, movesWithoutLength: 1 });
  });

  test('under compensation a move of unknown kind stays as programmed', () => {
    const path = [...readProgram('G41 D1 X3 Y4', { ...atZero, toolDiameters: new Map([[1, 2]]) }).moves()];
    expect(path).toMatchObject([{ kind: 'unknown', end: { X: 3, Y: 4 } }]);
    expect(path[0]!.toolRadius).toBeUndefined();
  });

  test('a thread whose lead changes (G34, from memory of ISO 6983) is a straight thread of unknown time', () => {
    expect(onlyMove('S100 M3 G34 Z-5 K1')).toMatchObject({ kind: 'thread', length: 5 });
    expect(onlyMove('S100 M3 G34 Z-5 K1').seconds).toBeUndefined();
  });

  test.each([
    ['G0 X1', { X: undefined }], ['G53 G0 X1', { X: undefined, Y: 5 }], ['G28 X1', { X: undefined, Y: 5 }], ['G28', { X: undefined, Y: undefined }],
    ['G55', { X: undefined, Y: undefined }], ['G54', { X: 5, Y: 5 }], ['G38.2 X1 F1', { X: undefined, Y: 5 }], ['G91 G0 X#7', { X: undefined }],
  ])('%s', (line, expected) => {
    const dialect = line === 'G0 X1' ? standingAt({}) : standingAt({ X: 5, Y: 5, Z: 5 });
    const state = line === 'G0 X1' ? readProgram(line, dialect).stateBefore(0) : readProgram(line, dialect).stateAfter(0);
    expect(state.position).toMatchObject(expected);
  });

  test('a move from a place that is not known has no length and no time', () => {
    const move = onlyMove('G1 X5 F100', standingAt({}));
    expect(move.length).toBeUndefined();
    expect(move.seconds).toBeUndefined();
    expect(move.start).toEqual({});
    expect(move.end).toEqual({ X: 5 });
  });
});

describe('rotary axes', () => {
  test('G94 counts the path of XYZ and ignores rotary axes that move along (NISTIR 6556 §2.1.2.5)', () => {
    const move = onlyMove('G1 Z-30 C720 F60', standingAt({ X: 0, Y: 0, Z: 0, C: 0 }));
    expect(move).toMatchObject({ length: 30, seconds: 30, rotation: { C: 720 } });
  });
  test('a rotary axis alone: degrees per minute; two alone: the root of their squares', () => {
    expect(onlyMove('G1 C90 F90', standingAt({ C: 0 })).seconds).toBeCloseTo(60, 12);
    expect(onlyMove('G1 A30 C40 F50', standingAt({ A: 0, C: 0 })).seconds).toBeCloseTo(60, 12);
  });
  test('C with X: the cylinder and face moves of a lathe', () => {
    const move = onlyMove('G1 X40 C30 F10', standingAt({ X: 60, C: 0 }, { diameterProgramming: true }));
    expect(move).toMatchObject({ length: 10, seconds: 60, rotation: { C: 30 } });
  });
});

test('incremental letters of the machine', () => {
  const dialect = standingAt({ X: 50, Z: 10, C: 5 }, { incrementalAxes: { U: 'X', W: 'Z', H: 'C' }, diameterProgramming: true });
  const state = readProgram('G1 U-10 W-2.5 H90 F1', dialect).stateAfter(0);
  expect(state.position).toMatchObject({ X: 40, Z: 7.5, C: 95, U: undefined });
  expect(readProgram('G1 U-10 F1', standingAt({ X: 50, U: 0 })).stateAfter(0).position).toMatchObject({ X: 50, U: -10 });
});
