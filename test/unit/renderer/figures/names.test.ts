import { describe, expect, it } from 'vitest';
import { someNamesText } from '../../../../renderer/figures/names';

describe('someNamesText', () => {
  it('names up to four and counts more', () => {
    expect(someNamesText(['a'])).toBe('a');
    expect(someNamesText(['a', 'b', 'c', 'd'])).toBe('a, b, c and d');
    expect(someNamesText(['a', 'b', 'c', 'd', 'e'])).toBe('a, b, c and two more');
    expect(someNamesText(Array.from({ length: 12 }, (_, i) => `g${i}`))).toBe('g0, g1, g2 and nine more');
  });
});
