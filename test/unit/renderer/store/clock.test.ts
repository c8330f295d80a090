import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { wallMin } from '../../../../core/words/calendar';
import { selectAhead, selectDoneUntil, startClock } from '../../../../renderer/store/clock';
import { desk, freshDesk } from '../../../../renderer/store/store';

beforeEach(() => {
  vi.useFakeTimers();
  desk.setState(freshDesk(demoTrip()));
});
afterEach(() => vi.useRealTimers());

describe('the clock of the window', () => {
  it('moves what is ahead along, minute by minute, and stops when told', () => {
    let now = '2027-03-16T07:29';
    const stop = startClock(() => now);
    const before = selectAhead(desk.getState());
    expect(selectDoneUntil(desk.getState())).toBe(wallMin(now));
    now = '2027-03-16T20:40';
    vi.advanceTimersByTime(60_000);
    const after = selectAhead(desk.getState());
    expect(after.size).toBeLessThan(before.size);
    expect([...after].every((id) => before.has(id))).toBe(true);
    stop();
    now = '2027-03-17T20:40';
    vi.advanceTimersByTime(600_000);
    expect(selectAhead(desk.getState())).toBe(after);
  });
});
