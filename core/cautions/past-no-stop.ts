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

/** Of several levels the last one is measured by its own limit: the whole time stands beside no depth. */
function finding({ levels }: Entry): Said {
  const { depthM, min, noStopMin } = levels[levels.length - 1]!;
  const isOnly = levels.length === 1;
  const depth = figure('depthMet', depthM);
  if (!noStopMin) {
    return isOnly
      ? said`The no-stop limit is passed on arrival already`
      : said`The no-stop limit is passed on arrival at the last level, at ${depth}, already`;
  }
  const [time, most] = [figure('minutesMet', min), figure('minutesLeft', noStopMin)];
  return isOnly
    ? said`${time} of bottom time passes the no-stop limit of ${most}`
    : said`${time} on the last level, at ${depth}, passes its no-stop limit of ${most}`;
}

function mend({ levels, intervalMin }: Entry): Said {
  const { noStopMin } = levels[levels.length - 1]!;
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
    return sentences([told(entry, finding(entry), mend(entry), WATCH), cost(entry), TRAINING]);
  }),
};
