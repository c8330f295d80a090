/**
 * The trips of the desktop: a library folder and files anywhere else, every save atomic and kept as a
 * version, nothing unreadable ever written over. Plain Node; the dialogs are in `desktop-host`.
 */
import { randomBytes } from 'node:crypto';
import * as nodeFs from 'node:fs/promises';
import { join } from 'node:path';
import type { StoredTrip, TripSummary, TripToken, TripVersion } from '../core/host';
import { changedTrouble, MAX_TRIP_BYTES, noTripTrouble, notFoundTrouble, peekTrip } from '../core/library';
import { slugOf, tooLargeTrouble } from '../core/library';
import { writeAtomically } from './disk/atomic-write';
import { makeFolder, readWhole, stampOf, type FileSystem } from './disk/disk';
import { codeOf, DiskTrouble, noFileTrouble, writeTrouble } from './disk/disk-trouble';
import { keptAside } from './kept-aside';
import { ownSaves } from './own-saves';
import { tripPlaces, type RecentFiles, type TripPlace } from './trip-places';
import { tripSummaries, unnamedSummary } from './trip-summaries';
import { versionStore } from './version-store';

/** How often a save that may go over anything looks again where another took its place meanwhile. */
const ROUNDS_AGAINST_OTHERS = 5;

export interface TripFilesOptions {
  /** The user's data folder; trips, versions, bin and set-aside are made in it. */
  readonly folder: string;
  readonly recent: RecentFiles;
  readonly nowMs?: () => number;
  readonly fs?: FileSystem;
}

export interface TripFiles {
  readonly libraryFolder: string;
  list(): Promise<readonly TripSummary[]>;
  read(token: TripToken): Promise<StoredTrip>;
  write(
    token: TripToken | null,
    text: string,
    title: string,
    expectedSavedAt: string | null,
  ): Promise<StoredTrip>;
  remove(token: TripToken): Promise<void>;
  versions(token: TripToken): Promise<readonly TripVersion[]>;
  version(token: TripToken, version: string): Promise<string>;
  /** Opens a file the user chose, and remembers it. */
  openAt(path: string): Promise<StoredTrip>;
  /** Writes a copy where the user said, and remembers it. */
  writeAt(path: string, text: string): Promise<StoredTrip>;
  /** Whether this state of a file (its stamp, or null for "not there") is no news to this process. */
  isKnown(path: string, savedAt: string | null): boolean;
  saw(path: string, savedAt: string | null): void;
  placeAt(path: string): TripPlace;
  /** The path behind a token that was handed out, or undefined. */
  pathOf(token: TripToken): Promise<string | undefined>;
}

