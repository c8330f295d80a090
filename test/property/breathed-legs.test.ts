import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LoopBreathing, MixesBreathing } from '../../core/breathing';
import { stagedAscent } from '../../core/ascent/staged-ascent';
import { newDivePlan } from '../../core/ledger/dive-plan';
import { ascentLegs, runtimeMin, surroundingsOf, type Leg } from '../../core/profile';
import { applyMap } from '../../core/tissues/affine-map';
import {
  breathedMap,
  cutAtDepths,
  nitrogenInspiredBar,
  loopPo2Bar,
  nitrogenLegs,
  oxygenLegs,
  PURE_NITROGEN,
} from '../../core/tissues/breathed-legs';
import { inspiredBar, restTensions } from '../../core/tissues/compartments';
import { legsMap } from '../../core/tissues/leg-map';
import { ambientBar, waterColumn } from '../../core/water';
import { trips } from '../support/trip-arbitrary';

const aProfile = trips({ dives: { min: 1, max: 1 }, party: { min: 1, max: 1 } }).map((trip) => ({
  around: surroundingsOf(trip),
  legs: newDivePlan(trip.dives[0]!, surroundingsOf(trip)).legs,
}));
const setpoints = fc.record({
  low: fc.double({ min: 0.4, max: 0.8, noNaN: true }),
  high: fc.double({ min: 0.9, max: 1.5, noNaN: true }),
  switchM: fc.double({ min: 0, max: 25, noNaN: true }),
});

function loop(lowBar: number, highBar: number, switchM: number, toleranceBar = 0): LoopBreathing {
  return { is: 'loop', lowBar, highBar, switchM, diluentO2: 0.21, toleranceBar };
}

describe('a breathing loop', () => {
  it('at a level, with the setpoint that open circuit has there, is open circuit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 60, noNaN: true }),
        fc.double({ min: 0.5, max: 90, noNaN: true }),
        fc.double({ min: 0.22, max: 0.6, noNaN: true }),
        (depthM, min, o2) => {
          const column = waterColumn({ density: 'gauge', altitudeM: 0 });
          const bar = ambientBar(depthM, column);
          const legs: Leg[] = [{ kind: 'level', fromM: depthM, toM: depthM, fromBar: bar, toBar: bar, min }];
          const before = restTensions(column.surfaceBar);
          const held = o2 * inspiredBar(bar);
          const closed = applyMap(breathedMap(legs, loop(held, held, 0)), before, PURE_NITROGEN);
          const open = applyMap(legsMap(legs), before, 1 - o2);
          // A few ulp of the pressures.
          closed.forEach((tension, i) => expect(Math.abs(tension - open[i]!)).toBeLessThan(1e-14));
        },
      ),
    );
  });

  it('held higher never leaves more nitrogen, and its tolerance never less', () => {
    fc.assert(
      fc.property(aProfile, setpoints, ({ legs, around }, { low, high, switchM }) => {
        const before = restTensions(around.column.surfaceBar);
        const after = (held: LoopBreathing) => applyMap(breathedMap(legs, held), before, PURE_NITROGEN);
        const planned = after(loop(low, high, switchM));
        const richer = after(loop(low + 0.05, high + 0.01, switchM));
        const careful = after(loop(low, high, switchM, 0.05));
        planned.forEach((tension, i) => {
          expect(richer[i]!).toBeLessThanOrEqual(tension + 1e-13);
          expect(careful[i]!).toBeGreaterThanOrEqual(tension - 1e-13);
        });
      }),
    );
  });

  it('never inspires less than nothing, nor more than there is, and its pieces last as long as its legs', () => {
    fc.assert(
      fc.property(aProfile, setpoints, ({ legs }, { low, high, switchM }) => {
        const held = loop(low, high, switchM, 0.05);
        const [nitrogen, oxygen] = [nitrogenLegs(legs, held), oxygenLegs(legs, held)];
        expect(runtimeMin(nitrogen)).toBeCloseTo(runtimeMin(legs), 9);
        expect(runtimeMin(oxygen)).toBeCloseTo(runtimeMin(legs), 9);
        for (const { fromBar, toBar } of nitrogen) {
          expect(inspiredBar(Math.min(fromBar, toBar))).toBeGreaterThan(-1e-12);
        }
      }),
    );
  });

  it('is cut into pieces that begin where the leg begins and end where it ends, to the last bit', () => {
    fc.assert(
      fc.property(aProfile, setpoints, ({ legs }, { switchM }) => {
        for (const leg of legs) {
          const pieces = cutAtDepths(leg, [switchM, switchM / 2]);
          const [first, last] = [pieces[0]!, pieces.at(-1)!];
          expect([first.fromM, first.fromBar]).toStrictEqual([leg.fromM, leg.fromBar]);
          expect([last.toM, last.toBar]).toStrictEqual([leg.toM, leg.toBar]);
        }
      }),
    );
  });

  it('on a rich diluent, deep, breathes the diluent', () => {
    const column = waterColumn({ density: 'gauge', altitudeM: 0 });
    const held = { ...loop(0.7, 1, 6), diluentO2: 0.4 };
    const bar = ambientBar(40, column);
    expect(loopPo2Bar(40, bar, held)).toBeCloseTo(0.4 * inspiredBar(bar), 12);
    expect(nitrogenInspiredBar(40, bar, PURE_NITROGEN, held)).toBeCloseTo(0.6 * inspiredBar(bar), 12);
    expect(loopPo2Bar(10, ambientBar(10, column), held)).toBe(1);
    expect(loopPo2Bar(2, ambientBar(2, column), held)).toBe(0.7);
  });

  it('cannot hold its setpoint near the surface: it breathes pure oxygen there', () => {
    const column = waterColumn({ density: 'gauge', altitudeM: 0 });
    const bar = ambientBar(1, column);
    expect(loopPo2Bar(1, bar, loop(0.7, 1.3, 0))).toBeCloseTo(inspiredBar(bar), 12);
    expect(nitrogenInspiredBar(1, bar, PURE_NITROGEN, loop(0.7, 1.3, 0))).toBeCloseTo(0, 12);
  });
});

