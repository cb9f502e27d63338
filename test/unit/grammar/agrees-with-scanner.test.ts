/**
 * The grammar and the scanner of the language server read the same text. On
 * legal programs they must see the same comments, numbers of lines and words,
 * character by character.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { type Item, scanLine } from '../../../server/src/program/index.ts';
import { readLines } from './nc-grammar.ts';

const PROGRAMS = ['../../fixtures/nist/C1-hello-world.ngc', '../../fixtures/nist/C2-expressions.ngc', '../../fixtures/nist/C3-canned-cycles.ngc', 'snapshots/invented-flange.nc', 'snapshots/invented-pinion-inch.nc'];

const ROLES: readonly (readonly [scope: RegExp, kind: Item['kind']])[] = [
  [/^comment\./, 'comment'],
  [/hole$/, 'hole'],
  [/sequence-number$/, 'sequence'],
  [/program-number$|alignment$/, 'programNumber'],
  [/block-skip$/, 'skip'],
  [/program-(mark|name)$/, 'percent'],
];

/** Assignments count as words here: the grammar cannot tell where their value ends. */
const kindOfItem = ({ kind }: Item): string => (kind === 'assignment' ? 'word' : kind);

function kindOfScopes(scopes: readonly string[]): string {
  const role = ROLES.find(([scope]) => scopes.some((candidate) => scope.test(candidate)));
  return role?.[1] ?? (scopes.length > 0 ? 'word' : 'none');
}

async function seenByGrammar(line: string): Promise<string[]> {
  const { pieces } = await readLines([line]);
  return pieces.flatMap(({ text, scopes }) => Array.from<string>({ length: text.length }).fill(kindOfScopes(scopes)));
}

function seenByScanner(line: string): string[] {
  const kinds = Array.from<string>({ length: line.length }).fill('none');
  for (const item of scanLine(line)) kinds.fill(kindOfItem(item), item.start, item.end);
  return kinds;
}

const unlessWhite = (line: string, kinds: readonly string[]) => [...line].map((character, index) => `${character} ${/\s/.test(character) ? '' : kinds[index]}`);

test.each(PROGRAMS)('%s', async (name) => {
  const lines = readFileSync(new URL(name, import.meta.url), 'utf8').split(/\r\n|\n/);
  expect(lines.length).toBeGreaterThan(9);
  for (const line of lines) {
    expect(unlessWhite(line, await seenByGrammar(line))).toEqual(unlessWhite(line, seenByScanner(line)));
  }
});
