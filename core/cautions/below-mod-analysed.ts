import { belowModSaid } from './below-mod';
import { eachMadeDive, type Rule } from './rule';
import { MOD_SOURCE } from './sources';

/** A dive below the MOD of its mix as analysed. Source: as in the rule. */
export const belowModAnalysed: Rule = {
  code: 'below-mod-analysed',
  severity: 'stop',
  source: MOD_SOURCE,
  find: eachMadeDive((entry, place) => belowModSaid(entry, place, true)),
};
