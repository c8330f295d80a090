import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import type { Scatter, Trip } from '../../../../core/document/types';
import { ledger } from '../../../../core/ledger/ledger';
import { minutesLeft } from '../../../../core/ledger/room';
import { runtimeMin, surroundingsOf, type Leg } from '../../../../core/profile';
import { curveBand } from '../../../../core/sturdiness/curve-band';
import { newDivePlan } from '../../../../core/ledger/dive-plan';
import { scatteredDive } from '../../../../core/sturdiness/by-ledger';
import { percentile } from '../../../../core/sturdiness/percentile';
import { Runs } from '../../../../core/sturdiness/runs';
import { NO_SCATTER } from '../../../../core/sturdiness/scatter';
import { seedsOf } from '../../../../core/sturdiness/seeds';
import {
  drawRuns,
  drawShares,
  mostBy,
  sturdiness,
  sturdinessOf,
  type Draw,
  type Sturdiness,
} from '../../../../core/sturdiness/sturdiness';
import { tripTable } from '../../../../core/sturdiness/trip-table';
import { AIR_N2, COMPARTMENTS, RATES_PER_MIN } from '../../../../core/tissues/compartments';
import { toleratedTensions } from '../../../../core/ascent/tolerated';
import { wallMin } from '../../../../core/words/calendar';
import { loopTrip } from '../../../support/loop-trip';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const ASK: Draw = { runs: 300, seed: 1, nowMin: null };

function told(trip: Trip, change: Partial<Draw> = {}, hasShares = false): Sturdiness {
  return sturdiness(trip, { ...ASK, ...change }, hasShares);
}

function scattering(trip: Trip, scatter: Partial<Scatter>): Trip {
  return { ...trip, settings: { ...trip.settings, scatter: { ...NO_SCATTER, ...scatter } } };
}

describe('runs of a plan', () => {
  it('draw on a loop how much oxygen it takes, and what passes is told by its name', () => {
    const week = loopTrip({}, { freshScrubber: true });
    const settings = { ...week.settings, gasLaw: 'ideal' as const };
    const one: Trip = { ...week, settings, dives: week.dives.slice(0, 1) };
    const { loop } = ledger(one).divers[0]!.entries[0]!;
    const { fillBar, reserveBar } = one.party[0]!.loop!.oxygenCylinder;
    // So much that one standard deviation more takes all that is above the reserve.
    const oxygenLpm = (fillBar - reserveBar) / (fillBar - loop!.oxygen.leftBar!) / 1.1;
    const scatter = { ...NO_SCATTER, rateShare: 0.1 };
    const tight = { ...one, settings: { ...settings, scatter, loops: { oxygenLpm } } };
    const [own, ...others] = told(tight, { runs: 2000 }).cells;
    // The part of a normal distribution beyond one deviation, and its standard error of as many runs.
    expect(Math.abs(own!.passesEach.oxygen - 0.1587)).toBeLessThan(3 * 0.0082);
    expect(own!.passes).toBe(own!.passesEach.oxygen);
    for (const each of others) expect(each.passesEach.oxygen).toBe(0);
  });

  it.each([
    ['open circuit', demoTrip()],
    ['a mixed party', loopTrip({}, { freshScrubber: true })],
  ])('are the plan itself where nothing scatters: %s', (_, trip) => {
    const table = tripTable(trip, NO_SCATTER, null);
    const runs = new Runs(table);
    runs.run(0, seedsOf(1));
    const entries = ledger(trip).divers.flatMap((each) => each.entries);
    expect(entries).toHaveLength(table.cells.length);
    for (const entry of entries) {
      const c = table.cells.findIndex(
        ({ diver, dive }) =>
          table.people[diver]!.diver.id === entry.diver.id && table.dives[dive]!.dive === entry.dive,
      );
      // The same closed forms, put together in another order.
      expect(runs.room[c]).toBeCloseTo(minutesLeft(trip, entry).min!, 9);
      expect(runs.passed[c]).toBe(0);
      expect(table.cells[c]!.isOnLoop).toBe(entry.loop !== null);
    }
    const still = told(scattering(trip, {}));
    expect(still).toMatchObject({ keepsAll: 1, easeFirst: null });
    for (const { room5Min, room50Min } of still.cells) expect(room5Min).toBe(room50Min);
  });

  it('are the same by the same seed, few of them the first of many, and others by another', () => {
    const trip = demoTrip();
    const once = told(trip);
    expect(told(structuredClone(trip))).toEqual(once);
    expect(told(trip, { seed: 2 })).not.toEqual(once);
    // As threads make them, in whatever order they come.
    const part = (from: number, to: number) => drawRuns(trip, ASK, from, to, () => undefined);
    expect(sturdinessOf(trip, ASK, [part(120, 300), part(0, 120)], null)).toEqual(once);
    const rooms = (run: number): readonly number[] => {
      const runs = new Runs(tripTable(trip, { ...NO_SCATTER, depthM: 1, rateShare: 0.1 }, null));
      for (let each = run; each >= 0; each -= 1) runs.run(each, seedsOf(7));
      runs.run(run, seedsOf(7));
      return [...runs.room];
    };
    const alone = new Runs(tripTable(trip, { ...NO_SCATTER, depthM: 1, rateShare: 0.1 }, null));
    alone.run(40, seedsOf(7));
    expect(rooms(40)).toEqual([...alone.room]);
  });

  it('have the percentiles of the closed form: one dive, its bottom time alone', () => {
    // Room falls by a minute for each minute longer, so its percentiles are those of the normal distribution.
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 12 })]);
    const planned = minutesLeft(trip, ledger(trip).divers[0]!.entries[0]!).min!;
    const runs = 10_000;
    const [cell] = told(scattering(trip, { bottomMin: 2 }), { runs }).cells;
    // Three standard errors of a sample quantile, sqrt(p (1 - p) / n) / density, and half a second of rounding.
    expect(Math.abs(cell!.room5Min! - (planned - 2 * 1.644854))).toBeLessThan(3 * 0.0423 + 0.01);
    expect(Math.abs(cell!.room50Min! - planned)).toBeLessThan(3 * 0.0251 + 0.01);
  });

  it('have the share past a limit of the closed form: one dive, its depth alone, its diver’s limit a metre below', () => {
    const trip = aTrip([aDive({ depthM: 29, bottomMin: 10 })], { party: [aDiver({ maxDepthM: 30 })] });
    const [cell] = told(scattering(trip, { depthM: 1 }), { runs: 10_000 }).cells;
    // Beyond one standard deviation lies 0.1587, drawn in centimetres: 100 is kept, 101 is not. Three standard errors.
    expect(Math.abs(cell!.passesEach['diver-depth'] - 0.1575)).toBeLessThan(3 * 0.0037);
    expect(cell!.passes).toBe(cell!.passesEach['diver-depth']);
  });

  it('do not scatter what is done', () => {
    const trip = demoTrip();
    const [first, second] = trip.dives;
    const logged = {
      ...trip,
      dives: [{ ...first!, asDived: [{ endBar: 60 }] }, ...trip.dives.slice(1)],
    };
    const ahead = told(logged);
    expect(ahead.dives[0]!.diveId).toBe(second!.id);
    expect(ahead.dives).toHaveLength(trip.dives.length - 1);
    const clocked = told(trip, { nowMin: wallMin(second!.startsAt) });
    expect(clocked.dives).toHaveLength(trip.dives.length - 2);
  });
});

