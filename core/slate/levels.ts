import { said } from '../words/said';
import { effectiveDive } from '../document/as-dived';
import { staysOf } from '../ledger/level-limits';
import type { Entry, EntryLevel } from '../ledger/ledger-types';
import { deeper, entryWith } from '../ledger/changed-dive';
import type { Trip } from '../document/types';
import {
  depthAsPrintedM,
  diveDepths,
  diveTime,
  joined,
  minutesDown,
  NO_LIMIT,
  words,
  type Figure,
  type SlateUnits,
} from './figures';

/**
 * The levels of a dive as it counts for one diver, rounded as its depth and time are.
 * @returns "36 m 12 min" a level, minutes with the travel to it; empty for a single level
 */
export function levelTexts(entry: Entry, units: SlateUnits): readonly string[] {
  const { levels, isAsDived } = entry;
  if (levels.length < 2) return [];
  return staysOf(entry).map(({ depthM, min }) => {
    const depth = joined(diveDepths({ depthM, isAsDived }, units));
    return `${depth} ${words(diveTime({ bottomMin: min, isAsDived }))}`;
  });
}

/** The no-stop time of one level, or of a whole dive. */
export function noStopFigure({ noStopMin, unlimited }: Pick<EntryLevel, 'noStopMin' | 'unlimited'>): Figure {
  return unlimited ? NO_LIMIT : minutesDown(noStopMin);
}

/** Minutes of how many: "9 of 14 min", "40 min (no limit)". */
function ofLimit(time: Figure, limit: Pick<EntryLevel, 'noStopMin' | 'unlimited'>): string {
  const most = noStopFigure(limit);
  return limit.unlimited ? `${words(time)} (${most.value})` : `${time.value} of ${words(most)}`;
}

/**
 * The levels of a dive, each with the minutes of its own no-stop time, and after them the same of the whole time,
 * the last level lengthened, where a time on that level can keep the limit.
 * @param printed the same dive at the depths as they are printed (`asPrinted`), for which the limits must hold
 * @returns "36 m 9 of 14 min", "20 m 12 of 34 min", "in all 21 of 43 min"; null for a single level
 */
export function levelWords(entry: Entry, printed: Entry, units: SlateUnits): readonly string[] | null {
  const { levels, isMade, isAsDived, bottomMin } = entry;
  if (levels.length < 2) return null;
  if (!isMade) return levelTexts(entry, units);
  const each = staysOf(entry).map(({ depthM, min }, i) => {
    const depth = joined(diveDepths({ depthM, isAsDived }, units));
    return `${depth} ${ofLimit(diveTime({ bottomMin: min, isAsDived }), printed.levels[i]!)}`;
  });
  const whole = `in all ${ofLimit(diveTime({ bottomMin, isAsDived }), printed)}`;
  return printed.levelsPastLimitM.length > 0 ? each : [...each, whole];
}

/** What `levelWords` count, where there is place to say so. */
export const LEVELS_MEANING = said`minutes of the no-stop time, in all with the last level lengthened`;

/** The earlier levels from whose end a direct ascent is past the limit, "36 m, 20 m"; null where there are none. */
export function pastLevelsText(
  { levelsPastLimitM, isAsDived }: Pick<Entry, 'levelsPastLimitM' | 'isAsDived'>,
  units: SlateUnits,
): string | null {
  if (levelsPastLimitM.length === 0) return null;
  const depths = levelsPastLimitM.map((depthM) => joined(diveDepths({ depthM, isAsDived }, units)));
  // Two levels may lie at one depth.
  return [...new Set(depths)].join(', ');
}

/** The dive at the depth that is printed beside its no-stop time: what was dived is printed no shallower. */
export function asPrinted(trip: Trip, entry: Entry, units: SlateUnits): Entry {
  const byM = depthAsPrintedM(entry, units) - entry.depthM;
  if (!entry.isMade || byM <= 0) return entry;
  return entryWith(trip, entry, deeper(effectiveDive(entry.dive, entry.diver).shape, byM));
}
