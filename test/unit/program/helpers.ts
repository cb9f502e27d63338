import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type Dialect, type Move, openStandardDialect, readProgram, type StartState } from '../../../server/src/program/index.ts';

const fixtures = new URL('../../fixtures/nist/', import.meta.url);

/** A program printed in NISTIR 6556, typed in. */
export const nistProgram = (name: string): string => readFileSync(new URL(name, fixtures), 'utf8');

export const allNistPrograms = [
  'C1-hello-world.ngc', 'C2-expressions.ngc', 'C3-canned-cycles.ngc', 'T10-session-input.ngc',
  'T12-cutter-comp-material-edge.ngc', 'T13-cutter-comp-nominal-path.ngc',
];

/** The open standard with the axes at a known place. */
export function standingAt(position: StartState['position'], more: Partial<Dialect> = {}): Dialect {
  return { ...openStandardDialect, ...more, start: { position, ...more.start } };
}

export const atZero = standingAt({ X: 0, Y: 0, Z: 0 });

/** "line:start rule" of every problem, lines and characters from 1, without the framing of whole programs. */
export function marks(text: string, dialect: Dialect = openStandardDialect): string[] {
  return readProgram(text, dialect).problems()
    .filter(({ rule }) => rule !== 'end-missing')
    .map(({ line, start, rule }) => `${line + 1}:${start + 1} ${rule}`);
}

/** "kind x,y,z" of every move's end, rounded to what the reports print; a question mark where not known. */
export function ends(text: string, dialect: Dialect = atZero, axes: readonly ('X' | 'Y' | 'Z')[] = ['X', 'Y', 'Z']): string[] {
  return [...readProgram(text, dialect).moves()].map((move) => `${move.kind} ${axes.map((axis) => shown(move.end[axis])).join(',')}`);
}

export function onlyMove(text: string, dialect: Dialect = atZero): Move {
  const moves = [...readProgram(text, dialect).moves()];
  if (moves.length !== 1) throw new Error(`${moves.length} moves instead of one`);
  return moves[0]!;
}

function shown(value: number | undefined): string {
  return value === undefined ? '?' : String(Math.round(value * 1e6) / 1e6 + 0);
}

/**
 * Names and texts of programs that somebody found elsewhere: the folder that BLOCKWRIGHT_PROGRAMS names has folders
 * `milling` and `turning`. Such programs belong to others and are not part of this repository.
 */
export function foundPrograms(kind: 'milling' | 'turning'): Array<readonly [name: string, text: string]> {
  const folder = process.env['BLOCKWRIGHT_PROGRAMS'];
  if (folder === undefined) return [];
  const place = join(folder, kind);
  return readdirSync(place).map((name) => [name, readFileSync(join(place, name), 'utf8')] as const);
}

const require = createRequire(import.meta.url);

/**
 * A program that people or machines elsewhere made, from the test data of the npm package gcode-interpreter 2.1.0 (MIT
 * licence, copyright 2015-2017 Cheton Wu). The package is installed for such files alone: none of its code is used.
 * Throws where the file is missing.
 */
export function publishedProgram(name: string): string {
  const root = dirname(require.resolve('gcode-interpreter/package.json'));
  return readFileSync(join(root, 'test', 'fixtures', name), 'utf8');
}