/** The trips under a user's data folder. All methods throw DiskTrouble for what the world gets wrong. */
export function tripFiles(options: TripFilesOptions): TripFiles {
  const { folder, recent, fs = nodeFs, nowMs = Date.now } = options;
  const libraryFolder = join(folder, 'trips');
  const places = tripPlaces(fs, libraryFolder, recent);
  const versions = versionStore(fs, join(folder, 'versions'));
  const aside = keptAside(fs, folder, nowMs);
  const summariesOf = tripSummaries(fs);
  const own = ownSaves();
  const inTurn = queues();

  const placeOf = async (token: TripToken): Promise<TripPlace> => {
    const place = await places.find(token);
    if (place === undefined) throw new DiskTrouble(notFoundTrouble('the library'));
    return place;
  };

  const readAt = async (place: TripPlace): Promise<StoredTrip> => {
    const { text, savedAt } = await readWhole(fs, place.path);
    const peek = peekTrip(text);
    if (!peek.ok) throw new DiskTrouble(noTripTrouble(place.path, peek.reason));
    own.saw(place.path, savedAt);
    const stored: StoredTrip = { token: place.token, home: place.home, text, savedAt };
    return (await versions.knows(place.token, text)) === false ? { ...stored, changedOutside: true } : stored;
  };

  /**
   * What stands where a save will go: kept as a version, or aside where it is no trip, before it goes. Returns
   * its stamp, null for nothing.
   */
  const keepWhatStands = async (place: TripPlace): Promise<string | null> => {
    let standing: { text: string; savedAt: string };
    try {
      standing = await readWhole(fs, place.path);
    } catch (error) {
      if (!(error instanceof DiskTrouble)) throw error;
      if (error.trouble.kind === 'not-found') return null;
      return setAside(place);
    }
    if (!peekTrip(standing.text).ok) return setAside(place);
    const isKnown = (await versions.knows(place.token, standing.text)) ?? false;
    if (!isKnown) await versions.add(place.token, standing.text, standing.savedAt);
    return standing.savedAt;
  };

  const setAside = async (place: TripPlace): Promise<string> => {
    try {
      const stat = await fs.stat(place.path);
      if (!stat.isFile()) throw new DiskTrouble(noFileTrouble(place.path, stat.isDirectory()));
      await aside.setAside(place.path);
      return stampOf(stat);
    } catch (error) {
      throw asDiskTrouble(error, place.path);
    }
  };

  /** @param over the stamp of the one save that it may go over, null for nothing; undefined: whatever stands there */
  const saveAt = async (place: TripPlace, text: string, over?: string | null): Promise<StoredTrip> => {
    for (let round = 1; ; round += 1) {
      try {
        // What another put there meanwhile is kept as well, before it goes.
        // oxlint-disable-next-line no-await-in-loop
        return await saveOnce(place, text, over);
      } catch (error) {
        const isOvertaken = error instanceof DiskTrouble && error.trouble.kind === 'changed';
        if (!isOvertaken || over !== undefined || round === ROUNDS_AGAINST_OTHERS) throw error;
      }
    }
  };

  const saveOnce = async (place: TripPlace, text: string, over?: string | null): Promise<StoredTrip> => {
    const standing = await keepWhatStands(place);
    // Another may have saved since the caller looked.
    if (over !== undefined && standing !== over) throw new DiskTrouble(changedTrouble(place.path));
    const newest = await versions.newest(place.token);
    let hasSucceeded = false;
    try {
      const savedAt = await writeAtomically(fs, {
        path: place.path,
        content: text,
        nowMs: nowMs(),
        // Later than both: a file put back from a backup may be older than our own last save.
        laterThan: [standing ?? '', newest ?? ''].toSorted().at(-1),
        replaces: standing,
        // The version first: a process killed in between leaves one save more, never one less.
        beforeRename: async (stamp) => {
          await versions.add(place.token, text, stamp);
          own.begins(place.path, stamp);
        },
        onRenamed: (stamp) => own.tookPlace(place.path, stamp, standing),
      });
      hasSucceeded = true;
      await versions.prune(place.token).catch(() => {});
      return { token: place.token, home: place.home, text, savedAt };
    } finally {
      own.ends(place.path, hasSucceeded);
    }
  };

  /** One that fails leaves nothing in the library: the window knows no token of it, and would make a second. */
  const firstSave = async (place: TripPlace, text: string): Promise<StoredTrip> => {
    try {
      return await saveAt(place, text, null);
    } catch (error) {
      const hasTakenPlace = typeof own.lastSeen(place.path) === 'string';
      if (hasTakenPlace) await fs.rm(place.path, { force: true }).catch(() => {});
      throw error;
    }
  };

  const stampAt = async (path: string): Promise<string> => {
    try {
      return stampOf(await fs.stat(path));
    } catch (error) {
      const isGone = codeOf(error) === 'ENOENT';
      throw isGone ? new DiskTrouble(notFoundTrouble(path)) : asDiskTrouble(error, path);
    }
  };

  return {
    libraryFolder,

    list: async () => {
      const all = [...(await places.inLibrary()), ...places.outside()];
      const unnamed = (await places.notText()).map(unnamedSummary);
      return [...(await summariesOf(all)), ...unnamed].toSorted((a, b) => b.savedAt.localeCompare(a.savedAt));
    },

    read: async (token) => readAt(await placeOf(token)),

    write: async (token, text, title, expectedSavedAt) => {
      checkText(text, title);
      if (token === null) {
        await makeFolder(fs, libraryFolder);
        const place = places.fresh(slugOf(title), randomBytes(4).toString('hex'));
        return inTurn(place.token, () => firstSave(place, text));
      }
      return inTurn(token, async () => {
        const place = await placeOf(token);
        const standing = await stampAt(place.path);
        const isExpected =
          expectedSavedAt === null ||
          standing === expectedSavedAt ||
          own.isUnconfirmed(place.path, standing, expectedSavedAt);
        if (!isExpected) throw new DiskTrouble(changedTrouble(place.path));
        return saveAt(place, text, expectedSavedAt === null ? undefined : standing);
      });
    },

    remove: (token) =>
      inTurn(token, async () => {
        const place = await placeOf(token);
        // A file outside the library is its owner's: it leaves the list and stays where it is.
        if (place.home === 'file') return recent.forget(place.path);
        const before = own.lastSeen(place.path);
        own.saw(place.path, null);
        try {
          await aside.toBin(place.path);
        } catch (error) {
          if (before !== undefined) own.saw(place.path, before);
          throw error;
        }
      }),

    versions: async (token) => versions.list(checkedToken(token)),
    version: async (token, version) => versions.read(checkedToken(token), version),

    openAt: async (path) => {
      const place = places.at(path);
      // Handed out even where it is no trip: whoever reads it can then say what is wrong, and in which line.
      const { text, savedAt } = await readWhole(fs, place.path);
      own.saw(place.path, savedAt);
      if (place.home === 'file' && peekTrip(text).ok) recent.remember(place.path);
      return { token: place.token, home: place.home, text, savedAt };
    },

    writeAt: async (path, text) => {
      checkText(text, path);
      const place = places.at(path);
      const trip = await inTurn(place.token, () => saveAt(place, text));
      if (place.home === 'file') recent.remember(place.path);
      return trip;
    },

    isKnown: (path, savedAt) =>
      own.isKnown(path, savedAt) || (savedAt === null && own.lastSeen(path) === undefined),
    saw: (path, savedAt) => own.saw(path, savedAt),
    placeAt: (path) => places.at(path),
    pathOf: async (token) => (await places.find(token))?.path,
  };
}

