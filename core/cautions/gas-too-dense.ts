import { DENSITY_LIMIT_GL } from '../gas';
import { DUST, eachMadeDive, told, type Rule } from './rule';
import { DENSITY_SOURCE } from './sources';

/** Breathing gas denser than the limit. Source: as in the rule. */
export const gasTooDense: Rule = {
  code: 'gas-too-dense',
  severity: 'change',
  source: DENSITY_SOURCE,
  find: eachMadeDive((entry, { say }) => {
    const { gasDensityGL } = entry;
    if (gasDensityGL === null || gasDensityGL <= DENSITY_LIMIT_GL + DUST) return null;
    const finding = `At depth the gas has ${say.densityMet(gasDensityGL)}, past the ${say.densityLimit(DENSITY_LIMIT_GL)} not to be exceeded`;
    return told(entry, finding, 'plan shallower, as breathing it takes too much work');
  }),
};
