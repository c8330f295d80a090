import { loopOn } from '../document/loops';
import type { Cylinder } from '../document/types';
import type { LoopGas } from '../ledger/ledger-types';
import { figure, said, sentences, type Said } from '../words/said';
import { eachLoop, LOOP_PRACTICE } from './on-loops';
import { told, WATCH, type Rule } from './rule';

/** What of a cylinder is missing; null where it lasts, with its reserve. */
function lasts(name: Said, { leftBar }: LoopGas, { reserveBar }: Cylinder): Said | null {
  if (leftBar === null) return said`The ${name} of the loop does not last to the surface`;
  if (leftBar >= reserveBar - 1e-6) return null;
  return said`${figure('pressureLeft', leftBar)} of ${name} are left in the loop’s cylinder, less than its reserve of ${figure('pressureNeeded', reserveBar)}`;
}

/** Oxygen or diluent of a loop that does not last. Source: as in the rule. */
export const loopGasShort: Rule = {
  code: 'loop-gas-short',
  severity: 'stop',
  source: LOOP_PRACTICE,
  find: eachLoop((entry, { oxygen, diluentGas }) => {
    const { gear } = loopOn(entry.dive, entry.diver)!;
    const found = [
      lasts(said`oxygen`, oxygen, gear.oxygenCylinder),
      lasts(said`diluent`, diluentGas, gear.diluentCylinder),
    ].filter((each) => each !== null);
    if (found.length === 0) return null;
    const mend = said`take a larger cylinder, or shorten the dive`;
    return sentences(found.map((finding) => told(entry, finding, mend, WATCH)));
  }),
};
