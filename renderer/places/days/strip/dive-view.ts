/** What the strip shows of each dive, gathered from the ledger; places on the page come later. */
import { dayNumber, wallMin, wallText } from '../../../../core/words/calendar';
import type { Entry, RoomLimit } from '../../../../core/ledger/ledger-types';
import type { Dive, Id, Trip } from '../../../../core/document/types';
import {
  breathedText,
  clockText,
  dateText,
  depthText,
  hoursText,
  minutesText,
  shortText,
} from '../../../figures/format';
import { effectiveDive, missedDive } from '../../../../core/document/as-dived';
import { divePlan } from '../../../../core/ledger/dive-plan';
import { surroundingsAt } from '../../../../core/document/waters';
import type { Leg, Surroundings } from '../../../../core/profile';
import { noMinutesText } from '../../../figures/limits';
import { isRoomUnknown, isTooLong } from '../../../../core/ledger/tightest';
import { unitOf } from '../../../../core/words/quantity';
import { fileWords } from '../../../../core/words/reader';
import { SHORT_LIMITS } from '../../../../core/words/terms';
import { memoEach } from '../../../store/memo';
import type { Care, Marked } from './marked';
import { roomText, sounding, type Reader } from './strip-words';

export interface Point {
  readonly atMin: number;
  readonly depthM: number;
}

export interface DiveView {
  readonly id: Id;
  /** Counted from 1 over the trip. */
  readonly number: number;
  readonly startMin: number;
  readonly bottomEndMin: number;
  readonly surfacesMin: number;
  /** The deepest point. */
  readonly depthM: number;
  /** Where the weight hangs: the depth the dive begins at, the deepest unless levels say otherwise or it was recorded. */
  readonly weightM: number;
  /** Along the bottom, from the weight to the end of the bottom time; slopes where there are levels. */
  readonly bottom: readonly Point[];
  /** From the end of the bottom time to the surface, stops included. */
  readonly wayUp: readonly Point[];
  readonly siteName: string;
  /** "11:35" */
  readonly startText: string;
  /** "11:35 to 12:09" */
  readonly timesText: string;
  readonly sounding: string;
  /** "m" */
  readonly depthUnit: string;
  /** Bottom time in minutes, bare: "29". */
  readonly timeText: string;
  readonly mix: string;
  /** The mix where it is not the one that most dives have; else empty. */
  readonly otherMix: string;
  /** Surface interval since the dive before on the same day; empty for none. */
  readonly interval: string;
  readonly intervalFromMin: number;
  /** "3 min", what it is past, or null where nothing limits it. */
  readonly room: string | null;
  /** Minutes to the limit, less than none past it; null where there are none to tell. */
  readonly roomMin: number | null;
  /** Past a limit, with minutes or without. */
  readonly isPast: boolean;
  /** By how much it is past a limit: "2 min over", "2 min over on gas"; empty for a dive that is not. */
  readonly over: string;
  /** "2 of 4" where only part of the party dives it. */
  readonly part: string | null;
  /** The chosen diver stays aboard. */
  readonly isAbsent: boolean;
  readonly isAsDived: boolean;
  /** Drawn as a computer recorded it. */
  readonly isRecorded: boolean;
  /** Dived without having been planned. */
  readonly isAdded: boolean;
  /** Nobody made it, or not the chosen diver: it stays on the strip, crossed out. */
  readonly isMissed: boolean;
  /** Why, where somebody said so. */
  readonly missedFor: string;
  /** What was planned, where that is not what was made: from the surface to the surface. */
  readonly planned: readonly Point[] | null;
  readonly isTightestOfTrip: boolean;
  readonly isTightestOfDay: boolean;
  /** A caution asks for a change, or for not diving it. */
  readonly care: Care | null;
  /** Read by who cannot see. */
  readonly name: string;
}

