import { said } from '../words/said';
import { LOOP_PRACTICE } from './on-loops';
import type { Rule } from './rule';

/** A loop on the trip at all: said once. Source: as in the rule. */
export const loopTraining: Rule = {
  code: 'loop-training',
  severity: 'know',
  source: LOOP_PRACTICE,
  find: ({ divers }) => {
    const ids = new Set(
      divers.flatMap(({ entries }) => entries.filter(({ loop }) => loop !== null).map(({ dive }) => dive.id)),
    );
    if (ids.size === 0) return [];
    const dives = ids.size === 1 ? said`One dive is` : said`${ids.size} dives are`;
    const says = said`${dives} made on a breathing loop: such diving belongs to training of its own. The plan follows the setpoint, not the cell; in the water what the cells read decides, and they can be wrong.`;
    return [{ diverId: null, diveId: null, atMin: -Infinity, says }];
  },
};
