import { figure, said } from '../words/said';
import { DUST, eachMadeDive, told, type Rule } from './rule';

/** More oxygen than the diver may breathe. Source: as in the rule. */
export const richerThanDiver: Rule = {
  code: 'richer-than-diver',
  severity: 'stop',
  source: said`M. A. Lang (ed.), DAN Nitrox Workshop Proceedings (2001), for 40 % with ordinary equipment; the ceiling is the one set for the diver`,
  find: eachMadeDive((entry) => {
    const { o2, diver } = entry;
    if (o2 === null || o2 <= diver.maxO2 + DUST) return null;
    const finding = said`${figure('oxygen', o2)} oxygen is richer than the ${figure('oxygenSet', diver.maxO2)} the diver may breathe`;
    return told(entry, finding, said`give them a mix within their training and equipment`);
  }),
};
