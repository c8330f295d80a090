import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compressibility, idealBar } from '../../core/compressibility';
import type { Surroundings } from '../../core/profile';
import {
  contentL,
  gasUsedL,
  lastsMin,
  emergencyGas,
  emergencyWay,
  minimumGas,
  pressureBar,
  turnBar,
  type GasLaw,
  type SupplyLeg,
} from '../../core/supply';

const o2 = fc.double({ min: 0, max: 1, noNaN: true });
const waterL = fc.double({ min: 1, max: 40, noNaN: true });
const gaugeBar = fc.double({ min: 0, max: 350, noNaN: true });
const law = fc.constantFrom<GasLaw>('ideal', 'real');
const rate = fc.double({ min: 5, max: 60, noNaN: true });

const legs: fc.Arbitrary<readonly SupplyLeg[]> = fc.array(
  fc.record({
    fromBar: fc.double({ min: 0.5, max: 10, noNaN: true }),
    toBar: fc.double({ min: 0.5, max: 10, noNaN: true }),
    min: fc.double({ min: 0.01, max: 100, noNaN: true }),
  }),
  { minLength: 1, maxLength: 6 },
);

const around: Surroundings = {
  column: { surfaceBar: 1.01325, barPerM: 0.1 },
  descentMPerMin: 18,
  ascentMPerMin: 9,
};

describe('content of a cylinder', () => {
  it('and its pressure are inverse, within the tolerance of the root', () => {
    fc.assert(
      fc.property(waterL, gaugeBar, o2, law, (volume, bar, mix, which) => {
        const back = pressureBar(volume, contentL(volume, bar, mix, which), mix, which)!;
        expect(Math.abs(back - bar)).toBeLessThan(2e-7);
      }),
    );
  });

  it('rises with pressure, for every mix', () => {
    fc.assert(
      fc.property(gaugeBar, gaugeBar, o2, law, (one, other, mix, which) => {
        fc.pre(Math.abs(one - other) > 1e-9);
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        expect(contentL(12, high, mix, which)).toBeGreaterThan(contentL(12, low, mix, which));
      }),
    );
  });

  it('of a mix lies between those of its two gases', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 300, noNaN: true }), o2, (bar, mix) => {
        const ends = [compressibility(0, bar), compressibility(1, bar)];
        expect(compressibility(mix, bar)).toBeLessThanOrEqual(Math.max(...ends) + 1e-15);
        expect(compressibility(mix, bar)).toBeGreaterThanOrEqual(Math.min(...ends) - 1e-15);
        expect(idealBar(mix, bar) * compressibility(mix, bar)).toBeCloseTo(bar, 9);
      }),
    );
  });
});

describe('gas breathed', () => {
  it('does not change when a leg is cut, and doubles with the rate', () => {
    fc.assert(
      fc.property(legs, rate, fc.double({ min: 0, max: 1, noNaN: true }), (dive, lpm, part) => {
        const [first, ...rest] = dive;
        const middleBar = first!.fromBar + part * (first!.toBar - first!.fromBar);
        const cut = [
          { fromBar: first!.fromBar, toBar: middleBar, min: part * first!.min },
          { fromBar: middleBar, toBar: first!.toBar, min: (1 - part) * first!.min },
          ...rest,
        ];
        const used = gasUsedL(dive, lpm);
        expect(Math.abs(gasUsedL(cut, lpm) - used)).toBeLessThanOrEqual(1e-12 * used);
        expect(gasUsedL(dive, 2 * lpm)).toBeCloseTo(2 * used, 8);
      }),
    );
  });

  it('is used up at the minute that is named', () => {
    fc.assert(
      fc.property(legs, rate, fc.double({ min: 0, max: 0.999, noNaN: true }), (dive, lpm, part) => {
        const litres = part * gasUsedL(dive, lpm);
        const min = lastsMin(dive, lpm, litres)!;
        // Up to that minute, leg by leg.
        let leftMin = min;
        const until: SupplyLeg[] = [];
        for (const leg of dive) {
          const share = Math.min(1, leftMin / leg.min);
          until.push({
            ...leg,
            toBar: leg.fromBar + share * (leg.toBar - leg.fromBar),
            min: share * leg.min,
          });
          leftMin -= share * leg.min;
          if (leftMin <= 0) break;
        }
        expect(Math.abs(gasUsedL(until, lpm) - litres)).toBeLessThanOrEqual(1e-9 * Math.max(1, litres));
      }),
    );
  });
});

describe('minimum gas', () => {
  it('grows with depth and rate, holds the reserve, and the turn lies between it and the fill', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 60, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        rate,
        law,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (depthM, deeperM, lpm, which, share) => {
          const supply = { waterL: 12, reserveBar: 50, o2: 0.32, law: which };
          const at = (m: number, rateLpm: number) =>
            minimumGas(supply, emergencyGas(rateLpm, [emergencyWay(m, [{ depthM: 5, min: 3 }], around)]));
          const minimum = at(depthM, lpm);
          const deeper = at(depthM + deeperM, lpm);
          const faster = at(depthM, lpm * 1.1);
          expect(deeper.litres).toBeGreaterThan(minimum.litres);
          expect(faster.litres).toBeGreaterThan(minimum.litres);
          expect(deeper.bar).toBeGreaterThanOrEqual(minimum.bar);
          expect(minimum.bar).toBeGreaterThanOrEqual(50);
          const turn = turnBar(200, minimum.bar, share);
          if (minimum.bar > 200) expect(turn).toBeNull();
          else {
            expect(turn!).toBeLessThanOrEqual(200);
            expect(turn!).toBeGreaterThanOrEqual(minimum.bar - 1e-9);
          }
        },
      ),
    );
  });
});
