import { AIR_O2 } from '../gas';
import { failure, failures, success, type Result, type Trouble } from '../result';
import type { Mix, Trip } from '../document/types';

/** Leanest share a boat may be asked to stock besides air, whole percent. Source: air is 21 %, on board anyhow. */
export const LEANEST_PERCENT = 22;

/** Richest share a boat may be asked to stock. Source: common practice, 40 % for open-circuit diving. */
export const RICHEST_PERCENT = 40;

/** More lists of mixes than four a boat does not blend. Source: this project's. */
export const MOST_MIXES = 4;

/** The shares that lists are made of, whole percents, both ends in it. */
export interface ShareRange {
  readonly fromPercent: number;
  readonly toPercent: number;
}

/** What the search for mixes to stock is asked. Percents are whole, 22 to 40. */
export interface StockRequest {
  /** At most so many mixes besides air, 1 to 4. */
  readonly count: number;
  /** Shares to choose among besides what is on board; null: what is on board alone. */
  readonly range: ShareRange | null;
  /** In every list, in the range or not. */
  readonly fixedPercents: readonly number[];
  /** In no list. */
  readonly excludedPercents: readonly number[];
  /** Dearest list, in the trip's money; null: any price. */
  readonly maxCost: number | null;
  /** Most cylinders to fill with anything but air; null: any number. */
  readonly maxFills: number | null;
  /** Dives from this date on are open to a new mix ("2027-03-08"); null: the whole trip. */
  readonly fromDate: string | null;
}

/** What the trade blends and banks. Source: common practice, whole percents from 28 to 40. */
export const USUAL_RANGE: ShareRange = { fromPercent: 28, toPercent: RICHEST_PERCENT };

/** At most two of the usual mixes, no wishes. */
export const PLAIN_REQUEST: StockRequest = {
  count: 2,
  range: USUAL_RANGE,
  fixedPercents: [],
  excludedPercents: [],
  maxCost: null,
  maxFills: null,
  fromDate: null,
};

export type RequestTroubleKind = 'count' | 'range' | 'share' | 'limit' | 'date' | 'no-list';

function trouble(
  kind: RequestTroubleKind,
  where: string,
  what: string,
  mend: string,
): Trouble<RequestTroubleKind> {
  return { kind, where, what, mend };
}

function shareTroubles(where: string, percents: readonly number[]): Trouble<RequestTroubleKind>[] {
  const found = percents
    .filter((p) => !isPercent(p))
    .map((p) =>
      trouble(
        'share',
        where,
        `${p} is no oxygen share a boat can be asked to stock.`,
        `Give whole percents from ${LEANEST_PERCENT} to ${RICHEST_PERCENT}.`,
      ),
    );
  if (new Set(percents).size < percents.length) {
    found.push(trouble('share', where, 'The same share stands twice.', 'Give each share once.'));
  }
  return found;
}

function isPercent(p: number): boolean {
  return Number.isInteger(p) && p >= LEANEST_PERCENT && p <= RICHEST_PERCENT;
}

function rangeTroubles(range: ShareRange | null): Trouble<RequestTroubleKind>[] {
  if (range === null) return [];
  const { fromPercent, toPercent } = range;
  if (isPercent(fromPercent) && isPercent(toPercent) && fromPercent <= toPercent) return [];
  const what = `${fromPercent} to ${toPercent} % is no range of shares a boat can be asked to stock.`;
  const mend = `Give two whole percents from ${LEANEST_PERCENT} to ${RICHEST_PERCENT}, the leaner first.`;
  return [trouble('range', 'pool', what, mend)];
}

function limitTroubles(where: string, value: number | null): Trouble<RequestTroubleKind>[] {
  if (value === null || (Number.isFinite(value) && value >= 0)) return [];
  return [trouble('limit', where, `${value} is no limit.`, 'Give a number of 0 or more, or leave it empty.')];
}

/** Days of the trip that have dives, "2027-03-08", in order. */
export function diveDates(trip: Pick<Trip, 'dives'>): readonly string[] {
  return [...new Set(trip.dives.map((dive) => dive.startsAt.slice(0, 10)))];
}

