import { isAbovePo2 } from '../gas';
import { minutesAbove } from './minutes-above';
import { eachMadeDive, told, type Rule } from './rule';
import { minMet } from './wording';

/** PO2 above the working limit, inside the contingency. Source: as in the rule. */
export const po2AboveWorking: Rule = {
  code: 'po2-above-working',
  severity: 'change',
  source: 'NOAA Diving Program (2015); U.S. Navy Diving Manual, ch. 10: 1.4 as the working limit of PO2',
  find: eachMadeDive((entry, { say }) => {
    const { po2Bar, o2, legs } = entry;
    const { working, contingency } = entry.diver.po2;
    if (po2Bar === null || o2 === null || !isAbovePo2(po2Bar, working) || isAbovePo2(po2Bar, contingency))
      return null;
    const finding =
      `PO2 reaches ${say.po2Met(po2Bar)} and stays above the working ${say.po2Limit(working)} for ` +
      minMet(minutesAbove(legs, o2, working));
    return told(
      entry,
      finding,
      `plan shallower or leaner; up to ${say.po2Limit(contingency)} is for contingencies`,
    );
  }),
};
