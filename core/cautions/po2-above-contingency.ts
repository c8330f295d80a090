import { figure, said } from '../words/said';
import { isAbovePo2 } from '../gas';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { minutesAbove } from './minutes-above';
import { eachMadeDive, told, WATCH, type Rule } from './rule';

/** PO2 above the contingency limit, where an oxygen limit still exists. Source: as in the rule. */
export const po2AboveContingency: Rule = {
  code: 'po2-above-contingency',
  severity: 'stop',
  source: said`M. A. Lang (ed.), DAN Nitrox Workshop Proceedings (2001): 1.6 as the upper bound of PO2; the limit is the one set for the diver`,
  find: eachMadeDive((entry) => {
    const { po2Bar, o2, legs } = entry;
    const { contingency } = entry.diver.po2;
    if (
      po2Bar === null ||
      o2 === null ||
      !isAbovePo2(po2Bar, contingency) ||
      isAbovePo2(po2Bar, LAST_LIMIT_BAR)
    )
      return null;
    const finding = said`PO2 reaches ${figure('po2Met', po2Bar)} and stays above the contingency limit of ${figure('po2Limit', contingency)} for ${figure('minutesMet', minutesAbove(legs, o2, contingency))}`;
    return told(entry, finding, said`do not dive this mix here; plan shallower or leaner`, WATCH);
  }),
};
