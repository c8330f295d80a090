import { figure, said } from '../words/said';
import { DUST, eachDive, told, type Rule } from './rule';

/** Deeper than the diver may go. Source: as in the rule. */
export const deeperThanDiver: Rule = {
  code: 'deeper-than-diver',
  severity: 'stop',
  source: said`common practice: plan within training and certification`,
  find: eachDive((entry) => {
    const { depthM, diver } = entry;
    if (depthM <= diver.maxDepthM + DUST) return null;
    const finding = said`${figure('depthMet', depthM)} is deeper than the diver’s limit of ${figure('depthSet', diver.maxDepthM)}`;
    return told(entry, finding, said`plan the dive shallower, or leave the diver out of it`);
  }),
};
