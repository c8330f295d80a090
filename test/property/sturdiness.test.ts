import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Dive, Scatter, Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import { roomMinutes } from '../../core/ledger/room';
import { atSurface } from '../../core/ledger/at-surface';
import type { Carry, Entry } from '../../core/ledger/ledger-types';
import { PASSED, passedBy, roomNumber, scatteredDive, scatteredEntry } from '../../core/sturdiness/by-ledger';
import { Runs } from '../../core/sturdiness/runs';
import { USUAL_SCATTER } from '../../core/sturdiness/scatter';
import { seedsOf } from '../../core/sturdiness/seeds';
import { tripTable, type TripTable } from '../../core/sturdiness/trip-table';
import { wallText } from '../../core/words/calendar';
import { aDive, aDiver, aTrip } from '../builders/trip';
import { highTrips, mixedTrips, trips } from '../support/trip-arbitrary';

/**
 * Of minutes, and of a minute for what is near none: the interval's factors are products whose parts may be thousands of
 * times larger than they are, and where slow tissues fill up the last digits of a tension are many of its minutes.
 */
const TOLERANCE = 1e-8;

const SEED = 20270306;

/** Scatter wide enough that limits are passed, stops are made and dives run into each other. */
const WIDE: Scatter = { depthM: 2, bottomMin: 6, startMin: 60, rateShare: 0.15, o2: 0.015 };

/** The trip that a run stands for, as a document of its own: one gas rate a diver, so none may be drawn. */
function scatteredTrip({ trip, dives, cells, people }: TripTable, runs: Runs): Trip {
  const made = dives.map((table, j): Dive => {
    const drawn = runs.drawn[j]!;
    const own = cells.flatMap((cell, c) => (cell.dive === j ? [{ cell, o2: runs.o2[c]! }] : []));
    return {
      ...scatteredDive(table, drawn),
      startsAt: wallText(table.startMin + drawn.startMin),
      divers: own.map(({ cell }) => people[cell.diver]!.diver.id),
      asDived: own
        .filter(({ cell }) => !cell.isOnLoop)
        .map(({ cell, o2 }) => ({ by: people[cell.diver]!.diver.id, o2 })),
      mix: own.find(({ cell }) => !cell.isOnLoop)?.cell.mix.id ?? 'air',
    };
  });
  return { ...trip, dives: made };
}

function expectSame(mine: Runs, c: number, entry: Entry, { trip, dives, cells }: TripTable): void {
  const { around } = dives[cells[c]!.dive]!;
  const room = roomNumber(trip, entry);
  expect(mine.passed[c]).toBe(passedBy(entry, trip, around.column));
  if (Number.isFinite(room))
    expect(Math.abs(mine.room[c]! - room)).toBeLessThan(TOLERANCE * (1 + Math.abs(room)));
  else expect(mine.room[c]).toBe(room);
}

