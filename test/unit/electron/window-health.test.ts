import { EventEmitter } from 'node:events';
import type { BrowserWindow } from 'electron';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { loadPage, watchHealth } from '../../../electron/window-health';
import { dialogAnswers } from '../../doubles/electron-mini';

const RELOAD = { response: 0 };
const OTHER = { response: 1 };

let done: string[];
let window: EventEmitter & { webContents: EventEmitter };

/** A window whose process ends when it is told to, as the runtime documents: the event comes after the call. */
function makeWindow(): typeof window {
  let isDestroyed = false;
  const webContents = Object.assign(new EventEmitter(), {
    reload: () => {
      done.push('reload');
      setTimeout(() => webContents.emit('did-finish-load'), 5);
    },
    forcefullyCrashRenderer: () => {
      done.push('crash');
      setTimeout(() => webContents.emit('render-process-gone', {}, { reason: 'killed' }), 1);
    },
  });
  return Object.assign(new EventEmitter(), {
    webContents,
    destroy: () => {
      isDestroyed = true;
      done.push('destroy');
    },
    isDestroyed: () => isDestroyed,
  });
}

afterEach(() => {
  vi.useRealTimers();
});

beforeEach(() => {
  // A machine that stands still for a moment would have the wait end before what it waits for.
  vi.useFakeTimers();
  done = [];
  dialogAnswers.length = 0;
  window = makeWindow();
  watchHealth(window as unknown as BrowserWindow, () => done.push('lost'));
});

const settled = async (): Promise<void> => void (await vi.advanceTimersByTimeAsync(30));
const goes = (reason: string): boolean => window.webContents.emit('render-process-gone', {}, { reason });

describe('watchHealth', () => {
  it('asks once about a window that hangs, though giving it up ends its process', async () => {
    dialogAnswers.push(
      () => RELOAD,
      () => OTHER,
    );
    window.emit('unresponsive');
    await settled();
    expect(done).toEqual(['lost', 'crash', 'reload', 'lost']);
    // The second question never came.
    expect(dialogAnswers).toHaveLength(1);
  });

  it('asks about a crash after that as about any other', async () => {
    dialogAnswers.push(() => RELOAD);
    window.emit('unresponsive');
    await settled();
    dialogAnswers.push(() => OTHER);
    goes('crashed');
    await settled();
    expect(done.slice(4)).toEqual(['lost', 'destroy']);
  });

  it('leaves a window that hangs alone where the user waits, and asks again when it hangs again', async () => {
    dialogAnswers.push(
      () => OTHER,
      () => OTHER,
    );
    window.emit('unresponsive');
    await settled();
    window.emit('unresponsive');
    await settled();
    expect([done, dialogAnswers]).toEqual([[], []]);
  });

  it('asks about a crash that comes while it asks about a hang, and closes nothing unasked', async () => {
    let answer: (value: object) => void = () => {};
    dialogAnswers.push(
      () => new Promise((resolve) => (answer = resolve)),
      () => OTHER,
    );
    window.emit('unresponsive');
    window.emit('unresponsive');
    goes('oom');
    await settled();
    expect(done).toEqual(['lost']);
    answer(OTHER);
    await settled();
    expect(done).toEqual(['lost', 'destroy']);
    expect(dialogAnswers).toEqual([]);
  });

  it('loads the window again, without ending it first, where it ended itself meanwhile', async () => {
    let answer: (value: object) => void = () => {};
    dialogAnswers.push(() => new Promise((resolve) => (answer = resolve)));
    window.emit('unresponsive');
    goes('oom');
    answer(RELOAD);
    await settled();
    expect(done.filter((each) => each !== 'lost')).toEqual(['reload']);
  });

  it('says nothing of a page that ends as it should', async () => {
    goes('clean-exit');
    await settled();
    expect(done).toEqual(['lost']);
  });
});

describe('loadPage', () => {
  /** A window whose load fails as the runtime has it fail: also where the window goes meanwhile. */
  const failing = (isClosed: boolean) => ({
    loadURL: () => Promise.reject(new Error("ERR_FAILED (-2) loading 'app://carryover/'")),
    isDestroyed: () => isClosed,
  });

  it('takes a window that was closed while it loads for what it is: no fault', async () => {
    await expect(loadPage(failing(true), 'app://carryover/')).resolves.toBeUndefined();
  });

  it('tells a page that does not come to a window that stays', async () => {
    await expect(loadPage(failing(false), 'app://carryover/')).rejects.toThrow('ERR_FAILED');
  });
});
