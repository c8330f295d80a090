import { wallMin, wallText } from '../../core/trip/clock';
import type { WallTime } from '../../core/trip/types';
import { selectChosenDive } from '../store/selectors';
import type { Desk } from '../store/store';

/** Start to start, where nobody said when. */
const USUAL_GAP_MIN = 180;
const FIRST_START = '08:00';
const LAST_HOUR_MIN = 19 * 60;

/**
 * Where a new dive goes: three hours after the selected or last one, or on the next morning if that is late.
 * A trip without dives begins two days before its flight, else on `today` ("2027-03-06").
 */
export function nextStart(state: Desk, today: string): WallTime {
  const { dives, flight } = state.trip;
  const after = selectChosenDive(state) ?? dives.at(-1);
  if (!after) {
    if (!flight) return `${today}T${FIRST_START}`;
    const dayBefore = wallMin(flight.at) - 2 * 1440;
    return `${wallText(dayBefore).slice(0, 10)}T${FIRST_START}`;
  }
  const min = wallMin(after.startsAt) + USUAL_GAP_MIN;
  const isLate = min % 1440 > LAST_HOUR_MIN || min % 1440 < USUAL_GAP_MIN;
  if (!isLate) return wallText(min);
  const nextDay = Math.floor(wallMin(after.startsAt) / 1440) + 1;
  return `${wallText(nextDay * 1440).slice(0, 10)}T${FIRST_START}`;
}