describe('mixes that change with depth', () => {
  const column = waterColumn({ density: 'gauge', altitudeM: 0 });
  const seaLevel = { column, descentMPerMin: 18, ascentMPerMin: 9 };

  it('with one mix alone are open circuit on it, stops included', () => {
    fc.assert(
      fc.property(aProfile, fc.double({ min: 0.21, max: 0.5, noNaN: true }), ({ legs, around }, o2) => {
        const mixes: MixesBreathing = { is: 'mixes', mixes: [{ o2, downToM: 10 }] };
        const before = Array.from(restTensions(around.column.surfaceBar), (tension) => 2.5 * tension);
        const open = applyMap(legsMap(legs), before, 1 - o2);
        const asMixes = applyMap(breathedMap(legs, mixes), before, PURE_NITROGEN);
        asMixes.forEach((tension, i) => expect(tension).toBeCloseTo(open[i]!, 12));
        const gradient = { low: 0.4, high: 0.8 };
        expect(
          stagedAscent(before, 30, PURE_NITROGEN, gradient, { ...around, breathing: mixes }),
        ).toStrictEqual(stagedAscent(before, 30, 1 - o2, gradient, around));
      }),
    );
  });

  it('are changed where each may first be breathed', () => {
    const mixes: MixesBreathing = {
      is: 'mixes',
      mixes: [
        { o2: 0.5, downToM: 18 },
        { o2: 0.21, downToM: 56 },
      ],
    };
    const pieces = nitrogenLegs(ascentLegs(40, [], seaLevel), mixes);
    expect(pieces.map(({ fromM, toM }) => [fromM, toM])).toStrictEqual([
      [40, 18],
      [18, 0],
    ]);
    expect(inspiredBar(pieces[0]!.toBar)).toBeCloseTo(0.79 * inspiredBar(ambientBar(18, column)), 12);
    expect(inspiredBar(pieces[1]!.fromBar)).toBeCloseTo(0.5 * inspiredBar(ambientBar(18, column)), 12);
  });

  it('are changed once for each that follows, and the deepest is breathed deeper than it may be', () => {
    const mixes: MixesBreathing = {
      is: 'mixes',
      mixes: [
        { o2: 1, downToM: 6 },
        { o2: 0.5, downToM: 18 },
        { o2: 0.21, downToM: 30 },
      ],
    };
    const pieces = nitrogenLegs(ascentLegs(40, [], seaLevel), mixes);
    expect(pieces.map(({ fromM, toM }) => [fromM, toM])).toStrictEqual([
      [40, 18],
      [18, 6],
      [6, 0],
    ]);
    expect(inspiredBar(pieces[0]!.fromBar)).toBeCloseTo(0.79 * inspiredBar(ambientBar(40, column)), 12);
    expect(inspiredBar(pieces[2]!.fromBar)).toBeCloseTo(0, 12);
  });
});
