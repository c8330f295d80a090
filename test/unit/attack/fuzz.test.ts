import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fuzz, type Fuzz } from '../../attack/fuzz';

/** A clock that counts work instead of time, a millisecond for a thousand pieces of it. */
function counted(work: (size: number) => number, more: Partial<Fuzz<string>> = {}): Fuzz<string> {
  let done = 0;
  return {
    inputs: fc.integer({ min: 1, max: 17 }).map((octave) => 'x'.repeat(2 ** octave)),
    sizeOf: ({ length }) => length,
    answer: ({ length }) => {
      done += work(length);
      return length % 3 === 1 ? 'read' : 'refused';
    },
    longestMs: () => Number.POSITIVE_INFINITY,
    steepest: 1.5,
    clock: (run) => {
      const before = done;
      run();
      return (done - before) / 1e3;
    },
    ...more,
  };
}

describe('fuzz', () => {
  it('holds where work grows as the input does', () => {
    const { fell, tried, told } = fuzz(
      counted((size) => size),
      500,
    );
    expect([fell, tried]).toEqual([[], 500]);
    expect(told).toContain('time grows with the length to the power of 1.00');
  });

  it('falls where work grows as its square', () => {
    expect(
      fuzz(
        counted((size) => size ** 2),
        500,
      ).fell,
    ).toEqual(['time grows with the length to the power of 2.00, at most 1.5']);
  });

  it('falls on a single slow input, and on one that throws, and names it', () => {
    const slow = counted((size) => (size === 64 ? 1e7 : size), { longestMs: () => 1000 });
    expect(fuzz(slow, 500).fell.join()).toMatch(/took 10000 ms, 64 characters long/);
    const thrower = counted((size) => {
      if (size === 64) throw new Error('no answer');
      return size;
    });
    expect(fuzz(thrower, 500).fell.join()).toMatch(/no answer/);
  });

  it('falls where the door is never passed, and where its clock stands still', () => {
    const shut = counted((size) => size, { answer: () => 'refused' });
    expect(fuzz(shut, 500).fell).toEqual([
      'only 0 of 500 were read',
      'the slowest took 0 ms: the clock stands still',
    ]);
  });
});
