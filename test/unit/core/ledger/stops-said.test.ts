import { describe, expect, it } from 'vitest';
import { stopsSaid } from '../../../../core/ledger/stops-said';
import { pageReader, wordsOf } from '../../../../core/words/reader';

const metric = wordsOf(pageReader('metric'));
const imperial = wordsOf(pageReader('imperial'));

describe('stopsSaid', () => {
  const stops = [18, 15, 12].map((depthM) => ({ depthM, min: 2 }));

  it('tells depths in feet to the deeper side, as cautions and slates do', () => {
    expect(imperial(stopsSaid(stops))).toBe('2 min at 60 ft, 2 min at 50 ft, 2 min at 40 ft');
  });

  it('tells whole metres as they are, and what none or no ascent means', () => {
    expect(metric(stopsSaid(stops))).toBe('2 min at 18 m, 2 min at 15 m, 2 min at 12 m');
    expect(metric(stopsSaid([]))).toBe('');
    expect(metric(stopsSaid(null))).toBe('no ascent on this gas is found');
  });
});
