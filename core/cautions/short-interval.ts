import { said, span } from '../words/said';
import { DUST, eachMadeDive, told, type Rule } from './rule';

/** Shorter than this is a short surface interval. Source: common practice; no published minimum was found. */
const SHORT_INTERVAL_MIN = 60;

/** A surface interval of less than an hour, after a dive of the trip or one brought to it. Source: as in the rule. */
export const shortInterval: Rule = {
  code: 'short-interval',
  severity: 'change',
  source: said`common practice`,
  find: eachMadeDive((entry) => {
    const { intervalMin } = entry;
    if (intervalMin === null || intervalMin < -DUST || intervalMin >= SHORT_INTERVAL_MIN - DUST) return null;
    const finding = said`Only ${span(intervalMin, 'down')} at the surface before this dive`;
    return told(entry, finding, said`give it an hour or more`);
  }),
};
