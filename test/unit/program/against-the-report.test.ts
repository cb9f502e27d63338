import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Move, readProgram } from '../../../server/src/program/index.ts';
import { foundPrograms, nistProgram, publishedProgram, standingAt } from './helpers.ts';
import { interpretByReport, type ReportOptions } from './report-interpreter.ts';

/** The moves of a program, all of which agree. */
function agreedMoves(text: string, options: ReportOptions = {}): Move[] {
  const [X, Y, Z] = options.start ?? [0, 0, 0];
  const dialect = standingAt({ X, Y, Z }, { start: { returnLevel: options.returnLevel === 99 ? 'retract' : 'initial' } });
  const ours = [...readProgram(text, { ...dialect, start: { ...dialect.start, position: { X, Y, Z } } }).moves()];
  const theirs = interpretByReport(text, options);
  expect(ours.map(({ line, kind }) => `${line} ${kind}`)).toEqual(theirs.map(({ line, kind }) => `${line} ${kind}`));
  ours.forEach((move, index) => {
    const other = theirs[index]!;
    const place = `line ${move.line + 1}, ${move.kind}, of\n${text}`;
    same([move.start.X, move.start.Y, move.start.Z], other.start, place);
    same([move.end.X, move.end.Y, move.end.Z], other.end, place);
    same([move.feed, move.length, move.kind === 'rapid' ? NaN : move.seconds], [other.feed, other.length, other.seconds], place);
  });
  return ours;
}

function expectAgreement(text: string, options?: ReportOptions): number {
  return agreedMoves(text, options).length;
}

/** Undefined on our side is NaN on the other. */
function same(ours: ReadonlyArray<number | undefined>, theirs: readonly number[], place: string): void {
  ours.forEach((value, index) => {
    const other = theirs[index]!;
    const agree = Number.isNaN(other) ? value === undefined || Number.isNaN(value) : Math.abs((value ?? NaN) - other) <= 1e-9 * Math.max(1, Math.abs(other));
    if (!agree) expect.fail(`${value} here, ${other} by the report, on ${place}`);
  });
}

describe('moves agree with a small interpreter written from the report alone', () => {
  test.each(['C1-hello-world.ngc', 'C2-expressions.ngc', 'T12-cutter-comp-material-edge.ngc', 'T13-cutter-comp-nominal-path.ngc'])('%s', (name) => {
    expect(expectAgreement(nistProgram(name))).toBeGreaterThan(9);
  });

  test.each([98, 99] as const)('C3-canned-cycles.ngc under G%d', (returnLevel) => expect(expectAgreement(nistProgram('C3-canned-cycles.ngc'), { returnLevel })).toBeGreaterThan(300));

  test('both parts of the session of table 10', () => {
    const lines = nistProgram('T10-session-input.ngc').split('\n');
    expect(expectAgreement(lines.slice(0, 6).join('\n'))).toBe(2);
    expect(expectAgreement(`f20\n${lines.slice(7).join('\n')}`, { start: [0, 1, 0.5], returnLevel: 99 })).toBe(8);
  });

  test.each(foundPrograms('milling'))('%s, found elsewhere', (_, text) => expect(expectAgreement(text, { returnLevel: 99 })).toBeGreaterThan(0));

  const coordinate = fc.integer({ min: -5000, max: 5000 }).map((value) => String(value / 100));
  const axes = fc.tuple(fc.option(coordinate), fc.option(coordinate), fc.option(coordinate)).map((values) => values.map((value, axis) => (value === null ? '' : ` ${'xyz'[axis]}${value}`)).join(''));
  const move = fc.oneof(
    fc.tuple(fc.constantFrom('g0', 'g1', ''), axes).map((parts) => parts.join('')),
    // A centre anywhere, and an end on its circle after a turn in exact numbers: a quarter, a half, three quarters or all of it.
    fc.tuple(fc.constantFrom('g2', 'g3'), fc.integer({ min: 1, max: 30 }), fc.constantFrom([1, 1], [2, 0], [1, -1])).map(([code, i, [x, y]]) => `g17 g91 ${code} x${i * x!} y${i * y!} i${i} z${i / 10}` + '\ng90 g1'),
    fc.tuple(fc.constantFrom('g2', 'g3'), fc.integer({ min: 1, max: 20 }), fc.constantFrom(1, -1), fc.constantFrom('g17', 'g18', 'g19')).map(([code, chord, sign, plane]) => {
      const [first, second] = plane === 'g17' ? 'xy' : plane === 'g18' ? 'zx' : 'yz';
      return `${plane} g91 ${code} ${first}${chord} ${second}${chord / 2} r${sign * chord * 1.5}\ng90 g17 g1`;
    }),
    fc.tuple(fc.constantFrom('g81', 'g82', 'g83', 'g84', 'g85', 'g86', 'g89'), coordinate, coordinate, fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 4 }), fc.constantFrom('g90', 'g91'), fc.constantFrom('g98', 'g99'))
      .map(([code, x, y, r, l, distance, level]) => `${distance} ${level} ${code} x${x} y${y} z${distance === 'g91' ? -r : r - 12} r${r} p0.5 q0.7 l${l}\ng90 g80`),
    fc.constantFrom('g20', 'g21', 'g4 p0.5', 'f250', 'g94', 'g98', 'g99', '#1=[#2+1]', '#2=4', '#1=#2 #2=#1', 'g1 x[#1*2]', 'g92 x1 y2', '(comment)', '', 'n100', '/g0 x1'),
  );

  test('on programs made at random', () => {
    let moves = 0;
    fc.assert(fc.property(fc.constantFrom('g1 x0 y0 z0', 'g1 x0 y0 z0', 'x1 y2'), fc.array(move, { maxLength: 25 }), (first, lines) => {
      moves += expectAgreement([`#1=1 #2=2 f100 m3 ${first}`, ...lines].join('\n'), { returnLevel: 99 });
    }), { numRuns: 300 });
    expect(moves).toBeGreaterThan(3000);
  });
});

