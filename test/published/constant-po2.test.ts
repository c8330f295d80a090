/*
 * Nitrogen and oxygen of a breathing loop against the equations they solve, integrated by a general-purpose solver
 * (odex, as in ode.test.ts). The solver is given the law as it stands, and stopped at corners that are found by halving.
 * No published worked example of these compartments at constant PO2 was found.
 */
import fc from 'fast-check';
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import type { LoopBreathing } from '../../core/breathing';
import { newDivePlan } from '../../core/ledger/dive-plan';
import { bothClocks } from '../../core/oxygen/clock-pieces';
import { esot } from '../../core/oxygen/esot';
import { limitMin, NOAA_LIMITS } from '../../core/oxygen/limits';
import { otu } from '../../core/oxygen/otu';
import { surroundingsOf, type Leg } from '../../core/profile';
import { applyMap } from '../../core/tissues/affine-map';
import { COMPARTMENT_COUNT, RATES_PER_MIN, WATER_VAPOUR_BAR } from '../../core/tissues/compartments';
import { breathedMap, oxygenLegs, PURE_NITROGEN } from '../../core/tissues/breathed-legs';
import { trips } from '../support/trip-arbitrary';

/** Asked for by the project; the solver itself is held to 1e-13 of an absolute and relative error. */
const AGREEMENT = 1e-9;
const PROFILES = 200;

/** The law with nothing of the closed forms: oxygen and nitrogen inspired at a moment of a leg. */
function inspired(leg: Leg, min: number, loop: LoopBreathing, strayBar: number) {
  const share = min / leg.min;
  const depthM = leg.fromM + (leg.toM - leg.fromM) * share;
  const dry = leg.fromBar + (leg.toBar - leg.fromBar) * share - WATER_VAPOUR_BAR;
  const setpoint = (depthM >= loop.switchM ? loop.highBar : loop.lowBar) + strayBar;
  const isReached = dry > setpoint;
  const isDiluent = loop.diluentO2 * dry > setpoint;
  const po2 = isDiluent ? loop.diluentO2 * dry : Math.min(setpoint, dry);
  const row = NOAA_LIMITS.findIndex((each) => po2 <= each.po2Bar + 1e-12);
  return {
    po2,
    n2: Math.max(0, dry - po2),
    regime: `${depthM >= loop.switchM} ${isReached} ${isDiluent} ${row} ${po2 > 0.5}`,
  };
}

/** Where the law of a leg changes, for either gas: minutes since its beginning, its end the last of them. */
function corners(leg: Leg, loop: LoopBreathing): readonly number[] {
  const regime = (min: number) =>
    [-loop.toleranceBar, loop.toleranceBar]
      .map((stray) => inspired(leg, min, loop, stray).regime)
      .join(' / ');
  const found: number[] = [];
  const seek = (a: number, b: number): void => {
    if (regime(a) === regime(b) && b - a < leg.min / 64) return;
    if (b - a < 1e-14 || b - a < 1e-13 * leg.min) found.push(b);
    else {
      seek(a, (a + b) / 2);
      seek((a + b) / 2, b);
    }
  };
  if (leg.fromM !== leg.toM) seek(0, leg.min);
  return [...found.filter((min) => min > 0 && min < leg.min), leg.min];
}

/** Sixteen tensions, CNS, OTU and ESOT as one system. */
function integrated(legs: readonly Leg[], before: readonly number[], loop: LoopBreathing): readonly number[] {
  let held: readonly number[] = [...before, 0, 0, 0];
  for (const leg of legs) {
    let from = 0;
    for (const to of leg.min === 0 ? [] : corners(leg, loop)) {
      const [a, b] = [from, to];
      from = to;
      if (b - a < 1e-12) continue;
      const solver = new Solver(COMPARTMENT_COUNT + 3);
      solver.absoluteTolerance = 1e-13;
      solver.relativeTolerance = 1e-13;
      solver.maxSteps = 100_000;
      const slope = (min: number, y: number[]) => {
        // Inside the piece, whatever its ends say.
        const inside = Math.min(b - 1e-13, Math.max(a + 1e-13, min));
        const { n2 } = inspired(leg, inside, loop, -loop.toleranceBar);
        const { po2 } = inspired(leg, inside, loop, loop.toleranceBar);
        const counts = po2 > 0.5;
        return [
          ...y.slice(0, COMPARTMENT_COUNT).map((tension, i) => RATES_PER_MIN[i]! * (n2 - tension)),
          1 / limitMin(po2, 'single')!,
          counts ? ((po2 - 0.5) / 0.5) ** (5 / 6) : 0,
          counts ? po2 ** (4.57 / 2) : 0,
        ];
      };
      held = solver.solve(slope, a, [...held], b).y;
    }
  }
  return held;
}

const loops: fc.Arbitrary<LoopBreathing> = fc.record({
  is: fc.constant('loop' as const),
  lowBar: fc.double({ min: 0.45, max: 0.8, noNaN: true }),
  highBar: fc.double({ min: 0.9, max: 1.5, noNaN: true }),
  switchM: fc.oneof(fc.constant(0), fc.double({ min: 1, max: 25, noNaN: true })),
  diluentO2: fc.constantFrom(0.21, 0.27),
  toleranceBar: fc.constantFrom(0, 0.05, 0.08),
});

describe('a breathing loop', () => {
  it('agrees with a general ODE solver on 200 random profiles', { timeout: 120_000 }, () => {
    const drawn = fc.sample(
      fc.tuple(
        trips({ dives: { min: 1, max: 1 }, party: { min: 1, max: 1 } }),
        loops,
        fc.array(fc.double({ min: 0.5, max: 4, noNaN: true }), { minLength: 16, maxLength: 16 }),
      ),
      { numRuns: PROFILES, seed: 20_270_306 },
    );
    const worst = { tension: 0, cns: 0, otu: 0, esot: 0 };
    for (const [trip, loop, before] of drawn) {
      const { legs } = newDivePlan(trip.dives[0]!, surroundingsOf(trip));
      const tensions = applyMap(breathedMap(legs, loop), before, PURE_NITROGEN);
      const oxygen = oxygenLegs(legs, loop);
      const theirs = integrated(legs, before, loop);
      tensions.forEach((tension, i) => {
        worst.tension = Math.max(worst.tension, Math.abs(tension - theirs[i]!));
      });
      worst.cns = Math.max(worst.cns, Math.abs(bothClocks(oxygen, 1, 0)!.single - theirs[16]!));
      worst.otu = Math.max(worst.otu, Math.abs(otu(oxygen, 1) - theirs[17]!));
      worst.esot = Math.max(worst.esot, Math.abs(esot(oxygen, 1) - theirs[18]!));
    }
    console.log(`  ${PROFILES} profiles: worst difference ${JSON.stringify(worst)}`);
    expect(worst.tension).toBeLessThan(AGREEMENT);
    expect(worst.cns).toBeLessThan(AGREEMENT);
    // Of some 200 OTU and minutes, where a share and a tension are of the order of 1.
    expect(worst.otu).toBeLessThan(100 * AGREEMENT);
    expect(worst.esot).toBeLessThan(100 * AGREEMENT);
  });
});
