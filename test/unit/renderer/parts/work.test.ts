import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host } from '../../../../core/host';
import { setMachine } from '../../../../renderer/store/machine';
import { PATIENCE_MS, workBeside, type WorkerLike } from '../../../../renderer/parts/work';
import type { Asked, Reply } from '../../../../renderer/parts/work-messages';

/** A worker that does what the test says. */
class Hand {
  readonly asked: Asked<string>[] = [];
  isEnded = false;
  private readonly listeners = new Map<string, (event: unknown) => void>();

  readonly worker = {
    addEventListener: (kind: string, listener: (event: unknown) => void) => {
      this.listeners.set(kind, listener);
    },
    postMessage: (asked: Asked<string>) => this.asked.push(asked),
    terminate: () => {
      this.isEnded = true;
    },
  } as unknown as WorkerLike;

  reply(reply: Reply<string>): void {
    this.listeners.get('message')!({ data: reply });
  }

  breakDown(message: string): void {
    this.listeners.get('error')!({ message });
  }
}

// Long work is told to the host.
setMachine({ reportWork: () => {} } as unknown as Host);

let hands: Hand[] = [];

function begin() {
  return workBeside<string, string>('worker.js', () => {
    const hand = new Hand();
    hands.push(hand);
    return hand.worker;
  });
}

const texts = (hand: Hand | undefined) => hand?.asked.map(({ ask }) => ask);

beforeEach(() => {
  hands = [];
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('work beside the window', () => {
  it('answers, and tells how far it is meanwhile', async () => {
    const work = begin();
    const seen: string[] = [];
    const asked = work.ask('one', (done, total) => seen.push(`${done}/${total}`));
    hands[0]!.reply({ id: 1, kind: 'progress', done: 2, total: 5 });
    hands[0]!.reply({ id: 1, kind: 'answer', answer: 'made' });
    expect(await asked).toEqual({ kind: 'answer', answer: 'made' });
    expect(seen).toEqual(['2/5']);
  });

  it('keeps its worker for the next ask', async () => {
    const work = begin();
    const first = work.ask('one');
    hands[0]!.reply({ id: 1, kind: 'answer', answer: 'a' });
    await first;
    void work.ask('two');
    expect(hands).toHaveLength(1);
    expect(texts(hands[0])).toEqual(['one', 'two']);
  });

  it('lets the newest win: those before are told, and what the worker was at comes to nothing', async () => {
    const work = begin();
    const seen: number[] = [];
    const first = work.ask('one', (done) => seen.push(done));
    const second = work.ask('two', (done) => seen.push(done));
    const third = work.ask('three');
    expect(await first).toEqual({ kind: 'stopped' });
    expect(await second).toEqual({ kind: 'stopped' });
    expect(texts(hands[0])).toEqual(['one']);
    hands[0]!.reply({ id: 1, kind: 'progress', done: 1, total: 2 });
    hands[0]!.reply({ id: 1, kind: 'answer', answer: 'of the first' });
    expect(texts(hands[0])).toEqual(['one', 'three']);
    hands[0]!.reply({ id: 3, kind: 'answer', answer: 'of the third' });
    expect(await third).toEqual({ kind: 'answer', answer: 'of the third' });
    expect(seen).toEqual([]);
  });

  it('ends a worker that stays at what nobody waits for', async () => {
    const work = begin();
    void work.ask('one');
    vi.advanceTimersByTime(10 * PATIENCE_MS);
    expect(hands[0]!.isEnded).toBe(false);
    void work.ask('two');
    vi.advanceTimersByTime(PATIENCE_MS - 1);
    const third = work.ask('three');
    expect(hands[0]!.isEnded).toBe(false);
    vi.advanceTimersByTime(1);
    expect(hands[0]!.isEnded).toBe(true);
    expect(texts(hands[1])).toEqual(['three']);
    hands[0]!.reply({ id: 3, kind: 'answer', answer: 'of a worker that is gone' });
    hands[1]!.reply({ id: 3, kind: 'answer', answer: 'made' });
    expect(await third).toEqual({ kind: 'answer', answer: 'made' });
    vi.advanceTimersByTime(10 * PATIENCE_MS);
    expect(hands[1]!.isEnded).toBe(false);
  });

  it('stops: whoever waits is told, and the worker is ended', async () => {
    const work = begin();
    const asked = work.ask('one');
    work.stop();
    expect(await asked).toEqual({ kind: 'stopped' });
    expect(hands[0]!.isEnded).toBe(true);
    hands[0]!.reply({ id: 1, kind: 'answer', answer: 'too late' });
    void work.ask('two');
    expect(texts(hands[1])).toEqual(['two']);
  });

  it('tells what the work threw, and goes on with the same worker', async () => {
    const work = begin();
    const asked = work.ask('one');
    hands[0]!.reply({ id: 1, kind: 'fault', message: 'no luck' });
    expect(await asked).toEqual({ kind: 'fault', message: 'no luck' });
    void work.ask('two');
    expect(texts(hands[0])).toEqual(['one', 'two']);
  });

  it('tells where the worker itself broke down, and has another for the next ask', async () => {
    const work = begin();
    const asked = work.ask('one');
    hands[0]!.breakDown('no memory');
    expect(await asked).toEqual({ kind: 'fault', message: 'no memory' });
    void work.ask('two');
    expect(texts(hands[1])).toEqual(['two']);
  });

  it('does not lay on the newest ask what the one before broke', async () => {
    const work = begin();
    void work.ask('one');
    const second = work.ask('two');
    hands[0]!.breakDown('no memory');
    expect(texts(hands[1])).toEqual(['two']);
    hands[1]!.reply({ id: 2, kind: 'answer', answer: 'made' });
    expect(await second).toEqual({ kind: 'answer', answer: 'made' });
  });
});
