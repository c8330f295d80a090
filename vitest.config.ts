import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Of pure functions over plain data: no test of theirs can leave anything to the next. */
const PURE = ['test/{published,property}/**/*.test.ts', 'test/unit/core/**/*.test.ts'];

export default defineConfig({
  test: {
    setupFiles: ['test/setup.ts'],
    pool: 'threads',
    // Left to itself the runner keeps one core free; for a run of all tests nobody waits at the machine.
    maxWorkers: availableParallelism(),
    testTimeout: 180_000,
    server: { deps: { inline: ['electron-store'] } },
    projects: [
      // What one file has loaded and made fast serves the next: half the time of a small file.
      { extends: true, test: { name: 'pure', include: PURE, isolate: false } },
      {
        extends: true,
        test: { name: 'apart', include: ['test/{unit,contract}/**/*.test.{ts,tsx}'], exclude: PURE },
      },
    ],
  },
  resolve: {
    // Outside its runtime the electron package tries to download it when imported.
    alias: [
      {
        find: /^electron$/,
        replacement: new URL('./test/doubles/electron-mini.ts', import.meta.url).pathname,
      },
    ],
  },
});
