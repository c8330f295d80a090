import { momentAt } from '../words/calendar';
import { said } from '../words/said';
import { DUST, eachMadeDive, type Rule } from './rule';

/** Stops of a dive, of the trip or brought to it, that last into the next one. Source: as in the rule. */
export const stopsIntoNextDive: Rule = {
  code: 'stops-into-next-dive',
  severity: 'stop',
  source: said`common practice: a dive begins after the one before has ended`,
  find: eachMadeDive(({ intervalMin }, { before }) => {
    if (intervalMin === null || intervalMin >= -DUST || before === null) return null;
    const over = said`This dive starts before the stops of the dive before it are over, at ${momentAt(before.surfacesMin)}`;
    return before.isAsDived
      ? said`${over}: start this one later.`
      : said`${over}: bring that dive inside its no-stop limit, or start this one later.`;
  }),
};
