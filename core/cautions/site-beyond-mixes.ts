import { deepestReachM } from './deepest-reach';
import { DUST, type Rule } from './rule';
import { MOD_SOURCE } from './sources';
import { listed } from './wording';

/**
 * Sites deeper than any mix may go with any of the party. Dives there may well be planned shallower, so it is
 * only to know; said once for all sites.
 * Source: as in the rule.
 */
export const siteBeyondMixes: Rule = {
  code: 'site-beyond-mixes',
  severity: 'know',
  source: MOD_SOURCE,
  find: ({ trip }, say) => {
    const reachM = Math.max(-1, ...trip.party.map((diver) => deepestReachM(diver, trip.mixes, trip)));
    const beyond = trip.sites
      .filter((site) => site.depthM > reachM + DUST)
      .map((site) => `${site.name} (${say.depthMet(site.depthM)})`);
    if (beyond.length === 0 || trip.mixes.length === 0) return [];
    const reach =
      reachM >= 1
        ? `the ${say.depthAllowed(reachM)} that any mix on board allows`
        : 'any mix on board allows';
    const message = `${listed(beyond)} ${beyond.length === 1 ? 'goes' : 'go'} deeper than ${reach}: keep the dives there above that, or bring a leaner mix.`;
    return [{ diverId: null, diveId: null, atMin: -Infinity, message }];
  },
};
