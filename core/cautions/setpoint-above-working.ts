import { said } from '../words/said';
import { aboveLimit, eachLoop } from './on-loops';
import { told, type Rule } from './rule';

/** A setpoint above the working PO2, inside the contingency. Source: as in the rule. */
export const setpointAboveWorking: Rule = {
  code: 'setpoint-above-working',
  severity: 'change',
  source: said`NOAA Diving Program (2015); U.S. Navy Diving Manual, ch. 10: 1.4 as the working limit of PO2`,
  find: eachLoop((entry) => {
    if (aboveLimit(entry, 'contingency') !== null) return null;
    const finding = aboveLimit(entry, 'working');
    return finding && told(entry, finding, said`lower the setpoint, or take a leaner diluent`);
  }),
};
