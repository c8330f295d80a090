import { figure, said } from '../words/said';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { eachDiver, findingAt, type Rule } from './rule';
import { NOAA_LIMITS_SOURCE } from './sources';

/** The first dive without a CNS figure because an earlier one passed 1.6 bar. Source: as in the rule. */
export const cnsUnknown: Rule = {
  code: 'cns-unknown',
  severity: 'know',
  source: NOAA_LIMITS_SOURCE,
  find: eachDiver(({ entries }) => {
    const first = entries.find(
      ({ cns, exposure }) => exposure !== null && exposure.pieces !== null && cns.after === null,
    );
    const says = said`From this dive on there is no CNS share, as a dive before it passed a PO2 of ${figure('po2Limit', LAST_LIMIT_BAR)}, where no limit exists: change that dive first.`;
    return first === undefined ? [] : [findingAt(first, says)];
  }),
};
