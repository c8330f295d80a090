import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../../../core/document/check-trip';
import { ledger } from '../../../../core/ledger/ledger';
import {
  CLASS_DEPTHS_M,
  CLASS_DIVER,
  classAtDepth,
  classColumnSaid,
  classGases,
  classGasSaid,
  classTrip,
  type ClassLoop,
  type ClassLook,
} from '../../../../core/mixes/class-dive';
import { fileWords } from '../../../../core/words/reader';
import { aClassLoop, onLoopByHand } from '../../../support/class-loop';

function aLook(depthM: number, percents: readonly number[], loop: ClassLoop | null = null): ClassLook {
  return { depthM, percents, loop };
}

function at(look: ClassLook, untilMin = 60, stepMin = 1) {
  return classAtDepth(classGases(classTrip(look)), look.depthM, untilMin, stepMin);
}

const FOUR = [21, 28, 32, 36];
const LOOPS: readonly ClassLoop[] = [
  aClassLoop(),
  aClassLoop({ highBar: 1.4, diluentPercent: 28 }),
  // Not reached at first, a diluent that is richer than the setpoint, and one that never switches in class.
  aClassLoop({ switchM: 2, highBar: 1.5 }),
  aClassLoop({ switchM: 20, diluentPercent: 32 }),
  aClassLoop({ switchM: 60 }),
];

describe('the class', () => {
  it('is a trip that the window would take, at every depth it can look at, with a loop and without', () => {
    for (const depthM of [...CLASS_DEPTHS_M, 26, 33.4]) {
      expect(checkTrip(classTrip(aLook(depthM, FOUR)))).toEqual([]);
      for (const loop of LOOPS) expect(checkTrip(classTrip(aLook(depthM, [21, 32], loop)))).toEqual([]);
    }
  });

  it('tells of each mix what the ledger tells of a first dive on it', () => {
    for (const depthM of [12, 26, 36]) {
      const look = aLook(depthM, FOUR);
      const { divers } = ledger(classTrip(look));
      at(look, 120, 5).forEach((each, i) => {
        const [entry] = divers[i]!.entries;
        expect(entry!.mix).toEqual(each.mix);
        expect(each.po2Bar).toBe(entry!.po2Bar);
        expect(each.modM).toBe(entry!.modM);
        expect(each.eadM).toBe(entry!.eadM);
        expect(each.curve.meetsMin).toBe(entry!.noStopMin ?? Infinity);
        expect(each.past).toBe(depthM > entry!.modM! ? 'mod' : null);
      });
    }
  });

  it('tells of a loop what the ledger tells of a first dive on it', () => {
    for (const loop of LOOPS) {
      for (const depthM of [5, 12, 26, 42]) {
        const look = aLook(depthM, [21, 32], loop);
        const [entry] = ledger(classTrip(look)).divers.at(-1)!.entries;
        const told = at(look, 120, 5).at(-1)!;
        expect(told.loop).toEqual(entry!.loop!.breathing);
        expect(told.po2Bar).toBe(entry!.po2Bar);
        expect(told.modM).toBe(entry!.loop!.diluentModM);
        expect(told.curve.meetsMin).toBe(entry!.noStopMin ?? Infinity);
        const met = told.curve.points.find(({ min }) => min === told.curve.meetsMin);
        if (told.curve.meetsMin < 120) expect(met!.share).toBeCloseTo(1, 9);
      }
    }
  });

  it('has the figures of a loop that small steps come to', () => {
    for (const loop of LOOPS.slice(0, 4)) {
      for (const depthM of [24, 33]) {
        const told = at(aLook(depthM, [21], loop)).at(-1)!;
        const hand = onLoopByHand(loop, depthM, 0.05, CLASS_DIVER.gradient.high);
        expect(told.po2Bar).toBeCloseTo(hand.po2Bar, 9);
        expect(told.eadM).toBeCloseTo(hand.eadM, 9);
        // Steps of four thousandths of a minute, across the switch too.
        expect(Math.abs(told.curve.meetsMin - hand.noStopMin), `${depthM} m`).toBeLessThan(0.02);
      }
    }
  });

  it('has the worked figures of 26 m by hand', () => {
    // Gauge water at sea level: 1.01325 + 26 x 0.1 bar (EN 13319), to three digits; oxygen times that by Dalton's law.
    const [air, , rich, loop] = at(aLook(26, [21, 28, 36], aClassLoop()));
    expect(air!.po2Bar).toBeCloseTo(0.759, 3);
    expect(rich!.po2Bar).toBeCloseTo(1.301, 3);
    expect(air!.eadM).toBeCloseTo(26, 9);
    expect(rich!.past).toBeNull();
    expect(at(aLook(29, [36]))[0]!.past).toBe('mod');
    expect(loop!.po2Bar).toBe(1.2);
    // (3.6132 - 0.0627 - 1.15) / 0.79 + 0.0627 bar is 20.88 m.
    expect(loop!.eadM).toBeCloseTo(20.88, 2);
    expect(loop!.o2).toBeCloseTo(1.2 / 3.613, 3);
  });

  it('says what keeps a loop from a depth, and has no equivalent depth above the surface', () => {
    expect(at(aLook(26, [21], aClassLoop({ highBar: 1.5 }))).at(-1)!.past).toBe('po2');
    expect(at(aLook(36, [21], aClassLoop({ diluentPercent: 32 }))).at(-1)!.past).toBe('mod');
    expect(at(aLook(6, [21], aClassLoop())).at(-1)!.eadM).toBeNull();
  });

  it('calls each by its name', () => {
    const gases = classGases(classTrip(aLook(26, [21, 32], aClassLoop({ diluentPercent: 25 }))));
    expect(gases.map((gas) => fileWords(classGasSaid(gas)))).toEqual(['Air', 'EAN32', 'Loop 1.2']);
    expect(fileWords(classColumnSaid(gases[2]!))).toBe('Loop: setpoint 0.7, from 6 m 1.2, diluent EAN25');
  });
});
