import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../../../core/document/check-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { CLASS_DEPTHS_M, classMixes, classTrip } from '../../../../core/mixes/class-dive';

describe('the class', () => {
  it('is a trip that the window would take, at every depth it can look at', () => {
    for (const depthM of [...CLASS_DEPTHS_M, 26, 33.4]) {
      expect(checkTrip(classTrip(depthM, [21, 28, 32, 36]))).toEqual([]);
    }
  });

  it('tells of each mix what the ledger tells of a first dive on it', () => {
    for (const depthM of [12, 26, 36]) {
      const trip = classTrip(depthM, [21, 28, 32, 36]);
      const { divers } = ledger(trip);
      classMixes(trip, depthM, 120, 5).forEach((each, at) => {
        const [entry] = divers[at]!.entries;
        expect(entry!.mix).toBe(each.mix);
        expect(each.po2Bar).toBe(entry!.po2Bar);
        expect(each.modM).toBe(entry!.modM);
        expect(each.eadM).toBe(entry!.eadM);
        expect(each.curve.meetsMin).toBe(entry!.noStopMin ?? Infinity);
        expect(each.isPastMod).toBe(depthM > entry!.modM!);
      });
    }
  });

  it('has the worked figures of 26 m by hand', () => {
    // Gauge water at sea level: 1.01325 + 26 x 0.1 bar (EN 13319), to three digits; oxygen times that by Dalton's law.
    const [air, , , rich] = classMixes(classTrip(26, [21, 28, 32, 36]), 26, 60, 1);
    expect(air!.po2Bar).toBeCloseTo(0.759, 3);
    expect(rich!.po2Bar).toBeCloseTo(1.301, 3);
    expect(air!.eadM).toBeCloseTo(26, 9);
    expect(rich!.isPastMod).toBe(false);
    expect(classMixes(classTrip(29, [36]), 29, 60, 1)[0]!.isPastMod).toBe(true);
  });
});
