/** The real file system, of which one step fails; a write that fails has already written half. */
import * as fs from 'node:fs/promises';
import type { FileSystem } from '../../electron/disk/disk';

const CALLS = [
  'open',
  'rename',
  'link',
  'rm',
  'readFile',
  'readdir',
  'stat',
  'lstat',
  'readlink',
  'realpath',
  'mkdir',
  'copyFile',
] as const satisfies readonly (keyof FileSystem)[];

type Work = (...args: unknown[]) => Promise<unknown>;

export interface FailingDisk {
  readonly system: FileSystem;
  readonly hasFailed: () => boolean;
}

/** @param step which call of the system fails, from 1; `code` is what it says */
export function failingAt(step: number, code: string): FailingDisk {
  let steps = 0;
  let hasFailed = false;
  const failNow = (): boolean => {
    steps += 1;
    if (steps !== step) return false;
    hasFailed = true;
    return true;
  };
  const failure = (): Error => Object.assign(new Error(code), { code });
  const guarded =
    (work: Work): Work =>
    async (...args) => {
      if (failNow()) throw failure();
      return work(...args);
    };
  const guardedFile = (file: fs.FileHandle): fs.FileHandle =>
    new Proxy(file, {
      get(target, name) {
        const member: unknown = Reflect.get(target, name);
        if (typeof member !== 'function') return member;
        return async (...given: unknown[]) => {
          if (name !== 'close' && failNow()) {
            const content = String(given[0]);
            if (name === 'writeFile') await target.write(content.slice(0, content.length / 2));
            throw failure();
          }
          return (member as (...each: unknown[]) => unknown).apply(target, given);
        };
      },
    });
  const calls = CALLS.map((name) => [name, guarded(fs[name] as Work)] as const);
  const open: Work = async (...args) =>
    guardedFile((await guarded(fs.open as Work)(...args)) as fs.FileHandle);
  return {
    system: { ...Object.fromEntries(calls), open } as unknown as FileSystem,
    hasFailed: () => hasFailed,
  };
}
