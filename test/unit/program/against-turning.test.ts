import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { readCard } from '../../../server/src/machine/read-card.ts';
import { type Dialect, type Move, openStandardDialect, readProgram } from '../../../server/src/program/index.ts';
import { foundPrograms } from './helpers.ts';
import { type Axis, interpretTurning, type TurningMachine, type TurningMove } from './turning-interpreter.ts';

const demo = (name: string): string => readFileSync(new URL(`../../../client/demo/${name}`, import.meta.url), 'utf8');

/** What the card of the demo says, told again as plain data: its words, and the letters that go with them. */
const demoMachine: TurningMachine = {
  inch: false, diameter: true, plane: 18, rapids: { x: 18000, y: 12000, z: 24000, c: 36000 },
  own: [
    { word: 'g27', takes: 's', does: 'limit' },
    { word: 'm23', takes: 's', does: 'driven' }, { word: 'm24', takes: 's', does: 'driven' }, { word: 'm25', does: 'drivenStop' },
    { word: 'm28', takes: 's', does: 'sub' }, { word: 'm29', takes: 's', does: 'sub' }, { word: 'm22', does: 'subStop' },
    { word: 'g37', takes: 'pqr', does: 'sync' }, { word: 'g38', does: 'syncOff' },
    { word: 'g36', takes: 'sc', does: 'nothing' }, { word: 'g39', does: 'nothing' }, { word: 'g25', takes: 'w', does: 'nothing' }, { word: 'g29', takes: 'wf', does: 'nothing' },
    ...['m20', 'm21', 'm26', 'm27', 'm90', 'm91', 'm92', 'm93', 'm94', 'm95', 'm96', 'm97'].map((word) => ({ word, does: 'nothing' as const })),
  ],
};

/**
 * Adding up small steps is off by some 1e-8 where the speed limit begins to hold. On an arc the engine adds up too,
 * 64 steps, which is off by some 1e-4 where the arc comes to the limit or crosses X0.
 */
function agree(ours: number | undefined, theirs: number, tolerance: number): boolean {
  return Number.isNaN(theirs) ? ours === undefined : Math.abs((ours ?? NaN) - theirs) <= tolerance * Math.max(1, Math.abs(theirs));
}

function expectAgreement(text: string, dialect: Dialect, machine: TurningMachine): TurningMove[] {
  const ours = [...readProgram(text, dialect).moves()].filter(({ secondary }) => secondary !== true);
  const theirs = interpretTurning(text, machine);
  expect(ours.map(({ line, kind }) => `${line + 1} ${kind}`)).toEqual(theirs.map(({ line, kind }) => `${line + 1} ${kind}`));
  ours.forEach((move, index) => {
    for (const [what, here, there] of figures(move, theirs[index]!)) {
      if (!agree(here, there, what === 'seconds' && move.kind === 'arc' ? 1e-3 : 1e-6)) expect.fail(`${what}: ${here} here, ${there} by the other interpreter, on line ${move.line + 1}, ${move.kind}, of\n${text}`);
    }
  });
  return theirs;
}

function figures(move: Move, other: TurningMove): Array<readonly [string, number | undefined, number]> {
  const axes = ['x', 'y', 'z', 'c'] as const;
  const at = (place: Move['start'], axis: Axis): number | undefined => place[axis.toUpperCase() as 'X'];
  return [
    ...axes.map((axis) => [`start ${axis}`, at(move.start, axis), other.start[axis]] as const),
    ...axes.map((axis) => [`end ${axis}`, at(move.end, axis), other.end[axis]] as const),
    ['feed', move.feed, other.feed], ['length', move.length, other.length], ['seconds', move.seconds, other.seconds],
  ];
}

