import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserWindow } from 'electron';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { TripChange } from '../../../core/host';
import type { Handlers } from '../../../electron/answer';
import { desktopHandlers } from '../../../electron/desktop-host';
import { desktopSettings } from '../../../electron/settings';
import { tripFiles } from '../../../electron/trip-files';
import { unsavedEdits } from '../../../electron/unsaved-edits';
import { watchTripFiles, type TripWatch } from '../../../electron/trip-watch';
import { dialogAnswers, shownItems } from '../../doubles/electron-mini';
import { saveOutside } from '../../support/save-outside';

let folder: string;
let elsewhere: string;
let watch: TripWatch;
let changes: TripChange[];
let handlers: Handlers;
let marked: unknown[];

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

/** A start of the desktop over the same folders. */
async function start(): Promise<void> {
  const settings = desktopSettings(folder);
  const trips = tripFiles({ folder, recent: settings.recent });
  changes = [];
  marked = [];
  watch = await watchTripFiles(trips, (change) => void changes.push(change));
  handlers = desktopHandlers({
    window: {} as BrowserWindow,
    trips,
    unsaved: unsavedEdits(folder),
    watch,
    settings,
    guard: { setGuarded: () => {}, answered: async () => {}, forget: () => {} },
    marks: { showTrip: (path, isEdited) => void marked.push([path, isEdited]), showWork: () => {} },
    onCommands: () => {},
    onAwaitTrips: async () => {},
  });
}

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'carryover-handlers-'));
  elsewhere = await fs.mkdtemp(join(tmpdir(), 'carryover-handlers-files-'));
  await start();
});
afterEach(async () => {
  watch.close();
  expect(dialogAnswers).toEqual([]);
  await fs.rm(folder, { recursive: true, force: true });
  await fs.rm(elsewhere, { recursive: true, force: true });
});

describe('a file outside the library that is read again at the next start', () => {
  it('is watched as when it was opened', async () => {
    const path = join(elsewhere, 'week.carryover');
    await fs.writeFile(path, tripText('Mine'));
    dialogAnswers.push(() => ({ canceled: false, filePaths: [path] }));
    const opened = await handlers.openTrip();
    watch.close();
    await start();
    const token = opened.ok && opened.value ? opened.value.token : '';
    expect(await handlers.readTrip(token)).toMatchObject({ ok: true });
    await saveOutside(path, tripText('Theirs'));
    await vi.waitFor(() => expect(changes).toEqual([{ token, kind: 'changed' }]), { timeout: 10_000 });
  });
});

describe('the mark of the window', () => {
  it('has the file of the trip that is open, and none of one that was never saved', async () => {
    const path = join(elsewhere, 'week.carryover');
    await fs.writeFile(path, tripText('Mine'));
    const opened = await handlers.openDroppedAt(path);
    await handlers.reportTrip({ token: opened.ok ? opened.value.token : '', isEdited: true });
    await handlers.reportTrip({ token: null, isEdited: false });
    expect(marked).toEqual([
      [path, true],
      [undefined, false],
    ]);
  });
});

describe('a file that is dropped on the window', () => {
  it('is opened by its path, watched and remembered, and saved there', async () => {
    const path = join(elsewhere, 'dropped.carryover');
    await fs.writeFile(path, tripText('Dropped'));
    const opened = await handlers.openDroppedAt(path);
    expect(opened).toMatchObject({ ok: true, value: { text: tripText('Dropped'), home: 'file' } });
    expect(desktopSettings(folder).recent.list()).toEqual([path]);
    const { token, savedAt } = opened.ok ? opened.value : { token: '', savedAt: '' };
    expect(await handlers.writeTrip(token, tripText('Ours'), 'Ours', savedAt)).toMatchObject({ ok: true });
    expect(await fs.readFile(path, 'utf8')).toBe(tripText('Ours'));
    await saveOutside(path, tripText('Theirs'));
    await vi.waitFor(() => expect(changes).toEqual([{ token, kind: 'changed' }]), { timeout: 10_000 });
  });

  it('is refused where it has no place on this computer, is gone, or is no trip: nothing of it is handed out', async () => {
    const other = join(elsewhere, 'secret.json');
    await fs.writeFile(other, '{"password": "x"}');
    for (const path of ['', 'week.carryover', join(elsewhere, 'gone.carryover'), elsewhere, other]) {
      const answer = await handlers.openDroppedAt(path);
      expect(answer.ok, path).toBe(false);
      expect(JSON.stringify(answer)).not.toContain('password');
    }
    expect(await handlers.openDroppedAt('')).toMatchObject({
      trouble: { what: 'What was dropped is no file of this computer.' },
    });
    expect(desktopSettings(folder).recent.list()).toEqual([]);
  });
});

describe('what was saved last', () => {
  const save = (name: string) => {
    dialogAnswers.push(() => ({ canceled: false, filePath: join(elsewhere, name) }));
    return handlers.saveDocument(new Uint8Array([37]), name, 'application/pdf');
  };

  it('is shown in its folder, by the path that this process kept', async () => {
    await save('one.pdf');
    await save('two.pdf');
    expect(await handlers.showSaved()).toEqual({ ok: true, value: null });
    expect(shownItems.splice(0)).toEqual([join(elsewhere, 'two.pdf')]);
  });

  it('is not shown before there is any, nor once it is gone', async () => {
    expect(await handlers.showSaved()).toMatchObject({ ok: false, trouble: { kind: 'not-found' } });
    await save('gone.pdf');
    await fs.rm(join(elsewhere, 'gone.pdf'));
    expect(await handlers.showSaved()).toMatchObject({
      ok: false,
      trouble: { kind: 'not-found', where: 'gone.pdf' },
    });
    expect(shownItems).toEqual([]);
  });
});

describe('a name without an ending, in a dialog that adds none', () => {
  const bytes = new Uint8Array([37, 80, 68, 70]);
  const choose = (name: string) =>
    dialogAnswers.push(() => ({ canceled: false, filePath: join(elsewhere, name) }));
  const save = () => handlers.saveDocument(bytes, 'slates.pdf', 'application/pdf');

  it('goes over no file that nobody was asked about', async () => {
    await fs.writeFile(join(elsewhere, 'slates.pdf'), 'mine');
    choose('slates');
    // Another name then, and after that nothing at all.
    dialogAnswers.push(
      () => ({ response: 1 }),
      () => ({ canceled: true, filePath: '' }),
    );
    expect(await save()).toEqual({ ok: true, value: null });
    expect(await fs.readFile(join(elsewhere, 'slates.pdf'), 'utf8')).toBe('mine');
  });

  it('goes over one that may go, and takes a free one without a word', async () => {
    await fs.writeFile(join(elsewhere, 'slates.pdf'), 'mine');
    choose('slates');
    dialogAnswers.push(() => ({ response: 0 }));
    expect(await save()).toEqual({ ok: true, value: 'slates.pdf' });
    expect(await fs.readFile(join(elsewhere, 'slates.pdf'))).toEqual(Buffer.from(bytes));
    choose('others');
    expect(await save()).toEqual({ ok: true, value: 'others.pdf' });
    expect((await fs.readdir(elsewhere)).toSorted()).toEqual(['others.pdf', 'slates.pdf']);
  });

  it('is asked about once where the dialog itself has asked about the whole name', async () => {
    await fs.writeFile(join(elsewhere, 'slates.pdf'), 'mine');
    choose('slates.PDF');
    await fs.writeFile(join(elsewhere, 'slates.PDF'), 'mine');
    expect(await save()).toEqual({ ok: true, value: 'slates.PDF' });
  });
});
