import { defineConfig } from 'vitest/config';

// The repository root is one folder up: this file lives with the other tool settings.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['test/unit/**/*.test.ts', 'test/protocol/**/*.test.ts'],
    setupFiles: ['test/property-seed.ts'],
    globalSetup: ['.config/build-before-tests.mjs'],
    benchmark: { include: ['test/bench/**/*.bench.ts'] },
    // A limit for what hangs; a machine with other work on it must not fail a test.
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
