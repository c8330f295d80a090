import { describe, expect, it } from 'vitest';
import { kept } from '../../../../renderer/store/kept';
import { isSame } from '../../../../renderer/store/same';

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
});

describe('kept', () => {
  it('gives the object that was there where it says the same, and the new one where it does not', () => {
    const before = [{ shown: '14 m' }, { shown: '15 m' }];
    const now = [{ shown: '14 m' }, { shown: '16 m' }, { shown: '17 m' }];
    const [first, second, third] = kept(before, now);
    expect(first).toBe(before[0]);
    expect(second).toBe(now[1]);
    expect(third).toBe(now[2]);
  });

  it('gives what is there where nothing was before', () => {
    const now = [{ shown: '14 m' }];
    expect(kept(undefined, now)).toEqual(now);
    expect(kept([], now)[0]).toBe(now[0]);
  });
});
