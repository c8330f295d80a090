import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toleratedTensions } from '../../../../core/ascent/tolerated';
import type { Trip } from '../../../../core/document/types';
import { flightLines } from '../../../../core/ledger/flight-said';
import { modelFlight, tableFlight } from '../../../../core/ledger/flight-views';
import { ledger } from '../../../../core/ledger/ledger';
import { AIR_N2, inspiredBar, RATES_PER_MIN, restTensions } from '../../../../core/tissues/compartments';
import { M_PER_FOOT } from '../../../../core/units';
import { altitudeBar, SEA_LEVEL_BAR } from '../../../../core/water';
import { fileWords } from '../../../../core/words/reader';
import { aDive, aDiver, aLedger, RICH } from '../../../builders/trip';
import { trips } from '../../../support/trip-arbitrary';

/** 60 feet of sea water. */
const SIXTY_FSW_M = (60 * 0.030643 * 1e5) / (1025 * 9.80665) - 0.001;
const REST_BAR = AIR_N2 * inspiredBar(SEA_LEVEL_BAR);
const AT_SEA = { homeBar: SEA_LEVEL_BAR, stays: [] };

function viewsOf(...args: Parameters<typeof aLedger>) {
  return aLedger(...args).divers[0]!.flight;
}

describe('tableFlight', () => {
  const dives = [
    aDive({ depthM: SIXTY_FSW_M, bottomMin: 60, startsAt: '2027-03-06T08:00' }),
    aDive({ depthM: 9, bottomMin: 20, startsAt: '2027-03-06T20:00' }),
    aDive({ depthM: 9, bottomMin: 20, startsAt: '2027-03-07T20:30' }),
  ];

  it('takes the highest group of the last 24 hours', () => {
    // 60 fsw 60 min: K, 15:35 to 8 000 ft.
    expect(viewsOf(dives.slice(0, 2))!.table).toMatchObject({ group: 'K', waitMin: 935 });
    expect(viewsOf(dives)!.table).toMatchObject({ group: 'B' });
  });

  it('still counts a dive from exactly 24 hours before', () => {
    const long = { depthM: SIXTY_FSW_M, bottomMin: 60, startsAt: '2027-03-06T08:00' };
    const whole = aLedger([aDive(long), aDive({ ...long, bottomMin: 30, startsAt: '2027-03-07T08:30' })]);
    const [mine] = whole.divers;
    const [first, second] = mine!.entries;
    // The first one brought to exactly a day before the last.
    const entries = [{ ...first!, surfacesMin: second!.surfacesMin - 1440 }, second!];
    expect(tableFlight({ ...mine!, entries }, whole.trip)).toMatchObject({ group: 'K' });
  });

  it('enters the column of the climb from the water, the next one up', () => {
    const { divers, trip } = aLedger(dives.slice(0, 2));
    const wait = (feet: number, altitudeM = 0) => {
      const view = tableFlight(
        divers[0]!,
        { ...trip, water: { ...trip.water, altitudeM } },
        feet * M_PER_FOOT,
      );
      return 'waitMin' in view ? view.waitMin : null;
    };
    expect(wait(7001)).toBe(wait(8000));
    expect(wait(7000)).toBeLessThan(wait(8000)!);
    expect(wait(7500, 500 * M_PER_FOOT)).toBe(wait(7000));
    expect(wait(10_001)).toBe(wait(10_000));
    expect(wait(8000, 301)).toBeNull();
  });
});

