import { NO_BREAK } from '../line-breaks';
import { safetyStopOf } from '../profile';
import { effectiveDive } from '../document/as-dived';
import { dayNumber, wallDate, wallMin, wallText, type Clock } from '../words/calendar';
import type { DiverLedger, Entry, Room } from '../ledger/ledger-types';
import { deepestLevel } from '../ledger/level-limits';
import { roomOf, type MinutesRoom } from '../ledger/room';
import type { Dive, Trip } from '../document/types';
import { SHORT_LIMITS } from '../words/terms';
import { slateWords } from './reading';
import {
  clockText,
  dateText,
  momentText,
  depths,
  diveDepths,
  diveTime,
  down,
  intervalText,
  minutesDown,
  mixName,
  NO_LIMIT,
  percentUp,
  po2Text,
  pressuresDown,
  pressuresUp,
  stopDepth,
  stopsText,
  up,
  type Figure,
  type SlateReading,
  type SlateUnits,
} from './figures';
import type { Caution } from '../cautions/caution';
import { asPrinted, levelWords, levelTexts, noStopFigure, noStopFigures, pastLevelsText } from './levels';

/** One dive of one diver in words and numbers, rounded for good. */
export interface SlateDive {
  readonly entry: Entry;
  /** 1 for the trip's first dive of the day, whoever makes it: the same on every slate. */
  readonly number: number;
  readonly site: string;
  readonly startsAt: string;
  readonly surfacesAt: string;
  readonly depth: readonly Figure[];
  readonly time: Figure;
  /** "36 m 12 min, 20 m 10 min", a level held together where its line breaks; null for a single one. */
  readonly levels: string | null;
  /** The same, each with its own no-stop time, and after them the whole time; null for a single one. */
  readonly levelLimits: string | null;
  readonly mix: string;
  readonly mod: readonly Figure[];
  readonly po2: string;
  /** Of the deepest level, whose depth stands beside it. */
  readonly noStop: Figure;
  /** Of each level in their order, "12/40"; as `noStop` for a single one. */
  readonly noStops: Figure;
  /** `PAST_LIMIT` where an earlier level ended past its limit: no time on the last one keeps it then. */
  readonly room: Figure;
  /** The earlier levels that ended past the limit, "36 m, 20 m"; null where none did. */
  readonly pastLevels: string | null;
  /** Minutes of room and their limit as the ledger has them: what says who is tightest. */
  readonly minutes: MinutesRoom;
  /** What the room runs into first, "gas"; null where it is the no-stop limit or nothing. */
  readonly roomLimit: string | null;
  readonly turn: readonly Figure[];
  readonly minimum: readonly Figure[];
  readonly fill: readonly Figure[];
  readonly safetyStop: string;
  readonly interval: string | null;
  /** Earliest entry, "09:32", or why there is no such time; null for a first dive, and one that is not made. */
  readonly earliest: string | null;
  /** Required stops; null inside the limit. */
  readonly stops: string | null;
  readonly cnsAfter: string;
  readonly cautions: readonly Caution[];
  /** What the cautions to stop for say. */
  readonly warnings: readonly string[];
}

/** One day of one diver. */
export interface SlateDay {
  readonly date: string;
  readonly dateText: string;
  /** What the day comes to of the 24 h clock, and of the dose allowed: names and what they say. */
  readonly oxygen: readonly (readonly [name: string, said: string])[];
  readonly dives: readonly SlateDive[];
}

/** Above 1.6 bar of oxygen no exposure limit is published, so no clock tells anything any more. */
const UNKNOWN_CLOCK = 'not known: PO2';

const PAST_LIMIT: Figure = { value: 'past limit', unit: '' };

/** Cautions that belong to one dive of one diver: their own and those of the whole party. */
function cautionsFor(entry: Entry, all: readonly Caution[]): readonly Caution[] {
  return all.filter(
    (caution) =>
      caution.diveId === entry.dive.id && (caution.diverId === null || caution.diverId === entry.diver.id),
  );
}

/** No time on the last level keeps a limit that was passed before it or on arrival. */
function roomFigure({ isMade }: Entry, room: Room): Figure {
  if (room.min === null && room.minLimit === 'no-stop') return PAST_LIMIT;
  return room.min === null && room.minLimit === null && isMade ? NO_LIMIT : minutesDown(room.min);
}

function safetyStopText(entry: Entry, units: SlateUnits): string {
  const stop = safetyStopOf(effectiveDive(entry.dive, entry.diver).shape);
  return stop === null ? 'none' : `${up(stop.min)} min at ${stopDepth(stop.depthM, units)}`;
}

function requiredStops(entry: Entry, units: SlateUnits): string | null {
  if (entry.stops === null) return 'no ascent on this gas was found';
  return entry.stops.length === 0 ? null : stopsText(entry.stops, units);
}

