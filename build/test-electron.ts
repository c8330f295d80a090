/**
 * `npm run test:electron`: the desktop's specs in the real runtime, where that is installed; then, to be ticked by a
 * person, what no spec can show.
 */
import { readFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { bundle } from './bundle';
import { findRuntime } from './electron-runtime';
import { at } from './paths';

const runtime = findRuntime();
if (runtime.kind === 'missing') {
  console.log('not run: no Electron runtime (npx install-electron fetches it)');
} else {
  await bundle();
  const { status } = spawnSync(
    process.execPath,
    [
      at('node_modules/@playwright/test/cli.js'),
      'test',
      'desktop',
      '--grep-invert',
      '@double',
      '--workers',
      '1',
    ],
    { cwd: at(), stdio: 'inherit', env: { ...process.env, CARRYOVER_RUNTIME: 'electron' } },
  );
  process.exitCode = status ?? 1;
}
console.log(`\n${readFileSync(at('build/before-a-release.md'), 'utf8')}`);
