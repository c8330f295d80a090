import { opendir, readdir, stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { TRIP_EXTENSION } from '../../core/library';

/** A file that may be a trip. */
export interface TripPath {
  readonly path: string;
  /** Whether it was named itself; what lies in a folder and is no trip is nobody's mistake. */
  readonly isNamed: boolean;
}

/** A trip file by its name, or one that may be. */
const ENDINGS = [`.${TRIP_EXTENSION}`, '.json'];

async function* inFolder(folder: string): AsyncGenerator<TripPath> {
  const entries = await readdir(folder, { withFileTypes: true });
  for (const entry of entries.toSorted((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.name.startsWith('.')) continue;
    const path = join(folder, entry.name);
    // Links to folders are not followed: they may lead back.
    if (entry.isDirectory()) yield* inFolder(path);
    else if (ENDINGS.includes(extname(entry.name).toLowerCase())) yield { path, isNamed: false };
  }
}

/** Whether a path is a folder that can be looked into. */
async function isFolder(path: string): Promise<boolean> {
  try {
    if (!(await stat(path)).isDirectory()) return false;
    await (await opendir(path)).close();
    return true;
  } catch {
    return false;
  }
}

/**
 * The trips at some paths: files as they are, of folders all that may be trips, in the order of their names.
 * @param paths as typed; one that is not there comes back as it is, for its reader to tell
 */
export async function* tripsIn(paths: readonly string[]): AsyncGenerator<TripPath> {
  for (const path of paths) {
    if (await isFolder(path)) yield* inFolder(path);
    else yield { path, isNamed: true };
  }
}
