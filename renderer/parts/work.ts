/**
 * Work beside the window, in a worker of its own, so that nothing stutters. One thing at a time: the newest ask wins,
 * and whoever asked before is told that theirs was stopped.
 */
import { beginWorker } from './begin-worker';
import { longWork } from './task-bar';
import type { Asked, Progress, Reply } from './work-messages';

export type Outcome<Answer> =
  | { readonly kind: 'answer'; readonly answer: Answer }
  /** A newer ask came, or `stop`: nothing of it may take effect any more. */
  | { readonly kind: 'stopped' }
  | { readonly kind: 'fault'; readonly message: string };

export interface Work<Ask, Answer> {
  /** Never rejects. */
  readonly ask: (what: Ask, progress?: Progress) => Promise<Outcome<Answer>>;
  /** Ends what is under way, and the worker with it. */
  readonly stop: () => void;
}

/**
 * How long a new ask waits for the end of what nobody waits for any more. Then the worker is ended with it and begun
 * anew: most work is over sooner than a worker has begun, while a long search must not hold up the next.
 */
export const PATIENCE_MS = 300;

export type WorkerLike = Pick<Worker, 'addEventListener' | 'postMessage' | 'terminate'>;

interface Waiting<Ask, Answer> {
  readonly asked: Asked<Ask>;
  readonly progress: Progress;
  readonly settle: (outcome: Outcome<Answer>) => void;
}

/** @param url of the worker's script, as `import url from './x-worker?worker&url'` gives it */
export function workBeside<Ask, Answer>(
  url: string,
  begin: (url: string) => WorkerLike = beginWorker,
): Work<Ask, Answer> {
  let worker: WorkerLike | null = null;
  /** Of what the worker is at, wanted or not; null: of nothing. */
  let runningId: number | null = null;
  let waiting: Waiting<Ask, Answer> | null = null;
  let patience: ReturnType<typeof setTimeout> | undefined;
  let lastId = 0;

  const endWorker = (): void => {
    clearTimeout(patience);
    patience = undefined;
    worker?.terminate();
    worker = null;
    runningId = null;
  };

  const settle = (outcome: Outcome<Answer>): void => {
    const settled = waiting;
    waiting = null;
    settled?.settle(outcome);
  };

  const hear = (reply: Reply<Answer>): void => {
    if (reply.kind === 'progress') {
      if (waiting?.asked.id === reply.id) waiting.progress(reply.done, reply.total);
      return;
    }
    clearTimeout(patience);
    patience = undefined;
    runningId = null;
    if (waiting?.asked.id === reply.id) {
      settle(
        reply.kind === 'answer'
          ? { kind: 'answer', answer: reply.answer }
          : { kind: 'fault', message: reply.message },
      );
    } else if (waiting) send(waiting);
  };

  const running = (): WorkerLike => {
    if (worker) return worker;
    const begun = begin(url);
    worker = begun;
    // What an ended worker had already sent is of an ask nobody waits for.
    begun.addEventListener('message', (event) => {
      if (worker === begun) hear((event as MessageEvent<Reply<Answer>>).data);
    });
    begun.addEventListener('error', (event) => {
      if (worker !== begun) return;
      const brokeAt = runningId;
      endWorker();
      // It broke at what nobody waits for any more: the newest ask has a worker of its own.
      if (waiting && waiting.asked.id !== brokeAt) send(waiting);
      else settle({ kind: 'fault', message: (event as ErrorEvent).message });
    });
    return begun;
  };

  const send = ({ asked }: Waiting<Ask, Answer>): void => {
    runningId = asked.id;
    // A worker has no origin to name: it is this program's own file.
    // oxlint-disable-next-line unicorn/require-post-message-target-origin
    running().postMessage(asked);
  };

  return {
    ask: (what, progress = () => undefined) => {
      settle({ kind: 'stopped' });
      return new Promise((resolve) => {
        lastId += 1;
        const told = longWork();
        const newest: Waiting<Ask, Answer> = {
          asked: { id: lastId, ask: what },
          progress: (done, total) => {
            told.progress(done, total);
            progress(done, total);
          },
          settle: (outcome) => {
            told.end();
            resolve(outcome);
          },
        };
        waiting = newest;
        if (runningId === null) send(newest);
        else {
          patience ??= setTimeout(() => {
            endWorker();
            if (waiting) send(waiting);
          }, PATIENCE_MS);
        }
      });
    },
    stop: () => {
      endWorker();
      settle({ kind: 'stopped' });
    },
  };
}
