import { describe, expect, test } from 'vitest';
import { type Dialect, type Move, readProgram } from '../../../server/src/program/index.ts';
import { nistProgram, standingAt } from './helpers.ts';

const withTools = (tools: Record<number, number>, more: Partial<Dialect> = {}): Dialect =>
  standingAt({ X: 0, Y: 0, Z: 0 }, { toolDiameters: new Map(Object.entries(tools).map(([number, diameter]) => [Number(number), diameter])), ...more });

const rounded = (value: number | undefined): string => (value === undefined ? '?' : String(Math.round(value * 1e4) / 1e4 + 0));

/** "line kind x,y length" of every move, the corners marked, with lines from 1. */
function pathOf(text: string, dialect: Dialect): string[] {
  return [...readProgram(text, dialect).moves()].map(({ line, kind, end, length, corner }) => `${line + 1} ${corner === true ? 'corner' : kind} ${rounded(end.X)},${rounded(end.Y)} ${rounded(length)}`);
}

const found = (text: string, dialect: Dialect): string[] => readProgram(text, dialect).problems().filter(({ rule }) => rule !== 'end-missing').map(({ line, start, rule }) => `${line + 1}:${start + 1} ${rule}`);

const places = (moves: readonly Move[]): string[][] => moves.map(({ kind, end, arc, length }) => [kind, ...[end.X, end.Y, arc?.centre.X, arc?.centre.Y, arc?.sweepDegrees, length].map(rounded)]);

describe('the published contours of NISTIR 6556 App. B', () => {
  const contour = (name: string, diameter: number): Move[] =>
    [...readProgram(`F100 T1 M6\n${nistProgram(name)}`, withTools({ 1: diameter })).moves()].filter(({ line, corner }) => line >= 3 && corner === undefined);

  test('table 13 is the path of the centre for the material edge of table 12, with a tool of radius 0.5: arc for arc', () => {
    // The entry arc from B to A and the seven moves of the contour. Both tables are printed in the report.
    const nominal = contour('T13-cutter-comp-nominal-path.ngc', 0);
    expect(nominal).toHaveLength(8);
    expect(places(contour('T12-cutter-comp-material-edge.ngc', 1))).toEqual(places(nominal));
  });

  test('from the nominal path of table 13, a tool that is smaller by that radius comes to the edge of table 12', () => {
    expect(places(contour('T13-cutter-comp-nominal-path.ngc', -1))).toEqual(places(contour('T12-cutter-comp-material-edge.ngc', 0)));
  });

  test('neither is objected to', () => {
    for (const diameter of [0, 0.5, 1, 1.9]) expect(found(`F100 T1 M6\n${nistProgram('T12-cutter-comp-material-edge.ngc')}`, withTools({ 1: diameter }))).toEqual([]);
  });
});

