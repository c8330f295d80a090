import { describe, expect, it } from 'vitest';
import { writeFillRows } from '../../../../core/formats/fill-rows';
import { highTrip } from '../../../../core/document/high-trip';
import {
  blendSteps,
  CONTINUOUS_LEFT_BAR,
  fillsMade,
  oxygenBottles,
  USUAL_BOTTLES,
} from '../../../../core/mixes/blending';
import { blendedSaid, bottleSaid, fillsAskedSaid } from '../../../../core/mixes/blending-words';
import { pageReader, fileWords, wordsOf } from '../../../../core/words/reader';
import { figure, said } from '../../../../core/words/said';
import { fillPlan, USUAL_STARTS_BAR, type FillRequest } from '../../../../core/mixes/fills';
import { ledger } from '../../../../core/ledger/ledger';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const twelve = { waterL: 12, fillBar: 200, reserveBar: 50 };
const fifteen = { waterL: 15, fillBar: 230, reserveBar: 50 };

/** Three divers on two dives to 20 m on 32 %, two with 12 L and one with 15 L. */
const trip = aTrip(
  [
    aDive({ id: 'one', depthM: 20, mix: 'ean32' }),
    aDive({ id: 'two', depthM: 20, mix: 'ean32', startsAt: '2027-03-07T08:00' }),
  ],
  {
    mixes: [{ id: 'ean32', o2: 0.32, costPerFill: 10 }],
    party: [
      aDiver({ id: 'a', cylinder: twelve }),
      aDiver({ id: 'b', cylinder: fifteen }),
      aDiver({ id: 'c', cylinder: twelve }),
    ],
  },
);
const whole = ledger(trip);

function request(change: Partial<FillRequest> = {}): FillRequest {
  return { method: 'partial-pressure', law: 'ideal', startBar: 50, startO2: null, ...change };
}

function planOf(change: Partial<FillRequest> = {}) {
  const plan = fillPlan(whole, request(change));
  if (!plan.ok) throw new Error(plan.troubles[0].what);
  return plan.value;
}

describe('blendSteps', () => {
  it('tells each kind of cylinder once, with its fills and the pressure after the oxygen by both laws', () => {
    const steps = blendSteps(whole, request());
    expect(steps.map(({ waterL, fills }) => [waterL, fills])).toEqual([
      [12, 4],
      [15, 2],
    ]);
    // Topped by its own mix, 150 bar to add: 48 = x + 0.21 y, x + y = 150, so x = 20.886 bar of oxygen.
    expect(steps[0]!.by.ideal!.afterOxygenBar).toBeCloseTo(70.886, 3);
    // 180 bar to add: 57.6 = x + 0.21 y, x + y = 180, so x = 25.063.
    expect(steps[1]!.by.ideal!.afterOxygenBar).toBeCloseTo(75.063, 3);
    for (const { by } of steps) {
      // Real gas lies within a few bar of ideal at these pressures, and is not the same.
      expect(Math.abs(by.real!.afterOxygenBar - by.ideal!.afterOxygenBar)).toBeGreaterThan(0.1);
      expect(Math.abs(by.real!.afterOxygenBar - by.ideal!.afterOxygenBar)).toBeLessThan(6);
    }
  });

  it('leaves out dives that are not asked about', () => {
    expect(blendSteps(whole, request(), new Set(['one'])).map(({ fills }) => fills)).toEqual([2, 1]);
    expect(blendSteps(whole, request(), new Set())).toEqual([]);
  });
});

