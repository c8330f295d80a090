import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classCurves } from '../../../../core/mixes/class-curves';
import {
  CLASS_DIVER,
  classAtDepth,
  classGases,
  classTrip,
  type ClassLoop,
} from '../../../../core/mixes/class-dive';
import { depthCurves } from '../../../../core/mixes/depth-curve';
import { aClassLoop } from '../../../support/class-loop';

function gasesOf(loop: ClassLoop | null, percents: readonly number[] = [21, 32]) {
  return classGases(classTrip({ depthM: 26, percents, loop }));
}

const loops: fc.Arbitrary<ClassLoop> = fc.record({
  lowBar: fc.integer({ min: 40, max: 90 }).map((hundredths) => hundredths / 100),
  highBar: fc.integer({ min: 90, max: 160 }).map((hundredths) => hundredths / 100),
  switchM: fc.integer({ min: 0, max: 45 }),
  diluentPercent: fc.integer({ min: 21, max: 40 }),
});

describe('classCurves', () => {
  it('has no-stop times of mixes as they are drawn for a trip', () => {
    const trip = classTrip({ depthM: 26, percents: [21, 32], loop: null });
    const drawn = depthCurves(trip, trip.mixes, [CLASS_DIVER], 9, 42, 0.5);
    expect(classCurves(gasesOf(null), 9, 42, 0.5).map(({ points }) => points)).toEqual(
      drawn.map(({ points }) => points),
    );
  });

  it('holds at every depth the PO2 that is told there, whatever loop is looked at', () => {
    fc.assert(
      fc.property(loops, fc.integer({ min: 3, max: 42 }), (loop, depthM) => {
        const gases = gasesOf(loop);
        const told = classAtDepth(gases, depthM, 1, 1);
        classCurves(gases, 40, 42, 3).forEach(({ po2, gas }, at) => {
          expect(po2[0]!.fromM).toBe(0);
          expect(po2.at(-1)!.toM).toBeCloseTo(Math.min(gas.modM, 42), 9);
          // At the switch the deeper stretch holds.
          const held = po2.findLast(({ fromM, toM }) => fromM <= depthM + 1e-9 && depthM <= toM + 1e-9);
          if (held === undefined) return expect(depthM).toBeGreaterThan(gas.modM);
          const share = (depthM - held.fromM) / (held.toM - held.fromM);
          const bar = held.fromBar + share * (held.toBar - held.fromBar);
          return expect(bar).toBeCloseTo(told[at]!.po2Bar, 9);
        });
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('says by which law: held, not reached yet, or the diluent alone', () => {
    const laws = (loop: ClassLoop) =>
      classCurves(gasesOf(loop), 9, 42, 3)
        .at(-1)!
        .po2.map(({ law, fromM, toM }) => `${law} ${fromM.toFixed(1)} to ${toM.toFixed(1)}`);
    expect(laws(aClassLoop())).toEqual(['held 0.0 to 6.0', 'held 6.0 to 42.0']);
    // P - 0.0627 is 1.5 at 5.5 m.
    expect(laws(aClassLoop({ switchM: 2, highBar: 1.5 }))).toEqual([
      'held 0.0 to 2.0',
      'not-reached 2.0 to 5.5',
      'held 5.5 to 42.0',
    ]);
    // 32 % of P - 0.0627 is 0.7 at 12.4 m and 1.2 at 28 m; its MOD is 33.6 m.
    expect(laws(aClassLoop({ switchM: 20, diluentPercent: 32 }))).toEqual([
      'held 0.0 to 12.4',
      'diluent 12.4 to 20.0',
      'held 20.0 to 28.0',
      'diluent 28.0 to 33.6',
    ]);
  });

  it('has on both sides of the switch the no-stop time that is told there', () => {
    const gases = gasesOf(aClassLoop({ switchM: 20 }));
    const { points } = classCurves(gases, 9, 42, 1).at(-1)!;
    const around = points.filter(({ depthM }) => Math.abs(depthM - 20) < 0.01);
    expect(around.length).toBeGreaterThan(1);
    const told = (depthM: number) => classAtDepth(gases, depthM, 1, 1).at(-1)!.curve.meetsMin;
    expect(around[0]!.noStopMin).toBeCloseTo(told(19.999_999), 6);
    expect(around.at(-1)!.noStopMin).toBe(told(20));
    expect(around.at(-1)!.noStopMin!).toBeGreaterThan(1.5 * around[0]!.noStopMin!);
    expect(points.find(({ depthM }) => depthM === 30)!.noStopMin).toBe(told(30));
  });
});