function dateTroubles(trip: Pick<Trip, 'dives'>, date: string | null): Trouble<RequestTroubleKind>[] {
  if (date === null) return [];
  const dates = diveDates(trip);
  const last = dates[dates.length - 1] ?? null;
  const isDate = /^\d{4}-\d{2}-\d{2}$/.test(date);
  if (isDate && last !== null && date <= last) return [];
  const mend =
    last === null ? 'Plan a dive first.' : `Give a date such as ${dates[0]}; the last dive is on ${last}.`;
  const what = isDate ? `No dive is planned on or after ${date}.` : `"${date}" is no date.`;
  return [trouble('date', 'from', what, mend)];
}

/**
 * Whether a request can be searched, every mistake named at once.
 * @param trip whose dives the dates are held against, and whose mixes are in every pool @param request as asked
 * @returns the request, shares in rising order; or troubles of kind count, range, share, limit, date or no-list
 * Source: this project's limits, 1 to 4 mixes of 22 to 40 %.
 */
export function checkedRequest(
  trip: Pick<Trip, 'dives' | 'mixes'>,
  request: StockRequest,
): Result<StockRequest, RequestTroubleKind> {
  const { count, fixedPercents, excludedPercents } = request;
  const troubles: Trouble<RequestTroubleKind>[] = [
    ...rangeTroubles(request.range),
    ...shareTroubles('fixed', fixedPercents),
    ...shareTroubles('exclude', excludedPercents),
    ...limitTroubles('largest cost', request.maxCost),
    ...limitTroubles('largest number of fills', request.maxFills),
    ...dateTroubles(trip, request.fromDate),
  ];
  if (!(Number.isInteger(count) && count >= 1 && count <= MOST_MIXES)) {
    const what = `${count} is no number of mixes to stock.`;
    troubles.unshift(trouble('count', 'stock', what, `Give a whole number from 1 to ${MOST_MIXES}.`));
  } else if (fixedPercents.length > count) {
    const what = `${fixedPercents.length} shares are fixed, but only ${count} may be stocked.`;
    troubles.push(trouble('share', 'fixed', what, 'Fix fewer shares, or stock more mixes.'));
  }
  const both = fixedPercents.filter((percent) => excludedPercents.includes(percent));
  if (both.length > 0) {
    const what = `${both.join(', ')} % is both fixed and excluded.`;
    troubles.push(trouble('share', 'exclude', what, 'Take it out of one of the two.'));
  }
  if (troubles.length > 0) return failures(troubles);
  const checked = {
    ...request,
    fixedPercents: fixedPercents.toSorted((a, b) => a - b),
    excludedPercents: excludedPercents.toSorted((a, b) => a - b),
  };
  if (listCount(checked, trip.mixes) > 0) return success(checked);
  const what = 'No share is left to choose from.';
  return failure(trouble('no-list', 'exclude', what, 'Exclude fewer shares, or choose among more.'));
}

/**
 * The shares that lists are made of: those of the range and those on board, less what is excluded, and what is fixed.
 * @param mixes those on board; a label that is no whole percent from 22 to 40 is in no list
 * @returns whole percents, rising
 * Source: this project's.
 */
export function poolOf(request: StockRequest, mixes: readonly Mix[]): readonly number[] {
  const { range, fixedPercents, excludedPercents } = request;
  const percents: number[] = [];
  for (let percent = LEANEST_PERCENT; percent <= RICHEST_PERCENT; percent += 1) {
    const isInRange = range !== null && percent >= range.fromPercent && percent <= range.toPercent;
    const isOnBoard = mixes.some((mix) => isSameShare(mix.o2, percent / 100));
    const isAsked = (isInRange || isOnBoard) && !excludedPercents.includes(percent);
    if (isAsked || fixedPercents.includes(percent)) percents.push(percent);
  }
  return percents;
}

function freePercents(request: StockRequest, mixes: readonly Mix[]): readonly number[] {
  return poolOf(request, mixes).filter((percent) => !request.fixedPercents.includes(percent));
}

