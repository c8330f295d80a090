import { toleratedTensions } from '../ascent/tolerated';
import type { Trip } from '../document/types';
import { runtimeMin, surroundingsOf } from '../profile';
import { GROUPS, type Group } from '../tables/data';
import { altitudeWaitMin, HIGHEST_INCREASE_FT } from '../tables/procedure';
import { M_PER_FOOT } from '../units';
import { altitudeBar } from '../water';
import type { WallMin } from '../words/calendar';
import { figure, said, type Said } from '../words/said';
import { atSurface, fallenBelow, type Air } from './at-surface';
import { flyingRow, HOURS_BEFORE_FLIGHT, lastSurfacingMin, type Dived, type FlyingRow } from './flying';
import type { Carry, Entry } from './ledger-types';
import { heightOfDive, holdsEverywhere, TABLE_UP_TO_ALTITUDE_M, tableHolds } from './second-opinion';

/**
 * Altitude that the cabin of an airliner stands for where the trip does not say, metres.
 * Source: 14 CFR 25.841(a): not more than 8 000 ft in normal operation (0.753 bar by ISO 2533).
 */
export const CABIN_ALTITUDE_M = 8000 * M_PER_FOOT;

/** Whose hours before a flight: the workshop's, the government table's, or the model's. */
export type FlightViewKind = 'guideline' | 'table' | 'model';

/** Why a view has no moment. */
export interface NoFlightView {
  readonly clearMin: null;
  readonly reason: Said;
}

export interface GuidelineView {
  readonly row: FlyingRow;
  readonly hours: number;
  readonly clearMin: WallMin;
}

export interface TableFlightView {
  /** Highest group of the 24 h before the last surfacing. */
  readonly group: Group;
  /** After the last surfacing, minutes. */
  readonly waitMin: number;
  /** The climb is higher than the table has it: the wait is that of its last column, and no less would do. */
  readonly isAtLeast: boolean;
  readonly clearMin: WallMin;
}

export interface ModelFlightView {
  /** The compartment that waits longest, 1 to 16; null where none has to wait. */
  readonly compartment: number | null;
  readonly clearMin: WallMin;
}

/** When a diver may fly, three ways, side by side. */
export interface FlightViews {
  readonly lastSurfacingMin: WallMin;
  readonly cabinAltitudeM: number;
  /** Pressure in that cabin, bar. */
  readonly cabinBar: number;
  readonly guideline: GuidelineView;
  readonly table: TableFlightView | NoFlightView;
  readonly model: ModelFlightView | NoFlightView;
  /** The view that asks for the longest wait; of equals the first. */
  readonly latest: FlightViewKind;
  /** Flying is clear from here by every view that has a moment. */
  readonly clearMin: WallMin;
}

/** The cabin that a trip reckons with, metres. Source: as `CABIN_ALTITUDE_M`. */
export function cabinAltitudeM({ settings }: Pick<Trip, 'settings'>): number {
  return settings.cabinAltitudeM ?? CABIN_ALTITUDE_M;
}

/** Of a diver who brings a dive whose mix is not known. */
export const MIX_NOT_KNOWN: NoFlightView = {
  clearMin: null,
  reason: said`the mix of a dive brought to the trip is not known`,
};

const NO_GROUP: NoFlightView = {
  clearMin: null,
  reason: said`the table was not entered with a dive of the last 24 h`,
};

const DAY_MIN = 1440;

const TOO_HIGH: NoFlightView = {
  clearMin: null,
  reason: said`the table holds for dives up to ${figure('altitude', TABLE_UP_TO_ALTITUDE_M)} above the sea`,
};

/** A climb told in metres misses the head of a column by rounding alone, feet. */
const SAME_FT = 1e-6;

/**
 * How high the lowest of the dives was made that a climb is counted from: of those surfaced from in the 24 hours before
 * the last surfacing, as for the table.
 * @returns metres above the sea; Infinity without dives
 * Source: CONVENTIONS, "Height after diving".
 */
export function lowestDivedM(dived: Dived, trip: Trip): number {
  const surfacedMin = lastSurfacingMin(dived) ?? -Infinity;
  let lowestM = Infinity;
  const count = (entry: Entry, isEarlier: boolean): void => {
    const outMin = entry.isMade ? entry.surfacesMin : entry.startMin + runtimeMin(entry.legs);
    if (surfacedMin - outMin <= DAY_MIN) lowestM = Math.min(lowestM, heightOfDive(trip, entry, isEarlier));
  };
  for (const entry of dived.earlier) count(entry, true);
  for (const entry of dived.entries) count(entry, false);
  return lowestM;
}

/**
 * When the government table lets a diver go up: the wait of the highest group of the 24 hours before the last surfacing,
 * dives brought to the trip included, in the column of the climb from the lowest water dived in them.
 * @param dived at least one dive, all on known mixes @param toM altitude of the cabin, or of the road, metres
 * @returns no moment for dives higher than the table holds, or without a group
 * Source: U.S. Navy Diving Manual Revision 7 (2016), table 9-6 and its notes.
 */
