import { failure, success, type Result } from '../../core/result';

/** How often a part was asked for by another address. */
let timesAsked = 0;

/**
 * Asks for a module that did not come. By its own address it stays failed for as long as the page does, so by another:
 * what stands behind # is nothing to who serves it.
 * @param error of the import, which names the address
 * Source: HTML Standard, "fetch a single module script": the module map keeps a failure.
 */
async function askAnew<M>(error: unknown): Promise<M> {
  const [, address] = /dynamically imported module: ([^\s#]+)/.exec(String(error)) ?? [];
  if (address === undefined) throw error;
  timesAsked += 1;
  return (await import(/* @vite-ignore */ `${address}#${timesAsked}`)) as M;
}

/**
 * Loads a part of the program that is not in the first load, and once more where that fails: a dropped
 * connection does not come twice. The desktop reads its parts from the disk; a browser asks who serves the page.
 * @param load `() => import(…)` and no more: what comes the second time is the module as well
 */
export async function loadPart<M>(load: () => Promise<M>): Promise<Result<M>> {
  try {
    return success(await load().catch(askAnew<M>));
  } catch {
    return failure({
      kind: 'not-loaded',
      what: 'This part of the window could not be loaded.',
      where: '',
      mend: 'Look whether what serves the window still runs, then try again, or load the window again. The trip is as it was.',
    });
  }
}
