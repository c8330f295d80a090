/**
 * Edits that no save has taken up yet, a file a trip in `unsaved/`. Written at every edit, so quickly: renamed
 * into place and not flushed, which outlasts a kill of the app. A loss of power may cost them; what was saved stands.
 */
import * as nodeFs from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod';
import type { HostTrouble, TripToken, Unsaved } from '../core/host';
import { peekTrip } from '../core/library';
import { codeOf, DiskTrouble, writeTrouble } from './disk/disk-trouble';
import { readWhole, type FileSystem } from './disk/disk';

/** So many damaged notes of one trip are kept; whoever has more has a disk to look after, and each start says so. */
const MOST_ASIDE = 1000;

export interface UnsavedEdits {
  /** Resolves once these, or later ones, are noted down. */
  keep(token: TripToken | null, unsaved: Unsaved): Promise<void>;
  read(token: TripToken | null): Promise<Unsaved | null>;
  drop(token: TripToken | null): Promise<void>;
}

/** The first line of a file; the rest is the trip as it would have been saved, for whoever looks by hand. */
const headSchema = z.object({ format: z.literal('carryover/unsaved'), savedAt: z.string().nullable() });

/** What was noted down in a user's data folder. */
export function unsavedEdits(userData: string, fs: FileSystem = nodeFs): UnsavedEdits {
  const folder = join(userData, 'unsaved');
  const pathOf = (token: TripToken | null): string => join(folder, `${token ?? 'new'}.txt`);
  /** By path: what is to be there, null for nothing. What comes while one is written waits, the newest alone. */
  const wanted = new Map<string, Unsaved | null>();
  const working = new Map<string, Promise<void>>();

  const put = async (path: string, unsaved: Unsaved | null): Promise<void> => {
    if (unsaved === null) return fs.rm(path, { force: true });
    const head = JSON.stringify({ format: 'carryover/unsaved', savedAt: unsaved.savedAt });
    await fs.mkdir(folder, { recursive: true });
    const file = await fs.open(`${path}.part`, 'w', 0o600);
    try {
      await file.writeFile(`${head}\n${unsaved.text}`);
    } finally {
      await file.close();
    }
    await fs.rename(`${path}.part`, path);
  };

  const settle = async (path: string): Promise<void> => {
    try {
      for (let next = wanted.get(path); next !== undefined; next = wanted.get(path)) {
        wanted.delete(path);
        // One after the other, so that the newest is what stands in the end.
        // oxlint-disable-next-line no-await-in-loop
        await put(path, next);
      }
    } catch (error) {
      throw new DiskTrouble(writeTrouble(error, path, 0));
    } finally {
      working.delete(path);
    }
  };

  const want = (path: string, unsaved: Unsaved | null): Promise<void> => {
    wanted.set(path, unsaved);
    const work = working.get(path) ?? settle(path);
    // Still under way: its first step waits for the disk.
    working.set(path, work);
    return work;
  };

  /**
   * Told once, and kept for whoever wants to look: the next start would else tell it again. Under a name that is
   * free, claimed before it is taken: what was kept of an earlier one stays.
   */
  const moveAside = async (path: string): Promise<string> => {
    for (let number = 1; number <= MOST_ASIDE; number += 1) {
      const aside = path.replace(/\.txt$/, number === 1 ? '-damaged.txt' : `-damaged-${number}.txt`);
      try {
        // One name after the other, until one is free.
        // oxlint-disable-next-line no-await-in-loop
        await (await fs.open(aside, 'wx', 0o600)).close();
      } catch (error) {
        if (codeOf(error) === 'EEXIST') continue;
        return path;
      }
      return fs.rename(path, aside).then(
        () => aside,
        () => path,
      );
    }
    return path;
  };

  return {
    keep: (token, unsaved) => want(pathOf(token), unsaved),
    drop: (token) => want(pathOf(token), null),
    read: async (token) => {
      const path = pathOf(token);
      await working.get(path)?.catch(() => {});
      try {
        const unsaved = parsed((await readWhole(fs, path)).text);
        if (unsaved === null) throw new DiskTrouble(damaged(await moveAside(path)));
        return unsaved;
      } catch (error) {
        if (error instanceof DiskTrouble && error.trouble.kind === 'not-found') return null;
        throw error;
      }
    },
  };
}

/** Null for a note that is not whole: a loss of power leaves any part of one. */
function parsed(file: string): Unsaved | null {
  const end = file.indexOf('\n');
  const text = file.slice(end + 1);
  try {
    const { savedAt } = headSchema.parse(JSON.parse(file.slice(0, end)));
    return peekTrip(text).ok ? { savedAt, text } : null;
  } catch {
    return null;
  }
}

function damaged(path: string): HostTrouble {
  return {
    kind: 'not-readable',
    what: 'Edits that were not saved yet were noted down, but that note is damaged.',
    where: path,
    mend: 'Look the trip through: it is as it was last saved.',
  };
}