/**
 * The earliest entry after the dive before: a time of the dive's own day stands alone, one of another day is
 * named as such, and where there is none it is said why.
 */
function earliestText(entry: Entry, room: Room, clock: Clock): string | null {
  if (entry.intervalMin === null || !entry.isMade) return null;
  if (room.earlierMin === null) {
    if (room.earlierLimit === null) return NO_LIMIT.value;
    return room.earlierLimit === 'po2' ? UNKNOWN_CLOCK : 'no interval would do';
  }
  const atMin = entry.startMin - room.earlierMin;
  // Rounded up to the minute as it is printed, which may be the first of the day.
  const day = dayNumber(wallMin(wallText(atMin)));
  if (day < dayNumber(entry.startMin)) return 'day before';
  return day === dayNumber(entry.startMin) ? clockText(atMin, clock) : momentText(atMin, clock);
}

/** The place of a dive among the trip's of the same day, by planned start, from 1. */
function numberOf(trip: Trip, { id, startsAt }: Dive): number {
  const date = startsAt.slice(0, 10);
  const today = trip.dives.filter((each) => each.startsAt.startsWith(date));
  return (
    today.toSorted((a, b) => wallMin(a.startsAt) - wallMin(b.startsAt)).findIndex((each) => each.id === id) +
    1
  );
}

/**
 * What a slate says of one dive.
 * @param index of the entry in the diver's ledger
 * @returns words and rounded numbers: limits and what is planned within them down, exposures up
 * Source: the ledger; rounding in figures.ts.
 */
export function slateDive(
  trip: Trip,
  ledger: DiverLedger,
  index: number,
  cautions: readonly Caution[],
  reading: SlateReading,
): SlateDive {
  const { units, clock } = reading;
  const entry = ledger.entries[index]!;
  const room = roomOf(trip, entry);
  const site = trip.sites.find((each) => each.id === entry.dive.siteId);
  const ours = cautionsFor(entry, cautions);
  const say = slateWords(reading);
  const printed = asPrinted(trip, entry, units);
  const levels = levelTexts(entry, units).map((each) => each.replaceAll(' ', NO_BREAK));
  const limits = levelWords(entry, printed, units);
  return {
    entry,
    number: numberOf(trip, entry.dive),
    site: site?.name ?? entry.dive.siteId,
    startsAt: clockText(entry.startMin, clock),
    surfacesAt: clockText(entry.surfacesMin, clock),
    depth: diveDepths(entry, units),
    time: diveTime(entry),
    levels: levels.length === 0 ? null : levels.join(', '),
    levelLimits: limits === null ? null : limits.map((each) => each.replaceAll(' ', NO_BREAK)).join(', '),
    mix: entry.o2 === null ? 'no mix' : mixName(entry.o2),
    mod: depths(entry.modM, 'limit', units),
    po2: po2Text(entry.po2Bar),
    noStop: noStopFigure(deepestLevel(printed.levels)),
    noStops: noStopFigures(printed.levels),
    room: roomFigure(entry, room),
    pastLevels: pastLevelsText(entry, units),
    minutes: { min: room.min, minLimit: room.minLimit },
    roomLimit:
      room.minLimit === null || room.minLimit === 'no-stop' ? null : say(SHORT_LIMITS[room.minLimit]),
    turn: pressuresUp(entry.gas.turnBar, units),
    minimum: pressuresUp(entry.gas.minimumBar, units),
    fill: pressuresDown(entry.diver.cylinder.fillBar, units),
    safetyStop: safetyStopText(entry, units),
    interval: entry.intervalMin === null ? null : intervalText(entry.intervalMin),
    earliest: earliestText(entry, room, clock),
    stops: requiredStops(entry, units),
    cnsAfter: percentUp(entry.cns.after),
    cautions: ours,
    warnings: ours.filter(({ severity }) => severity === 'stop').map(({ says }) => `Stop: ${say(says)}`),
  };
}

/**
 * The days of one diver, as far as they are asked for.
 * @param dates as in the request; null: all @returns in order of the calendar
 */
export function slateDays(
  trip: Trip,
  ledger: DiverLedger,
  dates: readonly string[] | null,
  cautions: readonly Caution[],
  reading: SlateReading,
): readonly SlateDay[] {
  return ledger.days
    .filter((day) => dates === null || dates.includes(day.date))
    .map((day) => {
      const indices = ledger.entries.flatMap((entry, index) =>
        wallDate(entry.startMin) === day.date ? [index] : [],
      );
      return {
        date: day.date,
        dateText: dateText(day.date),
        oxygen: [
          ['CNS 24 h', day.cnsDayPeak === null ? UNKNOWN_CLOCK : percentUp(day.cnsDayPeak)],
          ['OTU', `${up(day.otu)} of ${down(Math.max(0, day.otuAllowed))}`],
        ],
        dives: indices.map((index) => slateDive(trip, ledger, index, cautions, reading)),
      };
    });
}
