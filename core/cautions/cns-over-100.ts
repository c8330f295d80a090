import { DUST, eachMadeDive, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';
import { percentMet } from './wording';

/** More than the whole single-exposure limit. Source: as in the rule. */
export const cnsOver100: Rule = {
  code: 'cns-over-100',
  severity: 'stop',
  source: NOAA_LIMITS_SOURCE,
  find: eachMadeDive(({ cns: { before, after } }) =>
    after === null || after <= 1 + DUST
      ? null
      : `The CNS clock reads ${percentMet(after)} after this dive (${percentMet(before ?? 0)} before it), past the whole ` +
        `limit: do not dive it so; take a leaner mix, shorten it, or rest longer before it.`,
  ),
};
