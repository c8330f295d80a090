import type { Site } from '../document/types';
import { surroundingsOfSite } from '../document/waters';
import { figure, listed, said } from '../words/said';
import { deepestReachM } from './deepest-reach';
import { DUST, type Rule } from './rule';
import { MOD_SOURCE } from './sources';
import type { WaterColumn } from '../water';

/**
 * Sites deeper than any mix may go with any of the party. Dives there may well be planned shallower, so it is
 * only to know; said once for all sites.
 * Source: as in the rule.
 */
export const siteBeyondMixes: Rule = {
  code: 'site-beyond-mixes',
  severity: 'know',
  source: MOD_SOURCE,
  find: ({ trip }) => {
    const reaches = new Map<WaterColumn, number>();
    const reachOf = (site: Site): number => {
      const { column } = surroundingsOfSite(trip, site);
      let reachM = reaches.get(column);
      if (reachM === undefined) {
        reachM = Math.max(-1, ...trip.party.map((diver) => deepestReachM(diver, trip.mixes, trip, column)));
        reaches.set(column, reachM);
      }
      return reachM;
    };
    const deep = trip.sites
      .map((site) => ({ site, reachM: reachOf(site) }))
      .filter(({ site, reachM }) => site.depthM > reachM + DUST);
    const beyond = deep.map(({ site }) => said`${site.name} (${figure('depthMet', site.depthM)})`);
    if (beyond.length === 0 || trip.mixes.length === 0) return [];
    // In several waters a mix goes to several depths: the least of them holds everywhere.
    const reachM = Math.min(...deep.map((each) => each.reachM));
    const reach =
      reachM >= 1
        ? said`the ${figure('depthLimit', reachM)} that any mix on board allows`
        : said`any mix on board allows`;
    const deeper =
      beyond.length === 1 ? said`${listed(beyond)} goes deeper` : said`${listed(beyond)} go deeper`;
    const says = said`${deeper} than ${reach}: keep the dives there above that, or bring a leaner mix.`;
    return [{ diverId: null, diveId: null, atMin: -Infinity, says }];
  },
};
