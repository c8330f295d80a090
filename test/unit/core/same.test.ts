import { describe, expect, it } from 'vitest';
import { isSame } from '../../../core/same';

describe('isSame', () => {
  it('takes a key that is undefined for one that is not there, on either side', () => {
    expect(isSame({ a: 1 }, { a: 1, b: undefined })).toBe(true);
    expect(isSame({ a: 1, b: undefined }, { a: 1 })).toBe(true);
    expect(isSame({ a: 1 }, { a: 1, b: null })).toBe(false);
    expect(isSame({ a: 1, b: 2 }, { a: 1 })).toBe(false);
    expect(isSame({ a: 1, b: undefined }, { a: 1, c: 2 })).toBe(false);
  });

  it('looks into lists, and takes none for a record', () => {
    expect(isSame([{ a: [1] }], [{ a: [1] }])).toBe(true);
    expect(isSame([1, 2], [1])).toBe(false);
    expect(isSame([], {})).toBe(false);
  });

  it('takes numbers to the last bit', () => {
    expect(isSame({ bar: 0.1 + 0.2 }, { bar: 0.3 })).toBe(false);
    expect(isSame({ bar: NaN }, { bar: NaN })).toBe(true);
    expect(isSame({ bar: 0 }, { bar: -0 })).toBe(false);
  });
});
