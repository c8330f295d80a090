import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyMap, compose, fill, identity, type AffineMap } from '../../core/tissues/affine-map';
import {
  AIR_N2,
  COMPARTMENT_COUNT,
  inspiredBar,
  RATES_PER_MIN,
  restTensions,
} from '../../core/tissues/compartments';
import { intervalMap, stretchMap } from '../../core/tissues/leg-map';

/** The issue asks for agreement above no more than this, relative to the tension: a few ulp of 1.1e-16. */
const CUTTING_TOLERANCE = 1e-14;

const bars = fc.double({ min: 0.5, max: 11, noNaN: true });
const mins = fc.double({ min: 1e-6, max: 2000, noNaN: true });
const shares = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
const fractions = fc.double({ min: 0, max: 1, noNaN: true });
const tensions = fc.array(fc.double({ min: 0.2, max: 8, noNaN: true }), {
  minLength: COMPARTMENT_COUNT,
  maxLength: COMPARTMENT_COUNT,
});
const stretches = fc.record({ from: bars, to: bars, min: mins });

function worstDifference(a: readonly number[], b: readonly number[], scale: readonly number[]): number {
  return Math.max(...a.map((value, i) => Math.abs(value - b[i]!) / scale[i]!));
}

describe('stretchMap', () => {
  it('is the same cut in two, above 1e-14 relative', () => {
    let worst = 0;
    fc.assert(
      fc.property(stretches, shares, tensions, fractions, ({ from, to, min }, share, before, n2) => {
        const middle = from + share * (to - from);
        const whole = applyMap(stretchMap(from, to, min), before, n2);
        const half = applyMap(stretchMap(from, middle, share * min), before, n2);
        const both = applyMap(stretchMap(middle, to, min - share * min), half, n2);
        // Scaled by the largest pressure about: a tension near zero is the difference of larger ones.
        const scale = whole.map((value, i) => Math.max(value, before[i]!, n2 * Math.max(from, to)));
        worst = Math.max(worst, worstDifference(whole, both, scale));
      }),
      { numRuns: 20_000 },
    );
    console.log(`  cutting a leg: worst relative difference ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(CUTTING_TOLERANCE);
  });

  it('changes nothing in no time', () => {
    expect(stretchMap(3, 5, 0)).toBe(identity);
  });

  it('keeps a tissue at rest at rest', () => {
    fc.assert(
      fc.property(bars, mins, (surface, min) => {
        const rest = restTensions(surface);
        const after = applyMap(intervalMap(surface, min), rest, AIR_N2);
        expect(worstDifference(rest, after, rest)).toBeLessThan(CUTTING_TOLERANCE);
      }),
    );
  });

  it('ends in equilibrium with what is breathed, however it began', () => {
    fc.assert(
      fc.property(bars, tensions, fractions, (bar, before, n2) => {
        const after = applyMap(stretchMap(bar, bar, 60_000), before, n2);
        for (const tension of after) expect(Math.abs(tension - n2 * inspiredBar(bar))).toBeLessThan(1e-12);
      }),
    );
  });

  it('halves the distance to equilibrium in a half-time', () => {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      const halfTime = Math.LN2 / RATES_PER_MIN[i]!;
      expect(stretchMap(4, 4, halfTime).decay[i]).toBeCloseTo(0.5, 15);
    }
  });

  it('takes up more at more pressure, more nitrogen and more tension before', () => {
    fc.assert(
      fc.property(stretches, tensions, fractions, shares, ({ from, to, min }, before, n2, less) => {
        const map = stretchMap(from, to, min);
        const after = applyMap(map, before, n2);
        const leaner = applyMap(map, before, n2 * less);
        const cleaner = applyMap(
          map,
          before.map((tension) => tension * less),
          n2,
        );
        const shallower = applyMap(
          stretchMap(0.5 + (from - 0.5) * less, 0.5 + (to - 0.5) * less, min),
          before,
          n2,
        );
        after.forEach((tension, i) => {
          expect(leaner[i]!).toBeLessThanOrEqual(tension);
          expect(cleaner[i]!).toBeLessThanOrEqual(tension);
          expect(shallower[i]!).toBeLessThanOrEqual(tension + 1e-12);
        });
      }),
    );
  });

  it('agrees with small steps of the equation it solves', () => {
    fc.assert(
      fc.property(
        fc.record({ from: bars, to: bars, min: fc.double({ min: 0.1, max: 60, noNaN: true }) }),
        tensions,
        fractions,
        ({ from, to, min }, before, n2) => {
          const steps = 4000;
          const dt = min / steps;
          const stepped = before.map((start, i) => {
            let tension = start;
            const k = RATES_PER_MIN[i]!;
            const slope = (at: number, value: number) =>
              k * (n2 * inspiredBar(from + ((to - from) * at) / min) - value);
            for (let s = 0; s < steps; s += 1) {
              const mid = tension + (dt / 2) * slope(s * dt, tension);
              tension += dt * slope((s + 0.5) * dt, mid);
            }
            return tension;
          });
          // The midpoint rule errs by (k dt)^2 / 6 of what moves: below 1e-6 of 11 bar at these steps.
          const after = applyMap(stretchMap(from, to, min), before, n2);
          after.forEach((tension, i) => expect(Math.abs(tension - stepped[i]!)).toBeLessThan(1e-5));
        },
      ),
      { numRuns: 20 },
    );
  });
});

describe('compose', () => {
  const chains = fc.array(stretches, { minLength: 1, maxLength: 8 });

  it('is the fold of its parts on one mix', () => {
    fc.assert(
      fc.property(chains, tensions, fractions, (parts, before, n2) => {
        const maps = parts.map(({ from, to, min }) => stretchMap(from, to, min));
        const folded = maps.reduce<readonly number[]>((held, map) => applyMap(map, held, n2), before);
        const composed = applyMap(maps.reduce(compose, identity), before, n2);
        folded.forEach((tension, i) => expect(Math.abs(tension - composed[i]!)).toBeLessThan(1e-13));
      }),
    );
  });

  it('does not mind how its parts are grouped', () => {
    fc.assert(
      fc.property(stretches, stretches, stretches, (a, b, c) => {
        const [x, y, z] = [a, b, c].map(({ from, to, min }) => stretchMap(from, to, min)) as [
          AffineMap,
          AffineMap,
          AffineMap,
        ];
        const left = compose(compose(x, y), z);
        const right = compose(x, compose(y, z));
        left.uptake.forEach((value, i) => expect(Math.abs(value - right.uptake[i]!)).toBeLessThan(1e-13));
      }),
    );
  });

  it('leaves a map as it is beside the identity', () => {
    const map = stretchMap(1, 4, 7);
    expect(compose(identity, map)).toEqual(map);
    expect(compose(map, identity)).toEqual(map);
  });
});

describe('fill', () => {
  it('puts the mix in: the gain is what that mix takes up', () => {
    const map = stretchMap(4, 4, 20);
    const zero = new Array<number>(COMPARTMENT_COUNT).fill(0);
    expect(fill(map, 0.68)).toEqual({ decay: map.decay, gain: applyMap(map, zero, 0.68) });
  });
});
