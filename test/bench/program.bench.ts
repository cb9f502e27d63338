/**
 * How fast the program engine is on a long program of our own making: the
 * figures behind the table in the developers' notes. Run with `vitest bench`.
 */
import { bench, describe } from 'vitest';
import { type Program, ProgramDocument, readProgram, scanLine } from '../../server/src/program/index.ts';

const LINES = 100_000;

/** Turning passes with arcs, comments and feeds, always the same. */
function turningProgram(lines: number): string {
  const text = ['%', 'O1000', 'G21 G18 G90 G95', 'T1 M06', 'G97 S1200 M03'];
  for (let pass = 0; text.length < lines - 2; pass++) {
    const x = 80 - (pass % 60);
    text.push(`(PASS ${pass})`, `N${(text.length * 5) % 99_990} G00 X${x}. Z2.`, `G01 Z-${10 + (pass % 40)}.25 F0.${10 + (pass % 30)}`, `G02 X${x + 6}. Z-${13 + (pass % 40)}.25 R3.`, `G01 X${x + 12}.5`, 'G00 Z2. M08');
  }
  return [...text, 'M30', '%'].join('\n');
}

const text = turningProgram(LINES);
const lines = text.split('\n');
const document = ProgramDocument.create('file:///bench.nc', 'nc-program', 1, text);
const open: Program = document.program();
open.problemCounts();

let turn = 0;
const somewhere = (): number => (turn = (turn + 7919) % (lines.length - 20)) + 10;

describe(`a program of ${LINES} lines, ${(text.length / 1e6).toFixed(1)} MB`, () => {
  bench('scan every line', () => {
    for (const line of lines) scanLine(line);
  }, { iterations: 5, warmupIterations: 1 });

  bench('read and analyse it all', () => {
    readProgram(text).problemCounts();
  }, { iterations: 5, warmupIterations: 1 });

  bench('state and items at a line, as a hover asks for', () => {
    const line = somewhere();
    open.items(line);
    open.stateBefore(line);
  });

  bench('insert a digit and look two lines further down', () => {
    const line = somewhere();
    const end = document.getLineRange(line).end;
    ProgramDocument.update(document, [{ range: { start: end, end }, text: ' ' }], turn);
    document.program().stateBefore(line + 2);
  });

  bench('edit and bring all problems up to date', () => {
    const line = somewhere();
    const end = document.getLineRange(line).end;
    ProgramDocument.update(document, [{ range: { start: end, end }, text: ' ' }], turn);
    document.program().problems(0, undefined, 100);
  });

  bench('list every move', () => {
    let length = 0;
    for (const move of open.moves()) length += move.length ?? 0;
    return void length;
  }, { iterations: 3, warmupIterations: 1 });
});
