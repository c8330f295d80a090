import { figure, said, type Said } from '../words/said';
import { someSaid } from '../words/terms';
import { DENSITY_ADVISED_GL, DENSITY_LIMIT_GL } from '../gas';
import { siteName } from '../document/site-of';
import type { Id, Trip } from '../document/types';
import type { Entry } from '../ledger/ledger-types';
import { DUST, type Rule } from './rule';
import { DENSITY_SOURCE } from './sources';

/**
 * What is to be known of dives on which the gas is denser than advised, but not too dense.
 * @returns a sentence; null where there is no such dive
 * Source: as in the rule.
 */
export function denseSentence(
  lists: readonly { readonly entries: readonly Entry[] }[],
  trip: Trip,
): Said | null {
  const dives = new Set<Id>();
  const sites = new Set<string>();
  let densest: Entry | null = null;
  for (const { entries } of lists) {
    for (const entry of entries) {
      const gL = entry.gasDensityGL;
      if (gL === null || gL <= DENSITY_ADVISED_GL + DUST || gL > DENSITY_LIMIT_GL + DUST) continue;
      dives.add(entry.dive.id);
      sites.add(siteName(trip, entry.dive));
      if (densest === null || gL > densest.gasDensityGL!) densest = entry;
    }
  }
  if (densest === null) return null;
  const count = dives.size;
  const most = said`${figure('densityMet', densest.gasDensityGL!)} at ${figure('depthMet', densest.depthM)}`;
  const at = someSaid([...sites]);
  const where =
    count === 1
      ? said`On one dive at ${at} the gas is dense, ${most}`
      : said`On ${count} dives at ${at} the gas is dense, up to ${most}`;
  return said`${where}, above the ${figure('densityLimit', DENSITY_ADVISED_GL)} advised: keep work light there and ascend at the first breathlessness.`;
}

/**
 * Breathing gas denser than advised, said once for the trip: on a week of ordinary 30 m dives it would
 * otherwise be said every day.
 * Source: as in the rule.
 */
export const gasDense: Rule = {
  code: 'gas-dense',
  severity: 'know',
  source: DENSITY_SOURCE,
  find: ({ divers, trip }) => {
    const says = denseSentence(divers, trip);
    return says === null ? [] : [{ diverId: null, diveId: null, atMin: -Infinity, says }];
  },
};
