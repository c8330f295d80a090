import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Trip } from '../../core/document/types';
import { deeper, entrySooner, entryWith, longer, shapeOf } from '../../core/ledger/changed-dive';
import { ledger } from '../../core/ledger/ledger';
import type { Entry, Room, RoomLimit } from '../../core/ledger/ledger-types';
import { minutesLeft, roomMinutes, roomOf } from '../../core/ledger/room';
import { levelsOf, travelMin, surroundingsOf } from '../../core/profile';
import { contentL } from '../../core/supply';
import { wallMin, wallText } from '../../core/words/calendar';
import { trips } from '../support/trip-arbitrary';

/** Roots are found to 1e-6; a hundred times that is far under anything shown. */
const STEP = 1e-4;
/** Sums of a dozen terms. */
const ROUNDING = 1e-9;
/** After a wait of hours so little is left of the single clock that a step changes it by less than that. */
const CLOCK_ROUNDING = 1e-12;

/** What is made of a random trip, so that each limit is met often. */
const KINDS: readonly ((trip: Trip) => Trip)[] = [
  (trip) => trip,
  (trip) => soon(trip, 20),
  (trip) => {
    const cylinder = { waterL: 7, fillBar: 150, reserveBar: 30 };
    return { ...trip, party: trip.party.map((diver) => ({ ...diver, cylinder })) };
  },
  inShallows,
  (trip) => soon(inShallows(trip), 40),
  nearWorking,
  (trip) => soon(nearWorking(trip), 40),
];

/** There the 24 h clock fills over hours. */
function inShallows(trip: Trip): Trip {
  return withOxygen(
    trip,
    [0.3, 0.36, 0.45, 0.5],
    (m) => 3 + m * 0.4,
    (min) => 3 * min + 6,
  );
}

/** Near 1.6 bar the single-exposure clock fills in minutes. */
function nearWorking(trip: Trip): Trip {
  return withOxygen(
    trip,
    [0.45, 0.48, 0.5, 0.5],
    (m) => 16 + m * 0.12,
    (min) => 0.6 * min + 40,
  );
}

/** Rich mixes with gas enough. */
function withOxygen(
  trip: Trip,
  o2: readonly number[],
  depthOf: (m: number) => number,
  minutesOf: (min: number) => number,
): Trip {
  const party = trip.party.map((diver) => ({
    ...diver,
    maxO2: 0.5,
    po2: { working: 1.6, contingency: 1.6 },
    gradient: { low: 0.9, high: 1 },
    cylinder: { waterL: 40, fillBar: 300, reserveBar: 30 },
  }));
  const dives = trip.dives.map(({ legs, ...dive }) => ({
    ...dive,
    depthM: depthOf(dive.depthM),
    bottomMin: legs ? legs.reduce((sum, { min }) => sum + minutesOf(min), 0) : minutesOf(dive.bottomMin),
    ...(legs && {
      legs: legs.map(({ depthM, min }) => ({ depthM: depthOf(depthM), min: minutesOf(min) })),
    }),
  }));
  return { ...trip, mixes: trip.mixes.map((mix, i) => ({ ...mix, o2: o2[i]! })), party, dives };
}

/** Each dive straight after the one before, or so soon that its required stops run into it. */
function soon(trip: Trip, afterMin: number): Trip {
  const dives = [...trip.dives];
  for (let i = 1; i < dives.length; i += 1) {
    const before = dives[i - 1]!;
    const startsAt = wallText(Math.ceil(wallMin(before.startsAt) + before.bottomMin + afterMin));
    dives[i] = { ...dives[i]!, startsAt };
  }
  return { ...trip, dives };
}

interface Case {
  readonly trip: Trip;
  readonly entry: Entry;
  readonly room: Room;
}

/** The last dive of a trip of one diver. */
function casesOf(dives: { readonly min: number; readonly max: number }): fc.Arbitrary<Case> {
  return fc
    .tuple(trips({ dives, party: { min: 1, max: 1 } }), fc.constantFrom(...KINDS))
    .map(([drawn, kind]) => {
      const trip = kind(drawn);
      const entry = ledger(trip).divers[0]!.entries.at(-1)!;
      return { trip, entry, room: roomOf(trip, entry) };
    });
}

