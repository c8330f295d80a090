import { wallDate } from '../trip/clock';
import { eachDiver, findingAt, type Rule } from './rule';

/** More dives than this in a day are many. Source: common practice. */
const MANY_DIVES_A_DAY = 4;

/** More than four dives in a day. Source: as in the rule. */
export const manyDives: Rule = {
  code: 'many-dives',
  severity: 'know',
  source: 'common practice',
  find: eachDiver(({ entries, days }) =>
    days.flatMap(({ date, dives }) => {
      if (dives <= MANY_DIVES_A_DAY) return [];
      const made = entries.filter((entry) => entry.isMade && wallDate(entry.startMin) === date);
      const message = `${dives} dives on ${date}: watch for tiredness and cold, and leave one out before it is too many.`;
      return [findingAt(made[MANY_DIVES_A_DAY]!, message)];
    }),
  ),
};
