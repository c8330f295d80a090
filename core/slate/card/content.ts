/**
 * What a card says of one diver's day, in words and rounded for good: limits and what is planned within them down,
 * exposures up. Cards that say the same are one.
 */
import { ownWaterSaid } from '../../ledger/water-said';
import type { Caution } from '../../cautions/caution';
import { siteName } from '../../document/site-of';
import { effectiveDive } from '../../document/as-dived';
import type { Trip } from '../../document/types';
import type { DiverLedger, Entry, LedgerDay } from '../../ledger/ledger-types';
import { isRecorded, staysOf } from '../../ledger/level-limits';
import { roomInTime } from '../../ledger/room';
import { isRoomUnknown } from '../../ledger/tightest';
import { runtimeMin, safetyStopOf, type Leg, type Stop } from '../../profile';
import { dayNumber, momentAt, timeAt, wallDate, wallMin, wallText } from '../../words/calendar';
import { rounded, type Shown } from '../../words/quantity';
import { inOneSystem, shown, wordsOf, type Reader, type Words } from '../../words/reader';
import {
  bare,
  dayOf,
  figure,
  inRow,
  NOTHING,
  said,
  span,
  timeOfDay,
  type Figure,
  type Said,
} from '../../words/said';
import { breathedSaid } from '../../ledger/breathed-said';
import { bailOutSaid, setpointsSaid } from '../../ledger/loop-said';
import { SEVERITIES, SHORT_LIMITS } from '../../words/terms';
import { asPrinted } from '../levels';
import { gasFigures } from './gas-figures';
import { slanted, stressed, unmarked } from '../markup';
import { deeperLonger, type DeeperLonger } from '../deeper-longer';
import { slateReader, type SlateReading } from '../reading';

/** A level of a dive, and when it is left. */
export interface CardLevel {
  readonly depth: readonly Shown[];
  readonly run: Shown;
  readonly clock: string;
  /** "9 of 14": minutes there, of the no-stop limit there. */
  readonly limit: string;
}

/** A figure of the right column with what stands beside it. */
export interface CardFigure {
  readonly caption: string;
  /** One a system of units; none where there is no such figure, and `instead` says why. */
  readonly figures: readonly Shown[];
  readonly instead: string;
}

/** A place on the line from the surface to the surface, "46 stop". */
export interface Station {
  readonly run: string;
  readonly name: string;
}

export interface CardDive {
  readonly number: number;
  readonly site: string;
  readonly in: string;
  /** Wanted at the surface: "interval 2 h 50 min", "earliest 08:27". */
  readonly surface: readonly string[];
  /** What has to be seen first: cautions to stop for, stops that are required. */
  readonly warnings: readonly string[];
  readonly depthCaption: string;
  readonly leaveCaption: string;
  /** Where no unit stands behind the figures. */
  readonly leaveCaptionWithUnit: string;
  readonly limitCaption: string;
  readonly limitShort: string;
  /** The same on the row of a level, and with the depth of the first. */
  readonly limitHere: string;
  readonly limitAt: string;
  readonly levels: readonly CardLevel[];
  readonly mix: string;
  readonly turn: CardFigure;
  readonly minimum: CardFigure;
  readonly mod: CardFigure;
  readonly room: CardFigure;
  /** Less than a few minutes, or none that can be told. */
  readonly isTight: boolean;
  readonly stop: readonly [string, string];
  readonly up: string;
  readonly stations: readonly Station[];
  /** "stop 36, up 40 min", under the time of surfacing. */
  readonly wayUp: string;
  /** From the surface to the surface, for the picture of several levels; null for one. */
  readonly legs: readonly Leg[] | null;
  readonly grid: DeeperLonger | null;
  /** "as dived", and the units that are written in. */
  readonly asDived: readonly string[];
}

/** A diver's day. */
export interface CardDay {
  readonly date: string;
  readonly day: string;
  /** "CNS 24 h 41 %", "OTU 117 of 1933" */
  readonly oxygen: readonly string[];
  /** On the last day; empty on the others. */
  readonly flying: string;
  readonly dives: readonly CardDive[];
}

