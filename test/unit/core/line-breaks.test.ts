import { describe, expect, it } from 'vitest';
import { keptTogether } from '../../../core/line-breaks';

const lines = (sentence: string): readonly string[] => keptTogether(sentence).split(' ');

describe('keptTogether', () => {
  it('keeps a figure with its unit, in either system', () => {
    expect(lines('CNS 28 % at 30.5 m')).toEqual(['CNS', '28\u00a0%', 'at', '30.5\u00a0m']);
    expect(lines('100 ft, 3000 psi,')).toEqual(['100\u00a0ft,', '3000\u00a0psi,']);
    expect(lines('2 h 05 min')).toEqual(['2\u00a0h', '05\u00a0min']);
    expect(lines('6.2 g/L and 77.4 cu ft')).toEqual(['6.2\u00a0g/L', 'and', '77.4\u00a0cu', 'ft']);
  });

  it('lets a line break everywhere else', () => {
    for (const sentence of ['Dive 3 may begin after 14 hours, m by m', 'on 4 mixes at 07:30']) {
      expect(keptTogether(sentence)).toBe(sentence);
    }
  });
});
