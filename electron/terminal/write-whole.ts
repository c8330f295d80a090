import * as nodeFs from 'node:fs/promises';
import { resolve } from 'node:path';
import { failure, success, type Result } from '../../core/result';
import { writeAtomically } from '../disk/atomic-write';
import { DiskTrouble } from '../disk/disk-trouble';

/** The file behind a path, also where it does not exist yet. */
async function real(path: string): Promise<string> {
  return nodeFs.realpath(path).catch(() => resolve(path));
}

/** Whether two paths lead to one file. */
export async function isSameFile(one: string, other: string): Promise<boolean> {
  return (await real(one)) === (await real(other));
}

/** Whether there is anything at a path. */
export async function isThere(path: string): Promise<boolean> {
  return nodeFs.lstat(path).then(
    () => true,
    () => false,
  );
}

/**
 * Writes a file whole or not at all, as the desktop does.
 * @param what cannot be written, where it cannot: "The slates"
 */
export async function writeWhole(path: string, content: Uint8Array, what: string): Promise<Result<null>> {
  try {
    await writeAtomically(nodeFs, { path, content, nowMs: Date.now() });
    return success(null);
  } catch (error) {
    if (!(error instanceof DiskTrouble)) throw error;
    const { trouble } = error;
    return failure({ ...trouble, what: `${what} cannot be written. ${trouble.what}` });
  }
}