/** All that a view depends on. */
export interface ViewSource {
  readonly trip: Trip;
  /** The entries of each dive, the one with the least room first. */
  readonly entriesByDive: ReadonlyMap<Id, readonly Entry[]>;
  readonly diverId: Id | null;
  readonly marked: Marked;
  /** Minutes of room of an entry; null where nothing limits it. */
  readonly roomMinOf: (entry: Entry) => number | null;
  /** Which limit that is; with no minutes, one that is passed without a figure. */
  readonly roomLimitOf: (entry: Entry) => RoomLimit | null;
  readonly reader: Reader;
}

/** The mix that most dives have: it is said once, beneath the strip. Of two as frequent the one that comes first. */
export function commonMix(views: readonly Pick<DiveView, 'mix'>[]): string {
  const counts = new Map<string, number>();
  for (const { mix } of views) counts.set(mix, (counts.get(mix) ?? 0) + 1);
  let common = '';
  for (const [mix, count] of counts) if (count > (counts.get(common) ?? 0)) common = mix;
  return common;
}

/** Start of the first dive that can still be changed; null where there is none. */
export function aheadFromMin(views: readonly DiveView[], ahead: ReadonlySet<Id>): number | null {
  return views.find(({ id }) => ahead.has(id))?.startMin ?? null;
}

/** The dives in the order in which they begin. */
export function diveViews(source: ViewSource): readonly DiveView[] {
  const careByDive = new Map(source.marked.care);
  const tight = new Set(source.marked.tightestOfTrip);
  const tightOfDay = new Set(source.marked.tightestOfDays);
  const siteNames = new Map(source.trip.sites.map((site) => [site.id, site.name]));
  const views = source.trip.dives
    .map((dive, index) => {
      const entries = source.entriesByDive.get(dive.id) ?? [];
      const own = entries.find((entry) => entry.diver.id === source.diverId);
      const entry = own ?? entries[0] ?? null;
      const missed = missedBy(dive, source, entry);
      return viewOf(dive, {
        number: index + 1,
        entry: missed === null ? entry : null,
        isAbsent: source.diverId !== null && own === undefined && missed === null,
        missed,
        around: surroundingsAt(source.trip, dive),
        part:
          (dive.divers ?? dive.notDived) && entries.length > 0 && entries.length < source.trip.party.length
            ? `${entries.length} of ${source.trip.party.length}`
            : null,
        isTightestOfTrip: tight.has(dive.id),
        isTightestOfDay: tightOfDay.has(dive.id),
        care: careByDive.get(dive.id) ?? null,
        siteName: siteNames.get(dive.siteId) ?? '',
        roomMin: entry === null ? null : source.roomMinOf(entry),
        limit: entry === null ? null : source.roomLimitOf(entry),
        reader: source.reader,
      });
    })
    .toSorted((a, b) => a.startMin - b.startMin);
  const common = commonMix(views);
  return views.map((view) => {
    const otherMix = view.mix === common || view.isMissed ? '' : view.mix;
    return namedView(view, { otherMix, reader: source.reader });
  });
}

interface Naming {
  readonly otherMix: string;
  readonly reader: Reader;
}

const namedView = memoEach((view: DiveView, { otherMix, reader }: Naming): DiveView => ({
  ...view,
  otherMix,
  name: nameOf(view, reader),
}));

/** Why a dive was not made by whom is shown; null where it was, or still may be. Without a reason it is empty. */
function missedBy(dive: Dive, { trip, diverId }: ViewSource, entry: Entry | null): string | null {
  if (dive.notDived === undefined) return null;
  const asked = diverId === null ? trip.party.map(({ id }) => id) : [diverId];
  const missed = asked.flatMap((id) => missedDive(dive, id) ?? []);
  if (missed.length === 0 || (diverId === null && entry !== null)) return null;
  return missed[0]!.reason ?? '';
}

/** The plan behind a dive that was made otherwise, or not at all; null where there is no other than what is drawn. */
function plannedPath(dive: Dive, entry: Entry | null, around: Surroundings): readonly Point[] | null {
  if (dive.added === true || (entry === null ? dive.notDived === undefined : !isOtherwise(entry)))
    return null;
  return plannedPoints(dive, divePlan(dive, around).legs);
}

