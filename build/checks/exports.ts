/**
 * Code nobody uses: files that nothing imports, or tests alone, exports that no other file takes, packages that are
 * installed for nothing. Found by knip; `knip.json` beside the scripts names the files that are started rather than
 * imported, and marks by "!" what is the product.
 */
import { spawnSync } from 'node:child_process';
import { at, isStarted, ROOT } from '../paths';

function knip(folder: string, ...args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      at('node_modules/knip/bin/knip.js'),
      '--directory',
      folder,
      '--config',
      at('build/knip.json'),
      '--no-progress',
      '--no-config-hints',
      ...args,
    ],
    { cwd: folder, encoding: 'utf8', env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: '0' } },
  );
  return status === 0 ? '' : `${stdout}${stderr}`.trim();
}

/** What is unused in a project laid out as this one, in knip's words; empty where all is used. */
export function unusedCode(folder: string): string {
  const unused = knip(folder);
  // What is replaced lives on in its tests, unless somebody asks for the product alone.
  return unused === '' ? knip(folder, '--production', '--include', 'files') : unused;
}

if (isStarted(import.meta.url)) {
  const unused = unusedCode(ROOT);
  if (unused !== '') {
    console.error(
      `${unused}\n  Remove what nobody uses; a file that is started belongs into build/knip.json.`,
    );
  }
  console.log(`exports: ${unused === '' ? 'all are used' : 'some are used by nobody'}`);
  process.exitCode = unused === '' ? 0 : 1;
}
