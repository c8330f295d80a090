/** What the strip shows of each dive, gathered from the ledger; places on the page come later. */
import { dayNumber, wallDate, wallMin, wallText } from '../../../../core/words/calendar';
import type { Entry, RoomLimit } from '../../../../core/ledger/ledger-types';
import type { Dive, Id, Trip } from '../../../../core/document/types';
import { clockText, dateText, depthText, hoursText, shortText } from '../../../figures/format';
import { noMinutesText } from '../../../figures/limits';
import { breathedText, roomText, sounding, type Reader } from './strip-words';
import type { Caution } from '../../../../core/cautions/caution';

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
  /** Where the weight hangs: the depth the dive begins at, the deepest unless levels say otherwise. */
  readonly weightM: number;
  /** Along the bottom, from the weight to the end of the bottom time; slopes where there are levels. */
  readonly bottom: readonly Point[];
  /** From the end of the bottom time to the surface, stops included. */
  readonly wayUp: readonly Point[];
  readonly sounding: string;
  readonly mix: string;
  /** Surface interval since the dive before on the same day; empty for none. */
  readonly interval: string;
  readonly intervalFromMin: number;
  /** "3 min", what it is past, or null where nothing limits it. */
  readonly room: string | null;
  /** "2 of 4" where only part of the party dives it. */
  readonly part: string | null;
  /** The chosen diver stays aboard. */
  readonly isAbsent: boolean;
  readonly isAsDived: boolean;
  readonly isTightestOfTrip: boolean;
  readonly isTightestOfDay: boolean;
  /** A caution asks for a change, or for not diving it. */
  readonly care: 'stop' | 'change' | null;
  /** Read by who cannot see. */
  readonly name: string;
}

/** All that a view depends on. */
export interface ViewSource {
  readonly trip: Trip;
  /** The entries of each dive, the one with the least room first. */
  readonly entriesByDive: ReadonlyMap<Id, readonly Entry[]>;
  readonly diverId: Id | null;
  /** The entries with the least room of the trip, and of each day. */
  readonly tight: readonly Entry[];
  readonly tightOfDays: readonly Entry[];
  readonly cautions: readonly Caution[];
  /** Minutes of room of an entry; null where nothing limits it. */
  readonly roomMinOf: (entry: Entry) => number | null;
  /** Which limit that is; with no minutes, one that is passed without a figure. */
  readonly roomLimitOf: (entry: Entry) => RoomLimit | null;
  readonly reader: Reader;
}

function idsOf(entries: readonly Entry[]): ReadonlySet<Id> {
  return new Set(entries.map((entry) => entry.dive.id));
}

/** The dives in the order in which they begin. */
export function diveViews(source: ViewSource): readonly DiveView[] {
  const careByDive = careOf(source.cautions, source.diverId);
  const tight = idsOf(source.tight);
  const tightOfDay = idsOf(source.tightOfDays);
  const siteNames = new Map(source.trip.sites.map((site) => [site.id, site.name]));
  return source.trip.dives
    .map((dive, index) => {
      const entries = source.entriesByDive.get(dive.id) ?? [];
      const own = entries.find((entry) => entry.diver.id === source.diverId);
      const entry = own ?? entries[0] ?? null;
      return viewOf(dive, index + 1, entry, {
        isAbsent: source.diverId !== null && own === undefined,
        part:
          dive.divers && entries.length < source.trip.party.length
            ? `${entries.length} of ${source.trip.party.length}`
            : null,
        isTightestOfTrip: tight.has(dive.id),
        isTightestOfDay: tightOfDay.has(dive.id),
        care: careByDive.get(dive.id) ?? null,
        siteName: siteNames.get(dive.siteId) ?? '',
        room: entry === null ? null : roomWords(entry, source.roomMinOf(entry), source.roomLimitOf(entry)),
        reader: source.reader,
      });
    })
    .toSorted((a, b) => a.startMin - b.startMin);
}

interface Setting {
  readonly isAbsent: boolean;
  readonly part: string | null;
  readonly isTightestOfTrip: boolean;
  readonly isTightestOfDay: boolean;
  readonly care: 'stop' | 'change' | null;
  readonly siteName: string;
  readonly room: string | null;
  readonly reader: Reader;
}

