import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toleratedTensions } from '../../core/ascent/tolerated';
import { checkTrip } from '../../core/document/check-trip';
import type { Trip } from '../../core/document/types';
import { atSurface, fallenBelow, stretchesOf } from '../../core/ledger/at-surface';
import { ledger } from '../../core/ledger/ledger';
import { timelineOf } from '../../core/ledger/timeline';
import { AIR_N2, inspiredBar, RATES_PER_MIN } from '../../core/tissues/compartments';
import { altitudeBar } from '../../core/water';
import { wallMin, wallText, type WallMin } from '../../core/words/calendar';
import { highTrips, trips } from '../support/trip-arbitrary';

/** Dives, then one stay from so many minutes after the last of them on. */
function withStay(trip: Trip, afterMin: number, altitudeM: number): Trip {
  const lastMin = Math.max(
    ...ledger(trip).divers.flatMap(({ entries }) => entries.map((e) => e.surfacesMin)),
  );
  const fromMin = Math.ceil(lastMin) + afterMin;
  const event = { id: 'e', title: 'A pass', from: wallText(fromMin), to: wallText(fromMin + 90), altitudeM };
  return { ...trip, events: [event] };
}

function tensionsOf(trip: Trip): readonly number[] {
  return ledger(trip).divers.flatMap(({ entries }) => entries.flatMap(({ after }) => after.tensions));
}

function expectClose(some: readonly number[], others: readonly number[]): void {
  expect(some.length).toBe(others.length);
  // Sums of a few hundred terms of about a bar.
  some.forEach((each, i) => expect(Math.abs(each - others[i]!)).toBeLessThan(1e-11));
}

describe('stays at other heights', () => {
  it('are trips that stand', () => {
    fc.assert(
      fc.property(highTrips(), (trip) => {
        // Random dives may collide by their stops; nothing of heights or waters is refused.
        const places = checkTrip(trip).map(({ where }) => where);
        expect(places.filter((where) => /events|sites/.test(where))).toEqual([]);
      }),
    );
  });

  it('change nothing where they lie at the trip’s own height', () => {
    fc.assert(
      fc.property(highTrips({ dives: { min: 1, max: 6 } }), (high) => {
        const { water, events } = high;
        const flat = { ...high, events: events!.map((each) => ({ ...each, altitudeM: water.altitudeM })) };
        const { events: _, ...without } = high;
        expectClose(tensionsOf(flat), tensionsOf(without));
      }),
    );
  });

  it('may be cut in two anywhere', () => {
    fc.assert(
      fc.property(highTrips({ dives: { min: 1, max: 6 } }), fc.double({ min: 0.1, max: 0.9 }), (trip, at) => {
        const halves = trip.events!.flatMap((each) => {
          const [from, to] = [wallMin(each.from), wallMin(each.to)];
          const middle = wallText(Math.round(from + at * (to - from)));
          if (middle <= each.from || middle >= each.to) return [each];
          return [
            { ...each, to: middle },
            { ...each, id: `${each.id}-2`, from: middle },
          ];
        });
        expectClose(tensionsOf({ ...trip, events: halves }), tensionsOf(trip));
      }),
    );
  });

  it('are carried on as plain steps carry them', () => {
    fc.assert(
      fc.property(highTrips({ dives: { min: 2, max: 4 }, party: { min: 1, max: 1 } }), (trip) => {
        const surface = atSurface(trip, altitudeBar(trip.water.altitudeM));
        const [mine] = ledger(trip).divers;
        for (const { from, startMin, tensionsBefore } of mine!.entries) {
          if (from.atMin === -Infinity || startMin <= from.atMin) continue;
          const stretches = stretchesOf(surface, from.atMin, startMin);
          // Without a gap, and by Haldane's solution for each by itself.
          const held = stretches.reduce(
            (tensions, { fromMin, toMin, bar }) =>
              tensions.map((each, i) => {
                const rest = AIR_N2 * inspiredBar(bar);
                return rest + (each - rest) * Math.exp(-RATES_PER_MIN[i]! * (toMin - fromMin));
              }),
            [...from.tensions],
          );
          expectClose(tensionsBefore, held);
          stretches.slice(1).forEach(({ fromMin }, i) => expect(fromMin).toBe(stretches[i]!.toMin));
        }
      }),
    );
  });

  it('are taken up again after an edit as if reckoned afresh', () => {
    fc.assert(
      fc.property(highTrips({ dives: { min: 2, max: 6 } }), fc.nat(3), (trip, kind) => {
        const before = ledger(trip);
        const edited: Trip =
          kind === 0
            ? { ...trip, events: trip.events!.slice(1) }
            : kind === 1
              ? { ...trip, sites: trip.sites.map((site) => ({ ...site, water: { altitudeM: 700 } })) }
              : kind === 2
                ? { ...trip, dives: trip.dives.slice(1) }
                : { ...trip, water: { ...trip.water, altitudeM: 1200 } };
        expect(ledger(edited, before).divers).toEqual(ledger(edited).divers);
        const steps = { waterMin: 1, surfaceMin: 10 };
        const untilMin = wallMin('2027-03-20T00:00');
        const was = timelineOf(before.divers[0]!, trip, untilMin, steps);
        const [again, afresh] = [ledger(edited, before).divers[0]!, ledger(edited).divers[0]!];
        expect(timelineOf(again, edited, untilMin, steps, was).points).toEqual(
          timelineOf(afresh, edited, untilMin, steps).points,
        );
      }),
      { numRuns: 40 },
    );
  });
});

