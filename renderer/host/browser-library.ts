/**
 * The trips a browser keeps: IndexedDB, every save one transaction together with its version. A connection that
 * the browser closed (a full disk, cleared site data, a newer version in another window) is opened again.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { versionsToKeep } from '../../core/library';

export interface KeptTrip {
  readonly token: string;
  readonly title: string;
  readonly text: string;
  readonly savedAt: string;
  /** When it was moved to the bin; a trip in the bin is kept, and listed nowhere. */
  readonly removedAt?: string;
}

interface KeptVersion {
  readonly token: string;
  readonly version: string;
  readonly text: string;
}

interface LibrarySchema extends DBSchema {
  trips: { key: string; value: KeptTrip };
  versions: { key: [string, string]; value: KeptVersion; indexes: { token: string } };
  settings: { key: string; value: unknown };
}

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly trip: KeptTrip }
  | { readonly kind: 'changed' }
  | { readonly kind: 'not-found' };

export interface Library {
  /** What `look` makes of each trip that is not in the bin; one after the other, as all texts may fill memory. */
  look<T>(look: (trip: KeptTrip) => T): Promise<readonly T[]>;
  get(token: string): Promise<KeptTrip | undefined>;
  save(request: SaveRequest): Promise<SaveOutcome>;
  remove(token: string, removedAt: string): Promise<boolean>;
  versions(token: string): Promise<readonly string[]>;
  version(token: string, version: string): Promise<string | undefined>;
  settings(): Promise<unknown>;
  patchSettings(patch: object): Promise<void>;
  /** What stands under a key of one's own beside the settings; undefined puts nothing there. */
  note(key: string, value: unknown): Promise<void>;
  noted(key: string): Promise<unknown>;
}

export interface SaveRequest {
  readonly token: string;
  readonly title: string;
  readonly text: string;
  /** The save the caller last knew; null writes whatever stands there. */
  readonly expectedSavedAt: string | null;
  /** Whether a trip that is not there yet is made. */
  readonly create: boolean;
  readonly nowMs: number;
}

const SETTINGS_KEY = 'settings';

/** Does work on the library of this browser profile, which is opened, or opened again, for it. */
export type UseLibrary = <T>(work: (library: Library) => Promise<T>) => Promise<T>;

/** The library of a name; the first use opens it, and makes it where there is none yet. */
export function connectLibrary(name: string): UseLibrary {
  let opening: Promise<Library> | undefined;
  const connect = (): Promise<Library> => {
    const mine = openLibrary(name, () => {
      if (opening === mine) opening = undefined;
    }).catch((error: unknown) => {
      // The next use tries again: storage may be allowed, or freed, meanwhile.
      if (opening === mine) opening = undefined;
      throw error;
    });
    return mine;
  };
  return async (work) => {
    opening ??= connect();
    const used = opening;
    const library = await used;
    try {
      return await work(library);
    } catch (error) {
      const kind = error instanceof DOMException ? error.name : '';
      // Closed before the work began, of which the event may come later; or under it, and then none of it is kept.
      if (kind === 'InvalidStateError' && opening === used) opening = undefined;
      const isClosed = (kind === 'InvalidStateError' || kind === 'AbortError') && opening !== used;
      if (!isClosed) throw error;
      opening ??= connect();
      return work(await opening);
    }
  };
}

