/** The window's clock: what of a trip under way is past. Core has none and is told. */
import { divesAhead, doneUntilMin } from '../../core/ledger/ahead';
import { wallMin, type WallMin } from '../../core/words/calendar';
import type { Id, Trip } from '../../core/document/types';
import { memo } from './memo';
import { desk, type Desk } from './store';

/** Sets the desk's clock to the minute, by this machine, and goes on doing so; returns how to stop. */
export function startClock(nowText: () => string): () => void {
  const tick = (): void => {
    const nowMin = wallMin(nowText());
    if (desk.getState().nowMin !== nowMin) desk.setState({ nowMin });
  };
  tick();
  const timer = setInterval(tick, 5000);
  return () => clearInterval(timer);
}

const aheadOf = memo((trip: Trip, nowMin: WallMin | null): ReadonlySet<Id> => divesAhead(trip, nowMin));

/** The dives that can still be changed. */
export function selectAhead(state: Desk): ReadonlySet<Id> {
  return aheadOf(state.trip, state.nowMin);
}

const doneUntilOf = memo((trip: Trip, nowMin: WallMin | null): WallMin | null => doneUntilMin(trip, nowMin));

/** Up to when the trip is done, by what is logged and by the clock; null where all is ahead. */
export function selectDoneUntil(state: Desk): WallMin | null {
  return doneUntilOf(state.trip, state.nowMin);
}