describe('of a loop', () => {
  const high = highTrip();
  const party = high.party.map((diver) =>
    diver.loop === undefined ? diver : { ...diver, loop: { ...diver.loop, diluent: 'ean32' } },
  );
  const looped = ledger({ ...high, party });
  const told = (change: Partial<FillRequest> = {}) => {
    const made = fillsMade(looped, request(change), { waterL: 50, fillBar: 200 });
    if (!made.ok) throw new Error(made.troubles[0].what);
    return made.value;
  };

  it('diluent is blended from what each dive leaves, and is in the table with it', () => {
    const steps = told().steps.filter(({ isDiluent }) => isDiluent);
    const left = looped.divers.flatMap(({ entries }) =>
      entries.flatMap(({ loop }) => loop?.diluentGas.leftBar ?? []),
    );
    expect(left).toHaveLength(7);
    expect(steps.flatMap(({ startBar, fills }) => Array<number>(fills).fill(startBar)).toSorted()).toEqual(
      left.toSorted(),
    );
    for (const step of steps) {
      expect([step.waterL, step.fillBar]).toEqual([3, 200]);
      // Topped by its own mix: x = added · (0.32 − 0.21) / 0.79.
      const addedBar = 200 - step.startBar;
      expect(step.by.ideal!.afterOxygenBar).toBeCloseTo(step.startBar + (addedBar * 0.11) / 0.79, 6);
      expect(fileWords(blendedSaid(step))).toMatch(/^3.L, diluent$/);
    }
    // Bail-out is one fill of 11 L, blended like any other cylinder.
    expect(told().steps.filter(({ waterL, isDiluent }) => waterL === 11 && !isDiluent)[0]!.startBar).toBe(50);
  });

  it('what is put into diluent at its pressure is the loop’s own oxygen, and no bottle is counted for it', () => {
    const { plan, steps, bottles } = told();
    const dilutedL = steps
      .filter(({ isDiluent }) => isDiluent)
      .reduce((sum, { by, fills }) => sum + fills * by.ideal!.oxygenL, 0);
    expect(dilutedL).toBeGreaterThan(1);
    const { plan: banked } = told({ method: 'banked' });
    expect(plan.loopOxygenL - banked.loopOxygenL).toBeCloseTo(dilutedL, 6);
    expect(plan.total.oxygenL).toBeCloseTo(banked.total.oxygenL, 6);
    // The highest that oxygen is put in to among the cylinders that start low.
    const highest = Math.max(
      ...steps.flatMap(({ isDiluent, by }) => (isDiluent ? [] : by.ideal!.afterOxygenBar)),
    );
    expect(bottles.downToBar).toBe(highest);
    expect(highest).toBeLessThan(100);
  });
});

describe('what is usual', () => {
  it('is round in the units that are read', () => {
    const read = (units: 'metric' | 'imperial', kind: 'cylinderGas' | 'pressureTyped', value: number) =>
      wordsOf(pageReader(units))(said`${figure(kind, value)}`);
    const { imperial } = USUAL_BOTTLES;
    expect(read('imperial', 'cylinderGas', imperial.waterL * imperial.fillBar)).toMatch(/^250.cu ft$/);
    expect(read('imperial', 'pressureTyped', imperial.fillBar)).toMatch(/^2.?200.psi$/);
    expect(read('imperial', 'pressureTyped', USUAL_STARTS_BAR.imperial)).toMatch(/^700.psi$/);
    expect(read('metric', 'pressureTyped', USUAL_BOTTLES.metric.fillBar)).toMatch(/^200.bar$/);
    expect(read('metric', 'pressureTyped', USUAL_STARTS_BAR.metric)).toMatch(/^50.bar$/);
  });
});

