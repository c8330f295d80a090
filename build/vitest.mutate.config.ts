/** What `npm run mutate` runs against each mutant: the tests that look at tissues, ascent, oxygen, supply and rounding. */
import { defineConfig } from 'vitest/config';

process.env['CI'] = '1';

export default defineConfig({
  test: {
    include: [
      'test/unit/core/{oxygen,ascent,tissues}/**/*.test.ts',
      'test/unit/core/words/*.test.ts',
      'test/unit/core/{supply,gas,compressibility,profile}.test.ts',
      'test/unit/core/ledger/on-loop.test.ts',
      'test/property/{tissues,breathed-legs,ascent,oxygen,supply,sturdiness}.test.ts',
      'test/published/{compartments,stepped,ode,constant-po2}.test.ts',
      'test/published/oxygen-and-gas/*.test.ts',
    ],
    setupFiles: ['test/setup.ts'],
    pool: 'threads',
    testTimeout: 180_000,
  },
});
