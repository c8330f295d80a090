import { describe, expect, it } from 'vitest';
import { kept } from '../../../../renderer/store/kept';

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
