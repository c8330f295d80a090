/** Adds up what the test runners report of themselves, and never more than that. */

export interface Tally {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

const NONE: Tally = { passed: 0, failed: 0, skipped: 0 };

/** The sum of several. */
export function total(tallies: readonly Tally[]): Tally {
  return tallies.reduce(
    (sum, each) => ({
      passed: sum.passed + each.passed,
      failed: sum.failed + each.failed,
      skipped: sum.skipped + each.skipped,
    }),
    NONE,
  );
}

/** "12 passed, 0 failed", with what was skipped where something was. */
export function tallyLine({ passed, failed, skipped }: Tally): string {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}

/** What vitest's JSON report says; a run that failed without naming a test counts as one failure. */
export function vitestTally(report: unknown, hasPassed: boolean): Tally {
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = numbersOf(report);
  return honest(
    {
      passed: numPassedTests ?? 0,
      failed: numFailedTests ?? 0,
      skipped: (numPendingTests ?? 0) + (numTodoTests ?? 0),
    },
    hasPassed,
  );
}

/** What Playwright's JSON report says; a test that passed at a later try counts as failed. */
export function playwrightTally(report: unknown, hasPassed: boolean): Tally {
  const { expected, unexpected, flaky, skipped } = numbersOf(
    (report as { stats?: unknown } | undefined)?.stats,
  );
  return honest(
    { passed: expected ?? 0, failed: (unexpected ?? 0) + (flaky ?? 0), skipped: skipped ?? 0 },
    hasPassed,
  );
}

/** A runner that ended badly, or ran nothing at all, has failed, whatever its report says. */
function honest(tally: Tally, hasPassed: boolean): Tally {
  const ranNothing = tally.passed + tally.failed === 0;
  return tally.failed === 0 && (!hasPassed || ranNothing) ? { ...tally, failed: 1 } : tally;
}

function numbersOf(report: unknown): Partial<Record<string, number>> {
  if (typeof report !== 'object' || report === null) return {};
  return Object.fromEntries(
    Object.entries(report).filter((entry): entry is [string, number] => typeof entry[1] === 'number'),
  );
}