describe('every run', () => {
  it('is the ledger of the trip that it drew', () => {
    fc.assert(
      fc.property(
        fc.oneof(trips(), highTrips(), mixedTrips({ dives: { min: 1, max: 5 } })),
        fc.constantFrom(USUAL_SCATTER, WIDE),
        fc.constantFrom(0, 7, 15),
        fc.integer({ min: 0, max: 1e6 }),
        (drawn, scatter, afterMin, run) => {
          const [first, ...rest] = drawn.party;
          // A second group, which enters later.
          const party = [first!, ...rest.map((diver) => ({ ...diver, group: { name: 'B', afterMin } }))];
          const table = tripTable({ ...drawn, party }, { ...scatter, rateShare: 0 }, null);
          const runs = new Runs(table);
          runs.run(run, seedsOf(SEED));
          const made = scatteredTrip(table, runs);
          ledger(made).divers.forEach(({ entries }, d) => {
            const own = table.cells.flatMap((cell, c) => (cell.diver === d ? [c] : []));
            expect(entries).toHaveLength(own.length);
            entries.forEach((entry, k) => expectSame(runs, own[k]!, entry, { ...table, trip: made }));
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  it('is the ledger of the trip that it drew, where oxygen and not nitrogen ends the dives', () => {
    const met = new Set<string>();
    const dive = fc.record({
      depthM: fc.double({ min: 9, max: 15, noNaN: true }),
      bottomMin: fc.integer({ min: 25, max: 60 }),
      hasLevels: fc.boolean(),
    });
    const diver = aDiver({
      maxO2: 0.6,
      po2: { working: 1.6, contingency: 1.6 },
      cylinder: { waterL: 50, fillBar: 300, reserveBar: 20 },
    });
    fc.assert(
      fc.property(
        fc.array(dive, { minLength: 1, maxLength: 7 }),
        fc.integer({ min: 0, max: 1e6 }),
        (asked, run) => {
          const dives = asked.map(({ depthM, bottomMin, hasLevels }, k) =>
            aDive({
              mix: 'half',
              depthM: depthM + (hasLevels ? 2 : 0),
              bottomMin,
              // Four a day: the rolling clock keeps them all, the single one half of each in an hour and a half.
              startsAt: `2027-03-0${6 + Math.floor(k / 4)}T${8 + 3 * (k % 4) < 10 ? '0' : ''}${8 + 3 * (k % 4)}:00`,
              ...(hasLevels && {
                legs: [
                  { depthM: depthM + 2, min: bottomMin - 15 },
                  { depthM: depthM - 3, min: 15 },
                ],
              }),
            }),
          );
          const trip = aTrip(dives, { party: [diver], mixes: [{ id: 'half', o2: 0.53, costPerFill: 0 }] });
          const scatter: Scatter = { depthM: 1, bottomMin: 6, startMin: 20, rateShare: 0, o2: 0.01 };
          const table = tripTable(trip, scatter, null);
          const runs = new Runs(table);
          runs.run(run, seedsOf(SEED));
          const made = scatteredTrip(table, runs);
          ledger(made).divers[0]!.entries.forEach((entry, c) => {
            met.add(String(roomMinutes(made, entry).minLimit));
            expectSame(runs, c, entry, { ...table, trip: made });
          });
        },
      ),
      { numRuns: 40 },
    );
    expect([...met]).toEqual(expect.arrayContaining(['cns', 'cns-day']));
  });

  it('keeps gas for the stops of a level that is past its limit, though the dive ends within it', () => {
    const legs = [
      { depthM: 30, min: 30 },
      { depthM: 9, min: 25 },
      { depthM: 5, min: 20 },
    ];
    const passed = new Set<number>();
    for (let waterL = 12; waterL < 30; waterL += 0.25) {
      const diver = aDiver({ cylinder: { waterL, fillBar: 200, reserveBar: 20 } });
      const trip = aTrip([aDive({ depthM: 30, bottomMin: 75, legs, mix: 'auto' })], { party: [diver] });
      const table = tripTable(trip, { ...USUAL_SCATTER, rateShare: 0 }, null);
      const runs = new Runs(table);
      for (let run = 0; run < 5; run += 1) {
        runs.run(run, seedsOf(SEED));
        const made = scatteredTrip(table, runs);
        const [entry] = ledger(made).divers[0]!.entries;
        expectSame(runs, 0, entry!, { ...table, trip: made });
        if (entry!.isPastLimit && entry!.stops?.length === 0) passed.add(runs.passed[0]!);
      }
    }
    expect([...passed].toSorted()).toEqual([PASSED['no-stop'], PASSED['no-stop'] | PASSED.gas]);
  });

  it('breathes on each dive as it drew', () => {
    fc.assert(
      fc.property(
        trips(),
        fc.constantFrom(USUAL_SCATTER, WIDE),
        fc.integer({ min: 0, max: 1e6 }),
        (trip, scatter, run) => {
          const table = tripTable(trip, scatter, null);
          const runs = new Runs(table);
          runs.run(run, seedsOf(SEED));
          const surface = atSurface(trip, table.around.column.surfaceBar);
          const carries: Carry[] = table.people.map(({ carry }) => carry);
          table.cells.forEach((cell, c) => {
            const drawn = runs.drawn[cell.dive]!;
            const dive = scatteredDive(table.dives[cell.dive]!, drawn);
            const breathed = { rateLpm: runs.rate[c]!, o2: runs.o2[c]! };
            const entry = scatteredEntry(table, cell, dive, drawn, breathed, carries[cell.diver]!, surface);
            carries[cell.diver] = entry.after;
            expectSame(runs, c, entry, table);
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  it('uses oxygen and bail-out on a loop as it drew', () => {
    fc.assert(
      fc.property(
        mixedTrips({ dives: { min: 1, max: 1 }, party: { min: 1, max: 1 } }),
        fc.integer({ min: 0, max: 1e6 }),
        (trip, run) => {
          const table = tripTable(trip, WIDE, null);
          const runs = new Runs(table);
          runs.run(run, seedsOf(SEED));
          fc.pre(table.cells[0]?.isOnLoop === true);
          const made = scatteredTrip(table, runs);
          const [diver] = made.party;
          const factor = runs.rate[0]! / diver!.surfaceRateLpm;
          const { bailOutRateLpm } = diver!.loop!;
          const loop = {
            ...diver!.loop!,
            ...(bailOutRateLpm !== undefined && { bailOutRateLpm: bailOutRateLpm * factor }),
          };
          const asMade: Trip = {
            ...made,
            settings: { ...made.settings, loops: { oxygenLpm: factor } },
            party: [{ ...diver!, surfaceRateLpm: runs.rate[0]!, loop }],
          };
          const [entry] = ledger(asMade).divers[0]!.entries;
          expectSame(runs, 0, entry!, { ...table, trip: asMade });
        },
      ),
      { numRuns: 40 },
    );
  });

  it('leaves what is drawn a dive: no level above a metre, none too short for the way down', () => {
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 4 } }), fc.integer({ min: 0, max: 1e6 }), (trip, run) => {
        const table = tripTable(trip, { ...WIDE, depthM: 3, bottomMin: 15 }, null);
        const runs = new Runs(table);
        runs.run(run, seedsOf(SEED));
        table.dives.forEach((each, j) => {
          const { depthM, legs, bottomMin } = scatteredDive(each, runs.drawn[j]!);
          for (const level of legs ?? [{ depthM, min: bottomMin }]) {
            expect(level.depthM).toBeGreaterThanOrEqual(1 - 1e-9);
            expect(level.min).toBeGreaterThan(0);
          }
          const [first] = legs ?? [{ depthM, min: bottomMin }];
          expect(first!.depthM / table.around.descentMPerMin).toBeLessThan(first!.min + 1e-9);
        });
      }),
      { numRuns: 15 },
    );
  });
});