/** A dive as planned, from the surface to the surface; the second point is where its weight hangs. */
export function plannedPoints(dive: Pick<Dive, 'startsAt'>, legs: readonly Leg[]): readonly Point[] {
  let atMin = wallMin(dive.startsAt);
  const path: Point[] = [{ atMin, depthM: 0 }];
  for (const leg of legs) {
    // The line hangs straight down, as those of the dives do.
    if (leg.kind !== 'descent') path.push({ atMin, depthM: leg.fromM });
    atMin += leg.min;
    if (leg.kind !== 'descent') path.push({ atMin, depthM: leg.toM });
    else path.push({ atMin: path[0]!.atMin, depthM: leg.toM });
  }
  return path;
}

function isOtherwise({ isAsDived, isAsPlanned }: Entry): boolean {
  return isAsDived && !isAsPlanned;
}

/** What a view is made of beside its dive. */
interface Setting {
  readonly number: number;
  /** Shown; null where nobody dives it. */
  readonly entry: Entry | null;
  readonly around: Surroundings;
  readonly isAbsent: boolean;
  readonly missed: string | null;
  readonly part: string | null;
  readonly isTightestOfTrip: boolean;
  readonly isTightestOfDay: boolean;
  readonly care: Care | null;
  readonly siteName: string;
  readonly roomMin: number | null;
  readonly limit: RoomLimit | null;
  readonly reader: Reader;
}

/** "2 min over", and on what where that is not the time itself; empty within every limit. */
function overWords({ entry, roomMin, limit }: Setting): string {
  if (entry === null || !entry.isMade) return '';
  if (roomMin === null) {
    return limit === null || isRoomUnknown(entry, limit) ? '' : noMinutesText(entry, limit);
  }
  if (!isTooLong(roomMin)) return '';
  const over = `${minutesText(-roomMin, 'up')} over`;
  return limit === 'no-stop' || limit === null ? over : `${over} on ${fileWords(SHORT_LIMITS[limit])}`;
}

/** "3 min"; "past the PO2 limit" where there are no minutes to it; null where nothing limits the dive. */
function roomWords({ entry, roomMin, limit }: Setting): string | null {
  if (roomMin !== null) return roomText(roomMin);
  return entry?.isMade === true && limit !== null ? noMinutesText(entry, limit) : null;
}

/** A dive of which nothing changed keeps its view: an edit leaves most as they were. */
const viewOf = memoEach((dive: Dive, setting: Setting): DiveView => {
  const { number, entry, reader, isAbsent, siteName } = setting;
  // Of what is done nothing is over: it is told as it was.
  const isDone = entry?.isAsDived ?? false;
  const over = isAbsent || isDone ? '' : overWords(setting);
  const startMin = entry?.startMin ?? wallMin(dive.startsAt);
  const depthM = entry?.depthM ?? dive.depthM;
  const bottomEndMin = startMin + (entry?.bottomMin ?? dive.bottomMin);
  const isRecorded = entry !== null && effectiveDive(dive, entry.diver).shape.samples !== undefined;
  const { bottom, wayUp } = pathOf(entry, startMin, bottomEndMin, depthM, isRecorded);
  const hasInterval =
    entry !== null &&
    !isAbsent &&
    entry.intervalMin !== null &&
    dayNumber(startMin) === dayNumber(startMin - entry.intervalMin);
  const room = isAbsent ? null : roomWords(setting);
  const surfacesMin = entry?.surfacesMin ?? bottomEndMin;
  const clock = (min: number): string => clockText(wallText(min), reader.clock);
  return {
    id: dive.id,
    number,
    startMin,
    bottomEndMin,
    surfacesMin,
    depthM,
    weightM: isRecorded ? depthM : bottom[0]!.depthM,
    bottom,
    wayUp,
    siteName,
    startText: clock(startMin),
    timesText: `${clock(startMin)} to ${clock(surfacesMin)}`,
    sounding: sounding(depthM, reader, isDone),
    depthUnit: unitOf('depth', reader.units).sign,
    timeText: shortText(bottomEndMin - startMin, 1),
    otherMix: '',
    mix: entry === null ? 'nobody' : breathedText(entry),
    interval: hasInterval ? hoursText(entry.intervalMin, 'down') : '',
    intervalFromMin: hasInterval ? startMin - entry.intervalMin : startMin,
    room,
    roomMin: isAbsent ? null : setting.roomMin,
    isPast: over !== '',
    over,
    part: setting.part,
    isAbsent,
    isAsDived: isDone,
    isRecorded,
    isAdded: dive.added === true,
    isMissed: setting.missed !== null,
    missedFor: setting.missed ?? '',
    planned: plannedPath(dive, entry, setting.around),
    isTightestOfTrip: setting.isTightestOfTrip && !isAbsent && !isDone,
    isTightestOfDay: setting.isTightestOfDay && !isAbsent,
    care: isAbsent || isDone ? null : setting.care,
    name: '',
  };
});