async function openLibrary(name: string, onGone: () => void): Promise<Library> {
  const db = await openDB<LibrarySchema>(name, 1, {
    upgrade(fresh) {
      fresh.createObjectStore('trips', { keyPath: 'token' });
      fresh.createObjectStore('versions', { keyPath: ['token', 'version'] }).createIndex('token', 'token');
      fresh.createObjectStore('settings');
    },
    // A newer window wants to change the store's shape, or the person clears it: let it, rather than block it for ever.
    blocking: (_current, _blocked, event) => {
      (event.target as IDBDatabase).close();
      onGone();
    },
    terminated: onGone,
  });
  return {
    look: async <T>(look: (trip: KeptTrip) => T) => {
      const seen: T[] = [];
      let cursor = await db.transaction('trips').store.openCursor();
      while (cursor !== null) {
        if (cursor.value.removedAt === undefined) seen.push(look(cursor.value));
        // oxlint-disable-next-line no-await-in-loop -- a cursor goes step by step
        cursor = await cursor.continue();
      }
      return seen;
    },
    get: async (token) => {
      const trip = await db.get('trips', token);
      return trip?.removedAt === undefined ? trip : undefined;
    },
    save: (request) => save(db, request),
    remove: (token, removedAt) => remove(db, token, removedAt),
    versions: async (token) => {
      const keys = await db.getAllKeysFromIndex('versions', 'token', token);
      return keys
        .map(([, version]) => version)
        .toSorted()
        .toReversed();
    },
    version: async (token, version) => (await db.get('versions', [token, version]))?.text,
    settings: () => db.get('settings', SETTINGS_KEY),
    patchSettings: (patch) => {
      const change = db.transaction('settings', 'readwrite');
      return whole(change, async () => {
        const stored: unknown = await change.store.get(SETTINGS_KEY);
        const before = typeof stored === 'object' && stored !== null ? stored : {};
        await change.store.put({ ...before, ...patch }, SETTINGS_KEY);
      });
    },
    note: (key, value) => {
      // Relaxed: handed to the system at once, which a kill of the browser does not undo.
      const change = db.transaction('settings', 'readwrite', { durability: 'relaxed' });
      return whole(change, async () => {
        await (value === undefined ? change.store.delete(key) : change.store.put(value, key));
      });
    },
    noted: (key) => db.get('settings', key),
  };
}

/** As much of a transaction as ends it. */
interface Change {
  readonly done: Promise<void>;
  readonly error: DOMException | null;
  abort(): void;
}

/**
 * Does the steps of one transaction: resolves once it is kept, rejects where any of it failed, and then nothing
 * of it is kept.
 */
async function whole<T>(change: Change, steps: () => Promise<T>): Promise<T> {
  // Asked about below; a step may have failed before.
  change.done.catch(() => {});
  try {
    const value = await steps();
    await change.done;
    return value;
  } catch (error) {
    try {
      change.abort();
    } catch {
      // It has ended already.
    }
    // What ended it says more than the step that it ended.
    throw change.error ?? error;
  }
}

function save(db: IDBPDatabase<LibrarySchema>, request: SaveRequest): Promise<SaveOutcome> {
  const { token, title, text } = request;
  // Strict: the browser reports the save done only once it is on disk.
  const change = db.transaction(['trips', 'versions'], 'readwrite', { durability: 'strict' });
  return whole<SaveOutcome>(change, async () => {
    const trips = change.objectStore('trips');
    const versions = change.objectStore('versions');
    const stored = await trips.get(token);
    if ((stored === undefined || stored.removedAt !== undefined) && !request.create)
      return { kind: 'not-found' };
    const { expectedSavedAt } = request;
    if (stored !== undefined && expectedSavedAt !== null && stored.savedAt !== expectedSavedAt) {
      return { kind: 'changed' };
    }
    const savedAt = stampAfter(stored?.savedAt, request.nowMs);
    const trip: KeptTrip = { token, title, text, savedAt };
    await trips.put(trip);
    await versions.put({ token, version: savedAt, text });
    const all = (await versions.index('token').getAllKeys(token)).map(([, version]) => version);
    const kept = new Set(versionsToKeep(all));
    for (const version of all) if (!kept.has(version)) await versions.delete([token, version]);
    return { kind: 'saved', trip };
  });
}

function remove(db: IDBPDatabase<LibrarySchema>, token: string, removedAt: string): Promise<boolean> {
  const change = db.transaction('trips', 'readwrite');
  return whole(change, async () => {
    const stored = await change.store.get(token);
    if (stored === undefined || stored.removedAt !== undefined) return false;
    await change.store.put({ ...stored, removedAt });
    return true;
  });
}

/** Two saves within a millisecond, or a clock set back, must not bear the same time. */
function stampAfter(previous: string | undefined, nowMs: number): string {
  const earliest = previous === undefined ? 0 : Date.parse(previous) + 1;
  return new Date(Math.max(nowMs, earliest)).toISOString();
}