const cases = casesOf({ min: 1, max: 5 });

/** Whether an entry of the ledger keeps every limit that room looks at, by the ledger's own figures. */
function isKept(trip: Trip, entry: Entry): boolean {
  const { contentL: filledL, usedL, usedAtLeavingL, minimumBar } = entry.gas;
  const { waterL, reserveBar } = entry.diver.cylinder;
  const litres = (bar: number) => contentL(waterL, bar, entry.o2!, trip.settings.gasLaw);
  if (entry.isPastLimit || usedL === null || minimumBar === null) return false;
  if (entry.cns.after === null || entry.cns.day === null) return false;
  return (
    entry.cns.after <= 1 + CLOCK_ROUNDING &&
    entry.cns.day <= 1 + ROUNDING &&
    filledL! - usedL >= litres(reserveBar) - 1e-6 &&
    filledL! - usedAtLeavingL! >= litres(minimumBar) - 1e-5 &&
    entry.depthM <= entry.modM! + ROUNDING &&
    entry.depthM <= entry.diver.maxDepthM + ROUNDING
  );
}

/** How often each limit set a room, on either side, so that none goes unasked. */
class Seen {
  private readonly counts = new Map<string, number>();

  count(limit: RoomLimit | null, amount: number | null): void {
    const side = amount === null ? 'none' : amount < 0 ? 'past' : 'left';
    const key = `${limit ?? 'no limit'} ${side}`;
    this.counts.set(key, (this.counts.get(key) ?? 0) + 1);
  }

  expectEach(keys: readonly string[]): void {
    for (const key of keys) expect(this.counts.get(key) ?? 0, key).toBeGreaterThan(0);
  }
}

const parts = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });

/**
 * The law of an exact room: kept up to it and not beyond. Where it is negative no smaller change will do, where there is
 * none no change at all.
 * @param isKeptAt with the dive changed by so much @param least the furthest it can be changed the other way
 * @param most the furthest it can be changed at all, where nothing limits it
 */
function expectExact(
  amount: number | null,
  limit: RoomLimit | null,
  isKeptAt: (by: number) => boolean,
  least: number,
  most: number,
  where: readonly number[],
): void {
  if (amount === null) {
    const isFree = limit === null;
    // Free: kept whatever is added. Else: not kept, as it stands or changed as far as it goes.
    const ends = isFree ? [0, most] : [0, least];
    for (const by of [...ends, ...where.map((part) => part * ends[1]!)]) {
      expect(isKeptAt(by), `at ${by}, ${limit}`).toBe(isFree);
    }
    return;
  }
  expect(amount, 'a change that can be made').toBeGreaterThanOrEqual(least - ROUNDING);
  if (amount - STEP >= least) expect(isKeptAt(amount - STEP), `below ${amount}, ${limit}`).toBe(true);
  expect(isKeptAt(amount + STEP), `above ${amount}, ${limit}`).toBe(false);
  for (const part of where) {
    const by = amount * part;
    if (Math.abs(by - amount) > STEP)
      expect(isKeptAt(by), `at ${by} of ${amount}, ${limit}`).toBe(amount > 0);
  }
}

