import { describe, expect, it } from 'vitest';
import {
  AIR_O2,
  eadM,
  gasDensityGL,
  isAbovePo2,
  modM,
  n2Fraction,
  po2Bar,
  richestO2,
  wholeDown,
  wholePercentDown,
} from '../../../core/gas';
import { ambientBar, waterColumn } from '../../../core/water';

const GAUGE = waterColumn({ density: 'gauge', altitudeM: 0 });
const LAKE = waterColumn({ density: 'fresh', altitudeM: 1800 });

describe('modM', () => {
  it('is where the oxygen pressure is the limit, in any water', () => {
    for (const column of [GAUGE, LAKE]) {
      expect(po2Bar(0.32, ambientBar(modM(0.32, 1.4, column), column))).toBeCloseTo(1.4, 12);
    }
  });

  it('lies deeper at altitude, and above the surface where the mix is too rich for it', () => {
    expect(modM(0.32, 1.4, LAKE)).toBeGreaterThan(modM(0.32, 1.4, GAUGE));
    expect(modM(1, 0.9, GAUGE)).toBeLessThan(0);
  });
});

describe('eadM', () => {
  it('of air is the depth itself', () => {
    expect(eadM(AIR_O2, 23, GAUGE)).toBeCloseTo(23, 12);
    expect(eadM(AIR_O2, 23, LAKE)).toBeCloseTo(23, 12);
  });

  it('is where air has the same nitrogen pressure, at altitude too', () => {
    const deepBar = ambientBar(25, LAKE) * n2Fraction(0.36);
    expect(ambientBar(eadM(0.36, 25, LAKE), LAKE) * n2Fraction(AIR_O2)).toBeCloseTo(deepBar, 12);
  });

  it('is negative for a rich mix at the surface', () => {
    expect(eadM(0.4, 0, GAUGE)).toBeLessThan(0);
  });
});

describe('richestO2', () => {
  it('is the inverse of the maximum operating depth', () => {
    expect(richestO2(1.4, modM(0.28, 1.4, LAKE), LAKE)).toBeCloseTo(0.28, 12);
  });
});

describe('rounding down', () => {
  it('leaves whole what is whole but for float dust', () => {
    expect(wholeDown(0.1 + 0.2 + 2.7)).toBe(3);
    expect(wholeDown(2.9999999999)).toBe(3);
    expect(wholeDown(2.99999)).toBe(2);
    expect(wholeDown(-0.5)).toBe(-1);
  });

  it('of a mix gives whole hundredths, never more than the mix holds', () => {
    expect(wholePercentDown(0.29)).toBe(0.29);
    expect(wholePercentDown(0.3473)).toBe(0.34);
    expect(wholePercentDown(0.5799999999999)).toBe(0.58);
    expect(wholePercentDown(0.5799)).toBe(0.57);
  });
});

describe('isAbovePo2', () => {
  it('is not for the limit itself, however its product rounds', () => {
    expect(isAbovePo2(0.4 * 4.000000000000001, 1.6)).toBe(false);
    expect(isAbovePo2(1.6, 1.6)).toBe(false);
    expect(isAbovePo2(1.60001, 1.6)).toBe(true);
    expect(isAbovePo2(1.39, 1.4)).toBe(false);
  });
});

describe('gasDensityGL', () => {
  it('grows with pressure in proportion, and with oxygen', () => {
    expect(gasDensityGL(0.32, 4)).toBeCloseTo(4 * gasDensityGL(0.32, 1), 12);
    expect(gasDensityGL(0.4, 4)).toBeGreaterThan(gasDensityGL(0.21, 4));
  });

  it('of air at 1 bar and 0 degrees is 1.27 g/L', () => {
    expect(gasDensityGL(AIR_O2, 1)).toBeCloseTo(1.27, 2);
  });
});
