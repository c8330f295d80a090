import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outcomeOf } from '../../core/mixes/outcome';
import { LEANEST_PERCENT, listsOf, RICHEST_PERCENT, type StockRequest } from '../../core/mixes/shares';
import { LISTS_TOLD, searchStock } from '../../core/mixes/stock';
import { openTrip, stockedTrip } from '../../core/mixes/stocked-trip';
import { compareMerits, meritsOf, undominated } from '../../core/mixes/undominated';
import { checkTrip } from '../../core/document/check-trip';
import { ledger } from '../../core/ledger/ledger';
import { minutesLeft } from '../../core/ledger/room';
import { smallTrip } from '../arbitraries/small-trip';

/** Sums of a dozen terms in another order: a few hundred ulp. */
const ROUNDING = 1e-9;

const percent = fc.integer({ min: LEANEST_PERCENT, max: RICHEST_PERCENT });

const request: fc.Arbitrary<StockRequest> = fc
  .record({
    count: fc.integer({ min: 1, max: 3 }),
    kept: fc.uniqueArray(percent, { minLength: 8, maxLength: 14 }),
    isFixed: fc.boolean(),
    fromDate: fc.constantFrom(null, null, '2027-03-05', '2027-03-06'),
    maxFills: fc.constantFrom(null, null, 6),
  })
  .map(({ count, kept, isFixed, fromDate, maxFills }) => {
    const all = Array.from({ length: RICHEST_PERCENT - LEANEST_PERCENT + 1 }, (_, i) => LEANEST_PERCENT + i);
    return {
      count,
      range: { fromPercent: LEANEST_PERCENT, toPercent: RICHEST_PERCENT },
      fixedPercents: isFixed ? kept.slice(0, 1) : [],
      excludedPercents: all.filter((each) => !kept.includes(each)),
      maxCost: null,
      maxFills,
      fromDate,
    };
  });

/** Counted, so that no kind of trip is missing without being noticed. */
const seen = { trips: 0, lists: 0, pruned: 0, outside: 0, kept: 0 };

describe('searchStock', () => {
  it('equals every list worked out by the ledger, without pruning, list by list', () => {
    fc.assert(
      fc.property(smallTrip, request, (trip, asked) => {
        fc.pre(checkTrip(trip).length === 0);
        fc.pre(asked.fromDate === null || trip.dives.some((dive) => dive.startsAt >= asked.fromDate!));
        const answer = searchStock(trip, asked);
        if (!answer.ok) throw new Error(JSON.stringify(answer.troubles));
        const open = openTrip(trip, answer.value.request);
        const useful = listsOf(answer.value.request, trip.mixes).flatMap((percents) => {
          const whole = ledger(stockedTrip(open, percents));
          const given = new Set(
            whole.divers.flatMap(({ entries }) =>
              entries.flatMap(({ mix, dive }) =>
                mix && open.openIds.has(dive.id) ? [Math.round(mix.o2 * 100)] : [],
              ),
            ),
          );
          const isUseful = percents.every(
            (each) => given.has(each) || answer.value.request.fixedPercents.includes(each),
          );
          return isUseful ? [{ percents, whole, ...outcomeOf(whole, open.openIds, percents.length) }] : [];
        });
        const every = useful.filter((list) => asked.maxFills === null || list.fills <= asked.maxFills);
        const merits = every.map(meritsOf);
        const best = new Set(undominated(merits).map((place) => every[place]!.percents.join()));
        const toldByName = new Map(answer.value.lists.map((list) => [list.percents.join(), list]));

        expect(answer.value.total - answer.value.withUnused).toBe(useful.length);
        expect(useful.length - answer.value.overLimit).toBe(every.length);
        for (const list of every) {
          const told = toldByName.get(list.percents.join());
          expect(told?.isBest ?? false).toBe(best.has(list.percents.join()));
          if (!told) continue;
          expect(told.divesWithin).toBe(list.divesWithin);
          // The room told is that of the dive it is said to be of, to the limit it is said to be to.
          const { smallestAt, smallestRoomMin } = told;
          expect(smallestAt === null).toBe(smallestRoomMin === null);
          const rooms = list.whole.divers.flatMap(({ entries }) =>
            entries
              .filter((entry) => entry.dive.id === smallestAt?.diveId)
              .map((entry) => minutesLeft(list.whole.trip, entry)),
          );
          if (smallestRoomMin !== null) {
            const ofIt = rooms.filter(({ minLimit }) => minLimit === smallestAt!.limit);
            const least = Math.min(...ofIt.map(({ min }) => min ?? -Infinity));
            if (smallestRoomMin === -Infinity) expect(least).toBe(-Infinity);
            else expect(Math.abs(least - smallestRoomMin)).toBeLessThan(1e-6);
          }
          expect(told.fills).toBe(list.fills);
          expect(Math.abs(told.cost - list.cost)).toBeLessThan(ROUNDING);
          for (const figure of ['smallestRoomMin', 'nitrogenRoomMin', 'oxygenPeak'] as const) {
            expect(told[figure] === null).toBe(list[figure] === null);
            if (list[figure] === null || list[figure] === -Infinity) expect(told[figure]).toBe(list[figure]);
            else
              expect(Math.abs(told[figure]! - list[figure])).toBeLessThan(
                ROUNDING * Math.max(1, Math.abs(list[figure])),
              );
          }
        }
        // The first twenty of all, by merit, are told too.
        const sorted = merits.toSorted(compareMerits);
        const toldMerits = answer.value.lists.map(meritsOf);
        sorted.slice(0, LISTS_TOLD).forEach((each, place) => {
          expect(compareMerits(toldMerits[place]!, each)).toBe(0);
        });
        seen.trips += 1;
        seen.lists += every.length;
        seen.pruned += every.length - answer.value.searched;
        seen.outside += every.filter((list) => list.divesWithin < trip.dives.length).length;
        seen.kept += open.hasKept ? 1 : 0;
      }),
      // The machine may be busy with other tests: all 200 are looked at all the same.
      { numRuns: 200, interruptAfterTimeLimit: 110_000 },
    );
    console.log('stock search against brute force:', seen);
    expect(seen.trips).toBeGreaterThanOrEqual(200);
    expect(seen.outside).toBeGreaterThan(0);
    expect(seen.pruned).toBeGreaterThan(0);
    expect(seen.kept).toBeGreaterThan(0);
  }, 120_000);
});