describe('height after diving', () => {
  const settled = trips({ dives: { min: 1, max: 4 }, party: { min: 1, max: 1 } });

  it('is monotone in time: who may go up may go up later', () => {
    fc.assert(
      fc.property(settled, fc.nat(3000), fc.nat(3000), fc.nat(3000), (trip, afterMin, laterMin, upM) => {
        const altitudeM = trip.water.altitudeM + 1 + upM;
        const of = (min: number) => ledger(withStay(trip, min, altitudeM)).divers[0]!.climbs.at(-1)!;
        const [sooner, later] = [of(afterMin), of(afterMin + laterMin)];
        if (sooner.clearMin <= sooner.climb.atMin) {
          expect(later.clearMin).toBeLessThanOrEqual(later.climb.atMin);
        }
        // Nothing but the clock has moved: until when to wait stays the same moment.
        expect(Math.abs(later.clearMin - sooner.clearMin)).toBeLessThan(1e-6);
      }),
    );
  });

  it('is monotone in height: higher up no view is clear sooner', () => {
    fc.assert(
      fc.property(
        settled,
        fc.nat(2000),
        fc.integer({ min: 1, max: 2000 }),
        fc.nat(1500),
        (trip, min, upM, more) => {
          const of = (altitudeM: number) => ledger(withStay(trip, min, altitudeM)).divers[0]!.climbs.at(-1)!;
          const lower = of(trip.water.altitudeM + upM);
          const higher = of(trip.water.altitudeM + upM + more);
          expect(higher.clearMin).toBeGreaterThanOrEqual(lower.clearMin - 1e-6);
          for (const view of ['table', 'model'] as const) {
            const [low, high] = [lower[view].clearMin, higher[view].clearMin];
            if (low !== null && high !== null) expect(high).toBeGreaterThanOrEqual(low - 1e-6);
          }
        },
      ),
    );
  });

  it('by the model is the first moment from which every compartment stays within its limit', () => {
    const tension = fc.double({ min: 0.5, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        highTrips({ dives: { min: 1, max: 1 } }),
        fc.array(tension, { minLength: 16, maxLength: 16 }),
        fc.double({ min: 0.6, max: 1, noNaN: true }),
        (trip, tensions, toBar) => {
          const surface = atSurface(trip, altitudeBar(trip.water.altitudeM));
          const atMin = wallMin('2027-03-01T05:00');
          const limits = toleratedTensions(toBar, 0.8);
          const fallen = fallenBelow({ atMin, tensions }, limits, surface);
          if ('never' in fallen) return;
          const over = (min: WallMin): number =>
            Math.max(
              ...stretchesOf(surface, atMin, min)
                .reduce(
                  (held, { fromMin, toMin, bar }) =>
                    held.map((each, i) => {
                      const rest = AIR_N2 * inspiredBar(bar);
                      return rest + (each - rest) * Math.exp(-RATES_PER_MIN[i]! * (toMin - fromMin));
                    }),
                  tensions,
                )
                .map((each, i) => each - limits[i]!),
            );
          for (let min = 0.001; min < 20_000; min *= 1.3) {
            expect(over(fallen.atMin + min)).toBeLessThan(1e-9);
          }
          if (fallen.compartment !== null) expect(over(fallen.atMin - 0.001)).toBeGreaterThan(-1e-9);
        },
      ),
    );
  });
});
