/** The path of the tool's centre through edits, and asked for piece by piece: always that of a fresh look at the whole. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Dialect, type Program, ProgramDocument, readProgram } from '../../../server/src/program/index.ts';
import { EditableProgram } from '../../../server/src/program/program.ts';
import { TextStore } from '../../../server/src/program/store.ts';
import { standingAt } from './helpers.ts';

const dialect: Dialect = standingAt({ X: 0, Y: 0, Z: 0 }, {
  toolDiameters: new Map([[1, 2], [2, 0.5], [3, -1]]), toolChange: 'T', incrementalAxes: { U: 'X' }, rapid: { x: 5000, y: 5000, z: 5000 },
  patterns: [{ name: 'subprogramCall', words: [{ letter: 'M', value: 98 }, { letter: 'P', slot: 'program' }] }, { name: 'subprogramReturn', words: [{ letter: 'M', value: 99 }] }],
});

const coordinate = fc.integer({ min: -20, max: 20 }).map(String);
const line = fc.oneof(
  { weight: 8, arbitrary: fc.tuple(fc.constantFrom('G1', 'G1', 'G0', ''), coordinate, coordinate).map(([code, x, y]) => `${code} X${x} Y${y}`) },
  { weight: 3, arbitrary: fc.tuple(fc.constantFrom('X', 'Y', 'Z', 'U'), coordinate).map((words) => words.join('')) },
  { weight: 3, arbitrary: fc.constantFrom('G41 D1', 'G42 D1', 'G41 D2', 'G42', 'G40', 'G40 G0 X0', 'G41 D3 G1 X9', 'G40', 'T1', 'T9', 'G41 D9') },
  { weight: 2, arbitrary: fc.tuple(fc.constantFrom('G2', 'G3'), fc.integer({ min: 1, max: 6 }), fc.constantFrom([1, 1], [2, 0], [0, 0])).map(([code, i, [x, y]]) => `G91 ${code} X${i * x!} Y${i * y!} I${i}\nG90 G1`) },
  { weight: 2, arbitrary: fc.constantFrom('', '(NOTE)', 'F100', 'F0', 'G4 P1', 'G18', 'G17', 'G20', 'G21', 'G92 X1', 'G54', 'G55', 'M98 P100', 'G93 F2', 'G94 F50', 'G81 X1 Y1 Z1 R2', 'G80', 'G33 Z1 K1', 'M30', 'O7', '#1=2', 'G1 X#1', 'G1 X#2') },
);
const text = fc.array(line, { maxLength: 40 }).map((lines) => ['T1 F100 G1 X1 Y2 Z3', ...lines, 'M30', 'O100', 'G1 X3 Y4', 'G41', 'X8', 'M99'].join('\n'));

/** Sums in another order differ in the last digits. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (_, each: unknown) => (typeof each === 'number' ? Number(each.toFixed(6)) + 0 : each)));

function picture(program: Program): unknown {
  return plain({
    moves: [...program.moves()], problems: program.problems(), counts: [...program.problemCounts()].sort(), totals: program.totals(),
    operations: program.operations(), seconds: Array.from({ length: program.lineCount + 1 }, (_, index) => program.secondsBefore(index)),
  });
}

const change = fc.record({ from: fc.double({ min: 0, max: 1, noNaN: true }), length: fc.nat({ max: 4 }), text: fc.oneof(line, fc.constantFrom('', '\n', '1', 'G40\n', 'G41 D1\n')), look: fc.double({ min: 0, max: 1, noNaN: true }) });

function edit(document: ProgramDocument, changes: ReadonlyArray<typeof change extends fc.Arbitrary<infer T> ? T : never>): void {
  changes.forEach(({ from, length, text: inserted, look }, index) => {
    const offset = Math.floor(from * document.getText().length);
    ProgramDocument.update(document, [{ range: { start: document.positionAt(offset), end: document.positionAt(offset + length) }, text: inserted }], index + 2);
    const at = Math.floor(look * document.lineCount);
    if (look > 0.3) [...document.program(dialect).moves(at, at + 3)].forEach(() => undefined);
    if (look > 0.6) document.program(dialect).problemCounts();
  });
}

test('after any edits it is that of a fresh analysis', () => {
  fc.assert(fc.property(text, fc.array(change, { minLength: 1, maxLength: 6 }), (before, changes) => {
    const document = ProgramDocument.create('u', 'l', 1, before);
    picture(document.program(dialect));
    edit(document, changes);
    expect(picture(document.program(dialect))).toEqual(picture(readProgram(document.getText(), dialect)));
  }), { numRuns: 150 });
});

test('also in a program of several pieces', () => {
  const body = fc.array(line.filter((one) => !/M98|M30|O7/.test(one)), { minLength: 5, maxLength: 30 });
  fc.assert(fc.property(body, text, fc.array(change, { minLength: 1, maxLength: 5 }), (lines, tail, changes) => {
    const document = ProgramDocument.create('u', 'l', 1, `T1 F100 G1 X1 Y2 Z3\n${`${lines.join('\n')}\n`.repeat(20)}${tail}`);
    picture(document.program(dialect));
    edit(document, changes);
    expect(picture(document.program(dialect))).toEqual(picture(readProgram(document.getText(), dialect)));
  }), { numRuns: 12 });
});

test('an edit reaches the moves beside it, also where they are kept by themselves', () => {
  const zigzag = `T1 F100 G1 X-5 Y-5\nG41\n${Array.from({ length: 1000 }, (_, index) => `X${index * 10} Y${(index % 2) * 10}`).join('\n')}`;
  const store = new TextStore(zigzag);
  const boundaries = store.pieces.map((_, piece) => store.linesBefore(piece)).slice(1);
  expect(boundaries.length).toBeGreaterThan(1);
  expect(readProgram(zigzag, dialect).totals().compensatedPath).toBe('toolCentre');
  for (const line of boundaries.flatMap((boundary) => [boundary - 2, boundary - 1, boundary, boundary + 1])) {
    const document = ProgramDocument.create('u', 'l', 1, zigzag);
    const lookAtAll = (): unknown => [document.program(dialect).totals(), [...document.program(dialect).problemCounts()]];
    lookAtAll();
    ProgramDocument.update(document, [{ range: { start: { line, character: 1 }, end: { line, character: 1 } }, text: '-' }], 2);
    expect(plain(lookAtAll()), `line ${line + 1}`).toEqual(plain([readProgram(document.getText(), dialect).totals(), [...readProgram(document.getText(), dialect).problemCounts()]]));
  }
});

test('line by line it is that of the whole', () => {
  fc.assert(fc.property(text, (program) => {
    const whole = [...readProgram(program, dialect).moves()];
    const asked = readProgram(program, dialect);
    const lines = Array.from({ length: asked.lineCount }, (_, index) => index).reverse();
    expect(plain(lines.map((index) => [...asked.moves(index, index + 1)]).reverse().flat())).toEqual(plain(whole));
  }), { numRuns: 150 });
});

test('totals are the sums of the moves', () => {
  fc.assert(fc.property(text, (source) => {
    const program = readProgram(source, dialect);
    const moves = [...program.moves()].filter(({ secondary }) => secondary !== true);
    const { seconds, moves: count, movesWithoutTime } = program.totals();
    expect(count).toBe(moves.length);
    expect(movesWithoutTime).toBe(moves.filter((move) => move.seconds === undefined).length);
    expect(seconds).toBeCloseTo(moves.reduce((sum, move) => sum + (move.seconds ?? 0), 0), 6);
    expect(program.operations().reduce((sum, { totals }) => sum + totals.seconds, 0)).toBeCloseTo(seconds, 6);
  }), { numRuns: 150 });
});

test('the work of a program under compensation, in lines executed, grows no faster than its length, and that of an edit not at all', () => {
  const programOf = (lines: number): string => `T1 F100\nG41\n${Array.from({ length: lines }, (_, index) => `G1 X${index % 50} Y${(index * 7) % 30}`).join('\n')}`;
  const worked = (of: EditableProgram, work: () => void): number => {
    const before = of.linesExecuted;
    work();
    return of.linesExecuted - before;
  };
  const [small, large] = [2000, 16000].map((lines) => new EditableProgram(new TextStore(programOf(lines)), dialect)).map((one) => worked(one, () => one.problemCounts()));
  expect(small).toBeGreaterThan(4000);
  expect(large! / small!).toBeLessThan(8.5);
  const sliced = new EditableProgram(new TextStore(programOf(16000)), dialect);
  let slices = 1;
  while (!sliced.advance(2000)) slices++;
  expect(slices).toBeGreaterThan(20);
  expect(worked(sliced, () => sliced.problemCounts())).toBeLessThan(300);
  const document = ProgramDocument.create('u', 'l', 1, programOf(16000));
  const edited = document.program(dialect) as EditableProgram;
  edited.problemCounts();
  const again = worked(edited, () => {
    ProgramDocument.update(document, [{ range: { start: { line: 8000, character: 4 }, end: { line: 8000, character: 4 } }, text: '1' }], 2);
    edited.problemCounts();
  });
  expect(again).toBeLessThan(3000);
});

test('without G41 and G42 no path is made: neither G40 nor an end or a program number looks like the beginning of one', () => {
  const lines = Array.from({ length: 400 }, (_, index) => `G40 G1 X${index}`).join('\n');
  const work = [0, 2].map((diameter) => {
    const program = new EditableProgram(new TextStore(`F60\n${lines}\nM30\nO7\nX5\nM99`), { ...dialect, toolDiameters: new Map(diameter === 0 ? [] : [[1, diameter]]) });
    program.problemCounts();
    return program.linesExecuted;
  });
  expect(work[1]).toBe(work[0]);
});
