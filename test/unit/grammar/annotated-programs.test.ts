/** Runs the annotated programs beside this file, and shows that a wrong annotation is found. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { getVSCodeTokens } from 'vscode-tmgrammar-test/dist/snapshot/index.js';
import { parseGrammarTestCase, runGrammarTestCase } from 'vscode-tmgrammar-test/dist/unit/index.js';
import { grammarValues, registry, SCOPE } from './nc-grammar.ts';

const FOLDER = new URL('annotated/', import.meta.url);
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.nc'));
const read = (name: string) => readFileSync(new URL(name, FOLDER), 'utf8');

describe('annotated programs', () => {
  test.each(files)('%s', async (name) => {
    const testCase = parseGrammarTestCase(read(name));
    expect(testCase.metadata.scope).toBe(SCOPE);
    expect(testCase.assertions.length).toBeGreaterThan(5);
    expect(await runGrammarTestCase(registry, testCase)).toEqual([]);
  });

  test('a wrong expectation is a failure on its line', async () => {
    const wrong = parseGrammarTestCase('; SYNTAX TEST "source.nc-program"\nX1\n; <- keyword.control.preparatory.nc-program\n;^ - constant.numeric.nc-program');
    const failures = await runGrammarTestCase(registry, wrong);
    expect(failures.map(({ missing, unexpected }) => [...missing, ...unexpected])).toEqual([['keyword.control.preparatory.nc-program'], ['constant.numeric.nc-program']]);
  });

  test('between them they meet every scope of the grammar', async () => {
    const met = new Set<string>();
    for (const name of files) {
      const { source } = parseGrammarTestCase(read(name));
      for (const line of await getVSCodeTokens(registry, SCOPE, source.join('\n'))) {
        line.tokens.forEach((token) => token.scopes.forEach((scope) => met.add(scope)));
      }
    }
    const declared = grammarValues('name').filter((name) => name.endsWith('.nc-program'));
    expect(declared.length).toBeGreaterThan(30);
    expect(declared.filter((scope) => !met.has(scope))).toEqual([]);
  });
});