describe('the path of the centre', () => {
  // The places are derived by hand: lines beside lines, and the circle of the tool about their corners.
  const outside = (first: string): string => `F60\nG0 ${first}\nG41 D1\nG1 X0 Y0\nG1 Y10\nG1 X10\nG1 Y5\nG40\nG0 Z5\nG0 X20\nG0 Y0`;
  const aroundTheSquare = ['5 feed -1,10 10', '6 corner 0,11 1.5708', '6 feed 10,11 10', '7 corner 11,10 1.5708', '7 feed 11,5 5'];

  test('goes around outside corners; an axis that is not moved after G40 stays where it is', () => {
    const text = outside('X-5 Y-2');
    expect(pathOf(text, withTools({ 1: 2 }))).toEqual(['2 rapid -5,-2 5.3852', '4 feed -1,0 4.4721', ...aroundTheSquare, '9 rapid 11,5 5', '10 rapid 20,5 9', '11 rapid 20,0 5']);
  });

  test('comes to the first point so that the edge touches it, and goes around it (from memory of RS274/NGC)', () => {
    // From (3,-5) the way that touches the unit circle about the origin is as long as the root of 34 - 1. It leads to the
    // left of the way to the origin by the angle whose sine is 1 over the root of 34; the place is square to it.
    const square = Math.atan2(5, -3) + Math.asin(1 / Math.sqrt(34)) + Math.PI / 2;
    expect(pathOf(outside('X3 Y-5'), withTools({ 1: 2 })).slice(1, 4)).toEqual([
      `4 feed ${rounded(Math.cos(square))},${rounded(Math.sin(square))} ${rounded(Math.sqrt(33))}`, `5 corner -1,0 ${rounded(square - Math.PI)}`, '5 feed -1,10 10',
    ]);
  });

  test('goes through inside corners where both paths cross, and says that a fillet is left', () => {
    const pocket = 'F60\nG0 X5 Y5\nG41 D1\nG1 X5 Y0\nG1 X10\nG1 Y10\nG1 X0\nG1 Y0\nG1 X5\nG40\nG1 X5 Y5';
    expect(pathOf(pocket, withTools({ 1: 2 }))).toEqual(['2 rapid 5,5 7.0711', '4 feed 5,1 4', '5 feed 9,1 4', '6 feed 9,9 8', '7 feed 1,9 8', '8 feed 1,1 8', '9 feed 5,1 4', '11 feed 5,5 4']);
    expect(found(pocket, withTools({ 1: 2 }))).toEqual(['4:4', '6:4', '7:4', '8:4', '9:4'].map((place) => `${place} compensation-corner`));
    expect(readProgram(pocket, withTools({ 1: 2 })).problems().map(({ message }) => message)).toContain('Y10: in the inside corner before this move a tool of radius 1 leaves a fillet; RS274/NGC refuses such a corner under compensation.');
  });

  test.each([['G41', -1], ['G42', 1]])('goes around the end of a way straight back, under %s', (code, side) => {
    const path = pathOf(`F60\nG0 Y-5\n${code} D1\nG1 Y0\nG1 Y10\nG1 Y-3`, withTools({ 1: 2 }));
    expect(path.slice(2)).toEqual([`5 corner ${side},0 0.2014`, `5 feed ${side},10 10`, `6 corner ${-side},10 3.1416`, `6 feed ${-side},-3 13`]);
  });

  test('begins anew after G40, from where the tool is', () => {
    const path = pathOf('F60\nG0 X-5 Y-2\nG41 D1\nG1 X0 Y0\nG1 Y10\nG40\nG41 D1\nG1 X10\nG1 Y20', withTools({ 1: 2 }));
    // The tool stands at (-1,10), square to the end of the first contour; the next move turns to its side.
    expect(path.slice(2)).toEqual(['5 feed -1,10 10', '8 feed 9,10 10', '9 feed 9,20 10']);
    expect(pathOf('F60\nG0 X-5 Y-2\nG41 D1\nG1 X0 Y0\nG1 Y10\nG40\nG41 D1\nG1 X-10', withTools({ 1: 2 }))[2]).toBe('5 feed -1,10 10');
  });

  test('a change of the tool without G40 breaks the path', () => {
    const path = pathOf('F60\nG0 X-5 Y-2\nG41 D1\nG1 X0 Y0\nG1 Y10\nG41 D2\nG1 X10', withTools({ 1: 2, 2: 4 }));
    expect(path.slice(2)).toEqual(['5 feed -1,10 10', '7 feed 10,12 10']);
  });

  test('keeps feed and time of the centre, for every feed mode', () => {
    const timed = (head: string, feed: string): Array<number | undefined> =>
      [...readProgram(`M3 S600 ${head} F60\nG0 X-5 Y-2\nG41 D1\nG1 X0 Y0 ${feed}\nG1 Y10 ${feed}\nG1 X10 ${feed}\nG40`, withTools({ 1: 2 })).moves()].slice(2).map(({ seconds }) => seconds);
    expect(timed('G94', '')).toEqual([10, Math.PI / 2, 10].map((value) => expect.closeTo(value, 9)));
    expect(timed('G95', 'F0.1')).toEqual([10, Math.PI / 2, 10].map((value) => expect.closeTo(value, 9)));
    // One line takes 1/F minutes, its corner among it (from memory of RS274/NGC).
    const [, corner, along] = timed('G93', 'F4');
    expect(corner! + along!).toBeCloseTo(15, 9);
    expect(corner! / along!).toBeCloseTo(Math.PI / 2 / 10, 9);
  });

  test('a sloped move is as long as its way in the plane and across it', () => {
    const [, , first, corner, last] = readProgram('F60\nG0 X-5 Y-2\nG41 D1\nG1 X0 Y0\nG1 Y4 Z3\nG1 X10 Z5\nG40', withTools({ 1: 2 })).moves();
    expect([first!.length, corner!.length, corner!.start.Z, corner!.end.Z, last!.length]).toEqual([5, expect.closeTo(Math.PI / 2, 9), 3, 3, expect.closeTo(Math.hypot(10, 2), 9)]);
  });

  test('on a lathe X counts as a radius in the plane and as a diameter in the words', () => {
    // Turning to a shoulder on the far side of the centre line: the nose runs 0.4 outside the cylinder and 0.4 before the shoulder.
    const shaft = 'G18 F60\nG0 X60 Z5\nG42 D3\nG0 X40 Z2\nG1 Z-20\nG1 X50\nG40\nG0 X60';
    const moves = [...readProgram(shaft, withTools({ 3: 0.8 }, { diameterProgramming: true })).moves()];
    expect(moves.map(({ end }) => [rounded(end.Z), rounded(end.X)])).toEqual([['5', '60'], ['2', '40.8'], ['-19.6', '40.8'], ['-19.6', '50'], ['-19.6', '60']]);
    expect(moves.map(({ length }) => rounded(length))).toEqual([rounded(Math.hypot(30, 5)), rounded(Math.hypot(9.6, 3)), '21.6', '4.6', '5']);
    // The inside corner at the shoulder is what turning is, and no matter of RS274/NGC, which has no compensation in ZX.
    expect(found(shaft, withTools({ 3: 0.8 }, { diameterProgramming: true }))).toEqual([]);
  });

  test('a tool that stands off its place does so in the units of the next move', () => {
    const moves = [...readProgram('G21 F60\nG0 X-50 Y-20\nG41 D1\nG1 X0 Y0\nG1 Y254\nG40 G20\nG0 Z1\nG0 X1', withTools({ 1: 25.4 })).moves()].slice(-2);
    expect(moves.map(({ start, end, units }) => [start.X, end.X, end.Y, units].map((value) => (typeof value === 'number' ? rounded(value) : value)))).toEqual([['-0.5', '-0.5', '10', 'inch'], ['-0.5', '1', '10', 'inch']]);
  });

  test('diameters are in the units of the machine, whatever the program counts in', () => {
    expect(pathOf('G20 F60\nG0 X-5 Y-2\nG41 D1\nG1 X0 Y0\nG1 Y10', withTools({ 1: 50.8 })).at(-1)).toBe('5 feed -1,10 10');
    expect(pathOf('G21 F60\nG0 X-50 Y-20\nG41 D1\nG1 X0 Y0\nG1 Y100', withTools({ 1: 2 }, { units: 'inch' })).at(-1)).toBe('5 feed -25.4,100 100');
  });
});

