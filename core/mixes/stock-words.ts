import { siteOf } from '../document/site-of';
import type { Id, Trip } from '../document/types';
import { figure, listed, NOTHING, said, type Piece, type Said } from '../words/said';
import { divesSaid, mixSaid, moneySaid, NO_END, PAST, SHORT_LIMITS, someSaid } from '../words/terms';
import type { StockAnswer, StockList } from './stock';
import type { Measure } from './undominated';
import { whyFirst } from './why-first';

/** What each measure is called, at the head of its column. */
export const MEASURE_NAMES: Readonly<Record<Measure, Said>> = {
  within: said`Dives within limits`,
  room: said`Least room`,
  nitrogen: said`Nitrogen room, middle dive`,
  cost: said`Cost`,
  oxygen: said`Oxygen at most`,
  fills: said`Fills`,
  mixes: said`Mixes`,
};

/** The mixes of a list, "EAN28 and EAN35". */
export function listSaid({ percents }: Pick<StockList, 'percents'>): Said {
  return said`${listed(percents.map((percent) => mixSaid(percent / 100)))}`;
}

/** Minutes of room; where nothing limits them, or a limit is passed without a figure, that. */
export function roomMinSaid(min: number | null): Piece {
  if (min === null) return NO_END;
  return min === -Infinity ? PAST : figure('minutesLeft', min);
}

function numberOf(trip: Trip, diveId: Id): number {
  return trip.dives.findIndex(({ id }) => id === diveId) + 1;
}

/** Which limit the least room is to, on which dive: "gas, dive 10"; nothing where none is met. */
export function leastRoomAtSaid({ smallestAt }: StockList, trip: Trip): Said {
  if (smallestAt === null) return NOTHING;
  return said`${SHORT_LIMITS[smallestAt.limit]}, dive ${numberOf(trip, smallestAt.diveId)}`;
}

/** A figure of a list by which it is judged. */
export function measureSaid(measure: Measure, list: StockList, trip: Trip): Piece {
  switch (measure) {
    case 'within':
      return said`${list.divesWithin} of ${trip.dives.length}`;
    case 'room':
      return roomMinSaid(list.smallestRoomMin);
    case 'nitrogen':
      return roomMinSaid(list.nitrogenRoomMin);
    case 'cost':
      return moneySaid(list.cost, trip.currency);
    case 'oxygen':
      return figure('shareMet', list.oxygenPeak);
    case 'fills':
      return list.fills;
    case 'mixes':
      return list.mixes;
  }
}

/** How many of the dives a list keeps within limits, and with how much left. */
function keepsSaid(list: StockList, trip: Trip): Said {
  const all = trip.dives.length;
  const left = list.smallestRoomMin;
  const room =
    left === null || left === -Infinity
      ? NOTHING
      : left < 0
        ? said`; the least room is ${figure('minutesLeft', left)}, on dive ${numberOf(trip, list.smallestAt!.diveId)}`
        : said`, with ${figure('minutesLeft', left)} or more left`;
  return list.divesWithin === all
    ? said`All ${divesSaid(all)} stay within their limits${room}.`
    : said`${list.divesWithin} of ${divesSaid(all)} stay within their limits${room}.`;
}

/** What sets a least room where it is not nitrogen, as a sentence begins. */
const SETTERS = {
  gas: said`Gas, not nitrogen,`,
  cns: said`The CNS clock, not nitrogen,`,
  'cns-day': said`The CNS clock of 24 h, not nitrogen,`,
} as const;

function isSetter(limit: string | undefined): limit is keyof typeof SETTERS {
  return limit !== undefined && limit in SETTERS;
}

/** Why nitrogen had to tell lists apart. */
function alikeSaid(first: StockList): Said {
  const limit = first.smallestAt?.limit;
  const least = first.smallestRoomMin;
  return isSetter(limit) && least !== null && least >= 0
    ? said`${SETTERS[limit]} sets these ${figure('minutesLeft', least)} on other lists too, so nitrogen room decides`
    : said`Other lists leave as much, so nitrogen room decides`;
}

/**
 * Why the first list is the one to stock, in sentences: what it keeps, then what told it from the lists that keep as
 * much. Differences are told as the two figures of the table.
 * @param answer with a list or more
 */
export function recommendationSaid({ lists }: StockAnswer, trip: Trip): readonly Said[] {
  const first = lists[0]!;
  const steps = whyFirst(lists);
  const told = [keepsSaid(first, trip)];
  for (const { measure, next } of steps) {
    const own = measureSaid(measure, first, trip);
    const other = measureSaid(measure, next, trip);
    const isLast = steps.at(-1)!.measure === measure;
    switch (measure) {
      case 'within':
        if (isLast) told.push(said`Dives within limits decide: ${listSaid(next)} keeps ${other}.`);
        break;
      case 'room':
        if (isLast) told.push(said`The least room decides: with ${listSaid(next)} it is ${other}.`);
        break;
      case 'nitrogen':
        told.push(
          said`${alikeSaid(first)}: half of the dives keep ${own} or more, against ${other} with ${listSaid(next)}.`,
        );
        break;
      case 'cost':
        told.push(
          said`Of the lists alike in that it costs least: ${own}, against ${other} with ${listSaid(next)}.`,
        );
        break;
      case 'oxygen':
        told.push(
          said`At the same cost it takes least of the oxygen clocks: ${own} at most, against ${other} with ${listSaid(next)}.`,
        );
        break;
      case 'fills':
        told.push(
          said`Of the lists alike in that it takes fewest fills: ${own}, against ${other} with ${listSaid(next)}.`,
        );
        break;
      case 'mixes':
        told.push(said`${listSaid(next)} would do no more with ${other} mixes.`);
        break;
    }
  }
  return told;
}

/** What a diver gets of a list; the other measures are what it takes to get it. Source: this project's. */
const OF_DIVER: ReadonlySet<Measure> = new Set(['within', 'room', 'nitrogen']);

/** The measure that a recommendation hangs on: the last that told what a diver gets; else what it costs to get it. */
export function decidingMeasure({ lists }: StockAnswer): Measure | null {
  const measures = whyFirst(lists).map(({ measure }) => measure);
  return measures.findLast((measure) => OF_DIVER.has(measure)) ?? measures[0] ?? null;
}

/** Dives that no list told keeps within limits, in the order of the trip. */
export function alwaysOutside({ lists }: StockAnswer): readonly Id[] {
  const [first, ...others] = lists;
  return (first?.outsideIds ?? []).filter((id) => others.every(({ outsideIds }) => outsideIds.includes(id)));
}

/** The same in words; nothing where there are none. */
export function alwaysOutsideSaid(answer: StockAnswer, trip: Trip): Said {
  const outside = alwaysOutside(answer);
  if (outside.length === 0) return NOTHING;
  const named = someSaid(
    outside.map((id) => {
      const dive = trip.dives.find((each) => each.id === id)!;
      const site = siteOf(trip, dive);
      return said`dive ${numberOf(trip, id)} at ${site?.name ?? dive.siteId}`;
    }),
  );
  return outside.length === 1
    ? said`One dive stays outside its limits on every list: ${named}.`
    : said`${divesSaid(outside.length)} stay outside their limits on every list: ${named}.`;
}