/** "3 min"; "past the PO2 limit" where there are no minutes to it; null where nothing limits the dive. */
function roomWords(entry: Entry, min: number | null, limit: RoomLimit | null): string | null {
  if (min !== null) return roomText(min);
  return entry.isMade && limit !== null ? noMinutesText(entry, limit) : null;
}

function viewOf(dive: Dive, number: number, entry: Entry | null, setting: Setting): DiveView {
  const { reader, isAbsent } = setting;
  const startMin = entry?.startMin ?? wallMin(dive.startsAt);
  const depthM = entry?.depthM ?? dive.depthM;
  const bottomEndMin = startMin + (entry?.bottomMin ?? dive.bottomMin);
  const { bottom, wayUp } = pathOf(entry, startMin, bottomEndMin, depthM);
  const hasInterval =
    entry !== null &&
    !isAbsent &&
    entry.intervalMin !== null &&
    dayNumber(startMin) === dayNumber(startMin - entry.intervalMin);
  const room = isAbsent ? null : setting.room;
  const shown = {
    id: dive.id,
    number,
    startMin,
    bottomEndMin,
    surfacesMin: entry?.surfacesMin ?? bottomEndMin,
    depthM,
    weightM: bottom[0]!.depthM,
    bottom,
    wayUp,
    sounding: sounding(depthM, reader),
    mix: entry === null ? 'nobody' : breathedText(entry),
    interval: hasInterval ? hoursText(entry.intervalMin, 'down') : '',
    intervalFromMin: hasInterval ? startMin - entry.intervalMin : startMin,
    room,
    part: setting.part,
    isAbsent,
    isAsDived: entry?.isAsDived ?? false,
    isTightestOfTrip: setting.isTightestOfTrip && !isAbsent,
    isTightestOfDay: setting.isTightestOfDay && !isAbsent,
    care: isAbsent ? null : setting.care,
  };
  return { ...shown, name: nameOf(shown, bottomEndMin - startMin, setting) };
}

/** Straight from the legs, so that what is drawn is what was reckoned. */
function pathOf(
  entry: Entry | null,
  startMin: number,
  bottomEndMin: number,
  depthM: number,
): { readonly bottom: readonly Point[]; readonly wayUp: readonly Point[] } {
  if (entry === null || entry.legs.length === 0) {
    const bottom = [
      { atMin: startMin, depthM },
      { atMin: bottomEndMin, depthM },
    ];
    return { bottom, wayUp: [] };
  }
  // The line hangs straight down, as a lead line does: the descent is inside the bottom time.
  const bottom: Point[] = [{ atMin: startMin, depthM: entry.legs[0]!.toM }];
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

function careOf(cautions: readonly Caution[], diverId: Id | null): ReadonlyMap<Id, 'stop' | 'change'> {
  const byDive = new Map<Id, 'stop' | 'change'>();
  for (const { diveId, severity, diverId: whose } of cautions) {
    if (diveId === null || severity === 'know') continue;
    if (diverId !== null && whose !== null && whose !== diverId) continue;
    if (severity === 'stop' || !byDive.has(diveId)) byDive.set(diveId, severity);
  }
  return byDive;
}

/** Whether a room is told in minutes rather than in words. */
export function hasMinutes(room: string): boolean {
  return room.endsWith(' min');
}

function nameOf(view: Omit<DiveView, 'name'>, bottomMin: number, { siteName, reader }: Setting): string {
  const parts = [
    `Dive ${view.number}`,
    `${dateText(wallDate(view.startMin), true)} ${clockText(wallText(view.startMin), reader.clock)}`,
    siteName,
    depthText(view.depthM, reader.units),
    `${shortText(bottomMin, 1)} min`,
    view.mix,
    view.interval === '' ? '' : `after ${view.interval} at the surface`,
    view.room === null ? '' : hasMinutes(view.room) ? `${view.room} of room` : view.room,
    view.isTightestOfTrip ? 'tightest of the trip' : view.isTightestOfDay ? 'tightest of the day' : '',
    view.part === null ? '' : `${view.part} divers`,
    view.isAbsent ? 'the chosen diver stays aboard' : '',
    view.isAsDived ? 'as dived' : '',
    view.care === 'stop'
      ? 'caution: not as planned'
      : view.care === 'change'
        ? 'caution: change something'
        : '',
  ];
  return parts.filter((part) => part !== '').join(', ');
}