describe('moves agree with a second small interpreter, of turning centres', () => {
  const { card } = readCard(demo('invented.machine.json'));

  test.each([['drive-hub-mm.nc', 100], ['drive-hub-inch.nc', 70]])('%s of the demo', (name, least) => {
    const moves = expectAgreement(demo(name), dialectOf(card!), demoMachine);
    expect(moves.length).toBeGreaterThan(least);
    // Agreeing that nothing is known would be no check.
    expect(moves.filter(({ seconds, length }) => Number.isFinite(seconds) && Number.isFinite(length)).length).toBeGreaterThan(moves.length * 0.9);
  });

  const dialect: Dialect = {
    ...openStandardDialect, diameterProgramming: true, start: { plane: 18 }, rapid: { x: 9000, y: 7000, z: 12000, c: 20000 },
    patterns: [{ name: 'speedLimit', words: [{ letter: 'G', value: 27 }, { letter: 'S', slot: 'rpm' }] }, { name: 'drivenStart', words: [{ letter: 'M', value: 23 }, { letter: 'S', slot: 'rpm' }] }, { name: 'drivenStop', words: [{ letter: 'M', value: 25 }] }],
  };
  const machine: TurningMachine = {
    inch: false, diameter: true, plane: 18, rapids: { x: 9000, y: 7000, z: 12000, c: 20000 },
    own: [{ word: 'g27', takes: 's', does: 'limit' }, { word: 'm23', takes: 's', does: 'driven' }, { word: 'm25', does: 'drivenStop' }],
  };

  /** An invented part: a chess pawn, by arcs in both forms, in every feed mode. */
  const pawn = [
    '%', 'O77 (PAWN)', 'G21 G18 G90 G40', 'G27 S3000', 'T1', 'G95 G96 S150 M3', 'G0 X0. Z2. M8', 'G1 Z0. F.1', 'G3 X16. Z-16. I0. K-10.', 'G2 X14. Z-26. R9. F.08', 'G1 X24.', 'X28. Z-28.', 'G91 Z-3.', 'G2 X4. Z-2. I2. K0.', 'G90 G1 X40. F.2',
    'G97 S900', 'G94 G1 Z-40. F90.', 'G0 X60. Z5.', 'G4 P1.5', 'M5', 'M23 S2000', 'G17 G0 C0. Y0.', 'X30.', 'G1 C90. F720.', 'G1 X20. C120. F50.', 'G93 G1 Z3. F4.', 'G94 G2 X20. Y0. I-3. J0. F40.', 'M25', 'G20 G0 X2. Z.5', 'G18 M4 S400', 'G95 G1 X1. F.004', 'G54 G0 Z1.', 'M30', '%',
  ].join('\n');

  test('an invented turned part with every feed mode', () => {
    const moves = expectAgreement(pawn, dialect, machine);
    expect(new Set(moves.map(({ kind }) => kind))).toEqual(new Set(['rapid', 'feed', 'arc', 'dwell']));
    expect(moves).toHaveLength(21);
  });

  test.each(foundPrograms('turning'))('%s, found elsewhere', (_, text) => expect(expectAgreement(text, dialect, machine).length).toBeGreaterThan(0));

  const number = fc.integer({ min: -3000, max: 9000 }).map((value) => (value / 100).toFixed(2));
  const line = fc.oneof(
    fc.tuple(fc.constantFrom('G0', 'G1', 'G1', ''), fc.subarray(['X', 'Z', 'Y', 'C'], { minLength: 1, maxLength: 3 }), fc.array(number, { minLength: 3, maxLength: 3 })).map(([code, axes, values]) => `${code} ${axes.map((axis, index) => axis + values[index]!).join(' ')}`.replace(/^ /, 'G1 ')),
    // Arcs by their chord: X counts twice in the plane.
    fc.tuple(fc.constantFrom('G2', 'G3'), fc.integer({ min: 1, max: 30 }), fc.integer({ min: -30, max: 30 }), fc.integer({ min: 16, max: 40 }), fc.constantFrom(1, 1, -1)).map(([code, z, x, size, sign]) => `G18 G91 ${code} Z${z} X${2 * x} R${(sign * Math.hypot(z, x) * size) / 30}\nG90 G1`),
    fc.tuple(fc.constantFrom('G2', 'G3'), fc.integer({ min: 1, max: 30 }), fc.constantFrom([1, 1], [2, 0], [0, 0], [1, -1])).map(([code, k, [z, x]]) => `G18 G91 ${code} Z${k * z!} X${2 * k * x!} K${k}\nG90 G1`),
    fc.constantFrom('G94 F120', 'G95 F.2', 'G95 F.05', 'G96 S180', 'G97 S1200', 'G27 S2500', 'G27 S800', 'M3', 'M4', 'M5', 'M23 S3000', 'M25', 'G20', 'G21', 'G4 P.5', 'G54', 'G55', '(COMMENT)', 'N5', 'T2 M9'),
  );

  test('turned parts made at random', () => {
    let moves = 0;
    fc.assert(fc.property(fc.constantFrom('G0 ', 'G0 ', ''), fc.array(line, { maxLength: 25 }), (first, lines) => {
      moves += expectAgreement([`G21 G95 F.1 G97 S500 M3 ${first}X50 Y0 Z10 C0`, ...lines, 'M30'].join('\n'), dialect, machine).length;
    }), { numRuns: 120 });
    expect(moves).toBeGreaterThan(300);
  });
});

test('the second small interpreter shares no code with the engine', () => {
  expect(readFileSync(new URL('turning-interpreter.ts', import.meta.url), 'utf8')).not.toMatch(/\bimport\b/);
});
