import { setpointBar } from '../breathing';
import { isAbovePo2 } from '../gas';
import { figure, said } from '../words/said';
import { eachLoop, LOOP_PRACTICE } from './on-loops';
import { DUST, told, type Rule } from './rule';

/** A diluent by which the loop stands above its setpoint. Source: as in the rule. */
export const diluentAboveSetpoint: Rule = {
  code: 'diluent-above-setpoint',
  severity: 'change',
  source: LOOP_PRACTICE,
  find: eachLoop((entry, { breathing, diluentModM }) => {
    const { po2Bar, depthM } = entry;
    const setpoint = setpointBar(breathing, depthM);
    if (po2Bar === null || !isAbovePo2(po2Bar, setpoint) || depthM > diluentModM + DUST) return null;
    const finding = said`At ${figure('depthMet', depthM)} the diluent alone has a PO2 of ${figure('po2Met', po2Bar)}, so the loop cannot be held down to its setpoint of ${figure('po2Limit', setpoint)}`;
    return told(entry, finding, said`take a leaner diluent, or a setpoint above that`);
  }),
};
