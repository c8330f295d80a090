import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host, HostResult, StoredTrip } from '../../../../core/host';
import { readTrip } from '../../../../core/document/read-trip';
import { demoTrip } from '../../../../core/document/demo-trip';
import { setTitle } from '../../../../renderer/actions/trip';
import { startGesture } from '../../../../renderer/actions/gesture';
import {
  AUTOSAVE_AFTER_MS,
  RETRY_AFTER_MS,
  isUnsaved,
  startAutosave,
  type Autosave,
} from '../../../../renderer/store/autosave';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

interface Write {
  readonly token: string | null;
  readonly title: string;
  readonly expected: string | null;
  readonly finish: (result?: HostResult<StoredTrip>) => Promise<void>;
  readonly fall: (error: Error) => Promise<void>;
}

/** A host that answers a write when the test says so. */
function slowHost(): { readonly host: Host; readonly writes: Write[] } {
  const writes: Write[] = [];
  let saves = 0;
  const host: Partial<Host> = {
    writeTrip: (token, text, _title, expected) =>
      new Promise((resolve, reject) => {
        const read = readTrip(text);
        const title = read.ok ? read.value.title : 'unreadable';
        writes.push({
          token,
          title,
          expected,
          finish: async (result) => {
            saves += 1;
            const savedAt = `2027-01-01T00:00:0${saves}Z`;
            resolve(result ?? { ok: true, value: { token: token ?? 't1', home: 'library', text, savedAt } });
            await vi.advanceTimersByTimeAsync(0);
          },
          fall: async (error) => {
            reject(error);
            await vi.advanceTimersByTimeAsync(0);
          },
        });
      }),
    saveSettings: async () => ({ ok: true, value: null }),
  };
  return { host: host as Host, writes };
}

const FULL: HostResult<StoredTrip> = {
  ok: false,
  trouble: { kind: 'full', what: 'The disk is full.', where: 'library', mend: 'Make room.' },
};
const GONE: HostResult<StoredTrip> = {
  ok: false,
  trouble: { kind: 'not-found', what: 'It is gone.', where: 'library', mend: 'Look.' },
};
const TOO_LARGE: HostResult<StoredTrip> = {
  ok: false,
  trouble: { kind: 'too-large', what: 'It is too large.', where: 'library', mend: 'Split it.' },
};
const CHANGED: HostResult<StoredTrip> = {
  ok: false,
  trouble: { kind: 'changed', what: 'It changed.', where: 'library', mend: 'Choose.' },
};

let autosave: Autosave;
let writes: Write[];

beforeEach(() => {
  vi.useFakeTimers();
  desk.setState({ ...freshDesk(demoTrip()), ready: true }, true);
  const slow = slowHost();
  writes = slow.writes;
  autosave = startAutosave(slow.host);
});

afterEach(() => {
  autosave.stop();
  vi.useRealTimers();
});

const wait = (ms: number): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);
const keeping = () => desk.getState().keeping;

