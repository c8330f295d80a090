import { DENSITY_ADVISED_GL, DENSITY_LIMIT_GL } from '../gas';
import type { Entry } from '../trip/ledger-types';
import { DUST, type Rule } from './rule';
import { DENSITY_SOURCE } from './sources';

/**
 * Breathing gas denser than advised, said once for the trip: on a week of ordinary 30 m dives it would
 * otherwise be said every day.
 * Source: as in the rule.
 */
export const gasDense: Rule = {
  code: 'gas-dense',
  severity: 'know',
  source: DENSITY_SOURCE,
  find: ({ divers }, say) => {
    const dense = new Map<string, Entry>();
    let densest: Entry | null = null;
    for (const { entries } of divers) {
      for (const entry of entries) {
        const gL = entry.gasDensityGL ?? 0;
        if (gL <= DENSITY_ADVISED_GL + DUST || gL > DENSITY_LIMIT_GL + DUST) continue;
        dense.set(entry.dive.id, entry);
        if (densest === null || gL > densest.gasDensityGL!) densest = entry;
      }
    }
    if (densest === null) return [];
    const most = `${say.densityMet(densest.gasDensityGL!)} at ${say.depthMet(densest.depthM)}`;
    const where =
      dense.size === 1
        ? `On one dive the gas has ${most}`
        : `On ${dense.size} dives the gas is dense, up to ${most}`;
    const message = `${where}, above the ${say.densityLimit(DENSITY_ADVISED_GL)} advised: keep work light there and ascend at the first breathlessness.`;
    return [{ diverId: null, diveId: null, atMin: -Infinity, message }];
  },
};
