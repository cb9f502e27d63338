import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Dialect, MODAL_FIELDS, openStandardDialect, type Program, ProgramDocument, readProgram } from '../../../server/src/program/index.ts';
import { programLine, programText } from './texts.ts';

/** Every builder's word that the engine acts on, so that edits meet all of it. Invented codes. */
const dialect: Dialect = {
  ...openStandardDialect,
  incrementalAxes: { U: 'X', W: 'Z' },
  diameterProgramming: true,
  toolChange: 'T',
  toolOffsetDigits: 1,
  replaced: { G90: 'G190', G91: 'G191' },
  rapid: { x: 20000, y: 10000, z: 24000, c: 36000 },
  limits: { spindleRpm: 100, syncDrivenRpm: 40, rpmOf: { drivenStart: 80, subStart: 60, speedLimit: 90 }, subTravel: [-60, 60], x: [-100, 100], z: [-50, 80] },
  patterns: [
    { name: 'syncOn', words: [{ letter: 'G', value: 137 }, { letter: 'P', slot: 'starts' }, { letter: 'Q', slot: 'teeth' }] },
    { name: 'drivenStart', words: [{ letter: 'M', value: 203 }, { letter: 'S', slot: 'rpm' }] },
    { name: 'drivenStop', words: [{ letter: 'M', value: 205 }] },
    { name: 'subStart', words: [{ letter: 'M', value: 303 }, { letter: 'S', slot: 'rpm' }] },
    { name: 'spindleSyncOn', words: [{ letter: 'G', value: 136 }] },
    { name: 'workAxisOn', words: [{ letter: 'M', value: 191 }] },
    { name: 'workAxisOff', words: [{ letter: 'M', value: 192 }] },
    { name: 'workClamp', words: [{ letter: 'M', value: 193 }] },
    { name: 'workUnclamp', words: [{ letter: 'M', value: 194 }] },
    { name: 'subAxisOn', words: [{ letter: 'M', value: 195 }] },
    { name: 'mainChuckOpen', words: [{ letter: 'M', value: 120 }] },
    { name: 'subFeed', words: [{ letter: 'G', value: 229 }, { letter: 'W', slot: 'z' }, { letter: 'F', slot: 'feed' }] },
    { name: 'speedLimit', words: [{ letter: 'G', value: 126 }, { letter: 'S', slot: 'rpm' }] },
    { name: 'absolute', words: [{ letter: 'G', value: 190 }] },
    { name: 'incremental', words: [{ letter: 'G', value: 191 }] },
    { name: 'subprogramCall', words: [{ letter: 'M', value: 98 }, { letter: 'P', slot: 'program' }] },
    { name: 'subprogramReturn', words: [{ letter: 'M', value: 99 }] },
  ],
};

/** Everything a reader can see of a program, as plain data. */
function picture(program: Program, lines: readonly number[]): unknown {
  return {
    lines: program.lineCount,
    problems: program.problems(),
    counts: [...program.problemCounts()].sort(),
    moves: [...program.moves()],
    totals: roundedTotals(program),
    operations: program.operations().map(({ totals: _totals, ...rest }) => rest),
    states: lines.map((line) => stateOf(program, line)),
  };
}

function stateOf(program: Program, line: number): unknown {
  const state = program.stateBefore(line);
  const origins = MODAL_FIELDS.map((field) => [field, state.lineOf(field)]);
  return { ...JSON.parse(JSON.stringify(state)) as object, parameters: [...state.parameterValues()], origins };
}

/** Sums in another order differ in the last digits. */
function roundedTotals(program: Program): Record<string, unknown> {
  return Object.fromEntries(Object.entries(program.totals()).map(([key, value]) => [key, typeof value === 'number' ? Number(value.toPrecision(9)) : value]));
}

const change = fc.record({
  from: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.nat({ max: 3 }),
  text: fc.oneof(fc.constantFrom('', '1', '.', '\n', ' ', '-', '(', 'X'), programLine, fc.tuple(programLine, programLine).map((lines) => lines.join('\n'))),
  look: fc.double({ min: 0, max: 1, noNaN: true }),
});
type Change = typeof change extends fc.Arbitrary<infer T> ? T : never;

function applyChange(document: ProgramDocument, { from, length, text }: Change, version: number): void {
  const offset = Math.floor(from * document.getText().length);
  const range = { start: document.positionAt(offset), end: document.positionAt(offset + length) };
  ProgramDocument.update(document, [{ range, text }], version);
}

/** Reads at a random place between edits, so that the analysis is caught half way. */
function editAndLook(document: ProgramDocument, changes: readonly Change[]): void {
  changes.forEach((one, index) => {
    applyChange(document, one, index + 2);
    const program = document.program(dialect);
    program.stateBefore(Math.floor(one.look * program.lineCount));
    if (one.look > 0.7) program.problems(0, Math.floor(one.look * program.lineCount));
  });
}

function expectFresh(document: ProgramDocument): void {
  const edited = document.program(dialect);
  const fresh = readProgram(document.getText(), dialect);
  const step = Math.max(1, Math.floor(fresh.lineCount / 12));
  const lines = Array.from({ length: 13 }, (_, index) => index * step);
  expect(picture(edited, lines)).toEqual(picture(fresh, lines));
}

test('after any edits the analysis equals that of the same text read afresh', () => {
  fc.assert(fc.property(programText, fc.array(change, { minLength: 1, maxLength: 6 }), (text, changes) => {
    const document = ProgramDocument.create('u', 'l', 1, text);
    document.program(dialect).problems();
    editAndLook(document, changes);
    expectFresh(document);
  }), { numRuns: 150 });
});

test('also in a program of several pieces', () => {
  const block = fc.array(programLine, { minLength: 10, maxLength: 40 }).map((lines) => lines.filter((line) => !/M(2|30|98|99)|%/.test(line)).join('\n'));
  fc.assert(fc.property(block, programText, fc.array(change, { minLength: 1, maxLength: 6 }), (lines, tail, changes) => {
    const document = ProgramDocument.create('u', 'l', 1, `${lines}\n`.repeat(60) + tail);
    if (changes.length > 2) document.program(dialect).problems();
    editAndLook(document, changes);
    expectFresh(document);
  }), { numRuns: 25 });
});

test('an edit of a subprogram reaches the lines after its call', () => {
  const main = 'G90 G1 F100 X10 Z0\nM98 P100\nG1 Z5\nM30\n';
  const document = ProgramDocument.create('u', 'l', 1, `${main}O100\nG1 X20\nM99\n`);
  expect(document.program(dialect).stateBefore(2).position.X).toBe(20);
  ProgramDocument.update(document, [{ range: { start: { line: 5, character: 4 }, end: { line: 5, character: 6 } }, text: '30' }], 2);
  expect(document.program(dialect).stateBefore(2).position.X).toBe(30);
});