describe('startAutosave', () => {
  it('writes once for a burst of changes, the newest of them', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS - 1);
    setTitle('two');
    await wait(AUTOSAVE_AFTER_MS - 1);
    expect(writes).toHaveLength(0);
    await wait(1);
    expect(writes.map(({ title }) => title)).toEqual(['two']);
  });

  it('says "saved" only once the write has resolved', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    expect(keeping()).toMatchObject({ savedAt: null, writing: true });
    expect(isUnsaved(desk.getState())).toBe(true);
    await writes[0]!.finish();
    expect(keeping()).toMatchObject({ token: 't1', savedAt: '2027-01-01T00:00:01Z', writing: false });
    expect(isUnsaved(desk.getState())).toBe(false);
    expect(desk.getState().settings.lastTrip).toBe('t1');
  });

  it('says "saved" only once it is kept which trip was the last', async () => {
    autosave.stop();
    let keepLast = (): void => undefined;
    const slow = slowHost();
    const saveSettings: Host['saveSettings'] = () =>
      new Promise((resolve) => {
        keepLast = () => resolve({ ok: true, value: null });
      });
    autosave = startAutosave({ ...slow.host, saveSettings });
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    await slow.writes[0]!.finish();
    expect(keeping()).toMatchObject({ savedAt: null, writing: true });
    keepLast();
    await wait(0);
    expect(keeping()).toMatchObject({ token: 't1', writing: false });
    expect(isUnsaved(desk.getState())).toBe(false);
  });

  it('holds one write at a time, and the newest wins', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    setTitle('two');
    await wait(AUTOSAVE_AFTER_MS);
    setTitle('three');
    await wait(AUTOSAVE_AFTER_MS);
    expect(writes.map(({ title }) => title)).toEqual(['one']);
    await writes[0]!.finish();
    expect(writes.map(({ title, expected }) => [title, expected])).toEqual([
      ['one', null],
      ['three', '2027-01-01T00:00:01Z'],
    ]);
    await writes[1]!.finish();
    expect(isUnsaved(desk.getState())).toBe(false);
    await wait(10 * AUTOSAVE_AFTER_MS);
    expect(writes).toHaveLength(2);
  });

  it('waits no longer than 2 s, however long the edits go on', async () => {
    for (let edits = 0; edits < 30; edits += 1) {
      setTitle(`edit ${edits}`);
      await wait(100);
    }
    expect(writes.map(({ title }) => title)).toEqual(['edit 19']);
    await writes[0]!.finish();
    // What came during the write is written right after it, and then the wait begins anew.
    expect(writes.map(({ title }) => title)).toEqual(['edit 19', 'edit 29']);
  });

  it('tries a failed write again by itself, at longer and longer pauses, until it is kept', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    for (const [index, pauseMs] of [...RETRY_AFTER_MS, RETRY_AFTER_MS.at(-1)!].entries()) {
      await writes[index]!.finish(FULL);
      await wait(pauseMs - 1);
      expect(writes).toHaveLength(index + 1);
      await wait(1);
      expect(writes).toHaveLength(index + 2);
    }
    await writes.at(-1)!.finish();
    expect(keeping()).toMatchObject({ trouble: null, token: 't1' });
    await wait(10 * RETRY_AFTER_MS.at(-1)!);
    expect(writes).toHaveLength(RETRY_AFTER_MS.length + 2);
  });

  it('tries again at once what an edit changes, and not what no other try can mend', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    setTitle('two');
    await writes[0]!.finish(FULL);
    await wait(AUTOSAVE_AFTER_MS);
    expect(writes.map(({ title }) => title)).toEqual(['one', 'two']);
    await writes[1]!.finish(TOO_LARGE);
    await wait(10 * RETRY_AFTER_MS.at(-1)!);
    expect(writes).toHaveLength(2);
  });

  it('shows a machine that does not answer at all as a failure, and tries again', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[0]!.fall(new Error('the bridge is down'));
    expect(keeping().writing).toBe(false);
    expect(keeping().trouble?.what).toContain('the bridge is down');
    await wait(RETRY_AFTER_MS[0]);
    await writes[1]!.finish();
    expect(keeping().trouble).toBeNull();
  });

  it('asks where the stored trip is gone', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[0]!.finish();
    setTitle('two');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[1]!.finish(GONE);
    expect(desk.getState().overlay).toEqual({ kind: 'changed', token: 't1', removed: true });
  });

  it('keeps nothing before the last trip is there, also when told to save', async () => {
    desk.setState({ ...freshDesk(), ready: false }, true);
    await autosave.flush();
    expect(writes).toHaveLength(0);
    desk.setState({ trip: demoTrip() });
    desk.setState({ ready: true });
    await wait(10 * AUTOSAVE_AFTER_MS);
    expect(writes).toHaveLength(0);
  });

  it('keeps the work before a gesture while that goes on, and not the gesture', async () => {
    setTitle('kept');
    startGesture({ label: 'x', code: 'x' }).edit(() => setTitle('in the hand'));
    await wait(5 * AUTOSAVE_AFTER_MS);
    expect(writes.map(({ title }) => title)).toEqual(['kept']);
    await writes[0]!.finish();
    await wait(5 * AUTOSAVE_AFTER_MS);
    expect(writes).toHaveLength(1);
  });

  it('shows a failure, keeps the change, and tries again with the next one', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[0]!.finish(FULL);
    expect(keeping()).toMatchObject({ savedAt: null, writing: false, trouble: { kind: 'full' } });
    expect(isUnsaved(desk.getState())).toBe(true);
    setTitle('two');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[1]!.finish();
    expect(keeping().trouble).toBeNull();
  });

  it('asks where the stored trip has changed, and writes over it only when told to', async () => {
    setTitle('one');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[0]!.finish();
    setTitle('two');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[1]!.finish(CHANGED);
    expect(desk.getState().overlay).toEqual({ kind: 'changed', token: 't1', removed: false });
    void autosave.flush({ overwrite: true });
    await wait(0);
    expect(writes[2]).toMatchObject({ title: 'two', expected: null });
    await writes[2]!.finish();
  });

  it('waits for a drag to end, and writes nothing for one given up', async () => {
    setTitle('kept');
    await wait(AUTOSAVE_AFTER_MS);
    await writes[0]!.finish();
    const drag = startGesture({ label: 'x', code: 'x' });
    drag.edit(() => setTitle('dragging'));
    await wait(5 * AUTOSAVE_AFTER_MS);
    expect(writes).toHaveLength(1);
    drag.end();
    await wait(AUTOSAVE_AFTER_MS);
    expect(writes[1]?.title).toBe('dragging');
    await writes[1]!.finish();
    const other = startGesture({ label: 'x', code: 'x' });
    other.edit(() => setTitle('given up'));
    other.cancel();
    await wait(5 * AUTOSAVE_AFTER_MS);
    expect(writes).toHaveLength(2);
  });

  it('writes nothing for a trip nobody has changed, though it is put on the desk in place of another', async () => {
    desk.setState({ ...freshDesk(blankTrip()), ready: true });
    await wait(10 * AUTOSAVE_AFTER_MS);
    expect(writes).toHaveLength(0);
  });
});
