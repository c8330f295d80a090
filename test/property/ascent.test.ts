import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ceilingBar, toleratedBar, toleratedTensions } from '../../core/ascent/tolerated';
import { noStopLimitMin } from '../../core/ascent/no-stop-limit';
import { stagedAscent } from '../../core/ascent/staged-ascent';
import { ascentLegs, type Leg, type Surroundings, surroundingsOf } from '../../core/profile';
import { applyMap, type Lanes } from '../../core/tissues/affine-map';
import { COMPARTMENT_COUNT, restTensions } from '../../core/tissues/compartments';
import { legsMap, stretchMap } from '../../core/tissues/leg-map';
import { newDivePlan, type DivePlan } from '../../core/ledger/dive-plan';
import { surfaceLimits } from '../../core/ledger/nitrogen-outcome';
import { lastLevelStay } from '../../core/ledger/level-limits';
import { longer } from '../../core/ledger/changed-dive';
import type { Trip } from '../../core/document/types';
import { trips } from '../support/trip-arbitrary';

const ONE_SECOND = 1 / 60;

/** Rounding of the closed form, bar: a few ulp of 11 bar. */
const DUST_BAR = 1e-12;

interface Question {
  readonly trip: Trip;
  readonly plan: DivePlan;
  readonly before: Lanes;
  readonly n2: number;
  readonly limits: Lanes;
  readonly noStopMin: number;
}

function question(trip: Trip, n2: number, load: number): Question {
  const around = surroundingsOf(trip);
  const plan = newDivePlan(trip.dives[0]!, around);
  const before = restTensions(around.column.surfaceBar).map((rest) => rest * (1 + load));
  const limits = surfaceLimits(around.column, trip.party[0]!.gradient.high);
  return {
    trip,
    plan,
    before,
    n2,
    limits,
    noStopMin: noStopLimitMin(lastLevelStay(plan, before, n2, limits)),
  };
}

const questions = fc
  .tuple(
    trips({ dives: { min: 1, max: 1 }, party: { min: 1, max: 1 } }),
    fc.double({ min: 0.5, max: 0.8, noNaN: true }),
    fc.double({ min: 0, max: 0.6, noNaN: true }),
  )
  .map(([trip, n2, load]) => question(trip, n2, load));

/** Smallest distance to the tolerated tension over a way up, looked at in small steps, bar. */
function smallestMargin(
  legs: readonly Leg[],
  from: Lanes,
  n2: number,
  gradientAt: (depthM: number) => number,
): number {
  let tensions = from;
  let smallest = Infinity;
  for (const leg of legs) {
    // Three seconds on the way up; at a stop pressures stand still, and a quarter of a minute is fine enough.
    const steps = Math.max(1, Math.ceil(leg.min / (leg.kind === 'stop' ? 0.25 : 0.05)));
    for (let step = 1; step <= steps; step += 1) {
      const at = (share: number) => leg.fromBar + (leg.toBar - leg.fromBar) * share;
      const bar = at(step / steps);
      tensions = applyMap(stretchMap(at((step - 1) / steps), bar, leg.min / steps), tensions, n2);
      const depthM = leg.fromM + ((leg.toM - leg.fromM) * step) / steps;
      for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
        smallest = Math.min(smallest, toleratedBar(i, bar, gradientAt(depthM)) - tensions[i]!);
      }
    }
  }
  return smallest;
}

function direct(q: Question, extraMin: number): { readonly leaving: Lanes; readonly legs: readonly Leg[] } {
  const around = surroundingsOf(q.trip);
  const last = q.plan.profile.lastLevel;
  const arrival = applyMap(q.plan.toArrival, q.before, q.n2);
  const stay = q.noStopMin - q.plan.arrivalMin + extraMin;
  return {
    leaving: applyMap(stretchMap(last.toBar, last.toBar, stay), arrival, q.n2),
    legs: ascentLegs(last.toM, [], around),
  };
}

