import { figure, listed, NOTHING, said, sentences, type Said } from '../words/said';
import type { Entry } from '../ledger/ledger-types';
import { DUST, eachMadeDive, told, WATCH, type Rule } from './rule';

/** What holds wherever stops come up. Source: common practice. */
export const TRAINING = said`Required stops are outside no-stop diving, and training decides whether they may be planned at all.`;

/** Why the gas has no figure. */
export const NO_WAY_UP = said`No ascent with stops on this mix was found, so the gas it takes is not known.`;

/** The same of minimum gas, where only from an earlier moment there is no way up. */
export const NO_WAY_UP_BEFORE = said`From before its last level ends no ascent with stops on this mix was found, so its minimum gas is not known.`;

function cost({ stops, gas }: Entry): Said {
  if (stops === null) return NO_WAY_UP;
  const each = stops.map(
    (stop) => said`${figure('minutesMet', stop.min)} at ${figure('depthMet', stop.depthM)}`,
  );
  const costs = each.length === 0 ? NOTHING : said`It would cost stops of ${listed(each)}.`;
  return sentences([costs, gas.minimumBar === null ? NO_WAY_UP_BEFORE : NOTHING]);
}

function finding(bottomMin: number, noStopMin: number): Said {
  return noStopMin > 0
    ? said`${figure('minutesMet', bottomMin)} of bottom time passes the no-stop limit of ${figure('minutesLeft', noStopMin)}`
    : said`The no-stop limit is passed on arrival at the last level already`;
}

function mend({ noStopMin, intervalMin }: Entry): Said {
  const ways = [
    ...((noStopMin ?? 0) >= 1 ? [said`shorten it to that`] : []),
    said`stay shallower`,
    ...(intervalMin === null ? [] : [said`rest longer before it`]),
  ];
  return said`${listed(ways, 'or')}`;
}

/** A bottom time past the no-stop limit. Source: as in the rule. */
export const pastNoStop: Rule = {
  code: 'past-no-stop',
  severity: 'stop',
  source: said`A. A. Bühlmann, Tauchmedizin (1995), with gradient factors after E. C. Baker (1998); that stops need training of their own is common practice`,
  find: eachMadeDive((entry) => {
    const { bottomMin, noStopMin, unlimited } = entry;
    if (unlimited || noStopMin === null || bottomMin <= noStopMin + DUST) return null;
    const parts = [told(entry, finding(bottomMin, noStopMin), mend(entry), WATCH), cost(entry), TRAINING];
    return sentences(parts);
  }),
};