describe('modelFlight', () => {
  /** Compartment 5 alone above rest: 1.2 bar. */
  const fifth = Array.from({ length: 16 }, (_, i) => (i === 4 ? 1.2 : REST_BAR));

  it('is Haldane’s solution for the compartment that waits longest', () => {
    // Compartment 5 with a = 0.62 bar, b = 0.8126 (zhl16c) and a factor of 0.3 at 0.7 bar, by hand.
    const limit = 0.7 + 0.3 * (0.62 + 0.7 / 0.8126 - 0.7);
    const hand = (Math.log((1.2 - REST_BAR) / (limit - REST_BAR)) / Math.LN2) * 27;
    const view = modelFlight({ atMin: 100, tensions: fifth }, AT_SEA, 0.7, 0.3);
    expect(view.clearMin! - 100).toBeCloseTo(hand, 9);
    expect(view).toMatchObject({ compartment: 5 });
  });

  it('lets a diver go at once who is within every limit', () => {
    const after = { atMin: 7, tensions: restTensions(SEA_LEVEL_BAR) };
    expect(modelFlight(after, AT_SEA, altitudeBar(2438), 0.85)).toEqual({ compartment: null, clearMin: 7 });
  });

  it('has no moment where rest itself is above what is tolerated', () => {
    const slow = Array.from({ length: 16 }, () => REST_BAR + 0.01);
    const view = modelFlight({ atMin: 0, tensions: slow }, AT_SEA, 0.55, 0.1);
    expect(view.clearMin).toBeNull();
  });

  it('holds from its moment on and not before', () => {
    const tension = fc.double({ min: 0.75, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(tension, { minLength: 16, maxLength: 16 }),
        fc.double({ min: 0.7, max: 1, noNaN: true }),
        (tensions, cabinBar) => {
          const view = modelFlight({ atMin: 0, tensions }, AT_SEA, cabinBar, 0.8);
          const limits = toleratedTensions(cabinBar, 0.8);
          const overAt = (min: number): boolean =>
            tensions.some(
              (each, i) =>
                REST_BAR + (each - REST_BAR) * Math.exp(-RATES_PER_MIN[i]! * min) > limits[i]! + 1e-12,
            );
          expect(overAt(view.clearMin! + 1e-6)).toBe(false);
          if (view.clearMin! > 0) expect(overAt(view.clearMin! - 0.01)).toBe(true);
        },
      ),
    );
  });
});

describe('flightViews', () => {
  const hard = { id: 'b', startsAt: '2027-03-05T10:00', depthM: 30, bottomMin: 45, mix: 'air' };

  it('counts from the last surfacing, brought dives and their stops included', () => {
    const two = aLedger([aDive(), aDive({ startsAt: '2027-03-06T12:00' })]).divers[0]!;
    expect(two.flight!.guideline.clearMin).toBe(two.entries[1]!.surfacesMin + 18 * 60);
    const brought = aLedger([], { party: [aDiver({ before: [hard] })] }).divers[0]!;
    expect(brought.earlier[0]!.stops!.length).toBeGreaterThan(0);
    expect(brought.flight!.guideline.clearMin).toBe(brought.earlier[0]!.surfacesMin + 24 * 60);
    expect(viewsOf([])).toBeNull();
  });

  it('states the latest: the table’s where its group waits longer than the published hours', () => {
    // The table counts a passed limit as Z, 21:01: no-stop by the model in two levels, past it as a square dive.
    const legs = [
      { depthM: 30, min: 12 },
      { depthM: 9, min: 50 },
    ];
    const dives = ['08:00', '12:00'].map((time) =>
      aDive({ depthM: 30, bottomMin: 62, legs, startsAt: `2027-03-06T${time}` }),
    );
    const views = viewsOf(dives)!;
    expect(views.table).toMatchObject({ group: 'Z', waitMin: 21 * 60 + 1 });
    expect(views.guideline).toMatchObject({ row: 'severalDivesOrDays' });
    expect(views).toMatchObject({ latest: 'table', clearMin: views.table.clearMin });
  });

  it('tells neither table nor model of a diver who brings a dive on a mix that is not known', () => {
    const deep = { ...hard, depthM: 39, mix: 'auto' as const };
    const views = viewsOf([aDive({ mix: 'rich' })], {
      mixes: [RICH],
      party: [aDiver({ before: [deep] })],
    })!;
    expect([views.table.clearMin, views.model.clearMin]).toEqual([null, null]);
    expect(views).toMatchObject({ latest: 'guideline', guideline: { hours: 24 } });
    expect(fileWords(flightLines(views)[1]!.why)).toBe(
      'not told: the mix of a dive brought to the trip is not known',
    );
  });

  it('is never earlier than the published hours, and no earlier to a higher cabin', () => {
    fc.assert(
      fc.property(trips(), fc.double({ min: 300, max: 2900, noNaN: true }), (trip, cabinAltitudeM) => {
        const to = (altitudeM: number): Trip => ({
          ...trip,
          settings: { ...trip.settings, cabinAltitudeM: altitudeM },
        });
        const low = ledger(to(cabinAltitudeM)).divers;
        ledger(to(cabinAltitudeM + 100)).divers.forEach(({ flight: high }, i) => {
          const { flight } = low[i]!;
          if (flight === null || high === null) return;
          expect(flight.clearMin).toBeGreaterThanOrEqual(flight.guideline.clearMin);
          expect(high.clearMin).toBeGreaterThanOrEqual(flight.clearMin);
        });
      }),
      { numRuns: 60 },
    );
  });
});
