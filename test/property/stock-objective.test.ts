/* The stock search held to its text, which test/support/stock-by-hand.ts works out alone. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Dive, Diver, Mix, Trip } from '../../core/document/types';
import { checkTrip } from '../../core/document/check-trip';
import type { DiverLedger } from '../../core/ledger/ledger-types';
import type { StockRequest } from '../../core/mixes/shares';
import { searchStock } from '../../core/mixes/stock';
import { smallTrip } from '../arbitraries/small-trip';
import {
  everyList,
  isOpen,
  neededOf,
  worked,
  measures,
  firstDifference,
  isBeatenBy,
  TOLD,
  ROUNDING,
  SHARES,
  type Worked,
} from '../support/stock-by-hand';

const percents = fc.uniqueArray(fc.integer({ min: 22, max: 40 }), { minLength: 4, maxLength: 11 });

const request: fc.Arbitrary<StockRequest> = fc
  .record({
    count: fc.integer({ min: 1, max: 3 }),
    kept: percents,
    isFixed: fc.boolean(),
    range: fc.constantFrom(
      { fromPercent: 22, toPercent: 40 },
      { fromPercent: 22, toPercent: 40 },
      { fromPercent: 28, toPercent: 36 },
      null,
    ),
    maxCost: fc.constantFrom(null, null, 30, 60),
    maxFills: fc.constantFrom(null, null, 6),
    fromDate: fc.constantFrom(null, null, '2027-03-05', '2027-03-06'),
  })
  .map(({ count, kept, isFixed, ...rest }) => ({
    count,
    fixedPercents: isFixed ? kept.slice(0, 1) : [],
    excludedPercents: SHARES.filter((percent) => !kept.includes(percent)),
    ...rest,
  }));

interface OnLoops {
  /** Which of the mixes on board, counted round. */
  readonly diluent: number;
  readonly bailOut: readonly number[];
  readonly otherDiluent: number;
  readonly setpoint: number;
  /** Every dive, or every other one. */
  readonly isAlways: boolean;
}

/** One trip in three has a diver on a loop. */
const onLoops: fc.Arbitrary<OnLoops | null> = fc.oneof(
  { weight: 2, arbitrary: fc.constant(null) },
  {
    weight: 1,
    arbitrary: fc.record({
      diluent: fc.nat(3),
      bailOut: fc.array(fc.nat(3), { minLength: 1, maxLength: 2 }),
      otherDiluent: fc.nat(3),
      setpoint: fc.constantFrom(1, 1.2),
      isAlways: fc.boolean(),
    }),
  },
);

/** A trip whose first diver makes the dives of which nothing is logged on a loop, every third on another diluent. */
function withLoops(trip: Trip, { diluent, bailOut, otherDiluent, setpoint, isAlways }: OnLoops): Trip {
  const idOf = (place: number): string => trip.mixes[place % trip.mixes.length]!.id;
  const small = { waterL: 3, fillBar: 200, reserveBar: 30 };
  const loop: Diver['loop'] = {
    setpoints: { lowBar: 0.7, highBar: setpoint, switchM: 6 },
    diluent: idOf(diluent),
    oxygenCylinder: small,
    diluentCylinder: small,
    scrubberMin: 180,
    bailOut: bailOut.map((place) => ({ mix: idOf(place), cylinder: { ...small, waterL: 11 } })),
  };
  const [first, ...others] = trip.party as [Diver, ...Diver[]];
  const dives = trip.dives.map((dive, i): Dive => {
    if ((dive.asDived ?? []).length > 0 || (!isAlways && i % 2 === 1)) return dive;
    return { ...dive, loops: [{ by: first.id, ...(i % 3 === 2 && { diluent: idOf(otherDiluent) }) }] };
  });
  return { ...trip, party: [{ ...first, loop }, ...others], dives };
}

/** Boards that a small trip lacks: no air, more prices, a label twice, a mix of an odd label; and dives that name a board. */
const asked = fc
  .tuple(
    smallTrip,
    fc.constantFrom<'as drawn' | 'without air' | 'four' | 'twice' | 'odd' | 'with oxygen'>(
      'as drawn',
      'without air',
      'four',
      'twice',
      'odd',
      'with oxygen',
    ),
    fc.integer({ min: 0, max: 20 }),
    fc.boolean(),
    request,
    onLoops,
  )
  .map(([trip, board, price, namesBoard, wanted, loops]) => {
    const [bottom, plain] = trip.mixes as [Mix, Mix];
    const boards: Readonly<Record<typeof board, readonly Mix[]>> = {
      'as drawn': [bottom, plain],
      'without air': [bottom, { ...plain, id: 'plain', o2: 0.28, costPerFill: price }],
      four: [
        { id: 'rich', o2: 0.36, costPerFill: price, analysedO2: 0.355 },
        bottom,
        plain,
        { id: 'lean', o2: 0.26, costPerFill: 3 },
      ],
      twice: [bottom, plain, { ...bottom, id: 'again', costPerFill: price }],
      odd: [bottom, plain, { id: 'odd', o2: 0.305, costPerFill: price }],
      'with oxygen': [
        bottom,
        plain,
        { id: 'rich', o2: 0.5, costPerFill: 7 },
        { id: 'oxygen', o2: 1, costPerFill: price },
      ],
    };
    const dives = trip.dives.map((dive, i) =>
      namesBoard && i % 2 === 0 && dive.mix === 'auto' ? { ...dive, onBoard: ['plain'] } : dive,
    );
    const onBoard = { ...trip, mixes: boards[board], dives };
    return { trip: loops === null ? onBoard : withLoops(onBoard, loops), wanted };
  });

