import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host, HostResult, StoredTrip } from '../../../../core/host';
import { demoTrip } from '../../../../core/document/demo-trip';
import { startGesture } from '../../../../renderer/actions/gesture';
import { setTitle } from '../../../../renderer/actions/trip';
import { startAutosave, type Autosave } from '../../../../renderer/store/autosave';
import { NOTED_AFTER_MS, startJournal, type Journal } from '../../../../renderer/store/journal';
import { desk, freshDesk } from '../../../../renderer/store/store';

const nothing: HostResult<null> = { ok: true, value: null };
/** What a kill would leave: the note of each trip, by its token. */
const notes = new Map<string, { title: string; savedAt: string | null }>();
let written = 0;
let saves = 0;
let isFull = false;

const host: Partial<Host> = {
  keepUnsaved: async (token, { text, savedAt }) => {
    written += 1;
    notes.set(token ?? 'new', { title: JSON.parse(text).title, savedAt });
    return nothing;
  },
  dropUnsaved: async (token) => {
    notes.delete(token ?? 'new');
    return nothing;
  },
  writeTrip: async (token, text): Promise<HostResult<StoredTrip>> => {
    if (isFull)
      return { ok: false, trouble: { kind: 'full', what: 'Full.', where: 'x', mend: 'Make room.' } };
    saves += 1;
    return { ok: true, value: { token: token ?? 't1', home: 'library', text, savedAt: `save ${saves}` } };
  },
  saveSettings: async () => nothing,
};

let autosave: Autosave;
let journal: Journal;

beforeEach(() => {
  vi.useFakeTimers();
  notes.clear();
  [written, saves, isFull] = [0, 0, false];
  desk.setState({ ...freshDesk(demoTrip()), ready: true }, true);
  autosave = startAutosave(host as Host);
  journal = startJournal(host as Host);
});
afterEach(() => {
  autosave.stop();
  journal.stop();
  vi.useRealTimers();
});

const wait = (ms: number): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);

describe('startJournal', () => {
  it('notes every edit before the next key, and lets go of it once it is saved', async () => {
    setTitle('one');
    await wait(NOTED_AFTER_MS);
    expect([...notes]).toEqual([['new', { title: 'one', savedAt: null }]]);
    await wait(2000);
    expect(saves).toBe(1);
    expect(notes.size).toBe(0);
    setTitle('two');
    await wait(NOTED_AFTER_MS);
    expect([...notes]).toEqual([['t1', { title: 'two', savedAt: 'save 1' }]]);
    await wait(2000);
    expect(notes.size).toBe(0);
  });

  it('is at most a moment behind, however quickly edits come, and writes no more often than that', async () => {
    for (let edit = 0; edit < 50; edit += 1) {
      setTitle(`edit ${edit}`);
      await wait(10);
      const { title } = notes.get('new') ?? notes.get('t1') ?? { title: 'edit 0' };
      expect(edit - Number(title.slice(5))).toBeLessThanOrEqual(NOTED_AFTER_MS / 10);
    }
    expect(written).toBeLessThanOrEqual(11);
  });

  it('keeps the note while saving fails, and what was edited during a save on top of that', async () => {
    isFull = true;
    setTitle('one');
    await wait(10_000);
    expect(notes.get('new')?.title).toBe('one');
    isFull = false;
    await wait(120_000);
    expect(notes.size).toBe(0);
  });

  it('notes at once where the window goes, also what is noted already: the host may keep that elsewhere', async () => {
    setTitle('one');
    journal.noteLast();
    expect(notes.get('new')?.title).toBe('one');
    journal.noteLast();
    expect(written).toBe(2);
  });

  it('notes no gesture under way, and the work before it', async () => {
    isFull = true;
    setTitle('kept');
    startGesture({ label: 'x', code: 'x' }).edit(() => setTitle('in the hand'));
    await wait(1000);
    expect(notes.get('new')?.title).toBe('kept');
  });

  it('notes nothing that is nobody\u2019s, and nothing before the last trip is there', async () => {
    desk.setState({ ...freshDesk(), ready: false }, true);
    desk.setState({ trip: demoTrip() });
    desk.setState({ ready: true });
    await wait(10_000);
    journal.noteLast();
    expect(written).toBe(0);
  });
});
