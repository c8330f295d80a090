import { describe, expect, it } from 'vitest';
import { limitingCompartment, noStopLimitMin } from '../../../../core/ascent/no-stop-limit';
import { stagedAscent } from '../../../../core/ascent/staged-ascent';
import { applyMap, identity } from '../../../../core/tissues/affine-map';
import { COMPARTMENT_COUNT, restTensions } from '../../../../core/tissues/compartments';
import { newDivePlan } from '../../../../core/ledger/dive-plan';
import { surfaceLimits } from '../../../../core/ledger/nitrogen-outcome';
import { lastLevelStay } from '../../../../core/ledger/level-limits';
import { surroundingsOf } from '../../../../core/profile';

const around = surroundingsOf({
  water: { density: 'gauge', altitudeM: 0 },
  settings: {
    descentMPerMin: 18,
    ascentMPerMin: 9,
  },
});
const rest = restTensions(around.column.surfaceBar);
const AIR = 0.79;

const filled = (value: number): number[] => new Array<number>(COMPARTMENT_COUNT).fill(value);

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
    expect(stagedAscent(filled(4), 2.9, AIR, { low: 0.3, high: 0.3 }, around)).toBeNull();
  });

  it('may wait at the level itself where that lies on the depth of a stop', () => {
    const loaded = filled(0.8).with(0, 3);
    expect(stagedAscent(loaded, 6, AIR, { low: 0.6, high: 0.8 }, around)![0]!.depthM).toBe(6);
    expect(stagedAscent(loaded, 5.9, AIR, { low: 0.6, high: 0.8 }, around)).toBeNull();
  });

  it('has none to offer where the gas itself holds a tissue above its limit', () => {
    // Nothing above ambient pressure is tolerated at the surface, and 99 % nitrogen at 3 m is more than that.
    expect(stagedAscent(filled(1.5), 12, 0.99, { low: 1, high: 0 }, around)).toBeNull();
  });

  it('has none to offer where one tissue loads past its limit while another is waited for', () => {
    // By hand: at 3 m 95 % nitrogen gives 1.19 bar. The first compartment (limit 1.21 on surfacing) needs 27
    // minutes to come down to it, in which the fourth (limit 1.12) rises from 1.05 to 1.14.
    const tensions = filled(0.9).with(0, 2.2).with(3, 1.05);
    expect(stagedAscent(tensions, 4, 0.95, { low: 0.9, high: 0.1 }, around)).toBeNull();
    expect(stagedAscent(tensions.with(3, 0.5), 4, 0.95, { low: 0.9, high: 0.1 }, around)).not.toBeNull();
  });

  it('waits no longer than a day', () => {
    // The slowest compartment comes from 1.5 bar to 1.04 on 1.0: 635 / ln 2 * ln(0.5 / 0.04) is over a day and a half.
    expect(stagedAscent(filled(0.9).with(15, 1.5), 4, 0.8, { low: 0.9, high: 0.1 }, around)).toBeNull();
  });
});

describe('noStopLimitMin', () => {
  it('is the arrival itself where a tissue arrives exactly at its limit, and 0 a hair past it', () => {
    const stay = {
      arrivalTensions: filled(2),
      arrivalMin: 5,
      inspiredN2Bar: 3,
      directAscent: identity,
      n2Fraction: AIR,
      limits: filled(2),
    };
    expect(noStopLimitMin(stay)).toBe(5);
    expect(noStopLimitMin({ ...stay, arrivalTensions: filled(2 + 1e-12) })).toBe(0);
  });
});

describe('limitingCompartment', () => {
  const plan = newDivePlan({ depthM: 30, bottomMin: 20 }, around);
  const limits = surfaceLimits(around.column, 0.8);

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
