import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host } from '../../../../core/host';
import { longWork, SHOWN_AFTER_MS } from '../../../../renderer/parts/task-bar';
import { setMachine } from '../../../../renderer/store/machine';

const told: (number | null)[] = [];

beforeEach(() => {
  vi.useFakeTimers();
  told.length = 0;
  setMachine({ reportWork: (share: number | null) => void told.push(share) } as Host);
});
afterEach(() => void vi.useRealTimers());

describe('longWork', () => {
  it('says nothing of work that is over before anybody looks', () => {
    const work = longWork();
    work.progress(1, 2);
    vi.advanceTimersByTime(SHOWN_AFTER_MS - 1);
    work.end();
    vi.advanceTimersByTime(SHOWN_AFTER_MS);
    expect(told).toEqual([]);
  });

  it('tells how far lasting work is, and its end once', () => {
    const work = longWork();
    work.progress(1, 4);
    vi.advanceTimersByTime(SHOWN_AFTER_MS);
    work.progress(2, 4);
    work.progress(0, 0);
    work.end();
    work.end();
    expect(told).toEqual([0.25, 0.5, 0, null]);
  });

  it('shows of several the one that is furthest behind', () => {
    const [one, other] = [longWork(), longWork()];
    vi.advanceTimersByTime(SHOWN_AFTER_MS);
    one.progress(3, 4);
    other.progress(1, 4);
    other.end();
    one.end();
    expect(told.slice(2)).toEqual([0, 0.25, 0.75, null]);
  });
});
