import { figure, said } from '../words/said';
import { siteOf } from '../document/site-of';
import { keptOut } from '../document/may-dive';
import { eachDive, told, type Rule } from './rule';

/** A diver on a dive at a site that is not for them. Source: what the trip file says of the site. */
export const siteNotForDiver: Rule = {
  code: 'site-not-for-diver',
  severity: 'change',
  source: said`common practice; noted of the site in the trip`,
  find: eachDive((entry, { ledger }) => {
    const site = siteOf(ledger.trip, entry.dive);
    const why = site === undefined ? null : keptOut(site, entry.diver);
    if (site === undefined || why === null) return null;
    const finding =
      why === 'depth'
        ? said`${site.name} is for divers with a depth limit of ${figure('depthSet', site.notFor!.depthLimitUnderM!)} or more; this diver’s is ${figure('depthSet', entry.diver.maxDepthM)}`
        : said`${site.name} is not for ${entry.diver.certification ?? ''}`;
    return told(entry, finding, said`leave the diver out, or choose another site`);
  }),
};
