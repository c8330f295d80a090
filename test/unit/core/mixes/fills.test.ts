import { writeFillRows } from '../../../../core/formats/fill-rows';
import { describe, expect, it } from 'vitest';
import {
  fillPlan,
  makeUp,
  partialPressureFill,
  type FillPlan,
  type FillRequest,
} from '../../../../core/mixes/fills';
import { isLoopOxygen } from '../../../../core/mixes/loop-cylinders';
import { oxygenBottles } from '../../../../core/mixes/blending';
import { gasOfFillSaid, loopFillsSaid } from '../../../../core/mixes/blending-words';
import { fileWords } from '../../../../core/words/reader';
import { highTrip } from '../../../../core/document/high-trip';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';

/** Arithmetic by hand below carries six digits. */
const BY_HAND = 4;

const twelve = { waterL: 12, startBar: 50, fillBar: 200 };

function filled(
  start: Parameters<typeof partialPressureFill>[0],
  o2: number,
  law: 'ideal' | 'real' = 'ideal',
) {
  const fill = partialPressureFill(start, o2, law);
  if (!fill.ok) throw new Error(fill.troubles[0].what);
  return fill.value;
}

describe('partialPressureFill', () => {
  it('tops 50 bar of 32 % up to 200 bar, by Dalton', () => {
    const fill = filled({ ...twelve, startO2: 0.32 }, 0.32);
    // 150 bar to add, 0.32 of it oxygen: x + y = 150 and x + 0.21 y = 48 give y = 102/0.79 = 129.113924 bar.
    expect(fill.airL).toBeCloseTo(129.113924 * 12, BY_HAND);
    expect(fill.oxygenL).toBeCloseTo(20.886076 * 12, BY_HAND);
    expect(fill.afterOxygenBar).toBeCloseTo(70.886076, BY_HAND);
    expect(fill.isDrained).toBe(false);
  });

  it('makes 36 % at 200 bar on 50 bar of air, by Dalton', () => {
    const fill = filled({ ...twelve, startO2: 0.21 }, 0.36);
    // Absolute: 201.01325 * 0.36 - 51.01325 * 0.21 = 61.651987 bar of oxygen to add within 150 bar:
    // y = (150 - 61.651987)/0.79 = 111.832928, x = 38.167072.
    expect(fill.oxygenL).toBeCloseTo(38.167072 * 12, BY_HAND);
    expect(fill.airL).toBeCloseTo(111.832928 * 12, BY_HAND);
  });

  it('lets down what is too rich no further than it must', () => {
    const fill = filled({ waterL: 12, startBar: 190, fillBar: 200, startO2: 0.36 }, 0.32);
    expect(fill.isDrained).toBe(true);
    // Air alone on 36 %: 201.01325 * 0.32 = p * 0.36 + (201.01325 - p) * 0.21 gives p = 147.409717 absolute.
    expect(fill.fromBar).toBeCloseTo(147.409717 - 1.01325, 3);
    expect(fill.oxygenL).toBeCloseTo(0, 3);
  });

  it('lets down what is too lean, too', () => {
    const fill = filled({ waterL: 12, startBar: 190, fillBar: 200, startO2: 0.21 }, 0.4);
    expect(fill.isDrained).toBe(true);
    expect(fill.airL).toBeCloseTo(0, 3);
    // Oxygen alone on air: 201.01325 * 0.4 = p * 0.21 + 201.01325 - p gives p = 152.668291 absolute.
    expect(fill.fromBar).toBeCloseTo(152.668291 - 1.01325, 3);
  });

  it('refuses a cylinder that is full, and what cannot become the mix', () => {
    expect(partialPressureFill({ ...twelve, startBar: 200, startO2: 0.21 }, 0.32, 'ideal').ok).toBe(false);
    const air = partialPressureFill({ ...twelve, startO2: 0.36 }, 0.21, 'ideal');
    expect(air.ok || air.troubles[0].kind).toBe('no-fill');
  });

  it('ends with the mix and the pressure asked for, whatever was in it', () => {
    for (const startO2 of [0.21, 0.28, 0.32, 0.4]) {
      for (const startBar of [0, 60, 200]) {
        const fill = filled({ waterL: 15, startBar, fillBar: 230, startO2 }, 0.34);
        const heldL = 15 * (fill.fromBar + 1.01325);
        const fullL = heldL + fill.oxygenL + fill.airL;
        expect(fullL).toBeCloseTo(15 * 231.01325, 6);
        expect(heldL * startO2 + fill.oxygenL + 0.21 * fill.airL).toBeCloseTo(0.34 * fullL, 6);
        expect(Math.min(fill.oxygenL, fill.airL)).toBeGreaterThan(-1e-3);
      }
    }
  });
});

