/**
 * The Host where the workbench runs in a browser: trips in IndexedDB, files through the browser's own
 * dialogs and downloads, other windows of the same profile told through a BroadcastChannel.
 */
import { CITED_HOSTS } from '../../core/cited-hosts';
import type {
  Host,
  HostResult,
  HostTrouble,
  StoredTrip,
  TripChange,
  TripSummary,
  TripToken,
} from '../../core/host';
import { changedTrouble, noTripTrouble, notFoundTrouble, peekTrip } from '../../core/library';
import { MAX_TRIP_BYTES, slugOf, tooLargeTrouble, TRIP_EXTENSION, TRIP_MEDIA_TYPE } from '../../core/library';
import { assert } from '../../core/result';
import { settingsFrom } from '../../core/settings-schema';
import { readTrip } from '../../core/document/read-trip';
import { download, openPage, pickText } from './browser-files';
import type { PickedText } from '../actions/read-import';
import { connectLibrary, type KeptTrip } from './browser-library';
import { attempts, WHERE } from './browser-trouble';
import { browserUnsaved } from './browser-unsaved';
import { printWindow } from './browser-print';

/** What the host asks of the page, so that the contract suite can stand in for it. */
export interface Page {
  readonly pickText: (accept: string, isImport?: boolean) => Promise<PickedText | null>;
  readonly download: (bytes: Uint8Array | string, name: string, mediaType: string) => void;
  /** Whether there is a print dialog at all; not every browser of a telephone has one. */
  readonly canPrint: boolean;
  readonly print: () => Promise<boolean>;
  readonly openPage: (url: string) => void;
  readonly confirm: (question: string) => boolean;
  readonly nowMs: () => number;
  /** Asks the browser not to clear this storage when room runs low; null where it cannot be asked. */
  readonly persist: (() => Promise<boolean>) | null;
}

const THIS_PAGE: Page = {
  pickText,
  download,
  canPrint: typeof globalThis.print === 'function',
  print: printWindow,
  openPage,
  confirm: (question) => window.confirm(question),
  nowMs: () => Date.now(),
  persist: typeof navigator.storage?.persist === 'function' ? () => navigator.storage.persist() : null,
};

const TRIP_FILES = `.${TRIP_EXTENSION},.json,application/json`;

