import { figure, said } from '../words/said';
import { DUST, eachMadeDive, told, WATCH, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';

/** More than the whole single-exposure limit. Source: as in the rule. */
export const cnsOver100: Rule = {
  code: 'cns-over-100',
  severity: 'stop',
  source: NOAA_LIMITS_SOURCE,
  find: eachMadeDive((entry) => {
    const { before, after } = entry.cns;
    if (after === null || after <= 1 + DUST) return null;
    const finding = said`The CNS clock reads ${figure('shareMet', after)} after this dive (${figure('shareMet', before ?? 0)} before it), past the whole limit`;
    return told(entry, finding, said`take a leaner mix, shorten the dive, or rest longer before it`, WATCH);
  }),
};