describe('which radius', () => {
  const end = (head: string, tools: Record<number, number>): string => pathOf(`T5 M6\nF60\nG0 X-5 Y-2\n${head}\nG1 X0 Y0\nG1 Y10`, withTools(tools)).at(-1)!;

  test('is that of the D word, else of the tool in use', () => {
    expect(end('G41 D7', { 5: 2, 7: 4 })).toBe('6 feed -2,10 10');
    expect(end('G41', { 5: 2, 7: 4 })).toBe('6 feed -1,10 10');
    expect(end('G42', { 5: 2 })).toBe('6 feed 1,10 10');
  });

  test.each([['G41 D9', 'radius number 9'], ['G41 D#8', 'is not known']])('%s: not known, the programmed path stays and is marked so', (head, why) => {
    const text = `T5 M6\nF60\nG0 X-5 Y-2\n${head}\nG1 X0 Y0\nG1 Y10`;
    const program = readProgram(text, withTools({ 5: 2 }));
    expect(found(text, withTools({ 5: 2 })).filter((one) => one.includes('compensation'))).toEqual(['5:4 compensation-radius']);
    expect(program.problems().find(({ rule }) => rule === 'compensation-radius')?.message).toContain(why);
    const [, ...moves] = program.moves();
    expect(moves.map(({ end: { X, Y }, compensation, toolRadius }) => [X, Y, compensation, toolRadius])).toEqual([[0, 0, 'left', undefined], [0, 10, 'left', undefined]]);
    expect(program.totals()).toMatchObject({ compensatedPath: 'programmed' });
  });

  test('where the machine gives no diameters at all, moves are marked and nothing is said', () => {
    const program = readProgram('F60\nG0 X-5\nG42 D1\nG1 X0 Y0\nG40\nG1 X5', withTools({}));
    expect([...program.moves()].map(({ compensation }) => compensation)).toEqual([undefined, 'right', undefined]);
    expect(program.totals().compensatedPath).toBe('programmed');
    expect(found('F60\nG0 X-5\nG42 D1\nG1 X0 Y0\nG40\nG1 X5', withTools({}))).toEqual([]);
    expect(readProgram('F60\nG40\nG0 X-5', withTools({})).totals().compensatedPath).toBeUndefined();
  });

  test('totals, operations and elapsed time are those of the path that the moves have', () => {
    const program = readProgram('T5 M6 F60\nG0 X-5 Y-2\nG41\nG1 X0 Y0\nG1 Y10\nG1 X10\nG40\nG0 X20 Y0\nM30', withTools({ 5: 2 }));
    const moves = [...program.moves()];
    const sum = (kinds: string[], of: 'length' | 'seconds', until = Infinity): number => moves.filter(({ kind, line }) => kinds.includes(kind) && line < until).reduce((total, move) => total + (move[of] ?? 0), 0);
    expect(program.totals()).toMatchObject({ compensatedPath: 'toolCentre', moves: moves.length, feedLength: expect.closeTo(sum(['feed', 'arc'], 'length'), 9) as number, rapidLength: expect.closeTo(sum(['rapid'], 'length'), 9) as number, seconds: expect.closeTo(sum(['feed', 'arc'], 'seconds'), 9) as number });
    expect(program.secondsBefore(5)).toBeCloseTo(sum(['feed', 'arc'], 'seconds', 5), 9);
    expect(program.operations().at(-1)?.totals.seconds).toBeCloseTo(program.totals().seconds, 9);
  });
});

