import * as nodeFs from 'node:fs/promises';
import { extname, join } from 'node:path';
import { TRIP_EXTENSION } from '../../core/library';

/** A file that may be a trip. */
export interface TripPath {
  readonly path: string;
  /** Whether it is told whatever it is; what lies in a folder and is no trip is nobody's mistake. */
  readonly isTold: boolean;
}

/** As much of the file system as looking for trips needs. */
export type Folders = Pick<typeof nodeFs, 'readdir' | 'stat'>;

/** A trip file by its name, or one that may be. */
const ENDINGS = [`.${TRIP_EXTENSION}`, '.json'];

async function* inFolder(folder: string, fs: Folders): AsyncGenerator<TripPath> {
  let entries: Awaited<ReturnType<typeof entriesOf>>;
  try {
    entries = await entriesOf(folder, fs);
  } catch {
    // Closed to this user, or gone meanwhile: trips may be in it, so who reads it says why they are not told.
    yield { path: folder, isTold: true };
    return;
  }
  for (const entry of entries) {
    if (entry.name.startsWith('.')) continue;
    const path = join(folder, entry.name);
    // Links to folders are not followed: they may lead back.
    if (entry.isDirectory()) yield* inFolder(path, fs);
    else if (ENDINGS.includes(extname(entry.name).toLowerCase())) yield { path, isTold: false };
  }
}

async function entriesOf(folder: string, fs: Folders) {
  const entries = await fs.readdir(folder, { withFileTypes: true });
  return entries.toSorted((a, b) => (a.name < b.name ? -1 : 1));
}

async function isFolder(path: string, fs: Folders): Promise<boolean> {
  try {
    return (await fs.stat(path)).isDirectory();
  } catch {
    return false;
  }
}

/**
 * The trips at some paths: files as they are, of folders all that may be trips, in the order of their names.
 * @param paths as typed; one that is not there comes back as it is, for its reader to tell
 * @param fs the disk; a test puts a failing one in its place
 */
export async function* tripsIn(paths: readonly string[], fs: Folders = nodeFs): AsyncGenerator<TripPath> {
  for (const path of paths) {
    if (await isFolder(path, fs)) yield* inFolder(path, fs);
    else yield { path, isTold: true };
  }
}
