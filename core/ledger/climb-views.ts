/** Going up after diving: over a pass, to a lake, to a site higher than where the party stays. */
import type { Dive, Trip, TripEvent } from '../document/types';
import { isOneWater, waterAt } from '../document/waters';
import { altitudeBar } from '../water';
import { wallMin, type WallMin } from '../words/calendar';
import type { Stay } from './at-surface';
import { atSurface } from './at-surface';
import {
  latestOf,
  lowestDivedM,
  MIX_NOT_KNOWN,
  modelFlight,
  tableFlight,
  type FlightViewKind,
  type GuidelineView,
  type ModelFlightView,
  type NoFlightView,
  type TableFlightView,
} from './flight-views';
import { flyingRow, HOURS_BEFORE_FLIGHT, lastSurfacingMin, type Dived } from './flying';
import type { Carry, Entry } from './ledger-types';

/**
 * The published hours before a flight are taken for a climb by road as well from this much on, metres, and a site so much
 * higher or lower than where the party stays is not at its height.
 * Source: common practice, 300 m (1 000 ft): what lies below is no altitude.
 */
export const CLIMB_FROM_M = 300;

/** A way up. */
export interface Climb {
  /** The event that begins, or that is over where the party is higher again; null: a dive at a higher site. */
  readonly event: TripEvent | null;
  /** The dive at whose site the climb ends, where no event tells of it. */
  readonly dive: Dive | null;
  readonly atMin: WallMin;
  readonly fromM: number;
  readonly toM: number;
}

/** When a diver may go up, three ways, as for a flight. */
export interface ClimbViews {
  readonly climb: Climb;
  readonly lastSurfacingMin: WallMin;
  /** null: the climb is less than what the hours are taken for. */
  readonly guideline: GuidelineView | null;
  readonly table: TableFlightView | NoFlightView;
  readonly model: ModelFlightView | NoFlightView;
  /** The view that asks for the longest wait; of equals the first; null where none has a moment. */
  readonly latest: FlightViewKind | null;
  /** Going up is clear from here by every view that has a moment. */
  readonly clearMin: WallMin;
}

/** How high the party is at a moment, between its dives, and by which event; where that changes, what begins. */
export function stayAt(
  { events = [], water }: Pick<Trip, 'events' | 'water'>,
  atMin: WallMin,
): { readonly altitudeM: number; readonly event: TripEvent | null } {
  const event = events.find(({ from, to }) => wallMin(from) <= atMin && atMin < wallMin(to)) ?? null;
  return { altitudeM: event?.altitudeM ?? water.altitudeM, event };
}

const NONE: readonly Climb[] = [];

/** Ways up that the events of a trip make: into a higher one, and out of a lower one. */
function climbsOfEvents({ events = [], water }: Trip): readonly Climb[] {
  const climbs: Climb[] = [];
  let wasM = water.altitudeM;
  events.forEach((event, turn) => {
    const { from, to, altitudeM } = event;
    const before = events[turn - 1];
    const fromM = before !== undefined && before.to === from ? wasM : water.altitudeM;
    if (altitudeM > fromM) {
      climbs.push({ event, dive: null, atMin: wallMin(from), fromM, toM: altitudeM });
    }
    const isLeft = events[turn + 1]?.from !== to;
    if (isLeft && water.altitudeM > altitudeM) {
      climbs.push({ event, dive: null, atMin: wallMin(to), fromM: altitudeM, toM: water.altitudeM });
    }
    wasM = altitudeM;
  });
  return climbs;
}

/** Ways up to a site that no event tells of: the party is there when the dive begins, at the latest. */
function climbsOfDives(trip: Trip, entries: readonly Entry[]): readonly Climb[] {
  if ((trip.events ?? []).length === 0 && isOneWater(trip)) return NONE;
  return entries.flatMap(({ dive, startMin, isMade }) => {
    const toM = waterAt(trip, dive).altitudeM;
    const { altitudeM: fromM } = stayAt(trip, startMin);
    return isMade && toM - fromM >= CLIMB_FROM_M ? [{ event: null, dive, atMin: startMin, fromM, toM }] : [];
  });
}

/** The places where a diver is until a climb, the last of them for good: how long it takes there is what is asked. */
function staysUntil(stays: readonly Stay[], { atMin, fromM }: Climb): readonly Stay[] {
  const before = stays.filter(({ toMin }) => toMin < atMin);
  const since = Math.max(-Infinity, ...before.map(({ toMin }) => toMin));
  const last = stays.find(({ fromMin, toMin }) => fromMin < atMin && toMin >= atMin);
  return last === undefined
    ? before
    : [...before, { fromMin: Math.max(since, last.fromMin), toMin: Infinity, bar: altitudeBar(fromM) }];
}

/**
 * When a diver may go up, for every way up of a trip that has dives before it: the published hours where they apply, the
 * government table by its group and the climb, and the model, when every compartment may be taken to the pressure up there.
 * @param dived the dives of one diver, those brought to the trip included @param start what is held before those of the trip
 * @param gradientHigh 0 to 1, the diver's at the surface
 * @returns in order of time
 * Source: CONVENTIONS, "Height after diving".
 */
export function climbViews(
  trip: Trip,
  dived: Dived,
  start: Carry,
  gradientHigh: number,
): readonly ClimbViews[] {
  const climbs = [...climbsOfEvents(trip), ...climbsOfDives(trip, dived.entries)];
  return climbs
    .toSorted((one, other) => one.atMin - other.atMin)
    .flatMap((climb) => viewsOf(trip, dived, start, gradientHigh, climb) ?? []);
}

function viewsOf(
  trip: Trip,
  dived: Dived,
  start: Carry,
  gradientHigh: number,
  climb: Climb,
): ClimbViews | null {
  const { atMin, toM } = climb;
  const isBefore = ({ startMin }: Entry): boolean => startMin < atMin;
  const before = { earlier: dived.earlier.filter(isBefore), entries: dived.entries.filter(isBefore) };
  const row = flyingRow(before);
  const surfacedMin = lastSurfacingMin(before);
  if (row === null || surfacedMin === null) return null;
  const hours = HOURS_BEFORE_FLIGHT[row];
  const isHigh = toM - lowestDivedM(before, trip) >= CLIMB_FROM_M;
  const guideline = isHigh ? { row, hours, clearMin: surfacedMin + hours * 60 } : null;
  const isKnown = before.earlier.every((entry) => entry.isMade);
  const after = before.entries.at(-1)?.after ?? start;
  const { homeBar, stays } = atSurface(trip, altitudeBar(trip.water.altitudeM));
  const table = isKnown ? tableFlight(before, trip, toM) : MIX_NOT_KNOWN;
  const model = isKnown
    ? modelFlight(after, { homeBar, stays: staysUntil(stays, climb) }, altitudeBar(toM), gradientHigh)
    : MIX_NOT_KNOWN;
  const { latest, clearMin } = latestOf<FlightViewKind>([
    ['guideline', guideline],
    ['table', table],
    ['model', model],
  ]);
  return {
    climb,
    lastSurfacingMin: surfacedMin,
    guideline,
    table,
    model,
    latest,
    clearMin: latest === null ? surfacedMin : clearMin,
  };
}
