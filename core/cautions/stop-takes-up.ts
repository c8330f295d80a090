import { figure, said } from '../words/said';
import { DUST, eachMadeDive, told, type Rule } from './rule';

/**
 * A dive inside its no-stop limit that surfaces past it after its safety stop: near the bottom of a shallow dive, slow
 * tissues go on taking up nitrogen there.
 * Source: as in the rule.
 */
export const stopTakesUp: Rule = {
  code: 'stop-takes-up',
  severity: 'change',
  source: said`J. S. Haldane’s solution for the stop; A. A. Bühlmann, Tauchmedizin (1995), with gradient factors after E. C. Baker (1998)`,
  find: eachMadeDive((entry) => {
    const { isPastLimit, leading } = entry;
    if (isPastLimit || leading.fractionOfLimit <= 1 + DUST) return null;
    const finding = said`With its safety stop, which takes up more nitrogen than it gives off, this dive surfaces at ${figure('shareMet', leading.fractionOfLimit)} of the limit, without it within the limit`;
    return told(entry, finding, said`make the stop shallower, leave it out, or shorten the dive`);
  }),
};
