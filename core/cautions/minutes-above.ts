import { isAbovePo2 } from '../gas';
import type { Leg } from '../profile';

/**
 * Minutes of a dive with more oxygen pressure than a limit, exact on sloping legs.
 * @param legs in order @param o2 oxygen fraction, 0 to 1 @param limitBar bar
 * @returns minutes
 * Source: pressure runs linearly in a leg.
 */
export function minutesAbove(legs: readonly Leg[], o2: number, limitBar: number): number {
  let minutes = 0;
  for (const leg of legs) {
    const high = o2 * Math.max(leg.fromBar, leg.toBar);
    const low = o2 * Math.min(leg.fromBar, leg.toBar);
    if (!isAbovePo2(high, limitBar)) continue;
    minutes += low >= limitBar ? leg.min : (leg.min * (high - limitBar)) / (high - low);
  }
  return minutes;
}
