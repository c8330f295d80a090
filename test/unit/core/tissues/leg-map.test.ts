import { describe, expect, it } from 'vitest';
import { identity } from '../../../../core/tissues/affine-map';
import { legsMap, stretchMap } from '../../../../core/tissues/leg-map';

const leg = (fromBar: number, toBar: number, min: number) => ({
  kind: 'level' as const,
  fromM: 0,
  toM: 0,
  fromBar,
  toBar,
  min,
});

describe('legsMap', () => {
  it('passes over a leg of no time, even between two pressures', () => {
    expect(legsMap([leg(1, 3, 0)])).toEqual(identity);
    expect(legsMap([leg(3, 3, 0), leg(3, 3, 10), leg(3, 1, 0)])).toEqual(stretchMap(3, 3, 10));
  });

  it('carries on from the map before', () => {
    const before = stretchMap(2, 2, 5);
    expect(legsMap([], before)).toEqual(before);
    expect(legsMap([leg(2, 2, 7)], before)).not.toEqual(before);
  });
});
