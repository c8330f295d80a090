// @vitest-environment jsdom
/** The browser's library as its browser closes it, fills it up, or hands it to a newer version. */
import { forceCloseDatabase } from 'fake-indexeddb';
import { deleteDB, openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host, HostResult } from '../../../../core/host';
import { browserHost, type Page } from '../../../../renderer/host/browser-host';

// Puts its IndexedDB where a browser has one, as it is loaded.
await import('fake-indexeddb/auto');

let libraries = 0;
let name: string;
let asked: number;
let host: Host;

function page(persist: Page['persist'] = null): Page {
  return {
    pickText: async () => null,
    download: () => {},
    canPrint: true,
    print: async () => true,
    openPage: () => {},
    confirm: () => false,
    nowMs: () => Date.now(),
    persist,
  };
}

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

function value<T>(result: HostResult<T>): T {
  if (!result.ok) throw new Error(`${result.trouble.kind}: ${result.trouble.what}`);
  return result.value;
}

const save = (title: string, token: string | null = null) =>
  host.writeTrip(token, tripText(title), title, null);

beforeEach(() => {
  libraries += 1;
  name = `library-${libraries}`;
  asked = 0;
  host = browserHost(page(), name);
});
afterEach(() => vi.restoreAllMocks());

/** Every connection that is open is closed by the browser, as it does where the disk fails or data is cleared. */
function trackConnections(): () => void {
  const open: IDBDatabase[] = [];
  const factory = indexedDB.open.bind(indexedDB);
  vi.spyOn(indexedDB, 'open').mockImplementation((...args) => {
    const request = factory(...args);
    request.addEventListener('success', () => open.push(request.result));
    return request;
  });
  return () => {
    for (const db of open.splice(0)) forceCloseDatabase(db as never);
  };
}

describe('a connection that the browser closed', () => {
  it('is opened again by whatever comes next', async () => {
    const closeAll = trackConnections();
    const { token } = value(await save('One'));
    const uses: (() => Promise<HostResult<unknown>>)[] = [
      () => save('Two', token),
      () => host.readTrip(token),
      () => host.listTrips(),
      () => host.listVersions(token),
      () => host.loadSettings(),
      () => host.saveSettings({ units: 'imperial' }),
      () => host.keepUnsaved(token, { text: tripText('Three'), savedAt: null }, false),
      () => host.readUnsaved(token),
      () => host.dropUnsaved(token),
      () => host.removeTrip(token),
    ];
    for (const use of uses) {
      closeAll();
      value(await use());
    }
  });

  it('under a save costs nothing: that is done once more, or told', async () => {
    const closeAll = trackConnections();
    const { token } = value(await save('Save 0'));
    for (let ticks = 0; ticks < 40; ticks += 1) {
      const before = value(await host.readTrip(token)).text;
      const title = `Save ${ticks + 1}`;
      const saving = save(title, token);
      for (let tick = 0; tick < ticks; tick += 1) await Promise.resolve();
      closeAll();
      const outcome = await saving;
      const { text } = value(await host.readTrip(token));
      expect(text).toBe(outcome.ok ? tripText(title) : before);
    }
  });

  it('as site data is cleared is made anew, and the trip on screen is told as gone', async () => {
    const { token, savedAt } = value(await save('One'));
    // Site data is cleared: every window is asked to let go, and does.
    await deleteDB(name);
    const again = value(await host.listTrips());
    expect(again).toEqual([]);
    expect(await host.writeTrip(token, tripText('Two'), 'Two', savedAt)).toMatchObject({
      ok: false,
      trouble: { kind: 'not-found' },
    });
    value(await save('Two'));
  });

  it('by a newer version is told as that, and what is unsaved is noted all the same', async () => {
    const { token, savedAt } = value(await save('One'));
    const newer = await openDB(name, 2);
    expect(await save('Two', token)).toMatchObject({
      ok: false,
      trouble: { kind: 'not-writable', what: expect.stringContaining('newer Carryover') },
    });
    await host.keepUnsaved(token, { text: tripText('Two'), savedAt }, true);
    expect(value(await host.readUnsaved(token))).toEqual({ text: tripText('Two'), savedAt });
    newer.close();
  });
});

