import { describe, expect, it } from 'vitest';
import { eadM, modM, n2Fraction, po2Bar, richestO2, wholeDown, wholePercentDown } from '../../../core/gas';
import { cnsAfterInterval, cnsFraction } from '../../../core/oxygen/cns';
import { esot, kIndex } from '../../../core/oxygen/esot';
import { otu } from '../../../core/oxygen/otu';
import { gasUsedL, pressureBar } from '../../../core/supply';
import { altitudeBar, ambientBar, waterColumn, type WaterColumn } from '../../../core/water';

// The functions are linear in the units of depth and pressure, so examples in other units are asked in those
// units: the column says how many units of pressure one unit of depth adds.
/** Metres and bar as the examples have them: 1 bar at the surface, 10 m to the bar. */
const METRES: WaterColumn = { surfaceBar: 1, barPerM: 0.1 };
/** Feet of sea water and atmospheres: 33 fsw to the atmosphere. */
const FEET: WaterColumn = { surfaceBar: 1, barPerM: 1 / 33 };

function level(pressure: number, min: number) {
  return { fromBar: pressure, toBar: pressure, min };
}

function slope(from: number, to: number, min: number) {
  return { fromBar: from, toBar: to, min };
}

describe('equivalent air depth', () => {
  // EAD-1, EAD-2: encyclopedia article "Equivalent air depth", read; 27 m prints as 20 m, 90 fsw as 67 fsw.
  it('36 % at 27 m is 20 m of air, at 90 fsw it is 67 fsw', () => {
    expect(eadM(0.36, 27, METRES)).toBeCloseTo(19.9747, 4);
    expect(eadM(0.36, 90, FEET)).toBeCloseTo(66.6456, 4);
  });

  // EAD-3: a diving club's formula page, read; prints 81 fsw.
  it('32 % at 100 fsw is 81 fsw', () => {
    expect(eadM(0.32, 100, FEET)).toBeCloseTo(81.481, 4);
  });

  // EAD-4: U.S. Navy Diving Manual ch. 10, par. 10-2, read: 2.0 ata of nitrogen; "50 fsw" from memory.
  it('68/32 at 63 fsw has 2.0 ata of nitrogen, as air has at 50 fsw', () => {
    expect(n2Fraction(0.32) * ambientBar(63, FEET)).toBeCloseTo(2.0, 1);
    expect(eadM(0.32, 63, FEET)).toBeCloseTo(49.6329, 4);
  });

  // U.S. Navy Diving Manual ch. 10, formula example, from memory: 0.60 * 103 / 0.79 - 33 = 45.2.
  it('40 % at 70 fsw is 45.2 fsw', () => {
    expect(eadM(0.4, 70, FEET)).toBeCloseTo(45.2, 1);
  });
});

describe('maximum operating depth', () => {
  // MOD-1: encyclopedia article "Maximum operating depth", read: 28.9 m; the page's 95.4 fsw is a rounding slip.
  it('36 % at 1.4 is 28.9 m and 95.3 fsw', () => {
    expect(modM(0.36, 1.4, METRES)).toBeCloseTo(28.8889, 4);
    expect(modM(0.36, 1.4, FEET)).toBeCloseTo(95.3333, 4);
  });

  // MOD-2: a diving club's formula page, read: 111 fsw.
  it('32 % at 1.4 is 111 fsw and 33.75 m', () => {
    expect(modM(0.32, 1.4, FEET)).toBeCloseTo(111.375, 9);
    expect(wholeDown(modM(0.32, 1.4, FEET))).toBe(111);
    expect(modM(0.32, 1.4, METRES)).toBeCloseTo(33.75, 9);
  });

  // MOD-3: contingency depth (1.6 / r - 1) * 33, formula read, number computed.
  it('32 % at 1.6 is 132 fsw, and float dust does not make it 131', () => {
    expect(modM(0.32, 1.6, FEET)).toBeCloseTo(132, 9);
    expect(wholeDown(modM(0.32, 1.6, FEET))).toBe(132);
  });
});

