import type { Entry } from '../trip/ledger-types';
import { DUST, eachMadeDive, type Place, type Rule } from './rule';
import { listed, minAllowed, minMet } from './wording';

/** What holds wherever stops come up. Source: common practice. */
export const TRAINING =
  'Required stops are outside no-stop diving, and training decides whether they may be planned at all.';

function cost({ stops }: Entry, { say }: Place): string {
  if (stops === null) return 'No ascent with stops on this mix was found.';
  const each = stops.map((stop) => `${stop.min} min at ${say.depthMet(stop.depthM)}`);
  return each.length === 0 ? '' : `It would cost stops of ${listed(each)}.`;
}

function shorter(noStopMin: number): string {
  return noStopMin >= 1
    ? `shorten the dive to ${minAllowed(noStopMin)} of bottom time, stay shallower, or rest longer before it`
    : 'stay shallower or rest longer before it';
}

/** A bottom time past the no-stop limit. Source: as in the rule. */
export const pastNoStop: Rule = {
  code: 'past-no-stop',
  severity: 'stop',
  source:
    'A. A. Bühlmann, Tauchmedizin (1995), with gradient factors after E. C. Baker (1998); that stops need training of their own is common practice',
  find: eachMadeDive((entry, place) => {
    const { bottomMin, noStopMin, unlimited } = entry;
    if (unlimited || noStopMin === null || bottomMin <= noStopMin + DUST) return null;
    const limit =
      noStopMin > 0
        ? `the no-stop limit of ${minAllowed(noStopMin)}`
        : 'the no-stop limit on arrival already';
    const parts = [
      `${minMet(bottomMin)} of bottom time passes ${limit}: ${shorter(noStopMin)}.`,
      cost(entry, place),
      TRAINING,
    ];
    return parts.filter((part) => part !== '').join(' ');
  }),
};
