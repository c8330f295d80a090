/*
 * Haldane's and Schreiner's solutions against the equation they solve, dp/dt = k (inspired - p), integrated by
 * a general-purpose solver: odex, an extrapolation method after E. Hairer, S. P. Norsett, G. Wanner, Solving
 * Ordinary Differential Equations I (2nd ed., Springer 1993), program ODEX.
 */
import fc from 'fast-check';
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { type Leg, surroundingsOf } from '../../core/profile';
import { applyMap } from '../../core/tissues/affine-map';
import { COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../../core/tissues/compartments';
import { legsMap } from '../../core/tissues/leg-map';
import { newDivePlan } from '../../core/ledger/dive-plan';
import { trips } from '../support/trip-arbitrary';

/** Asked for by the project; the solver itself is held to 1e-12 of an absolute and relative error. */
const AGREEMENT_BAR = 1e-9;
const PROFILES = 200;

function integrated(legs: readonly Leg[], before: readonly number[], n2: number): readonly number[] {
  const solver = new Solver(COMPARTMENT_COUNT);
  solver.absoluteTolerance = 1e-12;
  solver.relativeTolerance = 1e-12;
  solver.maxSteps = 100_000;
  // Leg by leg: the solver must not step over a corner of the profile.
  return legs.reduce<readonly number[]>((tensions, leg) => {
    if (leg.min === 0) return tensions;
    const slope = (min: number, held: number[]) => {
      const inspired = n2 * inspiredBar(leg.fromBar + ((leg.toBar - leg.fromBar) * min) / leg.min);
      return held.map((tension, i) => RATES_PER_MIN[i]! * (inspired - tension));
    };
    return solver.solve(slope, 0, [...tensions], leg.min).y;
  }, before);
}

describe('the maps of a profile', () => {
  it('agree with a general ODE solver on 200 random profiles', () => {
    const drawn = fc.sample(
      fc.tuple(
        trips({ dives: { min: 1, max: 1 }, party: { min: 1, max: 1 } }),
        fc.double({ min: 0.4, max: 0.8, noNaN: true }),
        fc.array(fc.double({ min: 0.5, max: 4, noNaN: true }), { minLength: 16, maxLength: 16 }),
      ),
      { numRuns: PROFILES, seed: 20_270_306 },
    );
    expect(drawn).toHaveLength(PROFILES);
    let worst = 0;
    for (const [trip, n2, before] of drawn) {
      const { legs } = newDivePlan(trip.dives[0]!, surroundingsOf(trip));
      const ours = applyMap(legsMap(legs), before, n2);
      const theirs = integrated(legs, before, n2);
      ours.forEach((tension, i) => {
        worst = Math.max(worst, Math.abs(tension - theirs[i]!));
      });
    }
    console.log(`  ${PROFILES} profiles: worst difference ${worst.toExponential(1)} bar`);
    expect(worst).toBeLessThan(AGREEMENT_BAR);
  });
});
