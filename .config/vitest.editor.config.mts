import { defineConfig } from 'vitest/config';

// Editor tests start an editor and a browser each, so one file runs at a time. The limits are only there to end a wait
// for something that never comes: building, and installing the editor where it is not there yet, can take minutes.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['test/editor/**/*.test.mjs'],
    fileParallelism: false,
    testTimeout: 180_000,
    hookTimeout: 600_000,
  },
});