/** Under this many minutes of room a dive is marked as tight. Source: choice of this project. */
const TIGHT_MIN = 5;

const ROOM_TO = {
  ...SHORT_LIMITS,
  'diver-depth': said`own depth`,
} as const;

/** Room in minutes, and how much sooner. */
type CardRoom = ReturnType<typeof roomInTime>;

/** All that words of a card hang on. */
interface Context {
  readonly trip: Trip;
  readonly cautions: readonly Caution[];
  readonly reader: Reader;
  /** Sentences have one system of units. */
  readonly words: Words;
}

/** The place of a dive among the trip's of the same day, by planned start, from 1: the same on every face. */
export function numberOf(trip: Trip, { id, startsAt }: Trip['dives'][number]): number {
  const date = startsAt.slice(0, 10);
  const today = trip.dives.filter((each) => each.startsAt.startsWith(date));
  return (
    today.toSorted((a, b) => wallMin(a.startsAt) - wallMin(b.startsAt)).findIndex((each) => each.id === id) +
    1
  );
}

/** The earliest entry after the dive before, or why there is no such time. */
function earliestSaid({ intervalMin, isMade, startMin }: Entry, room: CardRoom): Said {
  if (intervalMin === null || !isMade) return NOTHING;
  if (room.earlierMin === null) {
    if (room.earlierLimit === null) return said`any interval will do`;
    return room.earlierLimit === 'po2' ? said`earliest not known: PO2` : said`not possible at any interval`;
  }
  const atMin = startMin - room.earlierMin;
  // Rounded up to the minute as it is printed, which may be the first of the day.
  const day = dayNumber(wallMin(wallText(atMin)));
  if (day < dayNumber(startMin)) return said`earliest the day before`;
  return day === dayNumber(startMin) ? said`earliest ${timeAt(atMin)}` : said`earliest ${momentAt(atMin)}`;
}

/** Minutes as they are set, or were dived. */
function minutes({ isAsDived }: Entry, min: number): Figure {
  return bare(isAsDived ? 'minutesDived' : 'minutesSet', min);
}

/** A moment to leave at: down to the minute, as leaving sooner is the careful side. */
function leaveTime(min: number): string {
  return wallText(rounded(min, 0, 'down')).slice(11);
}

function limitSaid(entry: Entry, min: number, { noStopMin, unlimited }: Entry['levels'][number]): Said {
  if (unlimited) return said`${stressed(said`no limit`)}`;
  return said`${minutes(entry, min)} of ${stressed(bare('minutesLeft', noStopMin))}`;
}

function levelsOf(context: Context, entry: Entry): readonly CardLevel[] {
  const { reader, words, trip } = context;
  const printed = asPrinted(trip, entry, reader.units);
  let run = 0;
  return staysOf(entry).map(({ depthM, min }, i) => {
    run += min;
    return {
      depth: shown(figure(entry.isAsDived ? 'depthMet' : 'depthSet', depthM), reader),
      run: shown({ ...minutes(entry, run), isBare: false }, reader)[0]!,
      clock: words(said`${timeOfDay(leaveTime(entry.startMin + run))}`),
      limit: entry.isMade ? words(limitSaid(entry, min, printed.levels[i]!)) : '',
    };
  });
}

function roomFigure(
  { words, reader }: Context,
  entry: Entry,
  { min, minLimit }: CardRoom,
): Pick<CardDive, 'room' | 'isTight'> {
  const caption = words(minLimit === null ? said`Room` : said`Room to\n${ROOM_TO[minLimit]}`);
  if (min !== null) {
    return {
      room: { caption, figures: shown(figure('minutesLeft', min), reader), instead: '' },
      isTight: rounded(min, 0, 'down') < TIGHT_MIN,
    };
  }
  if (minLimit === null) {
    return { room: { caption, figures: [], instead: words(said`no limit`) }, isTight: false };
  }
  const instead = isRoomUnknown(entry, minLimit) ? said`not known` : said`past`;
  return { room: { caption, figures: [], instead: words(instead) }, isTight: true };
}