describe('makeUp', () => {
  it('balances oxygen', () => {
    const { oxygenL, airL } = makeUp(1000, 0.32);
    expect(oxygenL + airL).toBeCloseTo(1000, 9);
    expect(oxygenL + 0.21 * airL).toBeCloseTo(320, 9);
    expect(makeUp(1000, 0.21)).toEqual({ oxygenL: 0, airL: 1000 });
  });
});

describe('fillPlan', () => {
  const whole = ledger(demoTrip());
  const banked: FillRequest = { method: 'banked', law: 'ideal', startBar: 50, startO2: null };
  const planOf = (request: FillRequest) => {
    const plan = fillPlan(whole, request);
    if (!plan.ok) throw new Error(plan.troubles[0].what);
    return plan.value;
  };

  it('counts a fill for each diver and made dive, and adds up', () => {
    const plan = planOf(banked);
    const made = whole.divers.flatMap((each) => each.entries).filter((entry) => entry.isMade).length;
    expect(plan.total.fills).toBe(made);
    expect(plan.lines.reduce((sum, line) => sum + line.oxygenL, 0)).toBeCloseTo(plan.total.oxygenL, 6);
    expect(plan.total.oxygenL + plan.total.airL!).toBeCloseTo(plan.total.litres, 6);
  });

  it('needs the same gas banked or by partial pressure on what is left of the same mix', () => {
    const direct = planOf({ ...banked, method: 'partial-pressure' });
    expect(direct.total.oxygenL).toBeCloseTo(planOf(banked).total.oxygenL, 6);
  });

  it('needs less with compressibility, and more oxygen on what is left of air', () => {
    const ideal = planOf(banked).total;
    const real = planOf({ ...banked, law: 'real' }).total;
    expect(real.litres).toBeLessThan(ideal.litres);
    expect(real.litres).toBeGreaterThan(0.93 * ideal.litres);
    const onAir = planOf({ ...banked, method: 'partial-pressure', startO2: 0.21 }).total;
    expect(onAir.oxygenL).toBeGreaterThan(ideal.oxygenL);
  });

  it('refuses a start pressure that leaves nothing to fill', () => {
    for (const startBar of [-1, 500, Number.NaN])
      expect(fillPlan(whole, { ...banked, startBar }).ok).toBe(false);
  });

  it('counts only the dives asked for', () => {
    const one = fillPlan(whole, banked, new Set([whole.trip.dives[0]!.id]));
    if (!one.ok) throw new Error('refused');
    expect(one.value.lines.every((line) => line.date === whole.trip.dives[0]!.startsAt.slice(0, 10))).toBe(
      true,
    );
    expect(one.value.total.fills).toBe(whole.trip.party.length);
  });
});

