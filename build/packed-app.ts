/** Looks a packed app over: that everything needed is in it, nothing else is, and the fuses stand as they should. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { extractFile, listPackage, statFile, uncache } from '@electron/asar';
import { fuseFaults, LINUX_EXECUTABLE } from './fuses';
import { ROOT } from './paths';

export interface ArchivedFile {
  readonly path: string;
  readonly content: Buffer;
}

/** The files of an asar archive, as the packager's own reader finds them. */
export function readArchive(path: string): readonly ArchivedFile[] {
  // What another archive of this path held, in one run, is of no interest.
  uncache(path);
  return listPackage(path, { isPack: false })
    .map((entry) => entry.replaceAll('\\', '/').replace(/^\//, ''))
    .filter((entry) => !('files' in statFile(path, entry, false)))
    .map((entry) => ({ path: entry, content: extractFile(path, entry, false) }));
}

/** What is wrong with the packed app in a folder, a line each; empty where nothing is. */
export async function checkPacked(folder: string): Promise<readonly string[]> {
  const archive = join(folder, 'resources', 'app.asar');
  if (!existsSync(archive)) return [`${archive} is not there.`];
  const files = readArchive(archive);
  const fuses = await fuseFaults(join(folder, LINUX_EXECUTABLE));
  return [...contentFaults(files), ...fuses, ...licenceFaults(folder)];
}

const NEEDED = [
  'out/main/main.js',
  'out/preload/preload.cjs',
  'out/command/carryover.js',
  'out/renderer/index.html',
  'package.json',
  'LICENSE',
];
const ALLOWED =
  /^(out\/main\/main\.js|out\/preload\/preload\.cjs|out\/command\/[\w.-]+|out\/renderer\/[^.][^]*|package\.json|LICENSE)$/;

function contentFaults(files: readonly ArchivedFile[]): readonly string[] {
  const paths = files.map(({ path }) => path);
  const lacking = NEEDED.filter((path) => !paths.includes(path)).map(
    (path) => `${path} is not in the archive.`,
  );
  const strange = paths
    .filter((path) => !ALLOWED.test(path) || /\.(ts|tsx|map)$/.test(path))
    .map((path) => `${path} has no place in the archive.`);
  const telling = files
    .filter(({ content }) => content.includes(ROOT))
    .map(({ path }) => `${path} names a folder of the machine that built it.`);
  const manifest = files.find(({ path }) => path === 'package.json');
  const { main } = JSON.parse(manifest?.content.toString('utf8') ?? '{}') as { main?: string };
  const start =
    main !== undefined && paths.includes(main)
      ? []
      : [`package.json starts with ${main}, which is not there.`];
  return [...lacking, ...strange, ...telling, ...start];
}

function licenceFaults(folder: string): readonly string[] {
  const path = join(folder, 'resources', 'licences.txt');
  if (!existsSync(path)) return ['The licences of the packages are not there.'];
  return readFileSync(path, 'utf8').includes('react')
    ? []
    : ['The licences of the packages are not all there.'];
}
