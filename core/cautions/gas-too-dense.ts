import { figure, said } from '../words/said';
import { DENSITY_LIMIT_GL } from '../gas';
import { DUST, eachMadeDive, told, type Rule } from './rule';
import { DENSITY_SOURCE } from './sources';

/** Breathing gas denser than the limit. Source: as in the rule. */
export const gasTooDense: Rule = {
  code: 'gas-too-dense',
  severity: 'change',
  source: DENSITY_SOURCE,
  find: eachMadeDive((entry) => {
    const { gasDensityGL } = entry;
    if (gasDensityGL === null || gasDensityGL <= DENSITY_LIMIT_GL + DUST) return null;
    const finding = said`At depth the gas has ${figure('densityMet', gasDensityGL)}, past the ${figure('densityLimit', DENSITY_LIMIT_GL)} not to be exceeded`;
    return told(entry, finding, said`plan shallower, as breathing it takes too much work`);
  }),
};
