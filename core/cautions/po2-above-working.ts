import { figure, said } from '../words/said';
import { isAbovePo2 } from '../gas';
import { minutesAbove } from './minutes-above';
import { eachMadeDive, told, type Rule } from './rule';

/** PO2 above the working limit, inside the contingency. Source: as in the rule. */
export const po2AboveWorking: Rule = {
  code: 'po2-above-working',
  severity: 'change',
  source: said`NOAA Diving Program (2015); U.S. Navy Diving Manual, ch. 10: 1.4 as the working limit of PO2`,
  find: eachMadeDive((entry) => {
    const { po2Bar, o2, legs } = entry;
    const { working, contingency } = entry.diver.po2;
    if (po2Bar === null || o2 === null || !isAbovePo2(po2Bar, working) || isAbovePo2(po2Bar, contingency))
      return null;
    const finding = said`PO2 reaches ${figure('po2Met', po2Bar)} and stays above the working ${figure('po2Limit', working)} for ${figure('minutesMet', minutesAbove(legs, o2, working))}`;
    return told(
      entry,
      finding,
      said`plan shallower or leaner; up to ${figure('po2Limit', contingency)} is for contingencies`,
    );
  }),
};