/** Tensions at the end of legs, by small steps of the rate of change itself (Runge-Kutta of the fourth order). */
function steppedThrough(from: readonly number[], legs: readonly Leg[], n2: number, stepMin = 0.05): number[] {
  const tensions = [...from];
  for (const { fromBar, toBar, min } of legs) {
    const steps = Math.max(1, Math.ceil(min / stepMin));
    const h = min / steps;
    for (let n = 0; n < steps; n += 1) {
      const inspired = (t: number): number => n2 * (fromBar + ((toBar - fromBar) * (n + t)) / steps - 0.0627);
      for (let i = 0; i < tensions.length; i += 1) {
        const k = RATES_PER_MIN[i]!;
        const p = tensions[i]!;
        const a = k * (inspired(0) - p);
        const b = k * (inspired(0.5) - (p + (h / 2) * a));
        const c = k * (inspired(0.5) - (p + (h / 2) * b));
        const d = k * (inspired(1) - (p + h * c));
        tensions[i] = p + (h / 6) * (a + 2 * b + 2 * c + d);
      }
    }
  }
  return tensions;
}

describe('the percentiles of a hundred runs', () => {
  it('are those of plain stepping, dive after dive', () => {
    const trip = scattering(
      aTrip(
        [
          aDive({ depthM: 32, bottomMin: 12 }),
          aDive({ depthM: 26, bottomMin: 15, startsAt: '2027-03-06T10:00' }),
        ],
        { party: [aDiver({ surfaceRateLpm: 5 })] },
      ),
      { depthM: 1, bottomMin: 2, startMin: 10 },
    );
    const table = tripTable(trip, trip.settings.scatter as Scatter, null);
    const around = surroundingsOf(trip);
    const { surfaceBar } = around.column;
    const limits = toleratedTensions(surfaceBar, trip.party[0]!.gradient.high);
    const runs = new Runs(table);
    const rooms = new Float32Array(100);
    const stepped = new Float32Array(100);
    for (let run = 0; run < 100; run += 1) {
      runs.run(run, seedsOf(1));
      rooms[run] = runs.room[1]!;
      const [first, second] = [0, 1].map((j) =>
        newDivePlan(scatteredDive(table.dives[j]!, runs.drawn[j]!), around),
      );
      const gapMin =
        wallMin('2027-03-06T10:00') +
        runs.drawn[1]!.startMin -
        (wallMin('2027-03-06T08:00') + runs.drawn[0]!.startMin);
      const rest = { fromBar: surfaceBar, toBar: surfaceBar, min: gapMin - runtimeMin(first!.legs) } as Leg;
      let now = steppedThrough(
        COMPARTMENTS.map(() => AIR_N2 * (surfaceBar - 0.0627)),
        first!.legs,
        0.79,
      );
      now = steppedThrough(now, [rest], AIR_N2, 0.25);
      now = steppedThrough(now, second!.profile.toLastLevel, 0.79);
      const { lastLevel } = second!.profile;
      const straightUp: Leg = {
        ...lastLevel,
        toBar: surfaceBar,
        min: lastLevel.fromM / around.ascentMPerMin,
      };
      const past = (tensions: readonly number[]): number =>
        Math.max(...steppedThrough(tensions, [straightUp], 0.79).map((bar, i) => bar - limits[i]!));
      // On by a tenth of a minute until going straight up passes a limit, then between the two on a straight line.
      let stayedMin = 0;
      let before = past(now);
      for (;;) {
        now = steppedThrough(now, [{ ...lastLevel, min: 0.1 }], 0.79);
        const after = past(now);
        if (after > 0) {
          stayedMin += (0.1 * before) / (before - after);
          break;
        }
        before = after;
        stayedMin += 0.1;
      }
      stepped[run] = stayedMin - lastLevel.min;
    }
    // A straight line through a tenth of a minute is off by less than a thousandth.
    for (const share of [0.05, 0.5]) {
      expect(Math.abs(percentile(rooms.slice(), share) - percentile(stepped.slice(), share))).toBeLessThan(
        2e-3,
      );
    }
    expect(runs.stopped).toBeGreaterThan(0);
  });
});

