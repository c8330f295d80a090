import { describe, expect, it } from 'vitest';
import { playwrightTally, tallyLine, total, vitestTally } from '../../../build/test-tally';

describe('vitestTally', () => {
  it('counts what the report names', () => {
    const report = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 2, numTodoTests: 1 };
    expect(vitestTally(report, false)).toEqual({ passed: 5, failed: 1, skipped: 3 });
  });

  it('fails a run that ended badly without naming a failed test', () => {
    expect(vitestTally({ numPassedTests: 5, numFailedTests: 0 }, false).failed).toBe(1);
  });

  it('fails a run that wrote nothing, or ran nothing', () => {
    expect(vitestTally(undefined, true).failed).toBe(1);
    expect(vitestTally({ numPassedTests: 0, numFailedTests: 0 }, true).failed).toBe(1);
  });
});

describe('playwrightTally', () => {
  it('counts a test that passed at a later try as failed', () => {
    const report = { stats: { expected: 3, unexpected: 1, flaky: 1, skipped: 2 } };
    expect(playwrightTally(report, false)).toEqual({ passed: 3, failed: 2, skipped: 2 });
  });

  it('fails a run without a report', () => {
    expect(playwrightTally(undefined, true)).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });
});

describe('tallyLine', () => {
  it('leaves skipped out where nothing was', () => {
    expect(
      tallyLine(
        total([
          { passed: 1, failed: 0, skipped: 0 },
          { passed: 2, failed: 1, skipped: 0 },
        ]),
      ),
    ).toBe('3 passed, 1 failed');
    expect(tallyLine({ passed: 3, failed: 0, skipped: 1 })).toBe('3 passed, 0 failed, 1 skipped');
  });
});
