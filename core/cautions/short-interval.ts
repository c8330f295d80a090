import { DUST, eachMadeDive, type Rule } from './rule';
import { durationDown } from './wording';

/** Shorter than this is a short surface interval. Source: common practice; no published minimum was found. */
const SHORT_INTERVAL_MIN = 60;

/** A surface interval of less than an hour. Source: as in the rule. */
export const shortInterval: Rule = {
  code: 'short-interval',
  severity: 'change',
  source: 'common practice',
  find: eachMadeDive(({ intervalMin }) =>
    intervalMin === null || intervalMin < -DUST || intervalMin >= SHORT_INTERVAL_MIN - DUST
      ? null
      : `Only ${durationDown(intervalMin)} at the surface before this dive: give it an hour or more.`,
  ),
};
