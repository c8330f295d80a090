// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { setDepth } from '../../../../renderer/actions/dives';
import { chooseDives } from '../../../../renderer/actions/view';
import { Announcer } from '../../../../renderer/frame/announcer';
import { selectTightest } from '../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../renderer/store/store';

beforeEach(() => {
  vi.useFakeTimers();
  desk.setState(freshDesk(), true);
  render(<Announcer />);
});
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

/** What is said once the hand has rested, and what words the change has been loaded. */
async function expectHeard(text: RegExp): Promise<void> {
  vi.advanceTimersByTime(1000);
  vi.useRealTimers();
  await expect.poll(() => screen.getByRole('status').textContent).toMatch(text);
}

function open(): void {
  desk.setState(freshDesk(demoTrip()), true);
}

function deepenTightest(): void {
  const { id } = selectTightest(desk.getState())!.dive;
  chooseDives([id]);
  setDepth(id, 38);
}

describe('the live region', () => {
  it('says of a trip that is opened how tight it is', async () => {
    open();
    await expectHeard(/^Tightest is dive \d+, [^.]*\.$/);
  });

  it('says the cautions of an edit that comes at once after a trip was opened', async () => {
    open();
    vi.advanceTimersByTime(100);
    deepenTightest();
    await expectHeard(/^Dive 13: past the diver’s depth limit\. (\d+|[A-Z][a-z]+) new cautions\.$/);
  });
});
