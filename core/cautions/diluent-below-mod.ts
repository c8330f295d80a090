import { figure, said } from '../words/said';
import { mixSaid } from '../words/terms';
import { eachLoop } from './on-loops';
import { DUST, told, WATCH, type Rule } from './rule';
import { MOD_SOURCE } from './sources';

/** A diluent that is too rich for the depth. Source: as in the rule. */
export const diluentBelowMod: Rule = {
  code: 'diluent-below-mod',
  severity: 'stop',
  source: MOD_SOURCE,
  find: eachLoop((entry, { breathing, diluentModM }) => {
    if (entry.depthM <= diluentModM + DUST) return null;
    const finding = said`${figure('depthMet', entry.depthM)} is below the MOD of ${figure('depthLimit', diluentModM)} of the diluent, ${mixSaid(breathing.diluentO2)}, at a PO2 of ${figure('po2Limit', entry.diver.po2.working)}: flushing the loop with it does not bring PO2 down`;
    return told(entry, finding, said`take a leaner diluent, or stay above it`, WATCH);
  }),
};
