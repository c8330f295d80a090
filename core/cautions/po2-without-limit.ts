import { figure, said } from '../words/said';
import { isAbovePo2 } from '../gas';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { eachMadeDive, told, WATCH, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';

/** PO2 above 1.6 bar, where no oxygen limit is published. Source: as in the rule. */
export const po2WithoutLimit: Rule = {
  code: 'po2-without-limit',
  severity: 'stop',
  source: said`${NOAA_LIMITS_SOURCE}: the table ends at 1.6`,
  find: eachMadeDive((entry) => {
    const { po2Bar } = entry;
    if (po2Bar === null || !isAbovePo2(po2Bar, LAST_LIMIT_BAR)) return null;
    const finding = said`PO2 reaches ${figure('po2Met', po2Bar)}, above ${figure('po2Limit', LAST_LIMIT_BAR)}, where no exposure limit exists`;
    return said`${told(entry, finding, said`do not dive this mix here`, WATCH)} CNS shares have no figure for this dive and those after it.`;
  }),
};
