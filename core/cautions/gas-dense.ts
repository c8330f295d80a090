import { figure, said, type Said } from '../words/said';
import { DENSITY_ADVISED_GL, DENSITY_LIMIT_GL } from '../gas';
import type { Entry } from '../ledger/ledger-types';
import { DUST, type Rule } from './rule';
import { DENSITY_SOURCE } from './sources';

/**
 * What is to be known of dives on which the gas is denser than advised, but not too dense.
 * @returns a sentence; null where there is no such dive
 * Source: as in the rule.
 */
export function denseSentence(entries: readonly Entry[]): Said | null {
  const dense = entries.filter(
    ({ gasDensityGL: gL }) => gL !== null && gL > DENSITY_ADVISED_GL + DUST && gL <= DENSITY_LIMIT_GL + DUST,
  );
  const [first] = dense;
  if (first === undefined) return null;
  const densest = dense.reduce(
    (most, each) => (each.gasDensityGL! > most.gasDensityGL! ? each : most),
    first,
  );
  const count = new Set(dense.map(({ dive }) => dive.id)).size;
  const most = said`${figure('densityMet', densest.gasDensityGL!)} at ${figure('depthMet', densest.depthM)}`;
  const where =
    count === 1
      ? said`On one dive the gas has ${most}`
      : said`On ${count} dives the gas is dense, up to ${most}`;
  return said`${where}, above the ${figure('densityLimit', DENSITY_ADVISED_GL)} advised: keep work light there and ascend at the first breathlessness.`;
}

/**
 * Breathing gas denser than advised, said once for the trip: on a week of ordinary 30 m dives it would
 * otherwise be said every day.
 * Source: as in the rule.
 */
export const gasDense: Rule = {
  code: 'gas-dense',
  severity: 'know',
  source: DENSITY_SOURCE,
  find: ({ divers }) => {
    const says = denseSentence(divers.flatMap(({ entries }) => entries));
    return says === null ? [] : [{ diverId: null, diveId: null, atMin: -Infinity, says }];
  },
};
