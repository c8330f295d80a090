/** What cautions about dives on a breathing loop share. */
import { isAbovePo2 } from '../gas';
import type { Entry, LoopFigures } from '../ledger/ledger-types';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { figure, said, type Said } from '../words/said';
import { eachMadeDive, type Rule } from './rule';

/** Where no publication is named. */
export const LOOP_PRACTICE = said`common practice of diving on loops`;

/** A rule's search through the dives on a loop; on most trips there is none, and no entry is asked. */
export function eachLoop(says: (entry: Entry, loop: LoopFigures) => Said | null): Rule['find'] {
  const find = eachMadeDive((entry) => (entry.loop === null ? null : says(entry, entry.loop)));
  return (ledger) => (ledger.trip.dives.some(({ loops }) => loops !== undefined) ? find(ledger) : []);
}

/** A PO2 at the deepest point above one of the diver's limits; null where it is not, or above 1.6 bar. */
export function aboveLimit(entry: Entry, limit: 'working' | 'contingency'): Said | null {
  const { po2Bar, diver } = entry;
  if (po2Bar === null || !isAbovePo2(po2Bar, diver.po2[limit]) || isAbovePo2(po2Bar, LAST_LIMIT_BAR))
    return null;
  return said`The loop has a PO2 of ${figure('po2Met', po2Bar)} at ${figure('depthMet', entry.depthM)}, above the ${limit === 'working' ? said`working` : said`contingency limit of`} ${figure('po2Limit', diver.po2[limit])}`;
}
