import { describe, expect, it } from 'vitest';
import { grouped } from '../../../core/grouped';

describe('grouped', () => {
  it('keeps groups in the order of the first of each, and each in the order of the list', () => {
    const groups = grouped([5, 2, 7, 4, 9], (each) => each % 2 === 0);
    expect([...groups]).toEqual([
      [false, [5, 7, 9]],
      [true, [2, 4]],
    ]);
  });

  it('has no group for nothing', () => {
    expect(grouped([], String).size).toBe(0);
  });
});
