import { isAbovePo2 } from '../gas';
import { minutesAbove } from './minutes-above';
import { eachMadeDive, type Rule } from './rule';
import { minMet, po2Limit, po2Met } from './wording';

/** PO2 above the working limit, inside the contingency. Source: as in the rule. */
export const po2AboveWorking: Rule = {
  code: 'po2-above-working',
  severity: 'change',
  source: 'NOAA Diving Program (2015); U.S. Navy Diving Manual, ch. 10: 1.4 as the working limit of PO2',
  find: eachMadeDive(({ po2Bar, o2, legs, diver: { po2 } }) =>
    po2Bar === null || o2 === null || !isAbovePo2(po2Bar, po2.working) || isAbovePo2(po2Bar, po2.contingency)
      ? null
      : `PO2 reaches ${po2Met(po2Bar)} and stays above the working ${po2Limit(po2.working)} for ` +
        `${minMet(minutesAbove(legs, o2, po2.working))}: the ${po2Limit(po2.contingency)} beyond it is for ` +
        `contingencies, so plan shallower or leaner.`,
  ),
};
