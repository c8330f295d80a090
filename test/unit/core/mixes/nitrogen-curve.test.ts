import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { planOf, newDivePlan } from '../../../../core/ledger/dive-plan';
import { ledger } from '../../../../core/ledger/ledger';
import { momentInWater } from '../../../../core/ledger/straight-up';
import { leadingCompartments, nitrogenCurve } from '../../../../core/mixes/nitrogen-curve';
import { surroundingsOf } from '../../../../core/profile';
import { restTensions } from '../../../../core/tissues/compartments';

const trip = demoTrip();
const whole = ledger(trip);
const around = surroundingsOf(trip);

describe('nitrogenCurve', () => {
  it('meets the limit at exactly the no-stop minute of the dive, on every dive of the demo trip', () => {
    let seen = 0;
    for (const { entries } of whole.divers) {
      for (const entry of entries) {
        if (!entry.isMade || entry.unlimited) continue;
        const asked = {
          plan: planOf(trip, entry),
          before: entry.tensionsBefore,
          n2: 1 - entry.o2!,
          gradientHigh: entry.diver.gradient.high,
        };
        const { points, meetsMin } = nitrogenCurve(asked, entry.noStopMin! + 5, 1);
        expect(meetsMin).toBe(entry.noStopMin);
        const met = points.find(({ min }) => min === meetsMin)!;
        expect(met.share).toBeCloseTo(1, 9);
        if (entry.levels.length === 1) {
          for (const { min, share } of points) {
            if (min < meetsMin - 1e-6) expect(share).toBeLessThan(1);
            if (min > meetsMin + 1e-6) expect(share).toBeGreaterThan(1);
          }
        }
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(60);
  });

  it('is at each planned minute what the moment of the dive says', () => {
    const entry =
      whole.divers[0]!.entries.find(({ levels }) => levels.length > 1) ?? whole.divers[0]!.entries[3]!;
    const asked = {
      plan: planOf(trip, entry),
      before: entry.tensionsBefore,
      n2: 1 - entry.o2!,
      gradientHigh: entry.diver.gradient.high,
    };
    const { points } = nitrogenCurve(asked, entry.bottomMin, 1);
    for (const { min, share, shares } of points) {
      const moment = momentInWater(entry, trip, entry.startMin + min)!;
      expect(share).toBeCloseTo(moment.fractionOfLimit, 9);
      expect(shares[moment.compartment - 1]).toBe(share);
    }
  });

  it('begins at rest on a first dive, and is lower at every minute on a richer mix', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 40 }),
        fc.integer({ min: 21, max: 39 }),
        fc.constantFrom(0.7, 0.8, 0.95),
        (depthM, percent, gradientHigh) => {
          const plan = newDivePlan({ depthM, bottomMin: 30 }, around);
          const before = restTensions(around.column.surfaceBar);
          const lean = nitrogenCurve({ plan, before, n2: 1 - percent / 100, gradientHigh }, 60, 5);
          const rich = nitrogenCurve({ plan, before, n2: 1 - (percent + 1) / 100, gradientHigh }, 60, 5);
          expect(Math.abs(lean.points[0]!.share)).toBeLessThan(1e-9);
          expect(rich.meetsMin).toBeGreaterThanOrEqual(lean.meetsMin);
          for (const min of [5, 20, 40, 60]) {
            const at = (curve: typeof lean) => curve.points.find((point) => point.min === min)!.share;
            expect(at(rich)).toBeLessThan(at(lean));
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it('names the compartments that lead, fast ones first', () => {
    const plan = newDivePlan({ depthM: 24, bottomMin: 30 }, around);
    const before = restTensions(around.column.surfaceBar);
    const leading = leadingCompartments(
      nitrogenCurve({ plan, before, n2: 0.68, gradientHigh: 0.8 }, 60, 0.5),
    );
    expect(leading.length).toBeGreaterThan(2);
    expect(leading).toEqual(leading.toSorted((a, b) => a - b));
  });
});
