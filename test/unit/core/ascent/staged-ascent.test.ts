import { describe, expect, it } from 'vitest';
import { limitingCompartment, noStopLimitMin } from '../../../../core/ascent/no-stop-limit';
import { stagedAscent } from '../../../../core/ascent/staged-ascent';
import { surroundings } from '../../../../core/profile';
import { applyMap } from '../../../../core/tissues/affine-map';
import { COMPARTMENT_COUNT, restTensions } from '../../../../core/tissues/compartments';
import { newDivePlan } from '../../../../core/trip/dive-plan';
import { lastLevelStay, surfaceLimits } from '../../../../core/trip/entry';
import { waterColumn } from '../../../../core/water';

const around = surroundings(waterColumn({ density: 'gauge', altitudeM: 0 }), {
  descentMPerMin: 18,
  ascentMPerMin: 9,
  gasLaw: 'ideal',
  analysisTolerance: 0,
});
const rest = restTensions(around.column.surfaceBar);
const AIR = 0.79;

function leaving(depthM: number, bottomMin: number): readonly number[] {
  return applyMap(newDivePlan({ depthM, bottomMin }, around).toLeaving, rest, AIR);
}

describe('stagedAscent', () => {
  it('stops deeper and longer the longer the bottom time', () => {
    const gradient = { low: 0.5, high: 0.8 };
    const short = stagedAscent(leaving(40, 15), 40, AIR, gradient, around)!;
    const long = stagedAscent(leaving(40, 30), 40, AIR, gradient, around)!;
    const total = (stops: readonly { min: number }[]) => stops.reduce((sum, stop) => sum + stop.min, 0);
    expect(long[0]!.depthM).toBeGreaterThanOrEqual(short[0]!.depthM);
    expect(total(long)).toBeGreaterThan(total(short));
    expect(long[long.length - 1]!.depthM).toBe(3);
  });

  it('makes its first stop where the low factor calls for it, for a minute at least', () => {
    const deepFirst = stagedAscent(leaving(40, 20), 40, AIR, { low: 0.2, high: 0.9 }, around)!;
    const shallowFirst = stagedAscent(leaving(40, 20), 40, AIR, { low: 0.9, high: 0.9 }, around)!;
    expect(deepFirst[0]!.depthM).toBeGreaterThan(shallowFirst[0]!.depthM);
    expect(deepFirst[0]!.min).toBeGreaterThanOrEqual(1);
  });

  it('has none to offer from a level too shallow for a stop', () => {
    expect(
      stagedAscent(new Array<number>(COMPARTMENT_COUNT).fill(4), 3, AIR, { low: 0.3, high: 0.3 }, around),
    ).toBeNull();
  });

  it('has none to offer where the gas itself would go on loading a tissue past its limit', () => {
    // A factor of 0 tolerates no more than ambient pressure, and 99 % nitrogen keeps the tissues above the
    // surface's for good.
    expect(
      stagedAscent(new Array<number>(COMPARTMENT_COUNT).fill(3), 30, 0.99, { low: 0, high: 0 }, around),
    ).toBeNull();
  });
});

describe('limitingCompartment', () => {
  const plan = newDivePlan({ depthM: 30, bottomMin: 20 }, around);
  const limits = surfaceLimits(around.column.surfaceBar, 0.8);

  it('names the compartment whose own time is the no-stop limit', () => {
    const stay = lastLevelStay(plan, rest, AIR, limits);
    const limiting = limitingCompartment(stay)!;
    const alone = limits.map((limit, i) => (i === limiting.compartment - 1 ? limit : 100));
    expect(noStopLimitMin({ ...stay, limits: alone })).toBe(noStopLimitMin(stay));
  });

  it('is the one past its limit where one is on arrival', () => {
    const loaded = rest.with(9, 5);
    expect(limitingCompartment(lastLevelStay(plan, loaded, AIR, limits))?.compartment).toBe(10);
  });

  it('is none where there is no limit', () => {
    const shallow = newDivePlan({ depthM: 3, bottomMin: 20 }, around);
    expect(limitingCompartment(lastLevelStay(shallow, rest, AIR, limits))).toBeNull();
  });
});
