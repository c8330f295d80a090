import { availableParallelism } from 'node:os';
import { defineConfig } from '@playwright/test';
import { findTestBrowser } from './build/find-browser';
import { QUIET_FLAGS } from './build/test-browser';

// Chosen once, in the first process that reads this file; its workers inherit it.
process.env['CARRYOVER_E2E_PORT'] ??= String(20_000 + (process.pid % 12_000));
const port = Number(process.env['CARRYOVER_E2E_PORT']);
const browser = findTestBrowser();

export default defineConfig({
  testDir: 'test/e2e',
  outputDir: 'test-results',
  // Each keeps a core busy; more of them are slower.
  workers: availableParallelism(),
  fullyParallel: true,
  // A test that passes at the second try hides the first.
  retries: 0,
  timeout: 60_000,
  // Two cores that build and test at once are slow now and then; a condition that never comes still fails.
  expect: { timeout: 15_000 },
  forbidOnly: Boolean(process.env['CI']),
  reporter: [['line']],
  use: {
    baseURL: `http://127.0.0.1:${port}/`,
    viewport: { width: 1280, height: 800 },
    locale: 'en-GB',
    // A trace costs a sixth of all the time, also where nobody looks at it: --trace on, for the test that fails.
    trace: 'off',
    screenshot: 'only-on-failure',
    launchOptions: { args: [...QUIET_FLAGS], ...(browser === null ? {} : { executablePath: browser }) },
  },
  webServer: {
    command: `"${process.execPath}" --import tsx build/serve.ts --port ${port}`,
    url: `http://127.0.0.1:${port}/`,
    reuseExistingServer: false,
    timeout: 20_000,
  },
});
