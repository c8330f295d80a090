/** Looks a packed app over: that everything needed is in it, nothing else is, and the fuses stand as they should. */
import { closeSync, existsSync, openSync, readFileSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { FUSES } from './package-config';
import { ROOT } from './paths';

/** Marks where a runtime's binary keeps its fuses. Source: Electron's documentation of fuses. */
export const FUSE_SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';

/** The order of the fuses in the binary. Source: Electron's documentation of fuses, version 1 of the schema. */
const FUSE_ORDER = [
  'runAsNode',
  'enableCookieEncryption',
  'enableNodeOptionsEnvironmentVariable',
  'enableNodeCliInspectArguments',
  'enableEmbeddedAsarIntegrityValidation',
  'onlyLoadAppFromAsar',
  'loadBrowserProcessSpecificV8Snapshot',
  'grantFileProtocolExtraPrivileges',
] as const satisfies readonly (keyof typeof FUSES)[];

interface ArchiveNode {
  readonly files?: Readonly<Record<string, ArchiveNode>>;
  readonly offset?: string;
  readonly size?: number;
}

export interface ArchivedFile {
  readonly path: string;
  readonly content: Buffer;
}

/**
 * The files of an asar archive. Its beginning is four numbers of 32 bits, of which the fourth is the length
 * of the JSON that follows; offsets count from the end of the padded header, which the second tells.
 */
export function readArchive(path: string): readonly ArchivedFile[] {
  const archive = openSync(path, 'r');
  try {
    const sizes = Buffer.alloc(16);
    readSync(archive, sizes, 0, 16, 0);
    const header = Buffer.alloc(sizes.readUInt32LE(12));
    readSync(archive, header, 0, header.length, 16);
    const start = 8 + sizes.readUInt32LE(4);
    const files = (node: ArchiveNode, at: string): readonly ArchivedFile[] => {
      if (node.files !== undefined) {
        return Object.entries(node.files).flatMap(([name, child]) =>
          files(child, at === '' ? name : `${at}/${name}`),
        );
      }
      const content = Buffer.alloc(node.size ?? 0);
      readSync(archive, content, 0, content.length, start + Number(node.offset ?? 0));
      return [{ path: at, content }];
    };
    return files(JSON.parse(header.toString('utf8')) as ArchiveNode, '');
  } finally {
    closeSync(archive);
  }
}

/** What is wrong with the packed app in a folder, a line each; empty where nothing is. */
export function checkPacked(folder: string): readonly string[] {
  const archive = join(folder, 'resources', 'app.asar');
  if (!existsSync(archive)) return [`${archive} is not there.`];
  const files = readArchive(archive);
  return [...contentFaults(files), ...fuseFaults(join(folder, 'carryover')), ...licenceFaults(folder)];
}

const NEEDED = [
  'out/main/main.js',
  'out/preload/preload.cjs',
  'out/renderer/index.html',
  'package.json',
  'LICENSE',
];
const ALLOWED =
  /^(out\/main\/main\.js|out\/preload\/preload\.cjs|out\/renderer\/[^.][^]*|package\.json|LICENSE)$/;

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

/** The fuses as they stand in a binary, against those that were asked for. */
export function fuseFaults(binary: string): readonly string[] {
  const bytes = readFileSync(binary);
  const at = bytes.indexOf(FUSE_SENTINEL);
  if (at === -1) return [`${binary} has no fuses.`];
  const count = bytes[at + FUSE_SENTINEL.length + 1] ?? 0;
  const wire = bytes
    .subarray(at + FUSE_SENTINEL.length + 2, at + FUSE_SENTINEL.length + 2 + count)
    .toString('latin1');
  const wrong = FUSE_ORDER.filter((name, index) => wire[index] !== (FUSES[name] ? '1' : '0'));
  const unnamed =
    count === FUSE_ORDER.length
      ? []
      : [`The runtime has ${count} fuses, of which ${FUSE_ORDER.length} are named.`];
  return [...wrong.map((name) => `The fuse ${name} is not ${FUSES[name] ? 'on' : 'off'}.`), ...unnamed];
}

function licenceFaults(folder: string): readonly string[] {
  const path = join(folder, 'resources', 'licences.txt');
  if (!existsSync(path)) return ['The licences of the packages are not there.'];
  return readFileSync(path, 'utf8').includes('react')
    ? []
    : ['The licences of the packages are not all there.'];
}
