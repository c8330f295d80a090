/** Packs the app for Linux over a stand-in for the runtime: all of an installer's content, but it does not run. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Arch, build, Platform, type Configuration } from 'electron-builder';
import { FUSE_SENTINEL } from './packed-app';
import { at } from './paths';

/** As many fuses as the pinned runtime has, each as the runtime ships it: inherited. */
const FUSE_COUNT = 8;
const INHERITED = 0x90;

/** What an unpacked runtime has, as far as packing looks: a binary with its fuses, its licence, its languages. */
function standInRuntime(): string {
  const folder = mkdtempSync(join(tmpdir(), 'carryover-stand-in-'));
  const wire = Buffer.from([1, FUSE_COUNT, ...Array.from({ length: FUSE_COUNT }, () => INHERITED)]);
  writeFileSync(
    join(folder, 'electron'),
    Buffer.concat([Buffer.from('stand-in '), Buffer.from(FUSE_SENTINEL), wire]),
    {
      mode: 0o755,
    },
  );
  for (const file of ['LICENSE', 'LICENSES.chromium.html', 'version'])
    writeFileSync(join(folder, file), 'stand-in');
  for (const name of ['resources', 'locales']) mkdirSync(join(folder, name));
  for (const language of ['en-US', 'en-GB', 'fr'])
    writeFileSync(join(folder, 'locales', `${language}.pak`), '');
  return folder;
}

/**
 * Packs a project's bundles, and returns the folder of the packed app.
 * @param output the folder it is made in
 * @param projectDir the folder with package.json and out/
 */
export async function packOverStandIn(
  config: Configuration,
  output: string = at('dist'),
  projectDir: string = at(),
): Promise<string> {
  await build({
    projectDir,
    targets: Platform.LINUX.createTarget('dir', Arch.x64),
    config: { ...config, electronDist: standInRuntime(), directories: { ...config.directories, output } },
  });
  return join(output, 'linux-unpacked');
}
