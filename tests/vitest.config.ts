import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Unit and process tests. Browser and chip days have their own files and are chosen by path. */
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['node_modules/**'],
    globalSetup: ['tests/support/build-programs.ts'],
    setupFiles: ['tests/support/property-seed.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    pool: 'forks',
    // One core stays free for the real programs, boards and browsers that tests start, unless a
    // step of `npm test` says otherwise.
    maxWorkers: Math.max(1, availableParallelism() - (process.env['HEELWRIGHT_ALL_CORES'] ? 0 : 1)),
  },
});
