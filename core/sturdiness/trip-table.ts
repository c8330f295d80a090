/** What of a trip is the same in every run: its dives ahead, who dives them on what, and what each begins with. */
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import { divesAhead } from '../ledger/ahead';
import { diverLedger } from '../ledger/ledger';
import type { Carry } from '../ledger/ledger-types';
import { mixFor, mixO2 } from '../ledger/mix-choice';
import { effectiveDive, makesDive } from '../document/as-dived';
import { loopOn } from '../document/loops';
import { diverOn } from '../document/gas-rate';
import type { Diver, Mix, Scatter, Trip } from '../document/types';
import { isOneWater, surroundingsAt } from '../document/waters';
import { surroundingsOf, type Surroundings } from '../profile';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import type { Lanes } from '../tissues/affine-map';
import { wallMin, type WallMin } from '../words/calendar';
import { diveTable, type DiveTable } from './dive-table';
import { keptAfter, keptRows, lostRows, type Rows } from './rows';
import { CM, FURTHEST, SECONDS } from './scatter';

/** A diver on a dive ahead. */
export interface CellTable {
  /** Place of the diver in the party, and of the dive among those ahead. */
  readonly diver: number;
  readonly dive: number;
  /** The cell of the diver's dive before; -1: what the diver begins with. */
  readonly before: number;
  /** With the gas rate of the day. */
  readonly person: Diver;
  /** On a loop its diluent. */
  readonly mix: Mix;
  readonly o2: number;
  /** Its oxygen is not drawn: nobody blends or misreads air, and a loop holds its setpoint whatever its diluent. */
  readonly isAir: boolean;
  readonly isOnLoop: boolean;
  readonly startMin: WallMin;
  /** e^-kt of the interval before it as planned. */
  readonly kept: Float64Array;
}

/** A diver, and what they hold before the dives ahead. */
export interface PersonTable {
  readonly diver: Diver;
  readonly carry: Carry;
  /** Tensions above those at rest, bar. */
  readonly excess: readonly number[];
  readonly limits: Lanes;
  /** Shares of the 24 h clock that were taken, with the end of each. */
  readonly taken: readonly { readonly endMin: number; readonly share: number }[];
  /**
   * A clock of theirs is not known, a dive ahead is on a loop, or the trip has several heights or waters: only the ledger
   * tells what follows.
   */
  readonly isUnknown: boolean;
}

/** A trip made ready for its runs. */
export interface TripTable {
  readonly trip: Trip;
  readonly scatter: Scatter;
  readonly around: Surroundings;
  readonly airBar: number;
  readonly dives: readonly DiveTable[];
  readonly people: readonly PersonTable[];
  /** In the order of the dives, then of the party; who is not on a dive, or has no mix for it, has none. */
  readonly cells: readonly CellTable[];
  /** The cells of each dive: from, and up to. */
  readonly cellsOf: readonly (readonly [number, number])[];
  readonly down: Rows;
  readonly up: Rows;
  readonly longer: Rows;
  /** Of a start that is sooner or later, and of the start of the dive before besides. */
  readonly later: Rows;
  readonly upKept: Rows;
  readonly longerKept: Rows;
}

function personTable(
  trip: Trip,
  diver: Diver,
  firstAhead: number,
  airBar: number,
  around: Surroundings,
  isPlain: boolean,
): PersonTable {
  const { entries, start } = diverLedger(trip, diver);
  const done = new Set(trip.dives.slice(0, firstAhead));
  const carry = entries.findLast(({ dive }) => done.has(dive))?.after ?? start;
  return {
    diver,
    carry,
    excess: carry.tensions.map((bar) => bar - airBar),
    limits: surfaceLimits(around.column, diver.gradient.high),
    taken: carry.exposures.map(({ endMin, pieces }) => ({
      endMin,
      share: (pieces ?? []).reduce((sum, { share }) => sum + share, 0),
    })),
    isUnknown: !isPlain || carry.cns === null || carry.exposures.some(({ pieces }) => pieces === null),
  };
}

function isAir(o2: number): boolean {
  return Math.abs(o2 - (1 - AIR_N2)) < 1e-9;
}

