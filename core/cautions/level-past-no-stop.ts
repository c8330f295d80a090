import type { Entry, EntryLevel } from '../ledger/ledger-types';
import { NO_WAY_UP_BEFORE, pastNoStop, TRAINING } from './past-no-stop';
import { figure, listed, said, sentences } from '../words/said';
import { DUST, eachMadeDive, told, WATCH, type Rule } from './rule';

const NONE: readonly EntryLevel[] = [];

/** The earlier levels from whose end a direct ascent is past the limit. */
function levelsPast({ levels, levelsPastLimitM }: Entry): readonly EntryLevel[] {
  // Asked of every dive, and most pass nothing.
  if (levelsPastLimitM.length === 0) return NONE;
  return levels
    .slice(0, -1)
    .filter(
      ({ depthM, min, noStopMin }) =>
        levelsPastLimitM.includes(depthM) && min > (noStopMin ?? Infinity) - DUST,
    );
}

/** An earlier level of a dive from whose end a direct ascent was past its limit. Source: as in the rule. */
export const levelPastNoStop: Rule = {
  code: 'level-past-no-stop',
  severity: 'stop',
  source: pastNoStop.source,
  find: eachMadeDive((entry) => {
    const past = levelsPast(entry);
    if (past.length === 0) return null;
    const times = listed(
      past.map(
        ({ depthM, min, noStopMin }) =>
          said`${figure('minutesMet', min)} at ${figure('depthMet', depthM)} (at most ${figure('minutesLeft', noStopMin!)})`,
      ),
    );
    const isOne = past.length === 1;
    const finding = isOne
      ? said`${times} pass the no-stop limit of that level, whatever the levels after it give back`
      : said`${times} pass the no-stop limit of those levels, whatever the levels after them give back`;
    const mend = isOne ? said`shorten it or make it shallower` : said`shorten them or make them shallower`;
    const parts = [
      told(entry, finding, mend, WATCH),
      // Where the last level is past its own limit too, its caution says so.
      ...(entry.gas.minimumBar === null && entry.stops?.length === 0 ? [NO_WAY_UP_BEFORE] : []),
      TRAINING,
    ];
    return sentences(parts);
  }),
};
