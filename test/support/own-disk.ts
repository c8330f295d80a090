/** A disk of a test's own, in memory: where one may be mounted. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * Only the root user of a Linux may mount one, and in a container mostly not even he: tests that need one are
 * skipped elsewhere.
 */
export const MAY_MOUNT = process.platform === 'linux' && process.getuid?.() === 0 && isAllowed();

function isAllowed(): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'carryover-mount-'));
  const isMounted = run('mount', '-t', 'tmpfs', 'tmpfs', folder) === '';
  if (isMounted) unmountDisk(folder);
  rmSync(folder, { recursive: true });
  return isMounted;
}

/** @param options as mount takes them, "size=64k" */
export function mountDisk(folder: string, options: string): void {
  const trouble = run('mount', '-t', 'tmpfs', '-o', options, 'tmpfs', folder);
  if (trouble !== '') throw new Error(`no disk could be mounted: ${trouble}`);
}

/** From now on nothing can be written there. */
export function closeDisk(folder: string): void {
  const trouble = run('mount', '-o', 'remount,ro', folder);
  if (trouble !== '') throw new Error(`the disk could not be made read-only: ${trouble}`);
}

/** Also while somebody still has a file open there. */
export function unmountDisk(folder: string): void {
  run('umount', '-l', folder);
}

/** What went wrong; empty where all went well. */
function run(name: 'mount' | 'umount', ...args: readonly string[]): string {
  const { status, stderr, error } = spawnSync(name, args, { encoding: 'utf8' });
  return status === 0 ? '' : (error?.message ?? `${name} ended with ${status}: ${stderr}`);
}