/**
 * How many lists a checked request has: of 1 mix up to as many as it asks for.
 * @returns the sum of the binomial coefficients of the free shares over the mixes not fixed
 * Source: elementary combinatorics.
 */
export function listCount(request: StockRequest, mixes: readonly Mix[]): number {
  const n = freePercents(request, mixes).length;
  const fixed = request.fixedPercents.length;
  let sum = 0;
  let ofSize = 1;
  for (let k = 0; k <= Math.min(n, request.count - fixed); k += 1) {
    if (k > 0) ofSize = Math.round((ofSize * (n - k + 1)) / k);
    if (k + fixed > 0) sum += ofSize;
  }
  return sum;
}

/**
 * Every list of a checked request, each with its shares rising, shorter ones first.
 * @returns lists of 1 to `count` whole percents
 * Source: elementary combinatorics.
 */
export function listsOf(request: StockRequest, mixes: readonly Mix[]): readonly (readonly number[])[] {
  const free = freePercents(request, mixes);
  const lists: number[][] = [];
  const extend = (chosen: readonly number[], from: number, wanted: number): void => {
    if (chosen.length === wanted) {
      lists.push([...request.fixedPercents, ...chosen].toSorted((a, b) => a - b));
      return;
    }
    for (let i = from; i <= free.length - (wanted - chosen.length); i += 1) {
      extend([...chosen, free[i]!], i + 1, wanted);
    }
  };
  for (let size = Math.max(1, request.fixedPercents.length); size <= request.count; size += 1) {
    extend([], 0, size - request.fixedPercents.length);
  }
  return lists;
}

/**
 * Price of one fill at a share that may not be on board: straight between the prices on board, with air at
 * its own price or at nothing; past the richest on board the last slope goes on. A label that stands twice has the
 * price of the first.
 * @param o2 fraction, 0.21 to 0.40 @param mixes those on board
 * @returns in the trip's money, 0 or more
 * Source: this project's; a blender charges by the oxygen added (common practice).
 */
export function fillPrice(o2: number, mixes: readonly Mix[]): number {
  const points: { o2: number; price: number }[] = [];
  // Of two with one label the first stands for it, as everywhere.
  for (const mix of mixes) {
    if (!points.some((point) => isSameShare(point.o2, mix.o2))) {
      points.push({ o2: mix.o2, price: mix.costPerFill });
    }
  }
  if (!points.some((point) => isSameShare(point.o2, AIR_O2))) points.push({ o2: AIR_O2, price: 0 });
  points.sort((a, b) => a.o2 - b.o2);
  const known = points.find((point) => isSameShare(point.o2, o2));
  if (known) return known.price;
  if (points.length < 2) return points[0]!.price;
  const after = points.findIndex((point) => point.o2 > o2);
  const upper = after === -1 ? points.length - 1 : Math.max(1, after);
  const [low, high] = [points[upper - 1]!, points[upper]!];
  const slope = (high.price - low.price) / (high.o2 - low.o2);
  return Math.max(0, low.price + slope * (o2 - low.o2));
}

/** Labels count as the same share when they agree within float dust. */
export function isSameShare(a: number, b: number): boolean {
  return Math.abs(a - b) < 1e-9;
}

/**
 * The mix that stands for a share: the one on board with that label, analysis and price and all, else a new
 * one named after its share.
 * @param percent whole percent @param mixes those on board
 * @returns a mix whose id is none of the others'
 * Source: this project's.
 */
export function mixOfShare(percent: number, mixes: readonly Mix[]): Mix {
  const o2 = percent / 100;
  const onBoard = mixes.find((mix) => isSameShare(mix.o2, o2));
  if (onBoard) return onBoard;
  const plainId = isSameShare(o2, AIR_O2) ? 'air' : `ean${percent}`;
  let id = plainId;
  for (let n = 2; mixes.some((mix) => mix.id === id); n += 1) id = `${plainId}-${n}`;
  return { id, o2, costPerFill: fillPrice(o2, mixes) };
}
