import { figure, said } from '../words/said';
import { DUST, eachMadeDive, told, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';

/** Share of the single-exposure limit from which a dive should be changed. Source: common practice. */
const CHANGE_FROM = 0.8;

/** More than 80 % of the single-exposure clock, up to all of it. Source: as in the rule. */
export const cnsOver80: Rule = {
  code: 'cns-over-80',
  severity: 'change',
  source: said`${NOAA_LIMITS_SOURCE}; to keep below 80 % is common practice`,
  find: eachMadeDive((entry) => {
    const { before, after } = entry.cns;
    if (after === null || after <= CHANGE_FROM + DUST || after > 1 + DUST) return null;
    const finding = said`The CNS clock reads ${figure('shareMet', after)} after this dive (${figure('shareMet', before ?? 0)} before it)`;
    return told(entry, finding, said`take a leaner mix, shorten the dive, or rest longer before it`);
  }),
};
