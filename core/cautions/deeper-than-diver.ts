import { DUST, eachDive, type Rule } from './rule';

/** Deeper than the diver may go. Source: as in the rule. */
export const deeperThanDiver: Rule = {
  code: 'deeper-than-diver',
  severity: 'stop',
  source: 'common practice: plan within training and certification',
  find: eachDive(({ depthM, diver }, { say }) =>
    depthM <= diver.maxDepthM + DUST
      ? null
      : `${say.depthMet(depthM)} is deeper than this diver's limit of ${say.depthAllowed(diver.maxDepthM)}: plan the dive ` +
        `shallower, or leave the diver out of it.`,
  ),
};
