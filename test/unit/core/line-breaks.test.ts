import { describe, expect, it } from 'vitest';
import { keptTogether } from '../../../core/line-breaks';

const lines = (sentence: string): readonly string[] => keptTogether(sentence).split(' ');

describe('keptTogether', () => {
  it('keeps a figure with its unit, in either system', () => {
    expect(lines('CNS 28 % at 30.5 m')).toEqual(['CNS', '28\u00a0%', 'at', '30.5\u00a0m']);
    expect(lines('100 ft, 3000 psi,')).toEqual(['100\u00a0ft,', '3000\u00a0psi,']);
    expect(lines('6.2 g/L and 77.4 cu ft')).toEqual(['6.2\u00a0g/L', 'and', '77.4\u00a0cu\u00a0ft']);
  });

  it('keeps a length of time whole', () => {
    expect(lines('after 2 h 05 min')).toEqual(['after', '2\u00a0h\u00a005\u00a0min']);
    expect(lines('3 days 4 h, 1 day 2 h.')).toEqual(['3', 'days\u00a04\u00a0h,', '1', 'day\u00a02\u00a0h.']);
  });

  it('lets a line break everywhere else', () => {
    for (const sentence of [
      'Dive 3 may begin after 14 hours, m by m',
      'on 4 mixes at 07:30',
      'within 24 hours of 3 dives',
    ]) {
      expect(keptTogether(sentence)).toBe(sentence);
    }
  });
});
