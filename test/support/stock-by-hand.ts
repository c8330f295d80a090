/*
 * What the stock search looks for, worked out list by list from DEVELOPERS.md, "What the stock search looks for",
 * alone: nothing of core/mixes is used but its request. Figures of single dives are the ledger's.
 */
import type { Dive, Diver, Mix, Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import type { DiverLedger, Entry } from '../../core/ledger/ledger-types';
import { minutesLeft } from '../../core/ledger/room';
import type { StockRequest } from '../../core/mixes/shares';
import { esotAdvised } from '../../core/oxygen/budgets';
import { surroundingsAt } from '../../core/document/waters';
import { surroundingsOf } from '../../core/profile';

export const SHARES = Array.from({ length: 19 }, (_, i) => 22 + i);
export const TOLD = 20;
/** Sums of a dozen terms in another order. */
export const ROUNDING = 1e-9;

function isLabel(mix: Mix, percent: number): boolean {
  return Math.abs(mix.o2 - percent / 100) < 1e-9;
}

/** The pool: the range and what is on board, less what is excluded, and what is fixed. */
function pool(
  { range, fixedPercents, excludedPercents }: StockRequest,
  mixes: readonly Mix[],
): readonly number[] {
  return SHARES.filter((percent) => {
    const isIn = range !== null && range.fromPercent <= percent && percent <= range.toPercent;
    const isOnBoard = mixes.some((mix) => isLabel(mix, percent));
    return fixedPercents.includes(percent) || ((isIn || isOnBoard) && !excludedPercents.includes(percent));
  });
}

/** Lists: one to so many different shares of the pool, every fixed one among them. */
export function everyList(request: StockRequest, mixes: readonly Mix[]): readonly (readonly number[])[] {
  const lists: (readonly number[])[] = [];
  const extend = (list: readonly number[], rest: readonly number[]): void => {
    if (list.length > 0 && request.fixedPercents.every((percent) => list.includes(percent))) lists.push(list);
    if (list.length === request.count) return;
    rest.forEach((percent, i) => extend([...list, percent], rest.slice(i + 1)));
  };
  extend([], pool(request, mixes));
  return lists;
}

/** Price of a share that is not on board. */
function priceOf(percent: number, mixes: readonly Mix[]): number {
  const first = mixes.filter(
    (mix, i) => mixes.findIndex((other) => Math.abs(other.o2 - mix.o2) < 1e-9) === i,
  );
  const points = first.map((mix) => [mix.o2 * 100, mix.costPerFill] as const);
  if (!mixes.some((mix) => isLabel(mix, 21))) points.push([21, 0]);
  points.sort((a, b) => a[0] - b[0]);
  if (points.length === 1) return points[0]![1];
  const above = points.findIndex(([label]) => label > percent);
  const at = above === -1 ? points.length - 1 : above;
  const [[fromLabel, fromPrice], [toLabel, toPrice]] = [points[at - 1]!, points[at]!];
  return Math.max(0, fromPrice + ((toPrice - fromPrice) * (percent - fromLabel)) / (toLabel - fromLabel));
}

/** A share as it is filled: the first on board with that label, else a new one. */
function mixOf(percent: number, mixes: readonly Mix[]): Mix {
  const onBoard = mixes.find((mix) => isLabel(mix, percent));
  return onBoard ?? { id: `new ${percent}`, o2: percent / 100, costPerFill: priceOf(percent, mixes) };
}

function oxygenOf(mix: Mix): number {
  return mix.analysedO2 ?? mix.o2;
}

export function isOpen(dive: Dive, { fromDate }: StockRequest): boolean {
  return (fromDate === null || dive.startsAt.slice(0, 10) >= fromDate) && (dive.asDived ?? []).length === 0;
}

/** What "auto" gives a diver of air and a list: the richest that may go, of two alike the leaner label. */
function givenMix(dive: Dive, diver: Diver, trip: Trip, percents: readonly number[]): Mix | null {
  const { surfaceBar, barPerM } = surroundingsAt(trip, dive).column;
  let best: Mix | null = null;
  for (const percent of [21, ...percents]) {
    const mix = mixOf(percent, trip.mixes);
    const careful = oxygenOf(mix) + (mix.analysedO2 === undefined ? trip.settings.analysisTolerance : 0);
    const modM = (diver.po2.working / careful - surfaceBar) / barPerM;
    if (oxygenOf(mix) > diver.maxO2 + 1e-12 || modM < dive.depthM - 1e-9) continue;
    if (best === null || oxygenOf(mix) > oxygenOf(best)) best = mix;
  }
  return best;
}

export interface Worked {
  readonly percents: readonly number[];
  readonly within: number;
  /** Infinity where no dive is made, -Infinity past a limit that no shorter stay keeps. */
  readonly roomMin: number;
  /** Of the median open dive; infinite as above, and -Infinity where somebody does not make it. */
  readonly nitrogenMin: number;
  /** Infinity where a clock is not known. */
  readonly peak: number;
  readonly cost: number;
  readonly fills: number;
  readonly unused: readonly number[];
}

/**
 * Every diver's ledger with each open dive on the mix it is given; one left out has a mix that no dive may take.
 * @param known those of lists before, by all that a diver is given
 */
function ledgersWith(
  trip: Trip,
  request: StockRequest,
  percents: readonly number[],
  known: Map<string, DiverLedger>,
): readonly DiverLedger[] {
  return trip.party.map((diver) => {
    const stock = [21, ...percents].map((percent) => mixOf(percent, trip.mixes));
    const mixes = [...trip.mixes, ...stock.filter((mix) => !trip.mixes.includes(mix))];
    const ids = trip.mixes.map((mix) => mix.id);
    const dives = trip.dives.map((dive): Dive => {
      // What was "auto" among the mixes of the trip stays so, whatever is stocked.
      if (!isOpen(dive, request))
        return dive.mix === 'auto' ? { ...dive, onBoard: dive.onBoard ?? ids } : dive;
      const mix = givenMix(dive, diver, trip, percents);
      const { onBoard: _, ...rest } = dive;
      return mix === null ? { ...rest, mix: 'auto', onBoard: [] } : { ...rest, mix: mix.id };
    });
    const before = diver.before?.map((dive) =>
      dive.mix === 'auto' ? { ...dive, onBoard: dive.onBoard ?? ids } : dive,
    );
    const given = dives.map(({ mix, onBoard }) => [mix, onBoard]);
    const key = JSON.stringify([diver.id, given]);
    let own = known.get(key);
    if (own === undefined) {
      const party = [{ ...diver, ...(before && { before }) }];
      known.set(key, (own = ledger({ ...trip, mixes, dives, party }).divers[0]!));
    }
    return own;
  });
}

/** Whether a diver makes a dive on a loop, and on which diluent. */
function loopOf(dive: Dive, { id, loop }: Diver): { readonly diluent: string } | null {
  const own = dive.loops?.find(({ by }) => by === id);
  return own === undefined || loop === undefined ? null : { diluent: own.diluent ?? loop.diluent };
}

/** Labels of diluent and bail-out that a list has to hold: whole percents from 22 to 40. */
export function neededOf(dive: Dive, diver: Diver, trip: Trip): readonly number[] {
  const onLoop = loopOf(dive, diver);
  if (onLoop === null) return [];
  const ids = [onLoop.diluent, ...diver.loop!.bailOut.map(({ mix }) => mix)];
  return SHARES.filter((percent) => trip.mixes.some((mix) => ids.includes(mix.id) && isLabel(mix, percent)));
}

/** What is filled for the open dives of a diver on a loop. */
function loopFillsOf(dives: readonly Dive[], diver: Diver, trip: Trip): readonly Mix[] {
  const diluents = dives.flatMap((dive) => loopOf(dive, diver)?.diluent ?? []);
  if (diluents.length === 0) return [];
  const mixed = [...diluents, ...diver.loop!.bailOut.map(({ mix }) => mix)].map((id) =>
    trip.mixes.find((mix) => mix.id === id)!,
  );
  const oxygen = trip.mixes.find((mix) => isLabel(mix, 100)) ?? { id: 'oxygen', o2: 1, costPerFill: 0 };
  return [...mixed, ...diluents.map(() => oxygen)];
}

function isWithin(trip: Trip, entry: Entry): boolean {
  const { diver, loop } = entry;
  if (!entry.isMade) return false;
  const { min, minLimit } = minutesLeft(trip, entry);
  return (
    !entry.isPastLimit &&
    (min === null ? minLimit === null : min >= -1e-9) &&
    entry.po2Bar! <= diver.po2.working + 1e-9 &&
    entry.depthM <= diver.maxDepthM + 1e-9 &&
    (loop === null
      ? entry.o2! <= diver.maxO2 + 1e-9
      : entry.depthM <= loop.diluentModM + 1e-9 && entry.depthM <= loop.bailOutModM + 1e-9)
  );
}

/** How much longer nitrogen lets the last level be. */
function nitrogenLeft(trip: Trip, entry: Entry): number {
  if (!entry.isMade || entry.levelsPastLimitM.length > 0) return -Infinity;
  if (entry.unlimited) return Infinity;
  const left = entry.noStopMin! - entry.bottomMin;
  const { levels } = entry;
  const fromM = levels.length > 1 ? levels.at(-2)!.depthM : 0;
  const around = surroundingsOf(trip);
  const { depthM, min } = levels.at(-1)!;
  const onTheWayMin =
    depthM > fromM ? (depthM - fromM) / around.descentMPerMin : (fromM - depthM) / around.ascentMPerMin;
  return left < -(min - onTheWayMin) ? -Infinity : left;
}

/** Of an even number of dives the greater of the two in the middle. */
function middle(rooms: readonly number[]): number {
  return rooms.length === 0
    ? Infinity
    : rooms.toSorted((a, b) => (a < b ? -1 : a > b ? 1 : 0))[Math.floor(rooms.length / 2)]!;
}

export function worked(
  trip: Trip,
  request: StockRequest,
  percents: readonly number[],
  known: Map<string, DiverLedger>,
): Worked {
  const ledgers = ledgersWith(trip, request, percents, known);
  const outside = new Set<string>();
  const given = new Set<number>();
  const nitrogen = new Map(
    trip.dives.filter((dive) => isOpen(dive, request)).map(({ id }) => [id, Infinity]),
  );
  let [roomMin, peak, cost, fills] = [Infinity, 0, 0, 0];
  for (const own of ledgers) {
    const advised = esotAdvised(Math.max(1, own.divingDays));
    const openOnLoop: Dive[] = [];
    for (const entry of own.entries) {
      if (!isWithin(trip, entry)) outside.add(entry.dive.id);
      const held = nitrogen.get(entry.dive.id);
      if (held !== undefined) nitrogen.set(entry.dive.id, Math.min(held, nitrogenLeft(trip, entry)));
      if (!entry.isMade) continue;
      const { min, minLimit } = minutesLeft(trip, entry);
      roomMin = Math.min(roomMin, min ?? (minLimit === null ? Infinity : -Infinity));
      peak = Math.max(peak, entry.cns.after ?? Infinity, entry.cns.day ?? Infinity);
      const planned = trip.dives.find(({ id }) => id === entry.dive.id)!;
      if (!isOpen(planned, request)) continue;
      if (entry.loop !== null) {
        const needed = neededOf(planned, own.diver, trip);
        for (const percent of needed) given.add(percent);
        if (needed.some((percent) => !percents.includes(percent))) outside.add(planned.id);
        openOnLoop.push(planned);
        continue;
      }
      cost += entry.mix!.costPerFill;
      if (!isLabel(entry.mix!, 21)) fills += 1;
      given.add(Math.round(entry.mix!.o2 * 100));
    }
    for (const mix of loopFillsOf(openOnLoop, own.diver, trip)) {
      cost += mix.costPerFill;
      if (!isLabel(mix, 21)) fills += 1;
    }
    for (const day of own.days) {
      const otu = day.otu === 0 ? 0 : day.otuAllowed > 0 ? day.otu / day.otuAllowed : Infinity;
      peak = Math.max(peak, otu, day.esot / advised);
    }
  }
  const unused = percents.filter((percent) => !given.has(percent));
  const nitrogenMin = middle([...nitrogen.values()]);
  return {
    percents,
    within: trip.dives.length - outside.size,
    roomMin,
    nitrogenMin,
    peak,
    cost,
    fills,
    unused,
  };
}

/** As it is shown; what binary fractions are off by does not count. */
function wholeDown(value: number): number {
  return Number.isFinite(value) ? Math.floor(value + 1e-6) : value;
}

function wholeUp(value: number): number {
  return Number.isFinite(value) ? Math.ceil(value - 1e-6) : value;
}

/** The seven measures, less is better. */
export function measures(list: Worked): readonly number[] {
  const cents = Math.floor(list.cost * 100 + 0.5 + 1e-6);
  return [
    -list.within,
    -wholeDown(list.roomMin),
    -wholeDown(list.nitrogenMin),
    cents,
    wholeUp(list.peak * 100),
    list.fills,
    list.percents.length,
  ];
}

export function firstDifference(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((each, i) => each !== b[i]);
  return at === -1 ? 0 : a[at]! < b[at]! ? -1 : 1;
}

export function isBeatenBy(a: readonly number[], b: readonly number[]): boolean {
  return b.every((each, i) => each <= a[i]!) && b.some((each, i) => each < a[i]!);
}
