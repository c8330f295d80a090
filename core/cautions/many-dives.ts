import { dayOf, said } from '../words/said';
import { daysOfDives } from './days';
import { eachDiver, findingAt, type Rule } from './rule';

/** More dives than this in a day are many. Source: common practice. */
const MANY_DIVES_A_DAY = 4;

/** More than four dives in a day, those brought to the trip included. Source: as in the rule. */
export const manyDives: Rule = {
  code: 'many-dives',
  severity: 'know',
  source: said`common practice`,
  find: eachDiver((diverLedger) =>
    daysOfDives(diverLedger).flatMap(({ line, made, brought }) => {
      const tooMany = made[Math.max(0, MANY_DIVES_A_DAY - brought.length)];
      if (tooMany === undefined) return [];
      const says = said`${brought.length + made.length} dives on ${dayOf(line.date)}: watch for tiredness and cold, and leave one out before it is too many.`;
      return [findingAt(tooMany, says)];
    }),
  ),
};
