import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Of pure functions over plain data: no test of theirs can leave anything to the next. */
const PURE = ['test/{published,property}/**/*.test.ts', 'test/unit/core/**/*.test.ts'];

/** They take longest: begun last, one of them would keep one core busy and leave the others idle. */
const FIRST = ['test/property/mending', 'test/unit/core/slate/boxes', 'test/property/room'];

const isFirst = ({ moduleId }: TestSpecification): boolean => FIRST.some((path) => moduleId.includes(path));

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    // Of the runner, not of an array.
    // oxlint-disable-next-line no-array-sort
    const sorted = await super.sort(files);
    return [...sorted.filter(isFirst), ...sorted.filter((file) => !isFirst(file))];
  }
}

export default defineConfig({
  test: {
    sequence: { sequencer: LongestFirst },
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
