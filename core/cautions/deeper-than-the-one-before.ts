import { figure, said } from '../words/said';
import { dayNumber } from '../words/calendar';
import type { Entry } from '../ledger/ledger-types';
import { DUST, eachMadeDive, told, type Place, type Rule } from './rule';

/** The next dive may be so much deeper than the one before, and so deep. Source: Reverse Dive Profiles Workshop. */
const REVERSE_BY_M = 12;
const REVERSE_BEYOND_M = 40;

/** Dives this close belong together even over midnight. Source: common practice. */
const SAME_SERIES_MIN = 360;

/** Depth of the dive just before, on the trip or brought to it, where both belong to one series. */
function depthBeforeM({ intervalMin, startMin }: Entry, { before }: Place): number | null {
  if (intervalMin === null || before === null) return null;
  const isSameSeries = intervalMin < SAME_SERIES_MIN;
  return isSameSeries || dayNumber(before.startMin) === dayNumber(startMin) ? before.depthM : null;
}

/** A dive much deeper than the one before it, or beyond 40 m after a shallower one. Source: as in the rule. */
export const deeperThanTheOneBefore: Rule = {
  code: 'deeper-than-the-one-before',
  severity: 'change',
  source: said`M. A. Lang, C. E. Lehner (eds), Reverse Dive Profiles Workshop, Smithsonian Institution (2000): no reason against it within no-stop limits, above 40 m and by less than 12 m`,
  find: eachMadeDive((entry, place) => {
    const beforeM = depthBeforeM(entry, place);
    if (beforeM === null || entry.depthM <= beforeM) return null;
    const mend = said`make the deeper dive first, or bring the two closer together`;
    if (entry.depthM - beforeM > REVERSE_BY_M + DUST) {
      const finding = said`This dive to ${figure('depthMet', entry.depthM)} follows one to ${figure('depthMet', beforeM)}, more than ${figure('depthLimit', REVERSE_BY_M)} shallower`;
      return told(entry, finding, mend);
    }
    return entry.depthM > REVERSE_BEYOND_M + DUST
      ? told(
          entry,
          said`This dive goes beyond ${figure('depthLimit', REVERSE_BEYOND_M)} after a shallower one`,
          mend,
        )
      : null;
  }),
};
