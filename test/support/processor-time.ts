import { readFileSync } from 'node:fs';

/**
 * Processor time of this thread, ms: on a machine that does other things as well the wall clock would
 * measure those. Where the system does not tell it, the wall clock.
 */
export function processorMs(): number {
  try {
    return Number(readFileSync('/proc/thread-self/schedstat', 'utf8').split(' ')[0]) / 1e6;
  } catch {
    return performance.now();
  }
}

/** Processor time of one run, ms. */
export function spentMs(run: () => unknown): number {
  const before = processorMs();
  run();
  return processorMs() - before;
}
