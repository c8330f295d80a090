/** Wall-clock text against the calendar of the coming standard, which is computed in another way. */
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { wallMin, wallMinIfReal, wallText } from '../../core/words/calendar';

const EPOCH = Temporal.PlainDateTime.from('1970-01-01T00:00');
/** 1900 to 2200. */
const minutes = fc.integer({ min: -70 * 525_960, max: 230 * 525_960 });

describe('wallText', () => {
  it('writes what Temporal writes, and is read back', () => {
    fc.assert(
      fc.property(minutes, (min) => {
        const text = EPOCH.add({ minutes: min }).toString({ smallestUnit: 'minute' });
        expect(wallText(min)).toBe(text);
        expect(wallMin(text)).toBe(min);
      }),
    );
  });

  it('knows every day of four centuries, and no other', () => {
    let day = Temporal.PlainDate.from('1900-01-01');
    let real = day.toString();
    let count = 0;
    for (let year = 1900; year < 2300; year += 1) {
      for (let month = 1; month <= 12; month += 1) {
        for (let date = 1; date <= 31; date += 1) {
          const text = `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
          const isReal = real === text;
          const min = wallMinIfReal(`${text}T23:59`);
          // One comparison a day, not an assertion: there are 148,800.
          if (isReal !== (min !== null)) expect.fail(`${text} is ${isReal ? '' : 'not '}in the calendar`);
          if (min === null) continue;
          if (wallText(min) !== `${text}T23:59`) expect.fail(`${text} is written as ${wallText(min)}`);
          day = day.add({ days: 1 });
          real = day.toString();
          count += 1;
        }
      }
    }
    expect(count).toBe(146_097);
  });

  it('reads nothing that is no minute', () => {
    for (const text of [
      '2027-00-10T10:00',
      '2027-13-10T10:00',
      '2027-01-00T10:00',
      '2027-01-10T24:00',
      '2027-01-10T10:60',
      '2027-1-10T10:00',
      '2027-01-10T10:00:00',
      '2027-01-10',
      '',
    ]) {
      expect(wallMinIfReal(text)).toBeNull();
      expect(() => wallMin(text)).toThrow(RangeError);
    }
  });

  it('rounds up to the whole minute, over midnight too', () => {
    fc.assert(
      fc.property(minutes, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (min, part) => {
        expect(wallText(min - part)).toBe(wallText(min));
      }),
    );
  });
});
