/** The trips a browser keeps: IndexedDB, every save one transaction together with its version. */
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
  list(): Promise<readonly KeptTrip[]>;
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

/** Opens the library of this browser profile, and makes it where there is none yet. */
export async function openLibrary(name = 'carryover'): Promise<Library> {
  const db = await openDB<LibrarySchema>(name, 1, {
    upgrade(fresh) {
      fresh.createObjectStore('trips', { keyPath: 'token' });
      fresh.createObjectStore('versions', { keyPath: ['token', 'version'] }).createIndex('token', 'token');
      fresh.createObjectStore('settings');
    },
    // A newer window wants to change the store's shape: let it, rather than block it for ever.
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  });
  return {
    list: async () => (await db.getAll('trips')).filter((trip) => trip.removedAt === undefined),
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
    patchSettings: async (patch) => {
      const change = db.transaction('settings', 'readwrite');
      const stored: unknown = await change.store.get(SETTINGS_KEY);
      const before = typeof stored === 'object' && stored !== null ? stored : {};
      await change.store.put({ ...before, ...patch }, SETTINGS_KEY);
      await change.done;
    },
    note: async (key, value) => {
      // Relaxed: handed to the system at once, which a kill of the browser does not undo.
      const change = db.transaction('settings', 'readwrite', { durability: 'relaxed' });
      await (value === undefined ? change.store.delete(key) : change.store.put(value, key));
      await change.done;
    },
    noted: (key) => db.get('settings', key),
  };
}

async function save(db: IDBPDatabase<LibrarySchema>, request: SaveRequest): Promise<SaveOutcome> {
  const { token, title, text } = request;
  // Strict: the browser reports the save done only once it is on disk.
  const change = db.transaction(['trips', 'versions'], 'readwrite', { durability: 'strict' });
  const trips = change.objectStore('trips');
  const versions = change.objectStore('versions');
  const stored = await trips.get(token);
  if ((stored === undefined || stored.removedAt !== undefined) && !request.create)
    return { kind: 'not-found' };
  if (
    stored !== undefined &&
    request.expectedSavedAt !== null &&
    stored.savedAt !== request.expectedSavedAt
  ) {
    return { kind: 'changed' };
  }
  const savedAt = stampAfter(stored?.savedAt, request.nowMs);
  const trip: KeptTrip = { token, title, text, savedAt };
  await trips.put(trip);
  await versions.put({ token, version: savedAt, text });
  const all = (await versions.index('token').getAllKeys(token)).map(([, version]) => version);
  const kept = new Set(versionsToKeep(all));
  for (const version of all) if (!kept.has(version)) await versions.delete([token, version]);
  await change.done;
  return { kind: 'saved', trip };
}

async function remove(db: IDBPDatabase<LibrarySchema>, token: string, removedAt: string): Promise<boolean> {
  const change = db.transaction('trips', 'readwrite');
  const stored = await change.store.get(token);
  if (stored === undefined || stored.removedAt !== undefined) return false;
  await change.store.put({ ...stored, removedAt });
  await change.done;
  return true;
}

/** Two saves within a millisecond, or a clock set back, must not bear the same time. */
function stampAfter(previous: string | undefined, nowMs: number): string {
  const earliest = previous === undefined ? 0 : Date.parse(previous) + 1;
  return new Date(Math.max(nowMs, earliest)).toISOString();
}
