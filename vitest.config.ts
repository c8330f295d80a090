import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/{unit,published,property,contract}/**/*.test.{ts,tsx}'],
    setupFiles: ['test/setup.ts'],
    pool: 'threads',
    // One module graph a thread, not one a file: reading the core anew for each of them took as long as its tests.
    // A test that leaves something behind is seen by the next, and is to clean up.
    isolate: false,
    // Left to itself vitest keeps one core free, which of two is half.
    maxWorkers: availableParallelism(),
    testTimeout: 90_000,
    server: { deps: { inline: ['electron-store'] } },
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
