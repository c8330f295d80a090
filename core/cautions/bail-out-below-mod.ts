import { figure, said } from '../words/said';
import { eachLoop } from './on-loops';
import { DUST, told, WATCH, type Rule } from './rule';
import { MOD_SOURCE } from './sources';

/** No bail-out that may be breathed at the deepest point. Source: as in the rule. */
export const bailOutBelowMod: Rule = {
  code: 'bail-out-below-mod',
  severity: 'stop',
  source: MOD_SOURCE,
  find: eachLoop((entry, { bailOutModM }) => {
    if (entry.depthM <= bailOutModM + DUST) return null;
    const finding = said`No bail-out may be breathed at ${figure('depthMet', entry.depthM)}: the leanest has a MOD of ${figure('depthLimit', bailOutModM)} at a PO2 of ${figure('po2Limit', entry.diver.po2.working)}`;
    return told(entry, finding, said`take a leaner bail-out along, or stay above it`, WATCH);
  }),
};
