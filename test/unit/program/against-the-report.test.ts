import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readProgram } from '../../../server/src/program/index.ts';
import { foundPrograms, nistProgram, standingAt } from './helpers.ts';
import { interpretByReport, type ReportOptions } from './report-interpreter.ts';

function expectAgreement(text: string, options: ReportOptions = {}): number {
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
  return ours.length;
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
    fc.assert(fc.property(fc.array(move, { maxLength: 25 }), (lines) => {
      moves += expectAgreement(['#1=1 #2=2 g1 f100 m3 x0 y0 z0', ...lines].join('\n'), { returnLevel: 99 });
    }), { numRuns: 300 });
    expect(moves).toBeGreaterThan(3000);
  });
});

test('the small interpreter shares no code with the engine', () => {
  expect(readFileSync(new URL('report-interpreter.ts', import.meta.url), 'utf8')).not.toMatch(/\bimport\b/);
});
