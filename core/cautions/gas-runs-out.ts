import { said } from '../words/said';
import { lasts } from './gas-lasts';
import { eachMadeDive, told, type Rule } from './rule';
import { SUPPLY_SOURCE } from './sources';

/** Gas that does not last to the surface, with or without required stops. Source: as in the rule. */
export const gasRunsOut: Rule = {
  code: 'gas-runs-out',
  severity: 'stop',
  source: SUPPLY_SOURCE,
  find: eachMadeDive((entry, place) => {
    if (entry.gas.usedL === null || entry.gas.endBar !== null || (entry.stops?.length ?? 0) > 0) return null;
    const finding = said`The gas is breathed up ${lasts(entry, 0, place)}, before the surface`;
    return told(entry, finding, said`shorten the dive, stay shallower, or take a larger cylinder`);
  }),
};
