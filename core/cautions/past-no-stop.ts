import type { Entry } from '../ledger/ledger-types';
import { DUST, eachMadeDive, told, WATCH, type Place, type Rule } from './rule';
import { listed, minAllowed, minMet } from './wording';

/** What holds wherever stops come up. Source: common practice. */
export const TRAINING =
  'Required stops are outside no-stop diving, and training decides whether they may be planned at all.';

/** Why the gas has no figure. */
export const NO_WAY_UP = 'No ascent with stops on this mix was found, so the gas it takes is not known.';

/** The same of minimum gas, where only from an earlier moment there is no way up. */
export const NO_WAY_UP_BEFORE =
  'From before its last level ends no ascent with stops on this mix was found, so its minimum gas is not known.';

function cost({ stops, gas }: Entry, { say }: Place): string {
  if (stops === null) return NO_WAY_UP;
  const each = stops.map((stop) => `${stop.min} min at ${say.depthMet(stop.depthM)}`);
  const costs = each.length === 0 ? [] : [`It would cost stops of ${listed(each)}.`];
  return [...costs, ...(gas.minimumBar === null ? [NO_WAY_UP_BEFORE] : [])].join(' ');
}

function finding(bottomMin: number, noStopMin: number): string {
  return noStopMin > 0
    ? `${minMet(bottomMin)} of bottom time passes the no-stop limit of ${minAllowed(noStopMin)}`
    : 'The no-stop limit is passed on arrival at the last level already';
}

function mend({ noStopMin, intervalMin }: Entry): string {
  const ways = [
    ...((noStopMin ?? 0) >= 1 ? ['shorten it to that'] : []),
    'stay shallower',
    ...(intervalMin === null ? [] : ['rest longer before it']),
  ];
  return listed(ways, 'or');
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
    const parts = [
      told(entry, finding(bottomMin, noStopMin), mend(entry), WATCH),
      cost(entry, place),
      TRAINING,
    ];
    return parts.filter((part) => part !== '').join(' ');
  }),
};
