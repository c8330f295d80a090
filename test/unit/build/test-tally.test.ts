import { describe, expect, it } from 'vitest';
import {
  playwrightContexts,
  playwrightTally,
  tallyLine,
  total,
  vitestTally,
  vitestTroubles,
} from '../../../build/test-tally';

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

describe('vitestTroubles', () => {
  const passed = { fullName: 'adds up', status: 'passed', failureMessages: [] };
  const failed = { fullName: 'takes away', status: 'failed', failureMessages: ['2 is not 3'] };

  it('names each failed test with its reason, and a file that could not be run', () => {
    const report = {
      testResults: [
        { name: 'sums.test.ts', message: '', assertionResults: [passed, failed] },
        { name: 'broken.test.ts', message: 'no such module', assertionResults: [] },
      ],
    };
    expect(vitestTroubles(report, [])).toEqual([
      'sums.test.ts: takes away\n2 is not 3',
      'broken.test.ts: no such module',
    ]);
  });

  it('tells an error that escaped from all tests, which the report leaves out', () => {
    const stray = [
      {
        type: 'Unhandled Rejection',
        message: 'late',
        stack: 'at late.ts:3',
        VITEST_TEST_PATH: 'sums.test.ts',
      },
    ];
    expect(
      vitestTroubles({ testResults: [{ name: 'sums.test.ts', assertionResults: [passed] }] }, stray),
    ).toEqual(['outside of every test, while sums.test.ts ran: Unhandled Rejection: late\nat late.ts:3']);
  });

  it('has nothing to say of a run that wrote nothing', () => {
    expect(vitestTroubles(undefined, undefined)).toEqual([]);
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

describe('playwrightContexts', () => {
  it('finds what the page of each failed test showed, in groups of tests too', () => {
    const context = (path: string) => ({ name: 'error-context', path });
    const spec = (...attachments: readonly object[]) => ({ tests: [{ results: [{ attachments }] }] });
    const group = { specs: [spec(context('/b.md'), { name: 'trace', path: '/trace.zip' })] };
    const report = { suites: [{ specs: [spec(context('/a.md')), spec()], suites: [group] }] };
    expect(playwrightContexts(report)).toEqual(['/a.md', '/b.md']);
    expect(playwrightContexts(undefined)).toEqual([]);
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