/** "6–3 m" of stops, or the one depth. */
function stopDepths(stops: readonly Stop[]): Said {
  const [first, last] = [stops[0]!, stops[stops.length - 1]!];
  return first === last
    ? slanted(figure('depthMet', first.depthM))
    : slanted(said`${bare('depthMet', first.depthM)}–${figure('depthMet', last.depthM)}`);
}

function stopSaid(entry: Entry): readonly [Said, Said] {
  const required = entry.stops ?? [];
  if (required.length > 0) {
    const whole = required.reduce((sum, { min }) => sum + min, 0);
    return [said`Stop ${stopDepths(required)}`, said`${figure('minutesMet', whole)}, up`];
  }
  if (isRecorded(entry)) return [said`As recorded,`, said`up`];
  const stop = safetyStopOf(effectiveDive(entry.dive, entry.diver).shape);
  return stop === null
    ? [said`No stop,`, said`up`]
    : [said`Stop ${stopDepths([stop])}`, said`${figure('minutesMet', stop.min)}, up`];
}

/** Run time at which the first stop is reached; null without one. */
function stopRunMin({ legs, bottomMin }: Entry): number | null {
  let min = 0;
  for (const leg of legs) {
    if (leg.kind === 'stop' && min > bottomMin - 1e-6) return min;
    min += leg.min;
  }
  return null;
}

function wayUpOf({ words }: Context, entry: Entry): Pick<CardDive, 'stations' | 'wayUp'> {
  if (entry.stops === null) return { stations: [], wayUp: '' };
  const upMin = runtimeMin(entry.legs);
  const stopMin = stopRunMin(entry);
  const at = (min: number): string => words(said`${bare('minutesMet', min)}`);
  const stations: readonly Station[] = [
    { run: '0', name: words(said`in`) },
    { run: words(said`${minutes(entry, entry.bottomMin)}`), name: words(said`leave`) },
    ...(stopMin === null ? [] : [{ run: at(stopMin), name: words(said`stop`) }]),
    { run: at(upMin), name: words(said`up`) },
  ];
  const up = inRow([
    // Beside the deepest stay of what was recorded the whole time is not told otherwise.
    ...(isRecorded(entry) ? [said`leave ${minutes(entry, entry.bottomMin)}`] : []),
    ...(stopMin === null ? [] : [said`stop ${bare('minutesMet', stopMin)}`]),
    said`up ${figure('minutesMet', upMin)}`,
  ]);
  return { stations, wayUp: words(said`${up}`) };
}

/** Their own and those of the whole party that are to be stopped for, and the stops that a passed limit costs. */
function warningsOf({ words, cautions }: Context, entry: Entry): readonly string[] {
  const ours = cautions.filter(
    ({ diveId, diverId, severity }) =>
      severity === 'stop' && diveId === entry.dive.id && (diverId === null || diverId === entry.diver.id),
  );
  const stops = entry.stops ?? [];
  const each = stops.map(
    ({ depthM, min }) => said`${slanted(figure('depthMet', depthM))} ${figure('minutesMet', min)}`,
  );
  return [
    ...ours.map(({ says }) => words(said`${SEVERITIES.stop}: ${says}`)),
    ...(stops.length === 0 ? [] : [words(said`Required stops: ${inRow(each)}.`)]),
    ...(entry.stops === null ? [words(said`No way up on this gas was found.`)] : []),
  ];
}

function unitsOf({ reader, words }: Context): {
  readonly depth: string;
  readonly min: string;
  readonly dived: readonly string[];
} {
  const [depth, pressure] = [figure('depthSet', 0), figure('pressureLeft', 0)].map(
    (each) => shown(each, inOneSystem(reader))[0]!.unit,
  );
  const min = shown(figure('minutesSet', 0), reader)[0]!.unit;
  return { depth: depth!, min, dived: [words(said`as dived`), depth!, min, pressure!] };
}

