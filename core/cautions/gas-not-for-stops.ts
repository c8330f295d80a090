import { said } from '../words/said';
import { lasts } from './gas-lasts';
import { eachMadeDive, told, WATCH, type Rule } from './rule';
import { SUPPLY_SOURCE } from './sources';

/** Gas that does not last through the required stops. Source: as in the rule. */
export const gasNotForStops: Rule = {
  code: 'gas-not-for-stops',
  severity: 'stop',
  source: SUPPLY_SOURCE,
  find: eachMadeDive((entry, place) => {
    if (entry.gas.usedL === null || entry.gas.endBar !== null || (entry.stops?.length ?? 0) === 0)
      return null;
    const finding = said`The gas does not last through the required stops; it is breathed up ${lasts(entry, 0, place)}`;
    return told(entry, finding, said`stay inside the no-stop limit`, WATCH);
  }),
};
