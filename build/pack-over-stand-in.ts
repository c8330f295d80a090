/** Packs the app for Linux over a stand-in for the runtime: all of an installer's content, but it does not run. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Arch, build, Platform, type Configuration } from 'electron-builder';
import { at } from './paths';

/** Marks where a runtime's binary keeps its fuses. Source: Electron's documentation of fuses. */
const FUSE_SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';
const FUSE_SCHEMA = 1;

/** The fuses of a runtime of version 43 and later as it ships them, a sign each: on or off. */
export const SHIPPED_FUSES = '101100011';

/** What an unpacked runtime has, as far as packing looks: a binary with its fuses, its licence, its languages. */
function standInRuntime(fuses: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'carryover-stand-in-'));
  writeFileSync(join(folder, 'electron'), standInBinary(fuses), { mode: 0o755 });
  for (const file of ['LICENSE', 'LICENSES.chromium.html', 'version'])
    writeFileSync(join(folder, file), 'stand-in');
  for (const name of ['resources', 'locales']) mkdirSync(join(folder, name));
  for (const language of ['en-US', 'en-GB', 'fr'])
    writeFileSync(join(folder, 'locales', `${language}.pak`), '');
  return folder;
}

/** A binary as far as fuses are looked for in it. @param fuses their states, a sign each, in the order of the wire */
export function standInBinary(fuses: string): Buffer {
  const wire = Buffer.from([FUSE_SCHEMA, fuses.length, ...Buffer.from(fuses, 'latin1')]);
  return Buffer.concat([Buffer.from('stand-in '), Buffer.from(FUSE_SENTINEL), wire]);
}

/**
 * Packs a project's bundles, and returns the folder of the packed app.
 * @param output the folder it is made in
 * @param projectDir the folder with package.json and out/
 * @param fuses of the stand-in, as it would ship them
 */
export async function packOverStandIn(
  config: Configuration,
  output: string = at('dist'),
  projectDir: string = at(),
  fuses: string = SHIPPED_FUSES,
): Promise<string> {
  await build({
    projectDir,
    targets: Platform.LINUX.createTarget('dir', Arch.x64),
    config: {
      ...config,
      electronDist: standInRuntime(fuses),
      directories: { ...config.directories, output },
    },
  });
  return join(output, 'linux-unpacked');
}