describe('roomOf', () => {
  it('in minutes is exact, or there is no such stay', () => {
    const seen = new Seen();
    fc.assert(
      fc.property(cases, parts, ({ trip, entry, room }, where) => {
        fc.pre(entry.isMade);
        const shape = shapeOf(entry);
        const levels = levelsOf(shape);
        const travel = travelMin(levels.at(-2)?.depthM ?? 0, levels.at(-1)!.depthM, surroundingsOf(trip));
        // No stay but that of rounding.
        const shortest = travel - levels.at(-1)!.min + 1e-9;
        const isKeptAt = (by: number) => isKept(trip, entryWith(trip, entry, longer(shape, by)));
        seen.count(room.minLimit, room.min);
        expectExact(room.min, room.minLimit, isKeptAt, shortest, 600, where);
      }),
      { numRuns: 2000, interruptAfterTimeLimit: 110_000 },
    );
    seen.expectEach(
      ['no-stop', 'gas', 'cns', 'cns-day'].flatMap((limit) => [`${limit} left`, `${limit} past`]),
    );
    seen.expectEach(
      ['no-stop', 'gas', 'cns-day', 'mod', 'diver-depth', 'po2'].map((limit) => `${limit} none`),
    );
  }, 120_000);

  it('in metres is exact, or there is no such depth', () => {
    const seen = new Seen();
    fc.assert(
      fc.property(cases, parts, ({ trip, entry, room }, where) => {
        fc.pre(entry.isMade);
        const shape = shapeOf(entry);
        const levels = levelsOf(shape);
        const highest = 1 - Math.min(...levels.map(({ depthM }) => depthM));
        const reachable = levels[0]!.min * trip.settings.descentMPerMin - levels[0]!.depthM;
        const isKeptAt = (by: number) => {
          // A level that leaves no time for the way down to it is no dive.
          if (by > reachable - 1e-6) return false;
          return isKept(trip, entryWith(trip, entry, deeper(shape, by)));
        };
        seen.count(room.mLimit, room.m);
        expectExact(
          room.m,
          room.mLimit,
          isKeptAt,
          Math.min(0, highest),
          Math.max(0, reachable - 1e-5),
          where,
        );
      }),
      { numRuns: 2000, interruptAfterTimeLimit: 110_000 },
    );
    seen.expectEach(
      ['no-stop', 'gas', 'cns', 'cns-day', 'mod', 'diver-depth'].flatMap((limit) => [
        `${limit} left`,
        `${limit} past`,
      ]),
    );
    seen.expectEach(['gas none', 'cns none', 'cns-day none', 'po2 none']);
  }, 120_000);

  it('in an earlier start is exact, or not possible at any interval', () => {
    const seen = new Seen();
    fc.assert(
      fc.property(casesOf({ min: 2, max: 5 }), parts, ({ trip, entry, room }, where) => {
        fc.pre(entry.isMade && entry.intervalMin !== null);
        const isKeptAt = (by: number) =>
          // Sooner than the surfacing of the dive before there is no dive.
          by <= entry.intervalMin! + ROUNDING && isKept(trip, entrySooner(trip, entry, by));
        seen.count(room.earlierLimit, room.earlierMin);
        const days = -5 * 1440;
        expectExact(
          room.earlierMin,
          room.earlierLimit,
          isKeptAt,
          days,
          Math.max(0, entry.intervalMin!),
          where,
        );
      }),
      { numRuns: 2000, interruptAfterTimeLimit: 110_000 },
    );
    seen.expectEach(['no-stop left', 'no-stop past', 'cns left', 'cns-day left', 'cns-day past']);
    seen.expectEach(['interval past', 'gas none', 'mod none', 'no-stop none', 'no limit none', 'po2 none']);
  }, 120_000);

  it('in minutes alone is the same, and without the depths that of time', () => {
    fc.assert(
      fc.property(cases, ({ trip, entry, room }) => {
        expect(roomMinutes(trip, entry)).toEqual({ min: room.min, minLimit: room.minLimit });
        const isDepth = room.minLimit === 'mod' || room.minLimit === 'diver-depth';
        const everywhere = {
          ...entry,
          diver: { ...entry.diver, maxDepthM: 1000, po2: { working: 1.6, contingency: 1.6 } },
        };
        const { min, minLimit } = minutesLeft(trip, entry);
        // Above 1.6 bar neither has minutes, and of the two reasons each names its own.
        if (room.minLimit === 'po2') expect(min).toBeNull();
        else expect({ min, minLimit }).toEqual(roomMinutes(trip, everywhere));
        if (!isDepth) expect(min).toBe(room.min);
      }),
      { numRuns: 500 },
    );
  });
});
