/**
 * The desktop's disk: reading whole files of a bounded size, and folders and copies that outlast a loss of
 * power. `atomic-write.ts` writes.
 */
import { constants } from 'node:fs';
import * as nodeFs from 'node:fs/promises';
import { dirname } from 'node:path';
import { decodeText, type Decoder } from '../../core/decode-text';
import type { HostTrouble } from '../../core/host';
import { importTooLargeTrouble, MAX_IMPORT_BYTES, noTextTrouble } from '../../core/imported';
import { MAX_TRIP_BYTES, noTripTrouble, tooLargeTrouble } from '../../core/library';
import { blockedFolder, codeOf, DiskTrouble, readTrouble, writeTrouble } from './disk-trouble';

/** As much of the file system as trips need; a test puts a failing one in its place. */
export type FileSystem = Pick<
  typeof nodeFs,
  | 'open'
  | 'rename'
  | 'link'
  | 'rm'
  | 'readFile'
  | 'readdir'
  | 'stat'
  | 'lstat'
  | 'readlink'
  | 'realpath'
  | 'mkdir'
  | 'copyFile'
>;

/** The last moment that a stamp tells; a damaged disk, or a touch, can give a file any time at all. */
const LAST_MS = Date.parse('9999-12-31T23:59:59.000Z');

/** ISO date-time of the last change of a file, the mark by which two saves are told apart. */
export function stampOf(stat: { readonly mtimeMs: number }): string {
  return new Date(Math.max(0, Math.min(LAST_MS, Math.floor(stat.mtimeMs)))).toISOString();
}

/** What a system answers that cannot flush a folder, or does not let this user open it: no fault of the save. */
const UNFLUSHABLE = new Set(['EINVAL', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EBADF', 'EACCES', 'EPERM']);

/** The names in a folder are on the disk only once the folder itself is. */
export async function flushFolder(fs: FileSystem, folder: string): Promise<void> {
  // Windows keeps its names in a journal, and opens no folder to be flushed.
  if (process.platform === 'win32') return;
  try {
    const handle = await fs.open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (!UNFLUSHABLE.has(codeOf(error))) throw error;
  }
}

/** Folders whose names, and those of the folders above them, this process knows to be on the disk. */
const flushed = new WeakMap<FileSystem, Set<string>>();

/** Makes a folder and those above it, where they are not there yet, and flushes their names. */
export async function makeFolder(fs: FileSystem, path: string): Promise<void> {
  const known = flushed.get(fs) ?? new Set<string>();
  flushed.set(fs, known);
  try {
    const made = (await fs.mkdir(path, { recursive: true })) ?? null;
    const isNew = (folder: string): boolean => made !== null && folder.length >= made.length;
    // A start that was killed may have made them and flushed nothing: the first use of each start does so.
    for (let each = path; isNew(each) || !known.has(each); each = dirname(each)) {
      if (dirname(each) === each) break;
      // oxlint-disable-next-line no-await-in-loop
      await flushFolder(fs, dirname(each));
      known.add(each);
    }
  } catch (error) {
    const isBlocked = codeOf(error) === 'EEXIST' || codeOf(error) === 'ENOTDIR';
    throw new DiskTrouble(isBlocked ? blockedFolder(path) : writeTrouble(error, path, 0));
  }
}

/** The names in a folder, as the disk holds them; none where the folder is not there. */
export async function rawNamesIn(fs: FileSystem, path: string): Promise<readonly Buffer[]> {
  try {
    return await fs.readdir(path, { encoding: 'buffer' });
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    throw new DiskTrouble(codeOf(error) === 'ENOTDIR' ? blockedFolder(path) : readTrouble(error, path));
  }
}

/** The names in a folder that are text. */
export async function namesIn(fs: FileSystem, path: string): Promise<readonly string[]> {
  return (await rawNamesIn(fs, path)).filter(isText).map(String);
}

/** Whether a name is UTF-8; one that is not cannot be given back to the disk as text. */
export function isText(name: Buffer): boolean {
  return Buffer.from(name.toString('utf8')).equals(name);
}

export interface ReadFile {
  readonly text: string;
  readonly savedAt: string;
}

/** Reads a whole text file of a bounded size; throws a DiskTrouble that says what stands in the way. */
export async function readWhole(fs: FileSystem, path: string): Promise<ReadFile> {
  const { bytes, savedAt } = await readBytes(fs, path, MAX_TRIP_BYTES, tooLargeTrouble);
  return { text: decode(bytes, path), savedAt };
}

/** Reads a text that people or other programs made, whatever its encoding; throws as `readWhole`. */
export async function readImport(fs: FileSystem, path: string): Promise<string> {
  const { bytes } = await readBytes(fs, path, MAX_IMPORT_BYTES, importTooLargeTrouble);
  const text = decodeText(bytes, decodeFatally);
  if (text === null) throw new DiskTrouble(noTextTrouble(path, bytes));
  return text;
}

async function readBytes(
  fs: FileSystem,
  path: string,
  most: number,
  tooLarge: (path: string, bytes: number) => HostTrouble,
): Promise<{ readonly bytes: Uint8Array; readonly savedAt: string }> {
  try {
    // Looked at before it is opened: a pipe would wait for its other end for ever.
    const about = await fs.stat(path);
    if (about.isDirectory()) {
      throw new DiskTrouble(noTripTrouble(path, 'There is a folder where a file should be.'));
    }
    if (!about.isFile()) {
      throw new DiskTrouble(noTripTrouble(path, 'The name is that of a pipe or a device, not of a file.'));
    }
    const file = await fs.open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    try {
      // Of the file that is open: another may take its name meanwhile, and text and stamp must be of one save.
      const stat = await file.stat();
      const bytes = await readBounded(file, stat.size, most);
      if (bytes === null) throw new DiskTrouble(tooLarge(path, stat.size));
      return { bytes, savedAt: stampOf(stat) };
    } finally {
      await file.close();
    }
  } catch (error) {
    if (error instanceof DiskTrouble) throw error;
    throw new DiskTrouble(readTrouble(error, path));
  }
}

/** All bytes of an open file, also where it grows meanwhile; null where there are more than may be. */
async function readBounded(file: nodeFs.FileHandle, size: number, most: number): Promise<Buffer | null> {
  if (size > most) return null;
  let bytes = Buffer.alloc(size + 1);
  let length = 0;
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop
    const { bytesRead } = await file.read(bytes, length, bytes.length - length, null);
    if (bytesRead === 0) return bytes.subarray(0, length);
    length += bytesRead;
    if (length > most) return null;
    if (length === bytes.length) bytes = Buffer.concat([bytes, Buffer.alloc(bytes.length)]);
  }
}

const decodeFatally: Decoder = (encoding, bytes) => {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
};

function decode(bytes: Uint8Array, path: string): string {
  const text = decodeFatally('utf-8', bytes);
  if (text !== null) return text;
  throw new DiskTrouble(
    noTripTrouble(path, 'The file is not UTF-8 text: it was damaged, or never was a trip.'),
  );
}

/** Copies a file, whatever is in it, so that the copy outlasts a loss of power; a name is never taken twice. */
export async function copyFlushed(fs: FileSystem, from: string, to: string): Promise<void> {
  await fs.copyFile(from, to, constants.COPYFILE_EXCL);
  // Windows flushes only what is open for writing; elsewhere a copy of a read-only file is read-only too.
  const copy = await fs.open(to, process.platform === 'win32' ? 'r+' : 'r');
  try {
    await copy.sync();
  } finally {
    await copy.close();
  }
  await flushFolder(fs, dirname(to));
}