// MIX-1: inverse of the maximum operating depth, computed; rounding down to the whole percent is common practice.
describe('richest mix', () => {
  it('at 1.4 is 35 % for 30 m and 34 % for 100 fsw', () => {
    expect(richestO2(1.4, 30, METRES)).toBeCloseTo(0.35, 9);
    expect(wholePercentDown(richestO2(1.4, 30, METRES))).toBe(0.35);
    // Printed cut off, not rounded: 0.34736...
    expect(Math.floor(richestO2(1.4, 100, FEET) * 1e4) / 1e4).toBe(0.3473);
    expect(wholePercentDown(richestO2(1.4, 100, FEET))).toBe(0.34);
  });
});

// ATA-1: Government of Canada term bank, "feet sea water", read: ATA = fsw / 33 + 1.
describe('absolute pressure', () => {
  it('at 46 fsw is 2.3939 ata', () => {
    expect(ambientBar(46, FEET)).toBeCloseTo(2.3939, 4);
  });
});

describe('gas use', () => {
  // U.S. Navy Diving Manual, Revision 4 Change A, pp. 8-2 and 8-3, emergency gas, read. Cubic feet at 1 ata stand
  // for litres, pounds a square inch over 14.7 for atmospheres. "3 min" is inferred from the printed 28.38.
  const ACFM = 1.4;

  it('3 minutes at 190 fsw take 28.38 scf', () => {
    expect(gasUsedL([level(ambientBar(190, FEET), 3)], ACFM)).toBeCloseTo(28.38, 2);
  });

  it('the ascent takes 38.01 scf in 7 minutes at mean depth', () => {
    expect(gasUsedL([slope(ambientBar(190, FEET), 1, 7)], ACFM)).toBeCloseTo(38.01, 2);
  });

  it('66.39 scf in a cylinder of 0.399 cubic feet are 2580.95 psi with the 135 psi left', () => {
    const gaugePsi = pressureBar(0.399, 66.39, 0.21, 'ideal')! * 14.7;
    // Printed from 14.7 * 66.39 / 0.399 + 135, each figure rounded there: half a unit of the second decimal of scf.
    expect(Math.abs(gaugePsi + 135 - 2580.95)).toBeLessThan((0.005 / 0.399) * 14.7);
  });

  // Same manual, p. 7-15, from memory: 26 min at 70 fsw from twin cylinders of 0.420 cubic feet, 2250 to 250 psi.
  it('twin cylinders last 26 minutes at 70 fsw', () => {
    const litres = ((2250 - 250) / 14.7) * 0.42 * 2;
    expect(litres).toBeCloseTo(114, 0);
    const aMinute = gasUsedL([level(ambientBar(70, FEET), 1)], ACFM);
    expect(aMinute).toBeCloseTo(4.37, 2);
    expect(wholeDown(litres / aMinute)).toBe(26);
  });

  // A magazine article on simple gas planning, read: 20 bar from 10 L in 2.5 min at 30 m.
  it('20 bar from a 10 L cylinder in 2.5 min at 30 m is 20 L a minute', () => {
    expect((20 * 10) / gasUsedL([level(ambientBar(30, METRES), 2.5)], 1)).toBeCloseTo(20, 10);
  });

  // Same article; formula read, product computed.
  it('20 L a minute for 30 min at 18 m are 1680 L', () => {
    expect(gasUsedL([level(ambientBar(18, METRES), 30)], 20)).toBeCloseTo(1680, 9);
  });
});

describe('oxygen units', () => {
  // OTU-1: definition of the unit, read in a textbook appendix.
  it('an hour of oxygen at 1 bar is 60', () => {
    expect(otu([level(1, 60)], 1)).toBeCloseTo(60, 12);
  });

  // OTU-2 to OTU-4: computed from the published formula, the sloping ones equal to a quadrature.
  it('60 min at 1.4 are 97.9216; 45 min at 1.6 are 86.8090', () => {
    expect(otu([level(1.4, 60)], 1)).toBeCloseTo(97.9216, 4);
    expect(otu([level(1.6, 45)], 1)).toBeCloseTo(86.809, 4);
  });

  it('2 min from 0.7 to 1.4 are 2.143830; 1.6 min from 0.32 to 1.28 are 1.027162', () => {
    expect(otu([slope(0.7, 1.4, 2)], 1)).toBeCloseTo(2.14383, 6);
    expect(otu([slope(0.32, 1.28, 1.6)], 1)).toBeCloseTo(1.027162, 6);
  });

  // K-1, ESOT-1: Risberg and van Ooij 2022, formula read, numbers computed.
  it('an hour at 1.4 is K 4.6538 and 129.44 minutes', () => {
    expect(esot([level(1.4, 60)], 1)).toBeCloseTo(129.44, 2);
    expect(kIndex(esot([level(1.4, 60)], 1))).toBeCloseTo(4.6538, 4);
  });
});

