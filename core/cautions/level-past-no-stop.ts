import { NO_WAY_UP_BEFORE, pastNoStop, TRAINING } from './past-no-stop';
import { figure, listed, said, sentences } from '../words/said';
import { eachMadeDive, told, WATCH, type Rule } from './rule';

/** An earlier level of a dive from whose end a direct ascent was past its limit. Source: as in the rule. */
export const levelPastNoStop: Rule = {
  code: 'level-past-no-stop',
  severity: 'stop',
  source: pastNoStop.source,
  find: eachMadeDive((entry) => {
    if (entry.levelsPastLimitM.length === 0) return null;
    const depths = listed(entry.levelsPastLimitM.map((depthM) => figure('depthMet', depthM)));
    const finding = said`At the end of the level at ${depths} a direct ascent is past its no-stop limit, whatever the levels after it give back`;
    const parts = [
      told(entry, finding, said`shorten that level or make it shallower`, WATCH),
      // Where the last level is past its own limit too, its caution says so.
      ...(entry.gas.minimumBar === null && entry.stops?.length === 0 ? [NO_WAY_UP_BEFORE] : []),
      TRAINING,
    ];
    return sentences(parts);
  }),
};
