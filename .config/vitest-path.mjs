/** Where the test runner is, to be run by this very Node. */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export const vitestPath = join(dirname(createRequire(import.meta.url).resolve('vitest/package.json')), 'vitest.mjs');