describe('CNS clock', () => {
  // CNS-1: quotients of the NOAA limits.
  it('30 min at 1.4 are 20 %, 9 min at 1.6 are 20 %, 45 min at 1.3 are 25 %', () => {
    expect(cnsFraction([level(1.4, 30)], 1, 'single')).toBeCloseTo(0.2, 12);
    expect(cnsFraction([level(1.6, 9)], 1, 'single')).toBeCloseTo(0.2, 12);
    expect(cnsFraction([level(1.3, 45)], 1, 'single')).toBeCloseTo(0.25, 12);
  });

  // CNS-2: Baker's logarithmic form, computed and equal to a quadrature.
  it('1.5 min from 1.1 to 1.4 are 0.783339 %', () => {
    expect(cnsFraction([slope(1.1, 1.4, 1.5)], 1, 'single')! * 100).toBeCloseTo(0.783339, 6);
  });

  // CNS-3: half-time of 90 min, a convention of the trade.
  it('80 % are 40, 20 and 7.937 % after 90, 180 and 300 min at the surface', () => {
    expect(cnsAfterInterval(0.8, 90)).toBeCloseTo(0.4, 14);
    expect(cnsAfterInterval(0.8, 180)).toBeCloseTo(0.2, 14);
    expect(cnsAfterInterval(0.8, 300)).toBeCloseTo(0.07937, 5);
  });

  // A published abstract gives recovery as 50 % in 1.5 h, 90 % in 5 h and "full" in 9 h with that half-time.
  it('recovers by half in 1.5 h, nine tenths in 5 h, all but 2 % in 9 h', () => {
    expect(cnsAfterInterval(1, 90)).toBeCloseTo(0.5, 12);
    expect(cnsAfterInterval(1, 300)).toBeCloseTo(0.1, 2);
    expect(cnsAfterInterval(1, 540)).toBeLessThan(0.02);
  });
});

// ISA-1: ISO 2533:1975, printed value at the tropopause.
describe('standard atmosphere', () => {
  it('at 11 000 m is 226.32 hPa', () => {
    expect(altitudeBar(11_000) * 1000).toBeCloseTo(226.32, 2);
  });
});

describe('rules of thumb', () => {
  // Common practice: one atmosphere more for every 10 m or 33 ft; five at 40 m.
  const ATMOSPHERE_BAR = 1.01325;
  const FOOT_M = 0.3048;
  /** The rule leaves out 1.3 % (bar against atmosphere) and the density of the water (2 % fresh to gauge). */
  const RULE_OF_THUMB = 0.02;

  it.each(['gauge', 'salt'] as const)('each 10 m or 33 ft of %s water add an atmosphere', (density) => {
    const column = waterOf(density);
    for (let atmospheres = 1; atmospheres <= 5; atmospheres += 1) {
      const byMetres = ambientBar(10 * (atmospheres - 1), column) / ATMOSPHERE_BAR;
      const byFeet = ambientBar(33 * FOOT_M * (atmospheres - 1), column) / ATMOSPHERE_BAR;
      expect(Math.abs(byMetres / atmospheres - 1)).toBeLessThan(RULE_OF_THUMB);
      expect(Math.abs(byFeet / atmospheres - 1)).toBeLessThan(RULE_OF_THUMB);
    }
  });

  it('at 40 m it is five', () => {
    expect(ambientBar(40, waterOf('gauge'))).toBeCloseTo(5, 1);
    expect(po2Bar(0.21, ambientBar(40, waterOf('gauge')))).toBeCloseTo(1.05, 1);
  });
});

function waterOf(density: 'gauge' | 'salt' | 'fresh'): WaterColumn {
  return waterColumn({ density, altitudeM: 0 });
}
