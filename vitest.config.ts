import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/{unit,published,property,contract}/**/*.test.{ts,tsx}'],
    setupFiles: ['test/setup.ts'],
    pool: 'threads',
    // Left to itself the runner keeps one core free; for a run of all tests nobody waits at the machine.
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
