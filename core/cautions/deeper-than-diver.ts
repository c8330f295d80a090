import { DUST, eachDive, told, type Rule } from './rule';

/** Deeper than the diver may go. Source: as in the rule. */
export const deeperThanDiver: Rule = {
  code: 'deeper-than-diver',
  severity: 'stop',
  source: 'common practice: plan within training and certification',
  find: eachDive((entry, { say }) => {
    const { depthM, diver } = entry;
    if (depthM <= diver.maxDepthM + DUST) return null;
    const finding = `${say.depthMet(depthM)} is deeper than the diver's limit of ${say.depthSet(diver.maxDepthM)}`;
    return told(entry, finding, 'plan the dive shallower, or leave the diver out of it');
  }),
};
