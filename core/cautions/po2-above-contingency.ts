import { isAbovePo2 } from '../gas';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { minutesAbove } from './minutes-above';
import { eachMadeDive, type Rule } from './rule';
import { minMet, po2Limit, po2Met } from './wording';

/** PO2 above the contingency limit, where an oxygen limit still exists. Source: as in the rule. */
export const po2AboveContingency: Rule = {
  code: 'po2-above-contingency',
  severity: 'stop',
  source:
    'M. A. Lang (ed.), DAN Nitrox Workshop Proceedings (2001): 1.6 as the upper bound of PO2; the limit is the one set for the diver',
  find: eachMadeDive(({ po2Bar, o2, legs, diver: { po2 } }) =>
    po2Bar === null ||
    o2 === null ||
    !isAbovePo2(po2Bar, po2.contingency) ||
    isAbovePo2(po2Bar, LAST_LIMIT_BAR)
      ? null
      : `PO2 reaches ${po2Met(po2Bar)}, above the contingency limit of ${po2Limit(po2.contingency)} for ` +
        `${minMet(minutesAbove(legs, o2, po2.contingency))}: do not dive this mix here; plan shallower or leaner.`,
  ),
};
