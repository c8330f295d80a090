/**
 * `npm run package`: installers for the system it runs on, or, with `--linux`, `--mac`, `--win`, for others.
 * Where the runtime cannot be fetched it says so, and packs the app over a stand-in, so that what would go
 * into the installers can be looked at all the same.
 */
import { build, Platform, type Configuration } from 'electron-builder';
import { parseArgs } from 'node:util';
import { bundle } from './bundle';
import { obtainRuntime } from './electron-runtime';
import { writeLicences } from './licences';
import { PACKAGE } from './package-config';
import { checkPacked } from './packed-app';
import { packOverStandIn } from './pack-over-stand-in';
import { at, isStarted } from './paths';

const PLATFORMS = { linux: Platform.LINUX, mac: Platform.MAC, win: Platform.WINDOWS };

function askedFor(args: readonly string[]): readonly Platform[] {
  const { values } = parseArgs({
    args: [...args],
    options: { linux: { type: 'boolean' }, mac: { type: 'boolean' }, win: { type: 'boolean' } },
  });
  const asked = (['linux', 'mac', 'win'] as const).filter((name) => values[name] === true);
  return asked.length === 0 ? [Platform.current()] : asked.map((name) => PLATFORMS[name]);
}

/** Builds the installers of some systems; returns the paths of what was made. */
async function buildInstallers(
  platforms: readonly Platform[],
  config: Configuration,
): Promise<readonly string[]> {
  const targets = new Map(platforms.flatMap((platform) => [...platform.createTarget()]));
  return build({ targets, config });
}

async function main(args: readonly string[]): Promise<number> {
  const platforms = askedFor(args);
  await bundle();
  writeLicences();
  const runtime = await obtainRuntime((line) => console.log(line));
  if (runtime.kind === 'here') {
    const made = await buildInstallers(platforms, PACKAGE);
    for (const path of made) console.log(path);
    const faults = platforms.includes(Platform.LINUX) ? await checkPacked(at('dist/linux-unpacked')) : [];
    for (const fault of faults) console.error(fault);
    return faults.length === 0 ? 0 : 1;
  }
  console.log(`No installers: ${runtime.reason}. Packing the app over a stand-in for it instead ...`);
  const folder = await packOverStandIn(PACKAGE);
  const faults = await checkPacked(folder);
  for (const fault of faults) console.error(fault);
  if (faults.length === 0) {
    console.log(
      `Packed into ${folder} and looked over: the bundles, the licences, the fuses; it lacks only the runtime.`,
    );
  }
  console.log('For installers, run this where https://github.com is in reach, or with ELECTRON_MIRROR set.');
  return faults.length === 0 ? 0 : 1;
}

if (isStarted(import.meta.url)) {
  try {
    process.exitCode = await main(process.argv.slice(2));
  } catch (error) {
    console.error(`package: ${error instanceof Error ? error.message : String(error)}`);
    process.exitCode = 1;
  }
}
