import { pastNoStop, TRAINING } from './past-no-stop';
import { eachMadeDive, told, WATCH, type Rule } from './rule';
import { listed } from './wording';

/** An earlier level of a dive from whose end a direct ascent was past its limit. Source: as in the rule. */
export const levelPastNoStop: Rule = {
  code: 'level-past-no-stop',
  severity: 'stop',
  source: pastNoStop.source,
  find: eachMadeDive((entry, { say }) => {
    if (entry.levelsPastLimitM.length === 0) return null;
    const finding =
      `At the end of the level at ${listed(entry.levelsPastLimitM.map(say.depthMet))} a direct ascent is past its ` +
      `no-stop limit, whatever the levels after it give back`;
    return `${told(entry, finding, 'shorten that level or make it shallower', WATCH)} ${TRAINING}`;
  }),
};
