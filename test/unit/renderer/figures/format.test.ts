import { describe, expect, it } from 'vitest';
import {
  clockText,
  dateText,
  depthText,
  hoursText,
  minutesText,
  mixText,
  numberText,
  shareText,
  shortText,
  percentText,
  spanText,
  unitText,
} from '../../../../renderer/figures/format';

describe('depthText', () => {
  it('has a tenth of a metre where there is one, and whole feet, to the side that is asked for', () => {
    const sides = ['near', 'down', 'up'] as const;
    const texts = (m: number, units: 'metric' | 'imperial') => sides.map((side) => depthText(m, units, side));
    expect(texts(39.95, 'metric')).toEqual(['40 m', '39.9 m', '40 m']);
    expect(texts(39.91, 'metric')).toEqual(['39.9 m', '39.9 m', '40 m']);
    expect(texts(18, 'imperial')).toEqual(['59 ft', '59 ft', '60 ft']);
    for (const feet of [15, 60, 99, 130]) {
      expect(texts(feet * 0.3048, 'imperial')).toEqual(sides.map(() => `${feet} ft`));
    }
  });
});

describe('shortText', () => {
  it('has as many decimals as the number, at most so many', () => {
    expect([
      shortText(22, 1),
      shortText(22.5, 1),
      shortText(100, 2),
      shortText(100.5, 2),
      shortText(0.254, 2),
    ]).toEqual(['22', '22.5', '100', '100.5', '0.25']);
    expect([shortText(1200, 0), shortText(0.29 * 100, 2), shortText(3.01, 1, 'up')]).toEqual([
      '1200',
      '29',
      '3.1',
    ]);
    expect(shareText(0.315)).toBe('31.5 %');
  });
});

describe('numberText', () => {
  it('takes the decimal sign of the reader', () => {
    expect(numberText(22.5, 1, 'near', 'en')).toBe('22.5');
    expect(numberText(22.5, 1, 'near', 'de')).toBe('22,5');
  });
});

describe('unitText', () => {
  it('rounds once, in the unit that is shown', () => {
    expect(unitText(25.39, 'depth', 'metric', 'down', 1)).toBe('25.3 m');
    // 25.39 m are 83.30 ft.
    expect(unitText(25.39, 'depth', 'imperial', 'down', 1)).toBe('83 ft');
    expect(unitText(200, 'pressure', 'imperial', 'down')).toBe('2900 psi');
    // 103 bar are 1493.9 psi; a gauge is not read finer than in tens.
    expect(['down', 'up', 'near'].map((side) => unitText(103, 'pressure', 'imperial', side as 'up'))).toEqual(
      ['1490 psi', '1500 psi', '1494 psi'],
    );
    expect(unitText(null, 'pressure', 'metric', 'down')).toBe('–');
  });
});

describe('the rest', () => {
  it('reads as people write it', () => {
    expect(depthText(22, 'metric')).toBe('22 m');
    expect(depthText(22.5, 'metric')).toBe('22.5 m');
    expect(depthText(30.48, 'imperial')).toBe('100 ft');
    expect(minutesText(4.9, 'down')).toBe('4 min');
    expect(hoursText(125)).toBe('2:05');
    expect(spanText(99.9, 'down')).toBe('1 h 39 min');
    expect(spanText(678.4, 'down')).toBe('11 h 18 min');
    expect(hoursText(-61)).toBe('−1:01');
    expect(percentText(0.29, 'up')).toBe('29 %');
    expect(percentText(0.2901, 'up')).toBe('30 %');
    expect(mixText(0.21)).toBe('Air');
    expect(mixText(0.32)).toBe('EAN32');
    expect(mixText(0.315)).toBe('EAN31.5');
    expect(clockText('2027-03-06T13:10', '24h')).toBe('13:10');
    expect(clockText('2027-03-06T13:10', '12h')).toBe('1:10 pm');
    expect(clockText('2027-03-06T00:05', '12h')).toBe('12:05 am');
    // 6 March 2027 is a Saturday.
    expect(dateText('2027-03-06', true)).toBe('Sat 6 March');
  });
});
