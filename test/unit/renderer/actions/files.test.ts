import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host, HostResult, StoredTrip, Unsaved } from '../../../../core/host';
import { demoTrip } from '../../../../core/document/demo-trip';
import { readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { newTrip, openFile, openKept, save, saveAs, setAutosave } from '../../../../renderer/actions/files';
import { setTitle } from '../../../../renderer/actions/trip';
import { showOverlay } from '../../../../renderer/actions/view';
import { startAutosave, type Autosave } from '../../../../renderer/store/autosave';
import { setMachine } from '../../../../renderer/store/machine';
import { desk, freshDesk, type Overlay } from '../../../../renderer/store/store';

/** A library in memory whose reading takes as long as the test says. */
const stored = new Map<string, StoredTrip>();
const noted = new Map<string, Unsaved>();
let arrive: (() => void) | undefined;
let saves = 0;

function put(token: string, title: string): StoredTrip {
  saves += 1;
  const savedAt = `2027-03-01T08:00:00.${String(saves).padStart(3, '0')}Z`;
  const trip: StoredTrip = { token, home: 'library', text: writeTrip({ ...demoTrip(), title }), savedAt };
  stored.set(token, trip);
  return trip;
}

function done<T>(value: T): HostResult<T> {
  return { ok: true, value };
}

/** Gives what is stored as the question is asked, once the test lets it arrive. */
function slowly<T>(value: T): Promise<HostResult<T>> {
  return new Promise((resolve) => {
    arrive = () => resolve(done(value));
  });
}

const host: Partial<Host> = {
  readTrip: (token) => slowly(stored.get(token)!),
  openTrip: () => slowly<StoredTrip | null>(stored.get('b')!),
  writeTrip: async (token, text, title) => {
    const trip = put(token ?? 'made', title);
    stored.set(trip.token, { ...trip, text });
    return done({ ...trip, text });
  },
  saveTripAs: async () => done(null),
  saveSettings: async () => done(null),
  readUnsaved: async (token) => done(noted.get(token ?? 'new') ?? null),
  dropUnsaved: async (token) => {
    noted.delete(token ?? 'new');
    return done(null);
  },
};

let autosave: Autosave;

beforeEach(() => {
  vi.useFakeTimers();
  stored.clear();
  noted.clear();
  const trip = put('a', 'A');
  put('b', 'B');
  const read = readTrip(trip.text);
  const onDesk = read.ok ? read.value : demoTrip();
  const keeping = { ...freshDesk().keeping, token: 'a', savedAt: trip.savedAt, saved: onDesk };
  desk.setState({ ...freshDesk(onDesk), keeping, ready: true }, true);
  setMachine(host as Host);
  autosave = startAutosave(host as Host);
  setAutosave(autosave);
});
afterEach(() => {
  autosave.stop();
  vi.useRealTimers();
});

const titleOf = (token: string): string => JSON.parse(stored.get(token)!.text).title;
const asked = (): Promise<void> => vi.waitFor(() => expect(arrive).toBeDefined(), { timeout: 5000 });

describe('another trip that takes its time to be read', () => {
  it.each([
    ['of the library', () => openKept('b')],
    ['of a file', () => openFile()],
  ])('loses no edit made meanwhile: one %s', async (_what, open) => {
    arrive = undefined;
    const opening = open();
    await asked();
    setTitle('A, edited while B was read');
    arrive!();
    await opening;
    expect(desk.getState().trip.title).toBe('B');
    expect(titleOf('a')).toBe('A, edited while B was read');
  });

  it('that is the one on screen leaves there what was edited and saved meanwhile', async () => {
    arrive = undefined;
    const opening = openKept('a');
    await asked();
    setTitle('A, edited while A was read');
    arrive!();
    await opening;
    expect(desk.getState().trip.title).toBe('A, edited while A was read');
    setTitle('A, and on');
    await vi.advanceTimersByTimeAsync(1000);
    expect(titleOf('a')).toBe('A, and on');
    expect(desk.getState().overlay).toBeNull();
  });
});

describe('what was opened while another trip was on its way', () => {
  it.each<[Overlay | null, Overlay]>([
    [{ kind: 'palette' }, { kind: 'palette' }],
    [null, { kind: 'cautions' }],
    [null, { kind: 'library' }],
  ])('leaves %o of %o', async (left, opened) => {
    arrive = undefined;
    const opening = openKept('b');
    await asked();
    showOverlay(opened);
    arrive!();
    await opening;
    expect(desk.getState().trip.title).toBe('B');
    expect(desk.getState().overlay).toEqual(left);
  });
});

describe('before the last trip is there', () => {
  it('nothing is saved, begun or taken away', async () => {
    desk.setState({ ...freshDesk(), ready: false }, true);
    const before = new Map(stored);
    await Promise.all([save(), saveAs(), newTrip()]);
    await vi.advanceTimersByTimeAsync(10_000);
    expect(stored).toEqual(before);
    expect(desk.getState().overlay).toBeNull();
  });
});

describe('edits that were noted down and not saved', () => {
  const edited = writeTrip({ ...demoTrip(), title: 'B, edited' });
  const open = async (): Promise<void> => {
    arrive = undefined;
    const opening = openKept('b');
    await asked();
    arrive!();
    await opening;
  };

  it('come back where they stand on what is stored, told, undone by undo, and saved like any edit', async () => {
    noted.set('b', { text: edited, savedAt: stored.get('b')!.savedAt });
    await open();
    expect(desk.getState().trip.title).toBe('B, edited');
    expect(desk.getState().notice).toMatchObject({
      tone: 'said',
      lines: [{ what: expect.stringContaining('not saved') }],
    });
    expect(desk.getState().history.past.map(({ trip }) => trip.title)).toEqual(['B']);
    await vi.advanceTimersByTimeAsync(1000);
    expect(titleOf('b')).toBe('B, edited');
  });

  it('are let go of where their save had come through', async () => {
    noted.set('b', { text: stored.get('b')!.text, savedAt: '2027-03-01T07:00:00.000Z' });
    await open();
    expect(desk.getState().trip.title).toBe('B');
    expect(desk.getState().overlay).toBeNull();
    expect(noted.size).toBe(0);
  });

  it('are offered, and put over nothing, where the trip was saved elsewhere since', async () => {
    noted.set('b', { text: edited, savedAt: '2027-03-01T07:00:00.000Z' });
    await open();
    await vi.advanceTimersByTimeAsync(10_000);
    expect(desk.getState().trip.title).toBe('B');
    expect(titleOf('b')).toBe('B');
    expect(desk.getState().overlay).toEqual({ kind: 'unsaved', token: 'b', text: edited });
    expect(noted.size).toBe(1);
  });

  it('that cannot be read are told, and the trip is as it was saved', async () => {
    noted.set('b', { text: '{"format":"carryover/trip","version":99}', savedAt: stored.get('b')!.savedAt });
    await open();
    expect(desk.getState().trip.title).toBe('B');
    expect(desk.getState().overlay).toMatchObject({ kind: 'troubles' });
    expect(noted.size).toBe(1);
  });
});
