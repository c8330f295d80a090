/** Trips checked on all cores, and told in the order in which they were named. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { checkedFile, type Checked } from './check-one';
import type { Ask } from './check-worker';
import type { Units } from './units-option';

/** So few are checked sooner than threads have begun. */
const FEW = 4;

/** So many files a thread may be ahead of the one that is told next: memory stays as it is, however many there are. */
const AHEAD = 8;

interface Thread {
  readonly ask: (path: string) => Promise<Checked>;
  readonly waiting: () => number;
  readonly end: () => Promise<unknown>;
}

function startThread(units: Units): Thread {
  // Run from sources, a thread has to be told how they are read.
  const file = import.meta.url.endsWith('.ts') ? 'check-worker-from-source.mjs' : 'check-worker.js';
  const worker = new Worker(new URL(`./${file}`, import.meta.url));
  const asked: { readonly done: (found: Checked) => void; readonly failed: (error: unknown) => void }[] = [];
  worker.on('message', (found: Checked) => asked.shift()!.done(found));
  worker.on('error', (error) => {
    for (const { failed } of asked.splice(0)) failed(error);
  });
  return {
    ask: (path) =>
      new Promise((done, failed) => {
        asked.push({ done, failed });
        worker.postMessage({ path, units } satisfies Ask, []);
      }),
    waiting: () => asked.length,
    end: () => worker.terminate(),
  };
}

/** A file and what comes of it. */
export interface CheckedFile {
  readonly path: string;
  readonly found: Checked;
}

/**
 * Checks files one after the other where they are few, else on as many threads as there are cores.
 * @param paths as they come; no more are taken than are about to be told
 */
export async function* checkedInOrder(
  paths: AsyncIterable<string> | Iterable<string>,
  units: Units,
): AsyncGenerator<CheckedFile> {
  const threads: Thread[] = [];
  const most = availableParallelism();
  const queue: { readonly path: string; readonly found: Promise<Checked> }[] = [];
  const first: string[] = [];
  const ask = (path: string): void => {
    const idle = threads.find((thread) => thread.waiting() === 0);
    if (idle === undefined && threads.length < most) threads.push(startThread(units));
    const thread = idle ?? threads.toSorted((a, b) => a.waiting() - b.waiting())[0]!;
    const found = thread.ask(path);
    // Told in its turn; until then a fault is nobody's surprise.
    found.catch(() => {});
    queue.push({ path, found });
  };
  try {
    for await (const path of paths) {
      if (first.length < FEW && threads.length === 0) {
        first.push(path);
        continue;
      }
      for (const held of first.splice(0)) ask(held);
      ask(path);
      if (queue.length >= most * AHEAD) {
        const next = queue.shift()!;
        yield { path: next.path, found: await next.found };
      }
    }
    for (const path of first) yield { path, found: await checkedFile(path, units) };
    for (const { path, found } of queue) yield { path, found: await found };
  } finally {
    await Promise.all(threads.map((thread) => thread.end()));
  }
}