function cardDive(context: Context, entry: Entry): CardDive {
  const { trip, words } = context;
  const room = roomInTime(trip, entry);
  const name = unmarked(siteName(trip, entry.dive));
  const water = ownWaterSaid(trip, entry.dive.siteId);
  const units = unitsOf(context);
  const isOne = entry.levels.length === 1;
  const earliest = words(earliestSaid(entry, room));
  const [stop, then] = stopSaid(entry);
  return {
    number: numberOf(trip, entry.dive),
    site: water === null ? name : words(said`${name}, ${water}`),
    in: words(said`in ${timeAt(entry.startMin)}`),
    surface: [
      words(
        entry.intervalMin === null ? said`first dive` : said`interval ${span(entry.intervalMin, 'down')}`,
      ),
      ...(earliest === '' ? [] : [earliest]),
    ],
    warnings: [
      ...(entry.loop === null
        ? []
        : [words(said`Loop: ${setpointsSaid(entry.loop)}. Bail-out ${bailOutSaid(entry.loop)}.`)]),
      ...(entry.isMade ? [] : [words(said`No mix on board may be breathed there: not to be dived.`)]),
      ...warningsOf(context, entry),
    ],
    depthCaption: words(said`Depth, ${units.depth}`),
    leaveCaption: words(
      isRecorded(entry)
        ? said`Left the depth at`
        : isOne
          ? said`Leave the bottom at`
          : said`Leave each level at`,
    ),
    leaveCaptionWithUnit: words(
      isRecorded(entry) ? said`Left at, ${units.min}` : said`Leave at, ${units.min}`,
    ),
    limitCaption: words(said`No-stop limit`),
    limitShort: words(SHORT_LIMITS['no-stop']),
    limitHere: words(said`no-stop here`),
    limitAt: words(
      isOne
        ? said`No-stop limit`
        : said`No-stop ${slanted(figure(entry.isAsDived ? 'depthMet' : 'depthSet', entry.levels[0]!.depthM))}`,
    ),
    levels: levelsOf(context, entry),
    mix: words(breathedSaid(entry)),
    ...gasFigures(context, entry),
    ...roomFigure(context, entry, room),
    stop: [words(stop), words(then)],
    up: words(entry.stops === null ? said`–` : said`${timeAt(entry.surfacesMin)}`),
    ...wayUpOf(context, entry),
    legs: isOne ? null : entry.legs,
    grid: entry.isMade ? deeperLonger(trip, entry, context.reader) : null,
    // Of a loop no pressure is logged: it has several, and what it breathes hangs on none.
    asDived: entry.loop === null ? units.dived : units.dived.slice(0, -1),
  };
}

function oxygenOf({ words }: Context, day: LedgerDay): readonly string[] {
  const cns =
    day.cnsDayPeak === null
      ? said`CNS 24 h ${stressed(said`not known`)}`
      : said`CNS 24 h ${stressed(figure('shareMet', day.cnsDayPeak))}`;
  const allowed = Math.max(0, day.otuAllowed);
  return [
    words(cns),
    words(said`OTU ${stressed(said`${figure('doseMet', day.otu)} of ${figure('doseLeft', allowed)}`)}`),
  ];
}

/**
 * The days of one diver that are asked for.
 * @param dates those printed @returns in order of the calendar
 * Source: the ledger; rounding in core/words/quantity.ts.
 */
export function cardDays(
  trip: Trip,
  ledger: DiverLedger,
  dates: readonly string[],
  cautions: readonly Caution[],
  reading: SlateReading,
): readonly CardDay[] {
  const reader = slateReader(reading);
  const context: Context = { trip, cautions, reader, words: wordsOf(inOneSystem(reader)) };
  const lastDate = ledger.days[ledger.days.length - 1]?.date;
  return ledger.days
    .filter((day) => dates.includes(day.date))
    .map((day) => ({
      date: day.date,
      day: context.words(said`${dayOf(day.date)}`),
      oxygen: oxygenOf(context, day),
      flying:
        day.date === lastDate && ledger.flyAfterMin !== null
          ? context.words(said`no flying before ${stressed(momentAt(ledger.flyAfterMin))}`)
          : '',
      dives: ledger.entries
        .filter(({ startMin }) => wallDate(startMin) === day.date)
        .map((entry) => cardDive(context, entry)),
    }));
}
