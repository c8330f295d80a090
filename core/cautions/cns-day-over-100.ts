import { figure, said } from '../words/said';
import { DUST, eachMadeDive, told, WATCH, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';

/** More than the whole limit of any 24 hours. Source: as in the rule. */
export const cnsDayOver100: Rule = {
  code: 'cns-day-over-100',
  severity: 'stop',
  source: said`${NOAA_LIMITS_SOURCE}, in any 24 hours`,
  find: eachMadeDive((entry) => {
    const { day } = entry.cns;
    if (day === null || day <= 1 + DUST) return null;
    const finding = said`The oxygen limit of any 24 hours is used to ${figure('shareMet', day)} during this dive`;
    return told(
      entry,
      finding,
      said`take leaner mixes, or leave this dive out and give the clock time`,
      WATCH,
    );
  }),
};