describe('a browser without room', () => {
  /** As Chromium says it on a full disk, and what it says from then on. */
  const NO_SPACE = 'Connection is closing because of: IO error: 000003.log: FILE_ERROR_NO_SPACE';
  const NOT_OPENED = 'Internal error opening backing store for indexedDB.open.';

  it.each([
    ['QuotaExceededError', 'too much'],
    ['UnknownError', NO_SPACE],
  ])('is told as full: %s', async (error, message) => {
    const { token, savedAt } = value(await save('One'));
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException(message, error);
    });
    expect(await save('Two', token)).toMatchObject({ ok: false, trouble: { kind: 'full' } });
    put.mockRestore();
    // Nothing of it was kept: neither the trip nor its version.
    expect(value(await host.readTrip(token))).toMatchObject({ text: tripText('One'), savedAt });
    expect(value(await host.listVersions(token))).toHaveLength(1);
    expect(value(await host.writeTrip(token, tripText('Two'), 'Two', savedAt)).text).toBe(tripText('Two'));
  });

  it('keeps nothing of a save of which the past save finds no room', async () => {
    const { token, savedAt } = value(await save('One'));
    const put = IDBObjectStore.prototype.put;
    const spy = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function refuse(
      this: IDBObjectStore,
      ...args: Parameters<typeof put>
    ) {
      if (this.name === 'versions') throw new DOMException('too much', 'QuotaExceededError');
      return put.apply(this, args);
    });
    expect(await save('Two', token)).toMatchObject({ ok: false, trouble: { kind: 'full' } });
    spy.mockRestore();
    expect(value(await host.readTrip(token))).toMatchObject({ text: tripText('One'), savedAt });
  });

  it('stays told as full while it cannot even be opened, until it can be', async () => {
    const closeAll = trackConnections();
    const { token } = value(await save('One'));
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException(NO_SPACE, 'UnknownError');
    });
    expect(await save('Two', token)).toMatchObject({ trouble: { kind: 'full' } });
    put.mockRestore();
    closeAll();
    const open = vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException(NOT_OPENED, 'UnknownError');
    });
    expect(await save('Two', token)).toMatchObject({ trouble: { kind: 'full' } });
    open.mockRestore();
    value(await save('Two', token));
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException(NOT_OPENED, 'UnknownError');
    });
    closeAll();
    expect(await browserHost(page(), name).listTrips()).toMatchObject({ trouble: { kind: 'not-writable' } });
  });
});

describe('lasting storage', () => {
  it.each([
    [true, /until you remove them/],
    [false, /may clear them[^]*copies as files/],
  ])('is asked for with the first trip, once, and the answer is told: %s', async (answer, words) => {
    host = browserHost(
      page(async () => {
        asked += 1;
        return answer;
      }),
      name,
    );
    value(await host.listTrips());
    expect(asked).toBe(0);
    const { token } = value(await save('One'));
    value(await save('Two', token));
    await vi.waitFor(() => expect(asked).toBe(1), { timeout: 5000 });
    const { versions } = await host.about();
    expect(versions.find(({ name: each }) => each === 'Trips are kept')?.version).toMatch(words);
  });
});

describe('the list of trips', () => {
  it('looks at each text once, and again after a save', async () => {
    const { token } = value(await save('One'));
    value(await save('Two'));
    const parse = vi.spyOn(JSON, 'parse');
    // Both may be saved in one millisecond: which comes first then is nobody's promise.
    expect(
      value(await host.listTrips())
        .map(({ title }) => title)
        .toSorted(),
    ).toEqual(['One', 'Two']);
    expect(parse).toHaveBeenCalledTimes(2);
    expect(value(await host.listTrips())).toHaveLength(2);
    expect(parse).toHaveBeenCalledTimes(2);
    value(await save('One again', token));
    parse.mockClear();
    expect(value(await host.listTrips()).map(({ title }) => title)).toContain('One again');
    expect(parse).toHaveBeenCalledTimes(1);
  });

  it('never asks for all texts at once', async () => {
    value(await save('One'));
    const getAll = vi.spyOn(IDBObjectStore.prototype, 'getAll');
    expect(value(await host.listTrips())).toHaveLength(1);
    expect(getAll).not.toHaveBeenCalled();
  });
});
