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

/**
 * Why a run failed, in lines for the end of a long log: the failed tests of vitest's JSON report, and what
 * escaped from all of them, as `stray-errors.ts` wrote it.
 */
export function vitestTroubles(report: unknown, strayErrors: unknown): readonly string[] {
  const files = (report as { testResults?: readonly TestFile[] } | undefined)?.testResults ?? [];
  const failed = files.flatMap(({ name, message, assertionResults }) => {
    const tests = assertionResults.filter(({ status }) => status === 'failed');
    return [
      ...(tests.length === 0 && message !== undefined && message !== '' ? [`${name}: ${message}`] : []),
      ...tests.map(({ fullName, failureMessages }) => `${name}: ${fullName}\n${failureMessages.join('\n')}`),
    ];
  });
  const stray = ((strayErrors as readonly StrayError[] | undefined) ?? []).map(
    ({ type = 'Error', VITEST_TEST_PATH = 'none', message, stack = '' }) =>
      `outside of every test, while ${VITEST_TEST_PATH} ran: ${type}: ${message}\n${stack}`,
  );
  return [...failed, ...stray];
}

interface TestFile {
  readonly name: string;
  readonly message?: string;
  readonly assertionResults: readonly {
    readonly fullName: string;
    readonly status: string;
    readonly failureMessages: readonly string[];
  }[];
}

interface StrayError {
  readonly type?: string;
  readonly message: string;
  readonly stack?: string;
  readonly VITEST_TEST_PATH?: string;
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

/**
 * Files that tell of each failed test what its page showed, from Playwright's JSON report.
 * @returns absolute paths, in the order of the report
 */
export function playwrightContexts(report: unknown): readonly string[] {
  const inSuite = ({ suites = [], specs = [] }: Suite): readonly string[] => [
    ...specs.flatMap(({ tests }) =>
      tests.flatMap(({ results }) =>
        results.flatMap(({ attachments }) =>
          attachments.flatMap(({ name, path }) => (name === 'error-context' && path ? [path] : [])),
        ),
      ),
    ),
    ...suites.flatMap(inSuite),
  ];
  return inSuite((report as Suite | undefined) ?? {});
}

interface Suite {
  readonly suites?: readonly Suite[];
  readonly specs?: readonly {
    readonly tests: readonly {
      readonly results: readonly {
        readonly attachments: readonly { readonly name: string; readonly path?: string }[];
      }[];
    }[];
  }[];
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
