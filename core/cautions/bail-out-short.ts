import { figure, said } from '../words/said';
import { mixSaid } from '../words/terms';
import { eachLoop, LOOP_PRACTICE } from './on-loops';
import { told, WATCH, type Rule } from './rule';

/** Bail-out that does not bring the diver to the surface. Source: as in the rule. */
export const bailOutShort: Rule = {
  code: 'bail-out-short',
  severity: 'stop',
  source: LOOP_PRACTICE,
  find: eachLoop((entry, { bailOut }) => {
    if (bailOut === null) {
      return told(
        entry,
        said`No ascent on the bail-out was found, so the gas it takes is not known`,
        said`stay inside the no-stop limit, or take another bail-out along`,
        WATCH,
      );
    }
    if (bailOut.spareL >= -1e-6) return null;
    const { mixes, fromM, atMin } = bailOut;
    const shortest = mixes.reduce((most, each) =>
      each.holdsL - each.neededL < most.holdsL - most.neededL ? each : most,
    );
    const finding = said`Leaving the loop at ${figure('depthMet', fromM)} after ${figure('minutesMet', atMin)} takes ${figure('gasUsed', shortest.neededL)} of ${mixSaid(shortest.o2)} to the surface, and ${figure('gasLeft', shortest.holdsL)} are along above the reserve`;
    return told(entry, finding, said`take more bail-out along, stay shallower or shorten the dive`, WATCH);
  }),
};
