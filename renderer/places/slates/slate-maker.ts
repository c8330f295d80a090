import type { SlateAnswer, SlateAsk } from './slate-job';

export type Progress = (done: number, all: number) => void;
export type Outcome = Exclude<SlateAnswer, { readonly kind: 'progress' }> | { readonly kind: 'stopped' };

interface Pending {
  readonly progress: Progress | null;
  readonly settle: (outcome: Outcome) => void;
}

/** Makes slates in a worker of its own; `stop` ends whatever is under way. */
export class SlateMaker {
  private worker: Worker | null = null;
  private readonly pending = new Map<number, Pending>();
  private lastId = 0;

  /** Asks for pages or a PDF; never rejects: what goes wrong comes back as troubles. */
  ask(what: Omit<SlateAsk, 'id'>, progress: Progress | null = null): Promise<Outcome> {
    this.lastId += 1;
    const id = this.lastId;
    return new Promise((resolve) => {
      this.pending.set(id, { progress, settle: resolve });
      // A worker has no origin to name: it is this program's own file.
      // oxlint-disable-next-line unicorn/require-post-message-target-origin
      this.running().postMessage({ ...what, id } satisfies SlateAsk);
    });
  }

  stop(): void {
    this.worker?.terminate();
    this.worker = null;
    for (const { settle } of this.pending.values()) settle({ kind: 'stopped' });
    this.pending.clear();
  }

  private running(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./slate-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', (event: MessageEvent<SlateAnswer>) => this.hear(event.data));
    worker.addEventListener('error', (event) => this.fail(event.message));
    this.worker = worker;
    return worker;
  }

  private hear(answer: SlateAnswer): void {
    const waiting = this.pending.get(answer.id);
    if (!waiting) return;
    if (answer.kind === 'progress') {
      waiting.progress?.(answer.done, answer.all);
      return;
    }
    this.pending.delete(answer.id);
    waiting.settle(answer);
  }

  /** The worker itself did not start or broke down: everybody who waits is told, and the next ask starts anew. */
  private fail(message: string): void {
    const troubles = [
      {
        kind: 'fault',
        what: `The part of the program that makes slates stopped${message ? `: ${message}` : '.'}`,
        where: '',
        mend: 'Try again; the trip is not touched.',
      },
    ];
    for (const [id, { settle }] of this.pending) settle({ id, kind: 'troubles', troubles });
    this.pending.clear();
    this.worker?.terminate();
    this.worker = null;
  }
}
