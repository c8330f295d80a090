/**
 * Reading and writing whole files so that none is ever half there: a write goes to a file beside it,
 * is flushed to the disk, and takes the place of the old one in a single step.
 */
import * as nodeFs from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { HostTrouble } from '../core/host';
import { MAX_TRIP_BYTES, noTripTrouble, notFoundTrouble, tooLargeTrouble } from '../core/library';

/** As much of the file system as trips need; a test puts a failing one in its place. */
export type FileSystem = Pick<
  typeof nodeFs,
  'open' | 'rename' | 'rm' | 'readFile' | 'readdir' | 'stat' | 'mkdir' | 'copyFile'
>;

/** Thrown within the desktop's storage, and turned into the answer where the window asked. */
export class DiskTrouble extends Error {
  constructor(readonly trouble: HostTrouble) {
    super(trouble.what);
  }
}

/** Windows holds a file for a moment while a scanner or the indexer looks at it. */
const BUSY_CODES = new Set(['EPERM', 'EBUSY', 'EACCES']);
const BUSY_RETRIES_MS = [20, 80, 300, 800];

/** The time that is to stand on a file must differ from the last even where a disk counts in 2 s steps. */
const STAMP_STEPS_MS = [0, 1, 1000, 2000];

/** ISO date-time of the last change of a file, the mark by which two saves are told apart. */
export function stampOf(stat: { readonly mtimeMs: number }): string {
  return new Date(Math.floor(stat.mtimeMs)).toISOString();
}

export interface WriteRequest {
  readonly path: string;
  readonly content: string | Uint8Array;
  readonly nowMs: number;
  /** A stamp; the file bears a later one. Left out or empty: any. */
  readonly laterThan?: string | undefined;
  /** Called with the stamp when all bytes are on the disk and nothing has taken its place yet. */
  readonly beforeRename?: (savedAt: string) => Promise<void>;
}

/** Writes a file atomically and returns its stamp; the old one stays whole whatever goes wrong. */
export async function writeAtomically(fs: FileSystem, request: WriteRequest): Promise<string> {
  const { path, content } = request;
  const folder = dirname(path);
  // One name for each file: what a killed process leaves behind, the next save takes away.
  const beside = join(folder, `.${basename(path)}.saving`);
  try {
    await fs.rm(beside, { force: true });
    const savedAt = await writeFlushed(fs, beside, request);
    await request.beforeRename?.(savedAt);
    await renameOver(fs, beside, path);
    await flushFolder(fs, folder);
    return savedAt;
  } catch (error) {
    // Best effort: the failure itself is what the user must hear of.
    await fs.rm(beside, { force: true }).catch(() => {});
    if (error instanceof DiskTrouble) throw error;
    throw new DiskTrouble(writeTrouble(error, path, content.length));
  }
}

async function writeFlushed(fs: FileSystem, path: string, request: WriteRequest): Promise<string> {
  const file = await fs.open(path, 'wx');
  try {
    await file.writeFile(request.content);
    const { laterThan = '' } = request;
    const earliestMs = laterThan === '' ? 0 : Date.parse(laterThan);
    let savedAt = '';
    for (const stepMs of STAMP_STEPS_MS) {
      // Half a millisecond more: seconds as a floating number would else often fall a millisecond short.
      const stampS = (Math.max(request.nowMs, earliestMs + stepMs) + 0.5) / 1000;
      await file.utimes(stampS, stampS);
      savedAt = stampOf(await file.stat());
      if (savedAt > laterThan) break;
    }
    await file.sync();
    return savedAt;
  } finally {
    await file.close();
  }
}

async function renameOver(fs: FileSystem, from: string, to: string): Promise<void> {
  for (const pauseMs of BUSY_RETRIES_MS) {
    try {
      await fs.rename(from, to);
      return;
    } catch (error) {
      if (process.platform !== 'win32' || !BUSY_CODES.has(codeOf(error))) throw error;
      await new Promise((resolve) => setTimeout(resolve, pauseMs));
    }
  }
  await fs.rename(from, to);
}