describe('oxygenBottles', () => {
  const bottle = { waterL: 50, fillBar: 200 };

  it('empties a bottle no further than the highest pressure that oxygen is put in to', () => {
    const count = oxygenBottles(planOf(), blendSteps(whole, request()), request(), bottle);
    expect(count.downToBar).toBeCloseTo(75.063, 3);
    expect(count.eachL).toBeCloseTo(50 * (200 - 75.063), 0);
    // 4 × 12 L × 20.886 + 2 × 15 L × 25.063 = 1754 L.
    expect(planOf().total.oxygenL).toBeCloseTo(4 * 12 * 20.886 + 2 * 15 * 25.063, 0);
    expect(count.bottles).toBe(1);
    const small = { waterL: 2, fillBar: 200 };
    expect(oxygenBottles(planOf(), blendSteps(whole, request()), request(), small).bottles).toBe(
      Math.ceil((4 * 12 * 20.886 + 2 * 15 * 25.063) / (2 * (200 - 75.063))),
    );
  });

  it('has no count where the bottle has less pressure than the cylinders need', () => {
    const low = { waterL: 50, fillBar: 75 };
    const count = oxygenBottles(planOf(), blendSteps(whole, request()), request(), low);
    expect(count).toMatchObject({ bottles: null, eachL: 0 });
  });

  it('empties it to a remainder for continuous blending, and needs none for a membrane', () => {
    const continuous = request({ method: 'continuous' });
    const count = oxygenBottles(planOf({ method: 'continuous' }), [], continuous, bottle);
    expect(count.downToBar).toBe(CONTINUOUS_LEFT_BAR);
    expect(count.eachL).toBeCloseTo(50 * 190, 6);
    // The same gas is put in whichever way, so the same oxygen.
    expect(planOf({ method: 'continuous' }).total.oxygenL).toBeCloseTo(planOf().total.oxygenL, 6);
    const membrane = planOf({ method: 'membrane' });
    expect(membrane.total.oxygenL).toBe(0);
    // It takes in more air than it gives gas; of air itself it gives as much.
    expect([...membrane.lines, membrane.total].map(({ airL }) => airL)).toEqual([null, null, null]);
    const onAir = fillPlan(ledger(aTrip([aDive({ mix: 'air' })])), request({ method: 'membrane' }));
    expect(onAir.ok && onAir.value.total.airL).toBeCloseTo(onAir.ok ? onAir.value.total.litres : NaN, 9);
    expect(writeFillRows(membrane)).toMatch(/^2027-03-06,32,3,6300,0,,30,0,0$/m);
    expect(oxygenBottles(membrane, [], request({ method: 'membrane' }), bottle).bottles).toBe(0);
  });

  it('never counts too few: so many bottles hold what is put in, one fewer do not', () => {
    for (const law of ['ideal', 'real'] as const) {
      for (const waterL of [1, 2.5, 7, 10]) {
        const asked = request({ law });
        const { bottles, eachL } = oxygenBottles(planOf({ law }), blendSteps(whole, asked), asked, {
          waterL,
          fillBar: 200,
        });
        expect(bottles! * eachL).toBeGreaterThanOrEqual(planOf({ law }).total.oxygenL - 1e-6);
        expect((bottles! - 1) * eachL).toBeLessThan(planOf({ law }).total.oxygenL);
      }
    }
  });
});

describe('fillsAskedSaid', () => {
  it('says how cylinders are filled, what they come back with, and by which law amounts are told', () => {
    expect(fileWords(fillsAskedSaid(request(), 'litres'))).toBe(
      'by partial pressure: oxygen, then air; cylinders come back at 50 bar of their mix; gas in litres at 1 bar, by ideal gas.',
    );
    const other = request({ method: 'continuous', law: 'real', startBar: 30, startO2: 0.21 });
    expect(fileWords(fillsAskedSaid(other, 'L'))).toBe(
      'by continuous blending; cylinders come back at 30 bar of Air; gas in L at 1 bar, by compressibility at 20 °C.',
    );
    expect(fileWords(bottleSaid({ waterL: 50, fillBar: 200 }))).toBe(
      'Oxygen comes in bottles of 50 L, full at 200 bar.',
    );
  });
});

describe('writeFillRows', () => {
  it('has a row a day and mix, litres rounded up', () => {
    const rows = writeFillRows(planOf()).trim().split('\r\n');
    expect(rows.length).toBe(3);
    expect(rows[1]).toBe('2027-03-06,32,3,6300,878,5423,30,0,0');
  });
});
