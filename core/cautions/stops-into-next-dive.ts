import { DUST, eachMadeDive, type Rule } from './rule';

/** Stops of a dive, of the trip or brought to it, that last into the next one. Source: as in the rule. */
export const stopsIntoNextDive: Rule = {
  code: 'stops-into-next-dive',
  severity: 'stop',
  source: 'common practice: a dive begins after the one before has ended',
  find: eachMadeDive(({ intervalMin }, { before, say }) =>
    intervalMin === null || intervalMin >= -DUST || before === null
      ? null
      : `This dive starts before the stops of the dive before it are over, at ${say.moment(before.surfacesMin)}: ` +
        (before.isAsDived
          ? 'start this one later.'
          : 'bring that dive inside its no-stop limit, or start this one later.'),
  ),
};
