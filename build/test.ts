/**
 * `npm test`: every check there is, one after the other, and one line at the end that adds them up. A
 * check that is not a test runner counts as one; a runner counts its tests. Nothing is passed over in
 * silence: what did not run is named, and what should have run and could not is a failure.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { at, ROOT } from './paths';
import { obtainTestBrowser } from './test-browser';
import { STRAY_ERRORS_FILE } from './stray-errors';
import {
  playwrightContexts,
  playwrightTally,
  tallyLine,
  total,
  vitestTally,
  vitestTroubles,
  type Tally,
} from './test-tally';

interface Outcome {
  readonly name: string;
  readonly tally: Tally;
  /** Of a check that could not run: why, in the words of its line in the sum. */
  readonly notRun?: string | undefined;
  readonly seconds: number;
  readonly troubles: readonly string[];
}

/**
 * A gate tries the same cases at each run: what it refuses is of the change that is tested. New ones are drawn by
 * `npm run attack`, and by the test runner called alone.
 */
const SAME_CASES = { CI: '1' };

/** Colours are for a person who looks on; a log is read by programs too. */
const PLAIN = process.stdout.isTTY ? {} : { NO_COLOR: '1', FORCE_COLOR: '0' };

const reports = mkdtempSync(join(tmpdir(), 'carryover-test-'));

/** Why the check that runs fails, and why it could not run at all. */
const troubles: string[] = [];
let notRun: string | undefined;

function run(args: readonly string[], env: NodeJS.ProcessEnv = {}): boolean {
  const { status, signal } = spawnSync(process.execPath, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...SAME_CASES, ...PLAIN, ...env },
  });
  if (status !== 0) troubles.push(`ended with ${signal ?? `exit code ${status}`}`);
  return status === 0;
}

function script(path: string, ...args: readonly string[]): Tally {
  return one(run(['--import', 'tsx', at(path), ...args]));
}

function one(hasPassed: boolean): Tally {
  return { passed: hasPassed ? 1 : 0, failed: hasPassed ? 0 : 1, skipped: 0 };
}

function lint(): Tally {
  return one(run([at('node_modules/oxlint/bin/oxlint'), '--deny-warnings']));
}

function format(): Tally {
  return one(run([at('node_modules/oxfmt/bin/oxfmt'), '--check']));
}

function vitest(): Tally {
  const file = join(reports, 'vitest.json');
  const stray = join(reports, 'stray-errors.json');
  const hasPassed = run(
    [
      at('node_modules/vitest/vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--reporter=${at('build/stray-errors.ts')}`,
      `--outputFile.json=${file}`,
    ],
    { [STRAY_ERRORS_FILE]: stray },
  );
  troubles.push(...vitestTroubles(readReport(file), readReport(stray)));
  return vitestTally(readReport(file), hasPassed);
}

function playwright(): Tally {
  const browser = obtainTestBrowser((line) => console.log(line));
  if (browser.kind === 'missing') {
    notRun = `not run: no browser, because ${browser.reason}`;
    troubles.push(`${notRun}\n  ${browser.mend}`);
    return one(false);
  }
  const file = join(reports, 'playwright.json');
  const hasPassed = run([at('node_modules/@playwright/test/cli.js'), 'test', '--reporter=line,json'], {
    PLAYWRIGHT_JSON_OUTPUT_NAME: file,
  });
  const report = readReport(file);
  for (const path of playwrightContexts(report)) troubles.push(readFileSync(path, 'utf8'));
  return playwrightTally(report, hasPassed);
}

/** What a runner wrote of itself; undefined where it never came so far. */
function readReport(file: string): unknown {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}

const CHECKS: readonly { readonly name: string; readonly run: () => Tally; readonly needsBrowser?: true }[] =
  [
    { name: 'types', run: () => script('build/checks/types.ts') },
    { name: 'layers', run: () => script('build/checks/layers.ts') },
    { name: 'sources', run: () => script('build/checks/sources.ts') },
    { name: 'exports', run: () => script('build/checks/exports.ts') },
    { name: 'programs', run: () => script('build/checks/programs.ts') },
    { name: 'linear', run: () => script('build/checks/linear.ts') },
    { name: 'lint', run: lint },
    { name: 'format', run: format },
    // Before the tests, some of which start the command: it takes half a second longer from its sources.
    { name: 'bundle', run: () => script('build/bundle.ts') },
    { name: 'first load', run: () => script('build/checks/first-load.ts') },
    { name: 'vitest', run: vitest },
    { name: 'playwright', run: playwright, needsBrowser: true },
  ];

const USAGE = `npm test [-- OPTIONS]
  --no-browser   leave out what needs a browser
  --only NAMES   of ${CHECKS.map(({ name }) => name).join(', ')}: these alone, parted by commas
  --help         this text`;

function chosen(names: string | undefined): typeof CHECKS | { readonly unknown: readonly string[] } {
  if (names === undefined) return CHECKS;
  const wanted = names.split(',');
  const unknown = wanted.filter((name) => CHECKS.every((check) => check.name !== name));
  return unknown.length > 0 ? { unknown } : CHECKS.filter(({ name }) => wanted.includes(name));
}

function main(): number {
  const { values } = parseArgs({
    options: {
      'no-browser': { type: 'boolean' },
      only: { type: 'string' },
      help: { type: 'boolean' },
    },
  });
  const checks = chosen(values.only);
  if (values.help === true || 'unknown' in checks) {
    console.log('unknown' in checks ? `There is no check ${checks.unknown.join(', ')}.\n${USAGE}` : USAGE);
    return 'unknown' in checks ? 2 : 0;
  }
  const withoutBrowser = values['no-browser'] === true;
  const outcomes: Outcome[] = [];
  for (const check of checks) {
    if (withoutBrowser && check.needsBrowser) continue;
    console.log(`\n== ${check.name}`);
    const startedMs = Date.now();
    notRun = undefined;
    const tally = check.run();
    const seconds = (Date.now() - startedMs) / 1000;
    outcomes.push({ name: check.name, tally, notRun, seconds, troubles: troubles.splice(0) });
  }
  // Once more, at the end of a long log, where it is looked for first.
  for (const outcome of outcomes) {
    for (const trouble of outcome.troubles) console.log(`\n${outcome.name}: ${trouble}`);
  }
  console.log('');
  for (const { name, tally, notRun: why, seconds } of outcomes) {
    console.log(
      `${name.padEnd(12)}${why ?? `${tallyLine(tally).padEnd(40)}${seconds.toFixed(1).padStart(7)} s`}`,
    );
  }
  if (withoutBrowser) console.log('playwright  not run, as asked (--no-browser)');
  if (checks.length < CHECKS.length) console.log(`the rest    not run, as asked (--only ${values.only})`);
  const sum = total(outcomes.map(({ tally }) => tally));
  console.log(`\n${tallyLine(sum)}`);
  return sum.failed === 0 && sum.passed > 0 ? 0 : 1;
}

try {
  process.exitCode = main();
} finally {
  rmSync(reports, { recursive: true, force: true });
}
