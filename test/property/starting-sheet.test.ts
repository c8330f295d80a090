import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../core/cautions/all';
import { checkTrip } from '../../core/document/check-trip';
import { ledger } from '../../core/ledger/ledger';
import type { CellAsk } from '../../core/proposal/starting-cells';
import { startingSheet, type StartingAnswers, type StartingTrip } from '../../core/proposal/starting-sheet';
import { wallMin } from '../../core/words/calendar';
import { divers, tripSettings, tripWaters } from '../support/trip-arbitrary';

const clock = fc
  .tuple(fc.integer({ min: 5, max: 22 }), fc.integer({ min: 0, max: 11 }))
  .map(([hour, five]) => `${String(hour).padStart(2, '0')}:${String(five * 5).padStart(2, '0')}`);

/** What a site may be like: at one depth, or with levels that begin at its depth. */
const site = fc.record({
  depthM: fc.integer({ min: 3, max: 60 }),
  levels: fc.array(
    fc.record({ part: fc.double({ min: 0.2, max: 1, noNaN: true }), min: fc.integer({ min: 1, max: 30 }) }),
    {
      maxLength: 3,
    },
  ),
});

const sites = fc.array(site, { minLength: 1, maxLength: 7 }).map((each) =>
  each.map(({ depthM, levels }, index) => ({
    id: `s${index}`,
    name: `Site ${index}`,
    depthM,
    notes: '',
    ...(levels.length === 0
      ? {}
      : {
          levels: [
            { depthM, min: 20 },
            ...levels.map(({ part, min }) => ({ depthM: Math.max(1, part * depthM), min })),
          ],
        }),
  })),
);

const answers: fc.Arbitrary<StartingAnswers> = fc.record({
  title: fc.constant('Laid out'),
  place: fc.constant(''),
  firstDay: fc.constantFrom('2027-03-06', '2028-02-27', '2027-12-30'),
  nights: fc.oneof(
    { weight: 8, arbitrary: fc.integer({ min: 0, max: 5 }) },
    { weight: 1, arbitrary: fc.constant(9) },
  ),
  times: fc.uniqueArray(clock, { minLength: 1, maxLength: 5 }),
  sites,
  party: fc
    .array(divers, { minLength: 1, maxLength: 3 })
    .map((people) => people.map((diver, index) => ({ id: `p${index}`, name: `Guest ${index}`, ...diver }))),
  mixes: fc
    .uniqueArray(fc.constantFrom(0.21, 0.28, 0.32, 0.36, 0.4), { minLength: 1, maxLength: 3 })
    .map((shares) => shares.map((o2) => ({ id: `ean${o2 * 100}`, o2, costPerFill: 0 }))),
  flight: fc.constantFrom(null, '2027-03-09T12:00', '2028-03-03T06:00', '2027-12-31T23:00'),
  water: tripWaters,
  settings: tripSettings,
  depthUnit: fc.constantFrom('m' as const, 'ft' as const),
  longestMin: fc.constantFrom(20, 45, 60),
  night: fc.constantFrom(
    null,
    { time: '19:00', on: 'every' as const },
    { time: '18:15', on: 'once' as const },
  ),
  rests: fc.boolean(),
  rising: fc.boolean(),
  cells: fc.constant([]),
});

function drafted(given: StartingAnswers): StartingTrip {
  const result = startingSheet(given);
  if (!result.ok) throw new Error(JSON.stringify(result.troubles));
  return result.value;
}

/** What nobody may find in a draft. */
function expectNothingToChange({ trip, cells }: StartingTrip): void {
  expect(checkTrip(trip)).toEqual([]);
  expect(cautionsOf(ledger(trip)).filter(({ severity }) => severity !== 'know')).toEqual([]);
  // Every place of every day has its dive, or its reason, or was dropped.
  for (const { startsAt, state, diveId, why } of cells) {
    const dive = trip.dives.find((each) => each.startsAt === startsAt);
    expect(dive?.id ?? null).toBe(diveId);
    if (state === 'left out') expect(why).not.toBeNull();
  }
  expect(cells.filter(({ diveId }) => diveId !== null)).toHaveLength(trip.dives.length);
}

/** The last surfacing lies the published hours before the flight. */
function expectHoursBeforeFlight({ trip }: StartingTrip): void {
  if (trip.flight === null) return;
  const lastMin = Math.max(
    -Infinity,
    ...ledger(trip).divers.flatMap(({ entries }) => entries.map(({ surfacesMin }) => surfacesMin)),
  );
  expect(wallMin(trip.flight.at) - lastMin).toBeGreaterThanOrEqual(18 * 60);
}

describe('the starting sheet', () => {
  it('never drafts a dive that somebody would have to change, whatever is answered', () => {
    let dives = 0;
    let levelled = 0;
    fc.assert(
      fc.property(answers, (given) => {
        const made = drafted(given);
        expectNothingToChange(made);
        expectHoursBeforeFlight(made);
        dives += made.trip.dives.length;
        levelled += made.trip.dives.filter(({ legs }) => legs !== undefined).length;
      }),
      { numRuns: 60 },
    );
    // A sheet that drafts nothing would pass all of the above.
    expect(dives).toBeGreaterThan(60);
    expect(levelled).toBeGreaterThan(10);
  });

  it('drafts the rest around what was locked, dropped and put elsewhere', () => {
    let locked = 0;
    fc.assert(
      fc.property(
        answers,
        fc.array(fc.constantFrom('drop', 'lock', 'site', 'leave'), { minLength: 40, maxLength: 40 }),
        fc.nat(),
        (given, kinds, turn) => {
          const first = drafted(given);
          const cells = first.cells.flatMap(({ startsAt, diveId }, at): readonly CellAsk[] => {
            const dive = first.trip.dives.find(({ id }) => id === diveId);
            const kind = kinds[at];
            if (kind === 'drop') return [{ kind, startsAt }];
            if (kind === 'site') {
              return [{ kind, startsAt, siteId: given.sites[(at + turn) % given.sites.length]!.id }];
            }
            if (kind !== 'lock' || dive === undefined) return [];
            const { siteId, depthM, bottomMin, legs } = dive;
            return [{ kind, startsAt, siteId, shape: { depthM, bottomMin, ...(legs && { legs }) } }];
          });
          const second = drafted({ ...given, cells });
          expectNothingToChange(second);
          expectHoursBeforeFlight(second);
          for (const ask of cells) {
            const dive = second.trip.dives.find(({ startsAt }) => startsAt === ask.startsAt);
            if (ask.kind === 'drop') expect(dive).toBeUndefined();
            else if (dive !== undefined) expect(dive.siteId).toBe(ask.siteId);
            const cell = second.cells.find(({ startsAt }) => startsAt === ask.startsAt)!;
            if (cell.state !== 'locked') continue;
            locked += 1;
            expect(ask.kind === 'lock' && dive).toMatchObject(ask.kind === 'lock' ? ask.shape : {});
          }
        },
      ),
      { numRuns: 60 },
    );
    expect(locked).toBeGreaterThan(5);
  });

  it('leaves a draft as it is whose dives are all locked', () => {
    fc.assert(
      fc.property(answers, (given) => {
        const first = drafted(given);
        const cells = first.trip.dives.map(({ startsAt, siteId, depthM, bottomMin, legs }) => ({
          kind: 'lock' as const,
          startsAt,
          siteId,
          shape: { depthM, bottomMin, ...(legs && { legs }) },
        }));
        const second = drafted({ ...given, cells });
        expect(second.trip).toEqual(first.trip);
        expect(second.cells.filter(({ state }) => state === 'drafted')).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });
});
