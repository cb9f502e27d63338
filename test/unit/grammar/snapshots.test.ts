/** Whole invented programs, with the scopes of every piece kept beside them to show what a change of the grammar changes. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { getVSCodeTokens, renderSnap } from 'vscode-tmgrammar-test/dist/snapshot/index.js';
import { registry, SCOPE } from './nc-grammar.ts';

test.each(['invented-flange.nc', 'invented-pinion-inch.nc'])('%s', async (name) => {
  const file = fileURLToPath(new URL(`snapshots/${name}`, import.meta.url));
  const lines = await getVSCodeTokens(registry, SCOPE, readFileSync(file, 'utf8'));
  await expect(renderSnap(lines)).toMatchFileSnapshot(`${file}.snap`);
});
