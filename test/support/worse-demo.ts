import { demoTrip } from '../../core/document/demo-trip';
import type { Trip } from '../../core/document/types';

/** The demo trip with Wednesday's third dive 15 minutes longer and an hour earlier: past its limit, and too soon. */
export function worseDemo(): Trip {
  const demo = demoTrip();
  return {
    ...demo,
    dives: demo.dives.map((dive) =>
      dive.id === 'd13' ? { ...dive, bottomMin: dive.bottomMin + 15, startsAt: '2027-03-17T10:35' } : dive,
    ),
  };
}

/** Before this Wednesday has not begun. */
export const WEDNESDAY_MORNING = '2027-03-17T06:00';
