import type { Stop } from '../profile';
import { figure, inRow, NOTHING, said, type Said } from '../words/said';

/**
 * What a passed limit would cost, to the deeper side as on slates; nothing inside it.
 * @param stops deepest first; null where no ascent on this gas was found
 * Source: CONVENTIONS, "Room": exposures are rounded up.
 */
export function stopsSaid(stops: readonly Stop[] | null): Said {
  if (stops === null) return said`no ascent on this gas is found`;
  if (stops.length === 0) return NOTHING;
  return said`${inRow(stops.map(({ depthM, min }) => said`${figure('minutesMet', min)} at ${figure('depthMet', depthM)}`))}`;
}