export function tableFlight(
  dived: Dived,
  trip: Trip,
  toM: number = cabinAltitudeM(trip),
): TableFlightView | NoFlightView {
  const surfacedMin = lastSurfacingMin(dived) ?? -Infinity;
  const holds = holdsEverywhere(trip) ? null : tableHolds(dived, trip);
  let highest = -1;
  let isTooHigh = false;
  for (const dives of [dived.earlier, dived.entries]) {
    for (const entry of dives) {
      const { table, surfacesMin } = entry;
      if (table === null || surfacedMin - surfacesMin > DAY_MIN) continue;
      isTooHigh ||= holds !== null && holds.get(entry) !== 'holds';
      highest = Math.max(highest, GROUPS.indexOf(table.groupAfter));
    }
  }
  if (isTooHigh) return TOO_HIGH;
  const group = GROUPS[highest];
  if (group === undefined) return NO_GROUP;
  const climbFt = Math.max(0, toM - lowestDivedM(dived, trip)) / M_PER_FOOT;
  const waitMin = altitudeWaitMin(group, climbFt - SAME_FT);
  const isAtLeast = climbFt - SAME_FT > HIGHEST_INCREASE_FT;
  return { group, waitMin, isAtLeast, clearMin: surfacedMin + waitMin };
}

/**
 * When every compartment may be taken to a lower pressure.
 * @param after tensions on surfacing from the last dive @param surface what is breathed meanwhile
 * @param toBar pressure they are taken to, bar @param gradientHigh 0 to 1, the diver's at the surface
 * @returns the surfacing itself where they may at once; no moment where a compartment at rest stands above its limit
 * Source: as `fallenBelow`; tolerated tension after Baker 1998, at the lower pressure.
 */
export function modelFlight(
  after: Pick<Carry, 'atMin' | 'tensions'>,
  surface: Air,
  toBar: number,
  gradientHigh: number,
): ModelFlightView | NoFlightView {
  const fallen = fallenBelow(after, toleratedTensions(toBar, gradientHigh), surface);
  if (!('never' in fallen)) return { compartment: fallen.compartment, clearMin: fallen.atMin };
  return {
    clearMin: null,
    reason: said`compartment ${String(fallen.never)} never comes below what the model tolerates at that height`,
  };
}

/** Which of some views asks for the longest wait, and until when; of equals the one listed first. */
export function latestOf<Kind extends string>(
  views: readonly (readonly [Kind, { readonly clearMin: WallMin | null } | null])[],
): { readonly latest: Kind | null; readonly clearMin: WallMin } {
  let latest: Kind | null = null;
  let clearMin = -Infinity;
  for (const [kind, view] of views) {
    if (view === null || view.clearMin === null || view.clearMin <= clearMin) continue;
    latest = kind;
    ({ clearMin } = view);
  }
  return { latest, clearMin };
}

/**
 * When one diver may fly, three ways: the published hours, the government table by its group and the height of the
 * cabin, and the model, when every compartment may be taken to the cabin's pressure. The latest counts: the model
 * may lengthen the hours and never shortens them.
 * @param dived their dives, those brought to the trip included @param after what the last of them left
 * @param gradientHigh 0 to 1, the diver's at the surface
 * @returns null without dives
 * Source: CONVENTIONS, "Hours before flying".
 */
export function flightViews(
  trip: Trip,
  dived: Dived,
  after: Carry,
  gradientHigh: number,
): FlightViews | null {
  const row = flyingRow(dived);
  const surfacedMin = lastSurfacingMin(dived);
  if (row === null || surfacedMin === null) return null;
  const hours = HOURS_BEFORE_FLIGHT[row];
  const guideline = { row, hours, clearMin: surfacedMin + hours * 60 };
  const altitudeM = cabinAltitudeM(trip);
  const cabinBar = altitudeBar(altitudeM);
  const isKnown = dived.earlier.every((entry) => entry.isMade);
  const surface = atSurface(trip, surroundingsOf(trip).column.surfaceBar);
  const table = isKnown ? tableFlight(dived, trip, altitudeM) : MIX_NOT_KNOWN;
  const model = isKnown ? modelFlight(after, surface, cabinBar, gradientHigh) : MIX_NOT_KNOWN;
  const views = { guideline, table, model };
  const { latest, clearMin } = latestOf<FlightViewKind>([
    ['guideline', guideline],
    ['table', table],
    ['model', model],
  ]);
  return {
    lastSurfacingMin: surfacedMin,
    cabinAltitudeM: altitudeM,
    cabinBar,
    ...views,
    latest: latest ?? 'guideline',
    clearMin,
  };
}
