import { pastNoStop, TRAINING } from './past-no-stop';
import { eachMadeDive, type Rule } from './rule';
import { listed } from './wording';

/** An earlier level of a dive from whose end a direct ascent was past its limit. Source: as in the rule. */
export const levelPastNoStop: Rule = {
  code: 'level-past-no-stop',
  severity: 'stop',
  source: pastNoStop.source,
  find: eachMadeDive(({ levelsPastLimitM }, { say }) =>
    levelsPastLimitM.length === 0
      ? null
      : `At the end of the level at ${listed(levelsPastLimitM.map(say.depthMet))} a direct ascent is past its no-stop ` +
        `limit, whatever the levels after it give back: shorten that level or make it shallower. ${TRAINING}`,
  ),
};