describe('which scatter does most', () => {
  it('is the only one there is', () => {
    const trip = aTrip([aDive({ depthM: 18, bottomMin: 30 })], {
      party: [aDiver({ cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 } })],
    });
    const [cell] = told(scattering(trip, { rateShare: 0.1 }), {}, true).cells;
    expect(mostBy(cell!)).toMatchObject({ name: 'rateShare' });
    expect(mostBy(cell!)!.share).toBeCloseTo(1, 6);
    expect(told(scattering(trip, {}), {}, true).cells[0]!.shares).toBeNull();
  });

  it('has the shares of a closed form: depth and bottom time of a dive that nitrogen ends', () => {
    // Where nitrogen sets the room of one dive at one depth, bottom time and the rest add up; time alone is -1 a minute.
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 12 })]);
    const timed = (scatter: Partial<Scatter>) =>
      told(scattering(trip, scatter), { runs: 2000 }, true).cells[0]!;
    const both = timed({ depthM: 0.5, bottomMin: 1 });
    const slopeMinPerM = (() => {
      const at = (depthM: number): number => {
        const deeper = aTrip([aDive({ depthM, bottomMin: 12 })]);
        return minutesLeft(deeper, ledger(deeper).divers[0]!.entries[0]!).min!;
      };
      return (at(29.5) - at(30.5)) / 1;
    })();
    const expected = 1 / (1 + (0.5 * slopeMinPerM) ** 2);
    const found = both.shares!.find(({ name }) => name === 'bottomMin')!.share;
    // 2,000 pairs know a share to 0.03; the line bends a little over the two metres drawn.
    expect(Math.abs(found - expected)).toBeLessThan(0.06);
    const mixed = scattering(trip, { depthM: 0.5, bottomMin: 1 });
    // As two threads share them out.
    const apart = (['bottomMin', 'depthM'] as const).map(
      (name) => drawShares(mixed, { ...ASK, runs: 2000 }, [name], () => undefined)[0]![0],
    );
    expect(both.shares).toEqual(expect.arrayContaining(apart));
  });
});

describe('the band of the runs', () => {
  it('lies on the curve where nothing scatters, and about it where something does', () => {
    const trip = aTrip([
      aDive({ depthM: 30, bottomMin: 12 }),
      aDive({ startsAt: '2027-03-06T11:00', depthM: 20, bottomMin: 30 }),
    ]);
    const until = wallMin('2027-03-06T14:00');
    const ask = { seed: 1, nowMin: null };
    const still = curveBand(scattering(trip, {}), 'guest-1', ask, until, 40);
    for (const { low, high } of still) expect(low).toBe(high);
    const band = curveBand(trip, 'guest-1', ask, until, 40);
    expect(band.map(({ atMin }) => atMin)).toEqual(still.map(({ atMin }) => atMin));
    for (const { low, high } of band) expect(high).toBeGreaterThanOrEqual(low);
    const widest = Math.max(...band.map(({ low, high }) => high - low));
    expect(widest).toBeGreaterThan(0.05);
    expect(curveBand(trip, 'nobody', ask, until)).toEqual([]);
  });
});