/** Straight from the legs, so that what is drawn is what was reckoned. */
function pathOf(
  entry: Entry | null,
  startMin: number,
  bottomEndMin: number,
  depthM: number,
  isRecorded: boolean,
): { readonly bottom: readonly Point[]; readonly wayUp: readonly Point[] } {
  if (entry === null || entry.legs.length === 0) {
    const bottom = [
      { atMin: startMin, depthM },
      { atMin: bottomEndMin, depthM },
    ];
    return { bottom, wayUp: [] };
  }
  // The line hangs straight down, as a lead line does: the descent is inside the bottom time. What was recorded is drawn
  // as it was.
  const [first] = entry.legs;
  const bottom: Point[] = [{ atMin: startMin, depthM: isRecorded ? first!.fromM : first!.toM }];
  const wayUp: Point[] = [];
  let atMin = startMin;
  for (const leg of entry.legs) {
    atMin += leg.min;
    const isWayUp = leg.kind === 'ascent' || leg.kind === 'stop';
    if (isWayUp && wayUp.length === 0) wayUp.push(bottom.at(-1)!);
    if (isWayUp) wayUp.push({ atMin, depthM: leg.toM });
    else if (leg.kind !== 'descent') bottom.push({ atMin, depthM: leg.toM });
  }
  if (bottom.length === 1) bottom.push({ atMin: bottomEndMin, depthM: bottom[0]!.depthM });
  return { bottom, wayUp };
}

/** Whether a room is told in minutes rather than in words. */
export function hasMinutes(room: string): boolean {
  return room.endsWith(' min');
}

function nameOf(view: DiveView, reader: Reader): string {
  const starts = wallText(view.startMin);
  const parts = [
    `Dive ${view.number}`,
    `${dateText(starts, true)} ${clockText(starts, reader.clock)}`,
    view.siteName,
    depthText(view.depthM, reader.units, view.isAsDived ? 'up' : 'down'),
    `${view.timeText} min`,
    view.isMissed ? '' : view.mix,
    view.interval === '' ? '' : `after ${view.interval} at the surface`,
    view.room === null ? '' : hasMinutes(view.room) ? `${view.room} of room` : view.room,
    view.isTightestOfTrip ? 'tightest of the trip' : view.isTightestOfDay ? 'tightest of the day' : '',
    view.part === null ? '' : `${view.part} divers`,
    view.isAbsent ? 'the chosen diver stays aboard' : '',
    view.isMissed ? (view.missedFor === '' ? 'not dived' : `not dived: ${view.missedFor}`) : '',
    view.isAdded ? 'added' : '',
    view.isRecorded ? 'as recorded' : view.isAsDived ? 'as dived' : '',
    view.care === 'stop'
      ? 'caution: past a limit'
      : view.care === 'change'
        ? 'caution: something to adjust'
        : '',
  ];
  return parts.filter((part) => part !== '').join(', ');
}
