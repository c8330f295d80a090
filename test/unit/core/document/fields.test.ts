import { describe, expect, it } from 'vitest';
import { NUMBER_RULES, numberTrouble, type NumberField } from '../../../../core/document/fields';
import { wallTimeTrouble } from '../../../../core/document/wall-fields';
import { fileWords, worded } from '../../../../core/words/reader';
import { said, type SaidTrouble } from '../../../../core/words/said';

/** As who edits a file reads it. */
function told(trouble: SaidTrouble | null): { readonly what?: string; readonly mend?: string } {
  return trouble === null ? {} : worded(trouble, fileWords);
}

describe('numberTrouble', () => {
  it.each(Object.keys(NUMBER_RULES) as NumberField[])(
    'takes %s from its least to its most, and nothing beyond',
    (field) => {
      const { min, max } = NUMBER_RULES[field];
      expect(numberTrouble(field, min)).toBeNull();
      expect(numberTrouble(field, max)).toBeNull();
      expect(numberTrouble(field, min - 1e-9)).not.toBeNull();
      expect(numberTrouble(field, max + max * 1e-9)).not.toBeNull();
      for (const value of [Number.NaN, Infinity, -Infinity, null, undefined, '20', true, [], {}]) {
        expect(numberTrouble(field, value)).not.toBeNull();
      }
    },
  );

  it('says what is wrong and how to mend it', () => {
    expect(told(numberTrouble('depthM', 1000))).toEqual({
      what: 'Depth is 1000 m; it can be 1 to 100 m.',
      mend: 'Give the deepest point of the dive.',
    });
    expect(told(numberTrouble('depthM', '18')).mend).toBe('Write the number without quotation marks.');
    expect(told(numberTrouble('depthM', 'deep')).mend).toBe('Give the deepest point of the dive.');
    expect(told(numberTrouble('depthM', undefined)).what).toBe('Depth is missing.');
  });
});

describe('a rule told to who edits a file', () => {
  it.each<[NumberField, number, string, string]>([
    ['o2', 32, 'Oxygen is 32; it can be 0.2 to 1.', 'Write it as a fraction: 0.32 for 32 %, 0.21 for air.'],
    [
      'stopDepthM',
      40,
      'Depth of the safety stop is 40 m; it can be 1 to 30 m.',
      'Give the depth of the stop, 5 m is usual; or null for none.',
    ],
    [
      'surfaceRateLpm',
      0.5,
      'Surface gas rate (RMV) is 0.5 L/min; it can be 3 to 100 L/min.',
      'Give what the diver breathes at the surface; 15 to 20 L/min is usual.',
    ],
    [
      'densityKgM3',
      1,
      'Water density is 1 kg/m³; it can be 980 to 1250 kg/m³.',
      'Write "gauge", "salt", "fresh" or a density such as 1025.',
    ],
    [
      'waterL',
      80,
      'Cylinder size is 80 L; it can be 1 to 60 L.',
      'Give the water volume of the cylinder; 12 L is usual.',
    ],
  ])('%s of %s: in SI units, with what the file expects', (field, value, what, mend) => {
    expect(told(numberTrouble(field, value))).toEqual({ what, mend });
  });
});

describe('wallTimeTrouble', () => {
  it.each([
    '2027-03-06T07:30',
    '2028-02-29T00:00',
    '2027-12-31T23:59',
    '1970-01-01T00:00',
    '2199-12-31T00:00',
  ])('takes %s', (text) => {
    expect(wallTimeTrouble(said`Start`, text)).toBeNull();
  });

  it.each([
    ['2027-02-29T07:30', /does not exist/],
    ['2027-04-31T07:30', /does not exist/],
    ['2027-13-01T07:30', /does not exist/],
    ['2027-00-10T07:30', /does not exist/],
    ['2027-01-00T07:30', /does not exist/],
    ['2027-01-10T24:00', /does not exist/],
    ['2027-01-10T07:60', /does not exist/],
    ['1969-12-31T23:59', /year 1969/],
    ['2200-01-01T00:00', /year 2200/],
    ['2027-03-06 07:30', /not a date and time/],
    ['2027-03-06T07:30:00', /not a date and time/],
    ['2027-3-6T7:30', /not a date and time/],
    ['', /not a date and time/],
    [20270306, /not a date and time/],
    [undefined, /missing/],
  ])('refuses %s', (value, what) => {
    expect(told(wallTimeTrouble(said`Start`, value)).what).toMatch(what);
  });
});
