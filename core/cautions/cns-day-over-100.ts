import { DUST, eachMadeDive, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';
import { percentMet } from './wording';

/** More than the whole limit of any 24 hours. Source: as in the rule. */
export const cnsDayOver100: Rule = {
  code: 'cns-day-over-100',
  severity: 'stop',
  source: `${NOAA_LIMITS_SOURCE}, in any 24 hours`,
  find: eachMadeDive(({ cns: { day } }) =>
    day === null || day <= 1 + DUST
      ? null
      : `The oxygen limit of any 24 hours is used to ${percentMet(day)} during this dive: take leaner mixes, or leave ` +
        `this dive out and give the clock time.`,
  ),
};
