import { siteOf } from '../document/site-of';
import { figure, said } from '../words/said';
import { DUST, eachDive, told, type Rule } from './rule';

/** A dive deeper than its site goes down: one of the two depths, or the site, is not the one that was meant. */
export const deeperThanSite: Rule = {
  code: 'deeper-than-site',
  severity: 'change',
  source: said`common practice`,
  find: eachDive((entry, { ledger }) => {
    const site = siteOf(ledger.trip, entry.dive);
    if (site === undefined || entry.depthM <= site.depthM + DUST) return null;
    const finding = said`${figure('depthMet', entry.depthM)} is deeper than ${site.name}, which goes down to ${figure('depthSet', site.depthM)}`;
    return told(
      entry,
      finding,
      said`plan the dive no deeper, choose the site that was meant, or mend the depth of this one`,
      said`if the site is as deep as that, mend its depth`,
    );
  }),
};
