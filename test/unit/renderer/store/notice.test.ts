import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { chooseDives } from '../../../../renderer/actions/view';
import { say } from '../../../../renderer/store/notice';
import { desk, freshDesk } from '../../../../renderer/store/store';

const NOTICE = { tone: 'refused', lines: [{ what: 'Too deep.', where: '', mend: '' }] } as const;

describe('a notice', () => {
  beforeEach(() => {
    vi.useFakeTimers({ toFake: ['performance'] });
    desk.setState(freshDesk());
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('stays where something else is chosen in the same breath: a field may be refused by that very press', () => {
    say(NOTICE);
    chooseDives(['dive-2']);
    expect(desk.getState().notice).toEqual(NOTICE);
  });

  it('goes with the next thing that is looked at, once it was there to read', () => {
    say(NOTICE);
    vi.advanceTimersByTime(2001);
    expect(desk.getState().notice).toEqual(NOTICE);
    chooseDives(['dive-2']);
    expect(desk.getState().notice).toBeNull();
  });
});