/** A Host over this browser profile; `library` names the store, so that tests keep theirs apart. */
export function browserHost(page: Page = THIS_PAGE, libraryName = 'carryover'): Host {
  const use = connectLibrary(libraryName);
  const attempt = attempts();
  const isLasting = lastingStorage(page);
  const summaryOf = tripSummaries();
  const unsaved = browserUnsaved(libraryName, use, page.nowMs);
  /** Opened or saved as a copy, and not saved in the library yet. */
  const loose = new Map<TripToken, StoredTrip>();
  const channel = new BroadcastChannel(`${libraryName}/trips`);
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a broadcast stays within its origin
  const tell = (change: TripChange): void => channel.postMessage(change);

  const keepLoose = (text: string): StoredTrip => {
    const savedAt = new Date(page.nowMs()).toISOString();
    const trip: StoredTrip = { token: newToken(), home: 'library', text, savedAt };
    loose.set(trip.token, trip);
    return trip;
  };

  /**
   * A browser cannot reach the file again, so a trip that reads is kept at once and is there after a reload;
   * the same text opened twice is one trip. What does not read is handed out, and kept nowhere.
   */
  const keepOpened = async (text: string): Promise<StoredTrip> => {
    const read = readTrip(text);
    if (!read.ok) return keepLoose(text);
    const same = await use((library) => library.look((trip) => (trip.text === text ? trip : null)));
    const kept = same.find((trip) => trip !== null);
    if (kept) return asStored(kept);
    const { title } = read.value;
    const request = {
      token: newToken(),
      title,
      text,
      expectedSavedAt: null,
      create: true,
      nowMs: page.nowMs(),
    };
    const outcome = await use((library) => library.save(request));
    assert(outcome.kind === 'saved', 'a new trip met an old one');
    tell({ token: outcome.trip.token, kind: 'changed' });
    return asStored(outcome.trip);
  };

  return {
    kind: 'browser',
    supports: { watch: true, filesOutsideLibrary: false, systemPrint: page.canPrint, showSaved: false },

    listTrips: () =>
      attempt(async () => {
        const trips = await use((library) => library.look(summaryOf));
        return done(trips.toSorted((a, b) => b.savedAt.localeCompare(a.savedAt)));
      }),

    readTrip: (token) =>
      attempt(async () => {
        const trip = loose.get(token) ?? (await use((library) => library.get(token)));
        return trip === undefined ? refused(notFoundTrouble(WHERE)) : done(asStored(trip));
      }),

    writeTrip: (token, text, title, expectedSavedAt) =>
      attempt(async () => {
        if (text.length > MAX_TRIP_BYTES) return refused(tooLargeTrouble(WHERE, text.length));
        const peek = peekTrip(text);
        if (!peek.ok) return refused(noTripTrouble(WHERE, peek.reason));
        const isNew = token === null || loose.has(token);
        const request = {
          token: token ?? newToken(),
          title,
          text,
          expectedSavedAt: isNew ? null : expectedSavedAt,
          create: isNew,
          nowMs: page.nowMs(),
        };
        const outcome = await use((library) => library.save(request));
        if (outcome.kind === 'changed') return refused(changedTrouble(WHERE));
        if (outcome.kind === 'not-found') return refused(notFoundTrouble(WHERE));
        loose.delete(outcome.trip.token);
        void isLasting.ask();
        tell({ token: outcome.trip.token, kind: 'changed' });
        return done(asStored(outcome.trip));
      }),

    removeTrip: (token) =>
      attempt(async () => {
        const removed = await use((library) => library.remove(token, new Date(page.nowMs()).toISOString()));
        if (!removed) return refused(notFoundTrouble(WHERE));
        tell({ token, kind: 'removed' });
        return done(null);
      }),

    listVersions: (token) =>
      attempt(async () => {
        const versions = await use((library) => library.versions(token));
        return done(versions.map((version) => ({ version, savedAt: version })));
      }),

    readVersion: (token, version) =>
      attempt(async () => {
        const text = await use((library) => library.version(token, version));
        return text === undefined ? refused(notFoundTrouble(WHERE)) : done(text);
      }),

    keepUnsaved: (token, noted, isLast) =>
      attempt(async () => {
        await unsaved.keep(token, noted, isLast);
        return done(null);
      }),

    readUnsaved: (token) => attempt(async () => done(await unsaved.read(token))),

    dropUnsaved: (token) =>
      attempt(async () => {
        await unsaved.drop(token);
        return done(null);
      }),

    watchTrips: (listener) => {
      const onMessage = (event: MessageEvent<TripChange>): void => listener(event.data);
      channel.addEventListener('message', onMessage);
      return () => channel.removeEventListener('message', onMessage);
    },

    openTrip: () =>
      attempt(async () => {
        const picked = readPicked(await page.pickText(TRIP_FILES));
        if (!picked.ok) return picked;
        return done(picked.value === null ? null : await keepOpened(picked.value.text));
      }),

    openDropped: (_, text) => attempt(async () => done(await keepOpened(text))),

    saveTripAs: (text, suggestedName) =>
      attempt(async () => {
        page.download(text, `${slugOf(suggestedName)}.${TRIP_EXTENSION}`, TRIP_MEDIA_TYPE);
        return done(keepLoose(text));
      }),

    saveDocument: (bytes, suggestedName, mediaType) =>
      attempt(async () => {
        page.download(bytes, suggestedName, mediaType);
        return done(suggestedName);
      }),

    showSaved: () =>
      attempt(async () =>
        refused({
          kind: 'refused',
          what: 'A browser shows no folder.',
          where: 'this browser',
          mend: 'Look where it puts what it downloads.',
        }),
      ),

    // The pages bring the size of their paper along, as a browser asks them for it.
    printPages: () =>
      attempt(async () =>
        (await page.print())
          ? done(null)
          : refused({
              kind: 'refused',
              what: 'The browser opened no print dialog.',
              where: 'this browser',
              mend: 'Allow this address to open dialogs, or save the PDF and print it from there.',
            }),
      ),

    openText: () =>
      attempt(
        async () =>
          await importPicked(
            await page.pickText('.uddf,.xml,.csv,.txt,.gpx,.kml,.geojson,.json,text/*', true),
          ),
      ),

    loadSettings: () => attempt(async () => done(settingsFrom(await use((library) => library.settings())))),

    saveSettings: (patch) =>
      attempt(async () => {
        await use((library) => library.patchSettings(patch));
        return done(null);
      }),

    // A browser's own menu knows no commands of a page.
    offerCommands: () => {},
    reportTrip: () => {},
    reportWork: () => {},
    onCommand: () => () => {},
    onOpenTrip: () => () => {},

    onBeforeClose: (saveAll) => {
      // A hidden page may be ended without another word, so that is the moment to save.
      const onHidden = (): void => {
        if (document.visibilityState === 'hidden') void saveAll();
      };
      document.addEventListener('visibilitychange', onHidden);
      return () => document.removeEventListener('visibilitychange', onHidden);
    },

    openSource: (url) =>
      attempt(async () => {
        const cited = URL.canParse(url) ? new URL(url) : null;
        if (cited === null || cited.protocol !== 'https:' || !CITED_HOSTS.includes(cited.host)) {
          return refused({
            kind: 'refused',
            what: 'This address is none of the sources the app cites.',
            where: url,
            mend: 'Open it in a browser of your own, if you trust it.',
          });
        }
        if (page.confirm(`Open ${cited.href} in a new tab?`)) page.openPage(cited.href);
        return done(null);
      }),

    about: async () => ({
      app: 'Carryover',
      versions: [
        { name: 'Browser', version: navigator.userAgent },
        { name: 'Trips are kept', version: await isLasting.words() },
      ],
    }),
  };
}

