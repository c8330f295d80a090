import { rename, utimes, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/**
 * Another program's save, later than any of ours, in one go: text first and its time afterwards are two changes to who
 * watches, where the disk takes long enough between them.
 * @param later when it is said to have been made
 */
export async function saveOutside(
  path: string,
  text: string,
  later = new Date(Date.now() + 60_000),
): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.theirs`);
  await writeFile(beside, text);
  await utimes(beside, later, later);
  await rename(beside, path);
}