describe('the fills of a loop', () => {
  const high = highTrip();
  const whole = ledger({ ...high, settings: { ...high.settings, gasLaw: 'ideal' } });
  const request: FillRequest = { method: 'banked', law: 'ideal', startBar: 50, startO2: null };
  const made = fillPlan(whole, request);
  const without = fillPlan(
    ledger({ ...whole.trip, party: high.party.filter(({ loop }) => loop === undefined) }),
    request,
  );
  if (!made.ok || !without.ok) throw new Error('no fills');
  const { diver, entries } = whole.divers.find((each) => each.diver.loop !== undefined)!;
  const loops = entries.flatMap(({ loop }) => loop ?? []);

  it('are diluent and oxygen again after each dive, by what it takes', () => {
    const oxygen = made.value.lines.filter(({ mix }) => isLoopOxygen(mix));
    expect(oxygen.reduce((sum, { fills }) => sum + fills, 0)).toBe(loops.length);
    const usedL = loops.reduce((sum, each) => sum + each.oxygen.usedL, 0);
    expect(made.value.loopOxygenL).toBeCloseTo(usedL, 6);
    expect(made.value.total.oxygenL - without.value.total.oxygenL).toBeGreaterThanOrEqual(usedL - 1e-6);
  });

  it('are its bail-out once, and no cylinder of its diver’s own on these dives', () => {
    const { bailOut } = diver.loop!;
    const onOpen = entries.filter(({ loop, isMade }) => loop === null && isMade).length;
    const own = made.value.total.fills - without.value.total.fills;
    expect(own).toBe(2 * loops.length + bailOut.length + onOpen);
    const dilutedL = loops.reduce((sum, each) => sum + each.diluentGas.usedL, 0);
    const bailOutL = bailOut.reduce(
      (sum, { cylinder }) => sum + cylinder.waterL * (cylinder.fillBar - 50),
      0,
    );
    const openL = onOpen * diver.cylinder.waterL * (diver.cylinder.fillBar - 50);
    expect(made.value.total.litres - without.value.total.litres).toBeCloseTo(
      made.value.loopOxygenL + dilutedL + bailOutL + openL,
      4,
    );
  });

  it('have no price of oxygen until a mix of the trip gives it one', () => {
    const costs = ({ lines }: FillPlan) =>
      lines.filter(({ mix }) => isLoopOxygen(mix)).map(({ fills, cost }) => [fills, cost]);
    expect(costs(made.value).length).toBeGreaterThan(0);
    expect(costs(made.value)).toEqual(costs(made.value).map(([fills]) => [fills, null]));
    expect(fileWords(loopFillsSaid(made.value))).toMatch(/a booster\. Oxygen has no price here until/);
    const rows = writeFillRows(made.value)
      .split('\r\n')
      .map((row) => row.split(','));
    const told = rows.filter(([, oxygen]) => oxygen === '100').map((row) => row[6]);
    expect(told).toEqual(costs(made.value).map(() => ''));
    const oxygen = { id: 'pure', o2: 1, costPerFill: 12 };
    const priced = fillPlan(ledger({ ...whole.trip, mixes: [...whole.trip.mixes, oxygen] }), request);
    if (!priced.ok) throw new Error('no fills');
    expect(costs(priced.value)).toEqual(costs(made.value).map(([fills]) => [fills, 12 * fills!]));
    expect(fileWords(loopFillsSaid(priced.value))).not.toContain('no price');
    const oxygens = loops.length;
    expect(priced.value.total.cost - made.value.total.cost).toBe(12 * oxygens);
  });

  it('are told as such, and counted in no bottle of the mixes', () => {
    const lines = made.value.lines.map((line) => fileWords(gasOfFillSaid(line)));
    expect(lines).toContain('Oxygen');
    expect(fileWords(loopFillsSaid(made.value))).toMatch(
      /bail-out once\. Into their own cylinders go \d+ L of oxygen/,
    );
    expect(fileWords(loopFillsSaid(without.value))).toBe('');
    const bottle = { waterL: 50, fillBar: 200 };
    const mixed = oxygenBottles(made.value, [], request, bottle).bottles!;
    const perBottleL = oxygenBottles(made.value, [], request, bottle).eachL;
    const mixL = made.value.total.oxygenL - made.value.loopOxygenL;
    expect(mixed).toBe(Math.ceil(mixL / perBottleL));
  });
});
