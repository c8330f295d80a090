/** `app`: ready, quit, paths and the single-instance lock. */
import { EventEmitter } from 'node:events';
import { mkdirSync, readFileSync, rmSync, watch, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { APP_ROOT, happened, state, strict, USER_DATA } from './state';

const LOCK = join(USER_DATA, 'double.lock');
const SECOND = 'double.second-instance.json';
const manifest = JSON.parse(readFileSync(join(APP_ROOT, 'package.json'), 'utf8')) as {
  productName: string;
  version: string;
};

/** How the double ends its browser; set once there is one. */
export const ending = { closeBrowser: async (): Promise<void> => {} };

class App extends EventEmitter {
  readonly isPackaged = process.env['DOUBLE_PACKAGED'] === '1';
  private isQuitting = false;
  private hasLock = false;

  whenReady(): Promise<void> {
    return state.isReady ? Promise.resolve() : new Promise((resolve) => this.once('ready', () => resolve()));
  }

  getVersion(): string {
    return manifest.version;
  }

  getName(): string {
    return manifest.productName;
  }

  getPath(name: string): string {
    if (name !== 'userData') throw new Error(`electron double: no path "${name}"`);
    return USER_DATA;
  }

  enableSandbox(): void {
    if (state.isReady) throw new Error('app.enableSandbox() can only be called before app is ready');
    happened('enableSandbox');
  }

  requestSingleInstanceLock(): boolean {
    happened('requestSingleInstanceLock');
    mkdirSync(USER_DATA, { recursive: true });
    // A system lets go of the lock of a process that was killed.
    if (isLeftOver(LOCK)) rmSync(LOCK);
    try {
      writeFileSync(LOCK, String(process.pid), { flag: 'wx' });
    } catch {
      writeFileSync(join(USER_DATA, SECOND), JSON.stringify({ argv: process.argv, cwd: process.cwd() }));
      return false;
    }
    this.hasLock = true;
    watch(USER_DATA, (_event, name) => {
      if (name === SECOND) this.noticeSecond();
    });
    return true;
  }

  private noticeSecond(): void {
    const file = join(USER_DATA, SECOND);
    try {
      const { argv, cwd } = JSON.parse(readFileSync(file, 'utf8')) as { argv: string[]; cwd: string };
      rmSync(file);
      this.emit('second-instance', {}, argv, cwd);
    } catch {
      // Not written to its end yet, or taken already: the next event of the watch brings it.
    }
  }

  /** As the runtime: asks, closes the windows, asks again, ends. */
  quit(): void {
    if (this.isQuitting) return;
    let isPrevented = false;
    const event = { preventDefault: () => void (isPrevented = true) };
    this.emit('before-quit', event);
    if (isPrevented) return;
    this.isQuitting = true;
    this.exit(0);
  }

  exit(code = 0): void {
    happened('exit', code);
    if (this.hasLock) rmSync(LOCK, { force: true });
    void ending.closeBrowser().finally(() => process.exit(code));
  }
}

function isLeftOver(lock: string): boolean {
  try {
    process.kill(Number(readFileSync(lock, 'utf8')), 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
}

export const app = strict('app', new App());
