import { defineConfig } from 'vitest/config';

// The repository root is one folder up: this file lives with the other tool settings.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['test/unit/**/*.test.ts', 'test/protocol/**/*.test.ts'],
    benchmark: { include: ['test/bench/**/*.bench.ts'] },
    testTimeout: 60_000,
  },
});
