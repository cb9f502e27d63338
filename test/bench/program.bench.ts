/**
 * How fast the program engine is on a long program of our own making: the
 * figures behind the table in the developers' notes, which are ratios to the
 * least that any reader must do. Run with `vitest bench`.
 */
import { bench, describe } from 'vitest';
import type * as Engine from '../../server/src/program/index.ts';
import { bundled } from './bundled.ts';
import { LeastScanner } from './least-scanner.ts';

const { ProgramDocument, readProgram, scanLine } = (await bundled('server/src/program/index.ts')) as typeof Engine;

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
const least = new LeastScanner(text.length);
if (least.scan(text) < 2 * LINES) throw new Error('the least scanner must find the words of the program');
const document = ProgramDocument.create('file:///bench.nc', 'nc-program', 1, text);
const open: Engine.Program = document.program();
open.problemCounts();

let turn = 0;
const somewhere = (): number => (turn = (turn + 7919) % (lines.length - 20)) + 10;

describe(`a program of ${LINES} lines, ${(text.length / 1e6).toFixed(1)} MB`, () => {
  bench('the least: every letter with its number', () => {
    least.scan(text);
  }, { iterations: 5, warmupIterations: 1 });

  bench('scan every line', () => {
    for (const line of lines) scanLine(line);
  }, { iterations: 5, warmupIterations: 1 });

  bench('read and analyse it all', () => {
    readProgram(text).problemCounts();
  }, { iterations: 15, warmupIterations: 3 });

  bench('state and items at a line, as a hover asks for', () => {
    const line = somewhere();
    open.items(line);
    open.stateBefore(line);
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

/** An edit must cost the same in a short and in a very long program. */
describe('insert a space and look two lines further down', () => {
  for (const size of [10_000, 100_000, 1_000_000]) {
    const long = ProgramDocument.create('file:///long.nc', 'nc-program', 1, turningProgram(size));
    long.program().problemCounts();
    let place = 0;
    bench(`in ${size} lines`, () => {
      place = (place + 7919) % (size - 20);
      const end = long.getLineRange(place + 10).end;
      ProgramDocument.update(long, [{ range: { start: end, end }, text: ' ' }], place);
      long.program().stateBefore(place + 12);
    });
  }
});