describe('what does not go (NISTIR 6556 §3.5.10, App. B)', () => {
  const tools = withTools({ 1: 2 });
  const start = 'F60\nG0 X-5 Y-2\nG41 D1\n';
  test.each([
    ['a first move that is shorter than the radius', 'F60\nG0 X-0.5 Y-0.5\nG41 D1\nG1 X0 Y0\nG1 Y10', ['4:4 compensation-entry']],
    ['a first move from a place beside the contour', 'F60\nG0 X-0.5 Y8\nG41 D1\nG1 X0 Y0\nG1 Y10', ['4:4 compensation-entry']],
    ['an arc as first move, which is not settled', `${start}G2 X-5 Y8 I5 J5\nG1 Y20`, ['4:4 not-computed']],
    ['an arc with the tool inside that is not larger than it', `${start}G1 X0 Y0\nG1 Y10\nG3 X-2 Y10 I-1\nG1 Y0`, ['4:4 compensation-corner', '6:4 compensation-arc']],
    ['the same arc with the tool outside', `F60\nG0 X5 Y-2\nG42 D1\nG1 X0 Y0\nG1 Y10\nG3 X-2 Y10 I-1\nG1 Y0`, ['4:4 compensation-corner']],
    ['a slot that is narrower than the tool', `${start}G1 X0 Y0\nG1 X10\nG1 Y-10\nG1 X11.9\nG1 Y0`, ['7:4 compensation-corner', '7:4 compensation-gouge', '8:4 compensation-corner']],
    ['a step that is lower than the radius', `${start}G1 X0 Y0\nG1 X10\nG1 Y0.5\nG1 X20`, ['6:4 compensation-gouge']],
    ['an arc right after G40', `${start}G1 X0 Y0\nG1 Y10\nG40\nG2 X10 Y10 I5`, ['4:4 compensation-corner', '7:4 compensation-exit']],
  ])('%s', (_, text, expected) => expect(found(text, tools)).toEqual(expected));

  test('a corner that rounding alone makes is joined without a word', () => {
    expect(found(`${start}G1 X0 Y0\nG1 X10\nG1 X20 Y0.001\nG1 X30 Y0.001`, tools)).toEqual([]);
  });

  test('a move that cannot be told stays as programmed, and what follows goes on', () => {
    const path = pathOf(`${start}G1 X0 Y0\nG1 Y10\nG2 X5 Y10 I9\nG1 X5 Y0\nG1 X20`, tools);
    expect(path).toEqual(['2 rapid -5,-2 5.3852', '4 feed -1,0 4.4721', '5 feed -1,10 10', '6 arc 5,10 ?', '7 feed 6,1 9', '8 feed 20,1 14']);
  });
});