describe('searchStock', () => {
  it('finds what the text says, list by list', () => {
    const seen = {
      trips: 0,
      lists: 0,
      overLimit: 0,
      kept: 0,
      past: 0,
      ties: 0,
      fixedUnused: 0,
      withUnused: 0,
      byNitrogen: 0,
      pruned: 0,
      onLoops: 0,
      unserved: 0,
    };
    fc.assert(
      fc.property(asked, ({ trip, wanted }) => {
        fc.pre(checkTrip(trip).length === 0);
        const answer = searchStock(trip, wanted);
        fc.pre(answer.ok);
        if (!answer.ok) return;
        const every = everyList(wanted, trip.mixes);
        const known = new Map<string, DiverLedger>();
        const all = every.map((list) => worked(trip, wanted, list, known));
        const useful = all.filter(({ unused }) =>
          unused.every((percent) => wanted.fixedPercents.includes(percent)),
        );
        const left = useful.filter(
          ({ cost, fills }) =>
            (wanted.maxCost === null || cost <= wanted.maxCost + 0.5e-6) &&
            (wanted.maxFills === null || fills <= wanted.maxFills),
        );
        const isBest = (list: Worked): boolean =>
          !left.some((other) => isBeatenBy(measures(list), measures(other)));
        const inOrder = left.toSorted(
          (a, b) =>
            firstDifference(measures(a), measures(b)) ||
            a.unused.length - b.unused.length ||
            firstDifference(a.percents, b.percents),
        );
        const told = inOrder.filter((list, place) => place < TOLD || isBest(list));

        const { lists, total, withUnused, overLimit } = answer.value;
        expect([total, withUnused, overLimit]).toEqual([
          all.length,
          all.length - useful.length,
          useful.length - left.length,
        ]);
        expect(lists.map((list) => list.percents)).toEqual(told.map((list) => list.percents));
        lists.forEach((list, place) => {
          const mine = told[place]!;
          expect(list.isBest).toBe(isBest(mine));
          expect(list.unusedPercents).toEqual(mine.unused);
          expect([list.divesWithin, list.fills]).toEqual([mine.within, mine.fills]);
          expect(Math.abs(list.cost - mine.cost)).toBeLessThan(ROUNDING);
          for (const [theirs, own] of [
            [list.smallestRoomMin, mine.roomMin],
            [list.nitrogenRoomMin, mine.nitrogenMin],
            [list.oxygenPeak, mine.peak],
          ] as const) {
            const figure = theirs ?? Infinity;
            if (!Number.isFinite(own)) expect(figure).toBe(own);
            else expect(Math.abs(figure - own)).toBeLessThan(ROUNDING * Math.max(1, Math.abs(own)));
          }
        });
        seen.trips += 1;
        seen.lists += all.length;
        seen.overLimit += overLimit;
        seen.pruned += left.length - answer.value.searched;
        seen.kept += trip.dives.some((dive) => !isOpen(dive, wanted)) ? 1 : 0;
        seen.past += left.some(({ roomMin }) => roomMin === -Infinity) ? 1 : 0;
        seen.fixedUnused += left.some(({ unused }) => unused.length > 0) ? 1 : 0;
        seen.withUnused += withUnused;
        const needs = trip.dives.flatMap((dive) =>
          isOpen(dive, wanted) ? trip.party.flatMap((diver) => neededOf(dive, diver, trip)) : [],
        );
        seen.onLoops += trip.dives.some((dive) => dive.loops !== undefined && isOpen(dive, wanted)) ? 1 : 0;
        seen.unserved += left.filter((list) =>
          needs.some((percent) => !list.percents.includes(percent)),
        ).length;
        const [first, second] = inOrder;
        seen.byNitrogen +=
          first && second && measures(first).findIndex((each, i) => each !== measures(second)[i]) === 2
            ? 1
            : 0;
        seen.ties += inOrder.some(
          (list, i) => i > 0 && firstDifference(measures(list), measures(inOrder[i - 1]!)) === 0,
        )
          ? 1
          : 0;
      }),
      { numRuns: 200, interruptAfterTimeLimit: 110_000 },
    );
    console.log('stock search against its text:', seen);
    // Some draws have no list that is left out unseen; stock-search.test.ts holds those that are.
    const { pruned: _rare, ...met } = seen;
    for (const [what, count] of Object.entries(met)) expect(count, what).toBeGreaterThan(0);
  }, 120_000);
});
