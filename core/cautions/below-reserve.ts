import { figure, said } from '../words/said';
import { lasts } from './gas-lasts';
import { eachMadeDive, told, type Rule } from './rule';

/** Less than the reserve at the surface. Source: as in the rule. */
export const belowReserve: Rule = {
  code: 'below-reserve',
  severity: 'change',
  source: said`common practice: the reserve set for the diver stays in the cylinder`,
  find: eachMadeDive((entry, place) => {
    const { endBar } = entry.gas;
    const { reserveBar } = entry.diver.cylinder;
    if (endBar === null || endBar >= reserveBar - 1e-6) return null;
    const finding = said`${figure('pressureLeft', endBar)} is left at the surface, less than the reserve of ${figure('pressureNeeded', reserveBar)}, which is reached ${lasts(entry, reserveBar, place)}`;
    return told(entry, finding, said`shorten the dive, or take a larger cylinder`);
  }),
};
