import { failure, success, type Result } from '../../core/result';

/**
 * Loads a part of the program that is not in the first load, and once more where that fails: a dropped
 * connection does not come twice. The desktop reads its parts from the disk; a browser asks who serves the page.
 */
export async function loadPart<T>(load: () => Promise<T>): Promise<Result<T>> {
  try {
    return success(await load().catch(load));
  } catch {
    return failure({
      kind: 'not-loaded',
      what: 'This part of the window could not be loaded.',
      where: '',
      mend: 'Look whether what serves the window still runs, then try again. The trip is as it was.',
    });
  }
}