/** Asked for once, when there is a trip to lose: some browsers ask the person in turn. */
function lastingStorage({ persist }: Page): { ask(): Promise<void>; words(): Promise<string> } {
  let asked: Promise<boolean> | undefined;
  return {
    ask: async () => {
      // A browser that will not say is taken for one that may clear it.
      asked ??= persist?.().catch(() => false);
      await asked;
    },
    words: async () => {
      if (asked === undefined) return 'in this browser, once there is one';
      return (await asked)
        ? 'in this browser, until you remove them'
        : 'in this browser, which may clear them when room runs low: keep copies as files';
    },
  };
}

/** What the list says of each trip, its text looked at once: a save that changes it bears another time. */
function tripSummaries(): (trip: KeptTrip) => TripSummary {
  const known = new Map<TripToken, TripSummary>();
  return ({ token, title, text, savedAt }) => {
    const before = known.get(token);
    if (before?.savedAt === savedAt) return before;
    const peek = peekTrip(text);
    const summary = { token, title, home: 'library' as const, savedAt };
    const told = peek.ok ? summary : { ...summary, unreadable: peek.reason };
    known.set(token, told);
    return told;
  };
}

function newToken(): TripToken {
  return `trip-${crypto.randomUUID()}`;
}

function asStored({ token, text, savedAt }: KeptTrip | StoredTrip): StoredTrip {
  return { token, home: 'library', text, savedAt };
}

/** As `readPicked`, of what other programs made. */
async function importPicked(
  picked: PickedText | null,
): Promise<HostResult<{ name: string; text: string } | null>> {
  if (picked === null || picked.kind === 'text') return readPicked(picked);
  return refused((await import('../actions/read-import')).importTrouble(picked));
}

function readPicked(picked: PickedText | null): HostResult<{ name: string; text: string } | null> {
  if (picked === null) return done(null);
  switch (picked.kind) {
    case 'text':
      return done({ name: picked.name, text: picked.text });
    case 'too-large':
      return refused(tooLargeTrouble(picked.name, picked.bytes));
    case 'unreadable':
      return refused(noTripTrouble(picked.name, 'The file is not UTF-8 text.'));
  }
}

function done<T>(value: T): HostResult<T> {
  return { ok: true, value };
}

function refused(trouble: HostTrouble): HostResult<never> {
  return { ok: false, trouble };
}
