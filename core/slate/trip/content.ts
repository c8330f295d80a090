/** What a trip sheet says of one diver's days, in words and rounded for good. */
import { ownWaterSaid } from '../../ledger/water-said';
import { breathedSaid } from '../../ledger/breathed-said';
import type { Caution } from '../../cautions/caution';
import { siteName } from '../../document/site-of';
import type { Trip } from '../../document/types';
import type { DiverLedger, Entry, LedgerDay } from '../../ledger/ledger-types';
import { staysOf } from '../../ledger/level-limits';
import { roomMinutes } from '../../ledger/room';
import { isRoomUnknown, tightestOf } from '../../ledger/tightest';
import { timeAt, wallDate } from '../../words/calendar';
import type { Words } from '../../words/reader';
import { bare, dayOf, figure, inRow, NOTHING, said, span, type Said } from '../../words/said';
import { divesSaid, SEVERITIES, SHORT_LIMITS } from '../../words/terms';
import { slanted, stressed, unmarked } from '../markup';

/** A dive in the table of its day. */
export interface TripDive {
  readonly entry: Entry;
  readonly start: string;
  readonly site: string;
  /** Slanted, a level behind the other. */
  readonly depth: string;
  /** Bottom time, and the mix where it is not the usual one of its day. */
  readonly time: string;
  readonly room: string;
  /** What is to be stopped for, short; empty for nothing. */
  readonly warning: string;
  /** The dive of the trip, or one of those, with the least room. */
  readonly isTightest: boolean;
  /** At its weight in the strip: the deepest depth, and the mix where it is not the usual one. */
  readonly weight: string;
  readonly weightMix: string;
}

export interface TripDay {
  readonly date: string;
  /** From the longest heading to the shortest. */
  readonly heads: readonly string[];
  /** Dives, hours and usual mix, from the longest to the shortest. */
  readonly sums: readonly string[];
  /** "CNS 24 h" and what it comes to, "OTU" and of how many. */
  readonly totals: readonly (readonly [name: string, says: string])[];
  readonly dives: readonly TripDive[];
}

interface Context {
  readonly trip: Trip;
  /** In every system of the reader, for depths of the table; and in one, for sentences. */
  readonly words: Words;
  readonly single: Words;
  readonly cautions: readonly Caution[];
  readonly tightest: readonly Entry[];
}

/** The mix of most dives of a day; of two with as many the earlier. */
function usualMix(entries: readonly Entry[], words: Words): string {
  const counts = new Map<string, number>();
  for (const entry of entries) {
    const mix = words(breathedSaid(entry));
    counts.set(mix, (counts.get(mix) ?? 0) + 1);
  }
  let usual = '';
  for (const [mix, count] of counts) if (count > (counts.get(usual) ?? 0)) usual = mix;
  return usual;
}

function roomSaid(trip: Trip, entry: Entry): Said {
  if (!entry.isMade) return said`not to be dived`;
  const { min, minLimit } = roomMinutes(trip, entry);
  if (minLimit === null) return said`room ${stressed(said`no limit`)}`;
  const limit = SHORT_LIMITS[minLimit];
  if (min !== null) return said`room ${stressed(bare('minutesLeft', min))}, ${limit}`;
  return isRoomUnknown(entry, minLimit)
    ? said`room ${stressed(said`not known`)}, ${limit}`
    : said`room ${stressed(said`past`)}, ${limit}`;
}

function tripDive(
  { trip, words, single, cautions, tightest }: Context,
  entry: Entry,
  usual: string,
): TripDive {
  const { dive, diver, isAsDived, startMin, bottomMin, depthM } = entry;
  const isStopped = cautions.some(
    ({ severity, diveId, diverId }) =>
      severity === 'stop' && diveId === dive.id && (diverId === null || diverId === diver.id),
  );
  const name = unmarked(siteName(trip, dive));
  const water = ownWaterSaid(trip, dive.siteId);
  const depth = isAsDived ? 'depthMet' : 'depthSet';
  const mix = words(breathedSaid(entry));
  const minutes = figure(isAsDived ? 'minutesDived' : 'minutesSet', bottomMin);
  return {
    entry,
    start: words(said`${timeAt(startMin)}`),
    site: water === null ? name : words(said`${name}, ${water}`),
    depth: words(said`${slanted(inRow(staysOf(entry).map((level) => figure(depth, level.depthM))))}`),
    time: words(mix === usual ? said`${minutes}` : said`${minutes}, ${breathedSaid(entry)}`),
    room: words(roomSaid(trip, entry)),
    warning: isStopped ? words(said`${SEVERITIES.stop}: see its cautions`) : '',
    isTightest: tightest.includes(entry),
    weight: single(said`${slanted(bare(depth, depthM))}`),
    weightMix: mix === usual ? '' : mix,
  };
}

function totalsOf(words: Words, day: LedgerDay): TripDay['totals'] {
  const allowed = Math.max(0, day.otuAllowed);
  return [
    [
      words(said`CNS 24 h`),
      words(day.cnsDayPeak === null ? said`not known: PO2` : said`${figure('shareMet', day.cnsDayPeak)}`),
    ],
    [words(said`OTU`), words(said`${figure('doseMet', day.otu)} of ${figure('doseLeft', allowed)}`)],
  ];
}

/**
 * The days of one diver as they are asked for.
 * @returns in order of the calendar
 * Source: the ledger; rounding in core/words/quantity.ts.
 */
export function tripDays(
  trip: Trip,
  mine: DiverLedger,
  dates: readonly string[],
  cautions: readonly Caution[],
  words: Words,
  single: Words,
): readonly TripDay[] {
  const tightest = tightestOf(mine.entries, (entry) => roomMinutes(trip, entry));
  const context: Context = { trip, words, single, cautions, tightest };
  return mine.days
    .filter(({ date }) => dates.includes(date))
    .map((day) => {
      const entries = mine.entries.filter(({ startMin }) => wallDate(startMin) === day.date);
      const usual = usualMix(entries, words);
      const count = divesSaid(day.dives);
      const hours = span(day.bottomMin, 'up');
      return {
        date: day.date,
        heads: [
          words(said`${dayOf(day.date)}`),
          words(said`${dayOf(day.date, 'weekday')}`),
          String(Number(day.date.slice(8))),
        ],
        sums: [
          words(said`${count}, ${hours}, ${usual}`),
          words(said`${count}, ${hours}`),
          words(said`${count}`),
          words(NOTHING),
        ],
        totals: totalsOf(words, day),
        dives: entries.map((entry) => tripDive(context, entry, usual)),
      };
    });
}
