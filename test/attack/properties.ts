/**
 * `npm run hunt`: every test that draws its cases runs with new seeds, round after round, where `npm test` always draws
 * the same. What falls is told with its seed; ends with 1 where anything did. `npm run hunt -- --rounds 20` goes on for
 * longer, `npm run hunt -- oxygen` runs the files with the word in their path.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { at, isStarted, ROOT } from '../../build/paths';
import { vitestTally, vitestTroubles } from '../../build/test-tally';

const ROUNDS = 5;

/** Of what fell: the test, the seed and path that bring its case back, the case, and what was expected of it. */
function told(trouble: string): readonly string[] {
  const lines = trouble.split('\n').filter((line) => !/^\s+at /.test(line));
  return lines.slice(0, 12).map((line) => line.slice(0, 4000));
}

/** Test files that draw cases by lot, as paths from the root. */
export function drawingFiles(): readonly string[] {
  return readdirSync(at('test'), { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.test\.tsx?$/.test(path))
    .map((path) => `test/${path.replaceAll('\\', '/')}`)
    .filter((path) => readFileSync(at(path), 'utf8').includes('fc.assert('))
    .toSorted();
}

/** One round with seeds of its own. @returns what fell, some lines each */
function round(files: readonly string[], file: string): readonly string[] {
  const { CI: _sameCases, ...env } = process.env;
  const vitest = [at('node_modules/vitest/vitest.mjs'), 'run', '--reporter=json', `--outputFile=${file}`];
  const { status, stderr } = spawnSync(process.execPath, [...vitest, ...files], {
    cwd: ROOT,
    env,
    encoding: 'utf8',
  });
  let report: unknown;
  try {
    report = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return [`The test runner told nothing:\n${stderr}`];
  }
  const { failed } = vitestTally(report, status === 0);
  const troubles = vitestTroubles(report, undefined);
  return failed > 0 && troubles.length === 0 ? [`${failed} failed, none by name`] : troubles;
}

function hunt(): void {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { rounds: { type: 'string', default: String(ROUNDS) } },
  });
  const rounds = Number(values.rounds);
  if (!Number.isInteger(rounds) || rounds < 1) {
    console.error(`--rounds ${values.rounds}: not a number of rounds. Give a whole number, 1 or more.`);
    process.exitCode = 2;
    return;
  }
  const files = drawingFiles().filter((path) => path.includes(positionals[0] ?? ''));
  if (files.length === 0) {
    console.error(
      `No file that draws its cases has "${positionals[0]}" in its path; leave the word out for all.`,
    );
    process.exitCode = 2;
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'carryover-hunt-'));
  let fallen = 0;
  for (let n = 1; n <= rounds; n += 1) {
    const from = performance.now();
    const troubles = round(files, join(folder, `${n}.json`));
    fallen += troubles.length;
    const seconds = ((performance.now() - from) / 1000).toFixed(0);
    console.log(`round ${n}: ${files.length} files, ${troubles.length} fell (${seconds} s)`);
    for (const trouble of troubles) {
      for (const line of told(trouble)) console.log(`! ${line}`);
    }
  }
  rmSync(folder, { recursive: true, force: true });
  process.exitCode = fallen === 0 ? 0 : 1;
}

if (isStarted(import.meta.url)) hunt();