/** Nothing is kept as a trip that could not be opened as one again. */
function checkText(text: string, where: string): void {
  const bytes = Buffer.byteLength(text);
  if (bytes > MAX_TRIP_BYTES) throw new DiskTrouble(tooLargeTrouble(where, bytes));
  const peek = peekTrip(text);
  if (!peek.ok) throw new DiskTrouble(noTripTrouble(where, peek.reason));
}

function asDiskTrouble(error: unknown, path: string): DiskTrouble {
  return error instanceof DiskTrouble ? error : new DiskTrouble(writeTrouble(error, path, 0));
}

/** A token names a folder of versions: nothing but what was handed out may do so. */
function checkedToken(token: TripToken): TripToken {
  if (!/^(library|file)-[0-9a-f]{32}$/.test(token)) throw new DiskTrouble(notFoundTrouble('the library'));
  return token;
}

/** One piece of work at a time for each trip, in the order in which they were asked for. */
function queues(): <T>(token: TripToken, work: () => Promise<T>) => Promise<T> {
  const tails = new Map<string, Promise<unknown>>();
  return async (token, work) => {
    const before = tails.get(token) ?? Promise.resolve();
    const mine = before.then(work, work);
    const tail = mine.catch(() => {});
    tails.set(token, tail);
    try {
      return await mine;
    } finally {
      if (tails.get(token) === tail) tails.delete(token);
    }
  };
}
