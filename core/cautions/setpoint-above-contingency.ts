import { said } from '../words/said';
import { aboveLimit, eachLoop } from './on-loops';
import { told, WATCH, type Rule } from './rule';

/** A setpoint above the contingency PO2. Source: as in the rule. */
export const setpointAboveContingency: Rule = {
  code: 'setpoint-above-contingency',
  severity: 'stop',
  source: said`M. A. Lang (ed.), DAN Nitrox Workshop Proceedings (2001): 1.6 as the upper bound of PO2; the limit is the one set for the diver`,
  find: eachLoop((entry) => {
    const finding = aboveLimit(entry, 'contingency');
    return finding && told(entry, finding, said`lower the setpoint, or take a leaner diluent`, WATCH);
  }),
};
