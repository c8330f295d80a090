import { describe, expect, it } from 'vitest';
import {
  NUMBER_RULES,
  numberTrouble,
  textTrouble,
  wallTimeTrouble,
  type NumberField,
} from '../../../../core/trip/fields';

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
    expect(numberTrouble('depthM', 1000)).toEqual({
      what: 'Depth is 1000 m; it can be 1 to 100 m.',
      mend: 'Give the deepest point of the dive.',
    });
    expect(numberTrouble('depthM', '18')?.mend).toBe('Write the number without quotation marks.');
    expect(numberTrouble('depthM', 'deep')?.mend).toBe('Give the deepest point of the dive.');
    expect(numberTrouble('depthM', undefined)?.what).toBe('Depth is missing.');
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
    expect(wallTimeTrouble('Start', text)).toBeNull();
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
    expect(wallTimeTrouble('Start', value)?.what).toMatch(what);
  });
});

describe('textTrouble', () => {
  it('counts letters and asks for one where it must', () => {
    expect(textTrouble('Name', 'Guest', 80, 1)).toBeNull();
    expect(textTrouble('Notes', '', 80, 0)).toBeNull();
    expect(textTrouble('Name', '', 80, 1)?.what).toBe('Name is empty.');
    expect(textTrouble('Name', 'x'.repeat(81), 80, 1)?.what).toBe('Name has 81 characters; it can have 80.');
    expect(textTrouble('Name', 7, 80, 1)?.what).toBe('Name is 7, not text.');
  });
});