/** The new name is on the disk only once its folder is; not every system lets a folder be flushed. */
async function flushFolder(fs: FileSystem, folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await fs.open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Makes a folder and those above it, where they are not there yet. */
export async function makeFolder(fs: FileSystem, path: string): Promise<void> {
  try {
    await fs.mkdir(path, { recursive: true });
  } catch (error) {
    const isBlocked = codeOf(error) === 'EEXIST' || codeOf(error) === 'ENOTDIR';
    throw new DiskTrouble(isBlocked ? blockedFolder(path) : writeTrouble(error, path, 0));
  }
}

/** The names in a folder; none where the folder is not there. */
export async function namesIn(fs: FileSystem, path: string): Promise<readonly string[]> {
  try {
    return await fs.readdir(path);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    throw new DiskTrouble(codeOf(error) === 'ENOTDIR' ? blockedFolder(path) : readTrouble(error, path));
  }
}

function blockedFolder(path: string): HostTrouble {
  return {
    kind: 'not-writable',
    what: 'A file stands where the folder should be.',
    where: path,
    mend: 'Move that file away or give it another name; it is left as it is.',
  };
}

export interface ReadFile {
  readonly text: string;
  readonly savedAt: string;
}

/** Reads a whole text file of a bounded size; throws a DiskTrouble that says what stands in the way. */
export async function readWhole(fs: FileSystem, path: string): Promise<ReadFile> {
  try {
    const stat = await fs.stat(path);
    if (stat.isDirectory()) {
      throw new DiskTrouble(noTripTrouble(path, 'There is a folder where a file should be.'));
    }
    if (stat.size > MAX_TRIP_BYTES) throw new DiskTrouble(tooLargeTrouble(path, stat.size));
    const bytes = await fs.readFile(path);
    return { text: decode(bytes, path), savedAt: stampOf(stat) };
  } catch (error) {
    if (error instanceof DiskTrouble) throw error;
    throw new DiskTrouble(readTrouble(error, path));
  }
}

function decode(bytes: Uint8Array, path: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new DiskTrouble(
      noTripTrouble(path, 'The file is not UTF-8 text: it was damaged, or never was a trip.'),
    );
  }
}

/** The code of a system error, or nothing. */
export function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException | null)?.code ?? '';
}

function readTrouble(error: unknown, path: string): HostTrouble {
  switch (codeOf(error)) {
    case 'ENOENT':
    case 'ENOTDIR':
      return notFoundTrouble(path);
    case 'EACCES':
    case 'EPERM':
      return {
        kind: 'not-readable',
        what: 'The system does not let this user read the file.',
        where: path,
        mend: 'Give yourself the right to read it, or choose another file.',
      };
    default:
      return {
        kind: 'not-readable',
        what: `The file could not be read (${codeOf(error) || String(error)}).`,
        where: path,
        mend: 'Check the disk it lies on, then try again; the file stays as it is.',
      };
  }
}

/** What went wrong in a write, in words; nothing that stood there before was touched. */
export function writeTrouble(error: unknown, path: string, bytes: number): HostTrouble {
  switch (codeOf(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return {
        kind: 'full',
        what: `The disk has no room for ${Math.ceil(bytes / 1000)} kB more; what was saved before is whole.`,
        where: path,
        mend: 'Free some space, then save again, or save a copy on another disk.',
      };
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return {
        kind: 'not-writable',
        what: 'The system does not let this user write here; what was saved before is whole.',
        where: path,
        mend: 'Give yourself the right to write there, or save a copy in another folder.',
      };
    case 'ENOENT':
    case 'ENOTDIR':
      return {
        kind: 'not-writable',
        what: 'The folder is no longer there, or a file stands where it should be.',
        where: path,
        mend: 'Bring the folder back, or save a copy in another one.',
      };
    case 'EISDIR':
    case 'ENOTEMPTY':
    case 'EEXIST':
      return {
        kind: 'not-writable',
        what: 'There is a folder where the file should be.',
        where: path,
        mend: 'Move that folder away, or save under another name.',
      };
    default:
      return {
        kind: 'not-writable',
        what: `The file could not be written (${codeOf(error) || String(error)}); what was saved before is whole.`,
        where: path,
        mend: 'Check the disk, then save again, or save a copy elsewhere.',
      };
  }
}
