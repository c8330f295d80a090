import { figure, said } from '../words/said';
import { eachLoop, LOOP_PRACTICE } from './on-loops';
import { DUST, told, WATCH, type Rule } from './rule';

/** A scrubber that is used up before the surface. Source: as in the rule. */
export const scrubberShort: Rule = {
  code: 'scrubber-short',
  severity: 'stop',
  source: LOOP_PRACTICE,
  find: eachLoop((entry, { scrubber: { leftMin, usedMin } }) => {
    if (leftMin >= -DUST) return null;
    const finding = said`The scrubber would be used for ${figure('minutesMet', usedMin)} since it was packed, ${figure('minutesMet', -leftMin)} more than it lasts`;
    return told(entry, finding, said`pack it afresh before this dive, or shorten the dive`, WATCH);
  }),
};
