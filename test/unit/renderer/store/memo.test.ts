import { describe, expect, it, vi } from 'vitest';
import { memo, memoEach, takingUp } from '../../../../renderer/store/memo';

describe('memo', () => {
  it('gives the same object for the same arguments, also after looking at others in between', () => {
    const compute = vi.fn((of: object, word: string) => ({ of, word }));
    const remembered = memo(compute);
    const a = {};
    const b = {};
    const first = remembered(a, 'x');
    expect(remembered(a, 'x')).toBe(first);
    const second = remembered(b, 'x');
    expect(remembered(a, 'x')).toBe(first);
    expect(remembered(b, 'x')).toBe(second);
    expect(compute).toHaveBeenCalledTimes(2);
  });

  it('computes anew for another object, however alike, and forgets all but two', () => {
    const compute = vi.fn((of: object) => ({ of }));
    const remembered = memo(compute);
    const a = {};
    const first = remembered(a);
    remembered({});
    remembered({});
    expect(remembered(a)).not.toBe(first);
    expect(compute).toHaveBeenCalledTimes(4);
  });
});

describe('takingUp', () => {
  it('hands over the answer before, and remembers as memo does', () => {
    const compute = vi.fn((previous: readonly string[] | undefined, word: string) => [
      ...(previous ?? []),
      word,
    ]);
    const remembered = takingUp(compute);
    const first = remembered('a');
    expect(remembered('b')).toEqual(['a', 'b']);
    expect(remembered('a')).toBe(first);
    expect(remembered('c')).toEqual(['a', 'b', 'c']);
    expect(compute).toHaveBeenCalledTimes(3);
  });
});

describe('memoEach', () => {
  it('keeps one answer for each object while every field of what it was given is the same', () => {
    const compute = vi.fn((of: { name: string }, { unit, at }: { unit: string; at: object }) => [
      of.name,
      unit,
      at,
    ]);
    const remembered = memoEach(compute);
    const [a, b, at] = [{ name: 'a' }, { name: 'b' }, {}];
    const first = remembered(a, { unit: 'm', at });
    const other = remembered(b, { unit: 'm', at });
    expect(remembered(a, { unit: 'm', at })).toBe(first);
    expect(remembered(b, { unit: 'm', at })).toBe(other);
    expect(remembered(a, { unit: 'ft', at })).toEqual(['a', 'ft', at]);
    expect(remembered(a, { unit: 'ft', at: {} })).not.toBe(first);
    expect(compute).toHaveBeenCalledTimes(4);
  });
});
