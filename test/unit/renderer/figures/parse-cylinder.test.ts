import { describe, expect, it } from 'vitest';
import { parseCylinder, USUAL_CYLINDERS } from '../../../../renderer/figures/parse-cylinder';

/** Litres in a cubic foot and bar in a pound on a square inch, NIST SP 811: written out, not taken from the code. */
const L_PER_CU_FT = 28.316846592;
const BAR_PER_PSI = 0.0689475729;

function cylinder(text: string, units: 'metric' | 'imperial' = 'metric', fillBar = 200) {
  const parsed = parseCylinder(text, units, fillBar);
  return parsed.ok ? parsed.value : parsed.what;
}

describe('parseCylinder', () => {
  it.each([
    ['12', 12, null],
    ['12 L', 12, null],
    ['12l', 12, null],
    ['11.1', 11.1, null],
    ['11,1 litres', 11.1, null],
    ['2x12', 24, null],
    ['2 × 12 L', 24, null],
    ['twin 7', 14, null],
    ['D12', 24, null],
    ['12 L at 232 bar', 12, 232],
    ['12/232', 12, 232],
    ['15 @ 200', 15, 200],
    ['2x7 L at 300 bar', 14, 300],
  ])('reads %j in metres', (text, waterL, fillBar) => {
    expect(cylinder(text)).toEqual({ waterL, fillBar });
  });

  it.each([
    ['80 cuft at 3000 psi', 80, 3000],
    ['80 cu ft at 3000 psi', 80, 3000],
    ['80 cu. ft. @ 3000 psi', 80, 3000],
    ['2x80 cf at 3000 psi', 160, 3000],
    ['AL80', 77.4, 3000],
    ['alu 80', 77.4, 3000],
    ['S80', 77.4, 3000],
    ['2xAL80', 154.8, 3000],
    ['HP100', 100, 3442],
    ['LP95', 95, 2640],
  ])('reads %j as the gas it holds at its rated pressure', (text, cuFt, psi) => {
    for (const units of ['metric', 'imperial'] as const) {
      const made = cylinder(text, units);
      if (typeof made === 'string') throw new Error(made);
      expect(made.fillBar! / BAR_PER_PSI).toBeCloseTo(psi, 3);
      expect((made.waterL * psi * BAR_PER_PSI) / L_PER_CU_FT).toBeCloseTo(cuFt, 4);
    }
  });

  it('takes a bare number for cubic feet at the fill there is, where feet are counted', () => {
    const made = cylinder('80', 'imperial', 3000 * BAR_PER_PSI);
    if (typeof made === 'string') throw new Error(made);
    expect(made.waterL).toBeCloseTo((80 * L_PER_CU_FT) / (3000 * BAR_PER_PSI), 6);
    expect(made.fillBar).toBeNull();
    expect(cylinder('12 L', 'imperial')).toEqual({ waterL: 12, fillBar: null });
  });

  it('fills a named cylinder to what is said', () => {
    const made = cylinder('AL80 at 200 bar');
    if (typeof made === 'string') throw new Error(made);
    expect(made.fillBar).toBe(200);
    expect(made.waterL).toBeCloseTo((77.4 * L_PER_CU_FT) / (3000 * BAR_PER_PSI), 6);
  });

  it.each(['', 'big', 'AL', 'AL81', '12 at', '12 at full', '12/200/50', 'x12', 'constructor', '1,200'])(
    'refuses %j, and says how it can be typed',
    (text) => {
      const parsed = parseCylinder(text, 'metric', 200);
      expect(parsed.ok).toBe(false);
      if (!parsed.ok) expect(parsed.mend).not.toBe('');
    },
  );

  it('reads every cylinder it offers', () => {
    for (const units of ['metric', 'imperial'] as const) {
      for (const text of USUAL_CYLINDERS[units]) expect(typeof cylinder(text, units)).toBe('object');
    }
  });
});