/** Programs from the npm package gcode-interpreter 2.1.0, MIT licence, copyright 2015-2017 Cheton Wu. */
describe('moves of published programs agree too', () => {
  const cutting = (moves: readonly Move[]): Move[] => moves.filter(({ kind, length, seconds }) => kind !== 'rapid' && Number.isFinite(length) && Number.isFinite(seconds));
  const sum = (moves: readonly Move[], what: 'length' | 'seconds'): number => moves.reduce((total, move) => total + move[what]!, 0);

  // Agreeing that nothing is known would be no check, so moves whose length and time are known are counted.
  test.each([['circle.nc', 7, 5], ['one-inch-circle.nc', 10, 6], ['helical-thread-milling.nc', 12, 12]])('%s has %d moves, %d of them with length and time', (name, all, known) => {
    const moves = agreedMoves(publishedProgram(name));
    expect(moves).toHaveLength(all);
    expect(cutting(moves)).toHaveLength(known);
  });

  test('the circle of radius 5 in four quarters at F200, and 1 mm at F500 (derived: circumference over feed)', () => {
    const moves = cutting(agreedMoves(publishedProgram('circle.nc')));
    expect(sum(moves, 'length')).toBeCloseTo(10 * Math.PI + 1, 9);
    expect(sum(moves, 'seconds')).toBeCloseTo(60 * (10 * Math.PI / 200 + 1 / 500), 9);
  });

  test('the circle of diameter 1 inch at F2.5, and .1 inch in and out at F5 (derived: circumference over feed)', () => {
    const moves = cutting(agreedMoves(publishedProgram('one-inch-circle.nc')));
    expect(moves.every(({ units }) => units === 'inch')).toBe(true);
    expect(sum(moves, 'length')).toBeCloseTo(Math.PI + 0.2, 9);
    expect(sum(moves, 'seconds')).toBeCloseTo(60 * (Math.PI / 2.5 + 0.2 / 5), 9);
  });

  /**
   * The arcs have R with four decimals and both ends a distance R along X and along Y from each other: quarters, however
   * R was rounded, so no tolerance is touched. The report feeds along the helix (§2.1.2.6), and so do both here. The
   * program leaves the radius of tool 8 to the control: both go along the programmed contour, and the engine says so.
   */
  test('the thread mill goes along quarters of helices, on the contour as programmed', () => {
    const text = publishedProgram('helical-thread-milling.nc');
    const arcs = agreedMoves(text).filter(({ kind }) => kind === 'arc');
    const radii = [...text.matchAll(/R([\d.]+)/g)].map(([, radius]) => Number(radius));
    expect(arcs).toHaveLength(radii.length);
    arcs.forEach((move, index) => {
      expect(move.arc!.sweepDegrees).toBeCloseTo(90, 9);
      expect(move.length).toBeCloseTo(Math.hypot(radii[index]! * Math.PI / 2, 0.0179), 9);
      expect(move.compensation).toBe('right');
      expect(move.toolRadius).toBeUndefined();
    });
    expect(readProgram(text, standingAt({ X: 0, Y: 0, Z: 0 }, { toolDiameters: new Map([[1, 10]]) })).problems().map(({ rule }) => rule)).toContain('compensation-radius');
  });

  /** G42 on counter-clockwise arcs that join without a corner: the centre of the tool goes on radii that are larger by its own (derived). */
  test('the thread mill with a known tool goes along larger quarters', () => {
    const text = publishedProgram('helical-thread-milling.nc');
    const dialect = standingAt({ X: 0, Y: 0, Z: 0 }, { toolDiameters: new Map([[8, 0.5]]) });
    const arcs = [...readProgram(text, dialect).moves()].filter(({ kind, corner }) => kind === 'arc' && corner !== true);
    const radii = [...text.matchAll(/R([\d.]+)/g)].map(([, radius]) => Number(radius));
    expect(arcs.map(({ length }) => length!.toFixed(9))).toEqual(radii.map((radius) => Math.hypot((radius + 0.25) * Math.PI / 2, 0.0179).toFixed(9)));
  });
});

test('the small interpreter shares no code with the engine', () => {
  expect(readFileSync(new URL('report-interpreter.ts', import.meta.url), 'utf8')).not.toMatch(/\bimport\b/);
});