/** So many steps each way may be drawn. */
function most(deviation: number, steps: number): number {
  return Math.ceil(FURTHEST * deviation * steps);
}

/** What a diver breathes on a dive: the diluent of a loop, else a mix; null where none may go there. */
function mixOn(
  trip: Trip,
  { dive, around }: DiveTable,
  diver: Diver,
): Pick<CellTable, 'mix' | 'o2' | 'isAir' | 'isOnLoop'> | null {
  const onLoop = loopOn(dive, diver);
  if (onLoop !== null) {
    const mix = trip.mixes.find(({ id }) => id === onLoop.diluent)!;
    return { mix, o2: mixO2(mix), isAir: true, isOnLoop: true };
  }
  const effective = effectiveDive(dive, diver);
  const mix = mixFor(dive, diver, trip, around) ?? effective.analysedMix;
  if (mix === null) return null;
  const o2 = effective.analysedO2 ?? mixO2(mix);
  return { mix, o2, isAir: isAir(o2), isOnLoop: false };
}

/**
 * Makes a trip ready.
 * @param trip a document that has passed its checks @param scatter standard deviations
 * @param nowMin wall minutes, as for `divesAhead`: what is done does not scatter
 * Source: CONVENTIONS, "How sturdy a plan is".
 */
export function tripTable(trip: Trip, scatter: Scatter, nowMin: WallMin | null): TripTable {
  const around = surroundingsOf(trip);
  const airBar = AIR_N2 * inspiredBar(around.column.surfaceBar);
  const ahead = divesAhead(trip, nowMin);
  const firstAhead = trip.dives.findIndex(({ id }) => ahead.has(id));
  const planned = trip.dives.filter(({ id }) => ahead.has(id));
  const lastMin = Math.max(...planned.map(({ startsAt }) => wallMin(startsAt))) + most(scatter.startMin, 1);
  // Maps are made for one water, and intervals at one pressure.
  const isPlain = isOneWater(trip) && (trip.events ?? []).every(({ from }) => wallMin(from) > lastMin);
  const dives = planned.map((dive) => diveTable(dive, surroundingsAt(trip, dive)));
  const people = trip.party.map((diver) => {
    const isOnLoop = planned.some((dive) => loopOn(dive, diver) !== null);
    const doneUpTo = firstAhead === -1 ? trip.dives.length : firstAhead;
    return personTable(trip, diver, doneUpTo, airBar, around, isPlain && !isOnLoop);
  });
  const cells: CellTable[] = [];
  const lastOf = people.map(() => -1);
  const keptBetween = new Map<string, Float64Array>();
  const cellsOf = dives.map((table, j): readonly [number, number] => {
    const from = cells.length;
    people.forEach(({ diver, carry }, d) => {
      if (!makesDive(table.dive, diver.id)) return;
      const breathed = mixOn(trip, table, diver);
      if (breathed === null) return;
      const { startMin } = effectiveDive(table.dive, diver);
      const before = lastOf[d]!;
      const last = before === -1 ? null : cells[before]!;
      const endMin = last === null ? carry.atMin : last.startMin + dives[last.dive]!.runtimeMin;
      const key = `${j} ${startMin - endMin}`;
      let kept = keptBetween.get(key);
      if (!kept) keptBetween.set(key, (kept = keptAfter(startMin - endMin)));
      const person = diverOn(diver, startMin);
      lastOf[d] = cells.length;
      cells.push({ diver: d, dive: j, before, person, ...breathed, startMin, kept });
    });
    return [from, cells.length];
  });
  const [mostCm, mostSeconds] = [most(scatter.depthM, CM), most(scatter.bottomMin, SECONDS)];
  const upMin = 1 / CM / around.ascentMPerMin;
  return {
    trip,
    scatter,
    around,
    airBar,
    dives,
    people,
    cells,
    cellsOf,
    down: lostRows(mostCm, 1 / CM / around.descentMPerMin),
    up: lostRows(mostCm, upMin),
    longer: lostRows(mostSeconds, 1 / SECONDS),
    later: keptRows(2 * most(scatter.startMin, 1), 1),
    upKept: keptRows(mostCm, upMin),
    longerKept: keptRows(mostSeconds, 1 / SECONDS),
  };
}