describe('noStopLimitMin', () => {
  it('is tight: a second less is inside on the whole way up, a second more is outside at the surface', () => {
    let asked = 0;
    fc.assert(
      fc.property(questions, (q) => {
        fc.pre(Number.isFinite(q.noStopMin) && q.noStopMin > q.plan.arrivalMin + ONE_SECOND);
        asked += 1;
        const { high } = q.trip.party[0]!.gradient;
        const inside = direct(q, -ONE_SECOND);
        expect(smallestMargin(inside.legs, inside.leaving, q.n2, () => high)).toBeGreaterThan(-DUST_BAR);
        const outside = direct(q, ONE_SECOND);
        expect(smallestMargin(outside.legs, outside.leaving, q.n2, () => high)).toBeLessThan(DUST_BAR);
      }),
      { numRuns: 600 },
    );
    expect(asked).toBeGreaterThan(80);
  });

  it('is decided at the surface: on the way up nobody is nearer to the tolerated tension', () => {
    fc.assert(
      fc.property(questions, (q) => {
        fc.pre(Number.isFinite(q.noStopMin) && q.noStopMin > q.plan.arrivalMin);
        const { high } = q.trip.party[0]!.gradient;
        const { leaving, legs } = direct(q, 0);
        const atSurface = applyMap(legsMap(legs), leaving, q.n2);
        const margin = Math.min(...q.limits.map((limit, i) => limit - atSurface[i]!));
        expect(Math.abs(margin)).toBeLessThan(DUST_BAR);
        expect(smallestMargin(legs, leaving, q.n2, () => high)).toBeGreaterThan(margin - DUST_BAR);
      }),
      { numRuns: 600 },
    );
  });

  it('is 0 when a direct ascent on arrival already passes the limit', () => {
    fc.assert(
      fc.property(questions, (q) => {
        const arrival = applyMap(q.plan.toArrival, q.before, q.n2);
        const atSurface = applyMap(q.plan.directAscent, arrival, q.n2);
        const isOver = atSurface.some((tension, i) => tension > q.limits[i]! + DUST_BAR);
        if (isOver) expect(q.noStopMin).toBe(0);
        else expect(q.noStopMin).toBeGreaterThanOrEqual(q.plan.arrivalMin - 1e-9);
      }),
    );
  });

  it('is unlimited only where a week at the level would still be inside', () => {
    let unlimited = 0;
    fc.assert(
      fc.property(questions, (q) => {
        fc.pre(q.noStopMin === Infinity);
        unlimited += 1;
        const week = newDivePlan(longer(q.trip.dives[0]!, 10_080), surroundingsOf(q.trip));
        const after = applyMap(week.directAscent, applyMap(week.toLeaving, q.before, q.n2), q.n2);
        after.forEach((tension, i) => expect(tension).toBeLessThanOrEqual(q.limits[i]! + 1e-9));
      }),
    );
    expect(unlimited).toBeGreaterThan(0);
  });

  it('never shortens with less nitrogen in the mix, nor with less in the tissues', () => {
    fc.assert(
      fc.property(questions, fc.double({ min: 0, max: 1, noNaN: true }), (q, less) => {
        const leaner = noStopLimitMin(lastLevelStay(q.plan, q.before, q.n2 * less, q.limits));
        const cleaner = noStopLimitMin(
          lastLevelStay(
            q.plan,
            q.before.map((tension) => tension * less),
            q.n2,
            q.limits,
          ),
        );
        expect(leaner).toBeGreaterThanOrEqual(q.noStopMin - 1e-9);
        expect(cleaner).toBeGreaterThanOrEqual(q.noStopMin - 1e-9);
      }),
    );
  });

  it('never lengthens with depth on a square dive', () => {
    fc.assert(
      fc.property(questions, fc.double({ min: 0, max: 10, noNaN: true }), (q, byM) => {
        const around = surroundingsOf(q.trip);
        const { depthM } = q.trip.dives[0]!;
        const at = (toM: number) =>
          noStopLimitMin(
            lastLevelStay(newDivePlan({ depthM: toM, bottomMin: 200 }, around), q.before, q.n2, q.limits),
          );
        expect(at(depthM + byM)).toBeLessThanOrEqual(at(depthM) + 1e-9);
      }),
    );
  });
});

describe('ceilingBar', () => {
  it('is the pressure at which the tightest compartment just meets its tolerated tension', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.3, max: 6, noNaN: true }), { minLength: 16, maxLength: 16 }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (tensions, factor) => {
          const bar = ceilingBar(tensions, factor);
          const margins = toleratedTensions(bar, factor).map((limit, i) => limit - tensions[i]!);
          expect(Math.abs(Math.min(...margins))).toBeLessThan(DUST_BAR);
        },
      ),
    );
  });
});

describe('stagedAscent', () => {
  const overLimit = questions.map((q) => {
    const leaving = applyMap(q.plan.toLeaving, q.before, q.n2);
    const depthM = q.plan.profile.lastLevel.toM;
    const { gradient } = q.trip.party[0]!;
    const around: Surroundings = surroundingsOf(q.trip);
    return {
      q,
      leaving,
      depthM,
      gradient,
      around,
      stops: stagedAscent(leaving, depthM, q.n2, gradient, around),
    };
  });

  it('never passes its ceiling when walked again in small steps', () => {
    let walked = 0;
    fc.assert(
      fc.property(overLimit, ({ q, leaving, depthM, gradient, around, stops }) => {
        fc.pre(q.plan.profile.bottomMin > q.noStopMin && stops !== null);
        walked += 1;
        const firstM = stops[0]?.depthM ?? 3;
        const gradientAt = (m: number) =>
          m >= firstM ? gradient.low : gradient.high + ((gradient.low - gradient.high) * m) / firstM;
        const legs = ascentLegs(depthM, stops, around);
        expect(smallestMargin(legs, leaving, q.n2, gradientAt)).toBeGreaterThan(-1e-8);
      }),
      { numRuns: 250 },
    );
    expect(walked).toBeGreaterThan(30);
  });

  it('has whole minutes at each third metre, deepest first, and none could be a minute shorter', () => {
    fc.assert(
      fc.property(overLimit, ({ q, leaving, depthM, gradient, around, stops }) => {
        fc.pre(q.plan.profile.bottomMin > q.noStopMin && stops !== null && stops.length > 0);
        stops.forEach((stop, index) => {
          expect(Number.isInteger(stop.min) && stop.min >= 1).toBe(true);
          expect(stop.depthM % 3).toBe(0);
          if (index > 0) expect(stop.depthM).toBeLessThan(stops[index - 1]!.depthM);
        });
        const firstM = stops[0]!.depthM;
        const gradientAt = (m: number) =>
          m >= firstM ? gradient.low : gradient.high + ((gradient.low - gradient.high) * m) / firstM;
        stops.forEach((stop, index) => {
          const hurried = [...stops.slice(0, index), { ...stop, min: stop.min - 1 }];
          const nextM = stop.depthM - 3;
          const legs = ascentLegs(depthM, [...hurried, { depthM: nextM, min: 0 }], around).slice(0, -1);
          // A first stop of one minute is there because the ceiling calls for it, not for the time it takes.
          if (index === 0 && stop.min === 1) return;
          expect(smallestMargin(legs, leaving, q.n2, gradientAt)).toBeLessThan(1e-8);
        });
      }),
      { numRuns: 120 },
    );
  });
});
