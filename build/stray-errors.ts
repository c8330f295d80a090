/**
 * A reporter for vitest that writes down what its own report leaves out: errors that escaped from all tests,
 * which fail a run in which every test passed. The file's path stands in the environment.
 */
import { writeFileSync } from 'node:fs';
import type { Reporter } from 'vitest/node';

export const STRAY_ERRORS_FILE = 'CARRYOVER_STRAY_ERRORS';

export default class StrayErrors implements Reporter {
  onTestRunEnd(...[, errors]: Parameters<NonNullable<Reporter['onTestRunEnd']>>): void {
    const file = process.env[STRAY_ERRORS_FILE];
    if (file !== undefined) writeFileSync(file, JSON.stringify(errors));
  }
}
