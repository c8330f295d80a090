import { describe, expect, it } from 'vitest';
import { Counter, normalAt, normalOf } from '../../../../core/sturdiness/draws';
import { percentile } from '../../../../core/sturdiness/percentile';

describe('a draw', () => {
  it('depends on nothing but seed, run, dive and who', () => {
    const counter = new Counter();
    counter.at(1, 2, 3, 4);
    const first = [counter.x, counter.y, counter.z];
    counter.at(1, 2, 3, 5);
    expect([counter.x, counter.y, counter.z]).not.toEqual(first);
    const other = new Counter();
    other.at(1, 2, 3, 4);
    expect([other.x, other.y, other.z]).toEqual(first);
  });

  it('is the published hash', () => {
    // By the definition in 64-bit whole numbers, which share nothing with the 32-bit product of the platform.
    const hash = (...from: readonly [number, number, number, number]): readonly number[] => {
      const mask = 0xffffffffn;
      let [x, y, z, w] = from.map((each) => (BigInt(each) * 1664525n + 1013904223n) & mask) as [
        bigint,
        bigint,
        bigint,
        bigint,
      ];
      for (const round of [0, 1]) {
        x = (x + y * w) & mask;
        y = (y + z * x) & mask;
        z = (z + x * y) & mask;
        w = (w + y * z) & mask;
        if (round === 0) [x, y, z, w] = [x ^ (x >> 16n), y ^ (y >> 16n), z ^ (z >> 16n), w ^ (w >> 16n)];
      }
      return [x, y, z].map(Number);
    };
    const counter = new Counter();
    for (let run = 0; run < 50; run += 1) {
      counter.at(20270306, run, run % 7, run % 5);
      expect([counter.x >>> 0, counter.y >>> 0, counter.z >>> 0]).toEqual(
        hash(20270306, run, run % 7, run % 5),
      );
    }
  });

  it('has the normal distribution, each apart from the others', () => {
    const counter = new Counter();
    const count = 20_000;
    const sums = { x: 0, y: 0, xx: 0, yy: 0, xy: 0, next: 0 };
    let last = 0;
    for (let run = 0; run < count; run += 1) {
      counter.at(1, run, 3, 0);
      const [x, y] = [normalOf(counter.x), normalOf(counter.y)];
      sums.x += x;
      sums.y += y;
      sums.xx += x * x;
      sums.yy += y * y;
      sums.xy += x * y;
      sums.next += x * last;
      last = x;
    }
    // Four standard errors of a mean, a variance and a correlation.
    const error = 4 / Math.sqrt(count);
    for (const mean of [sums.x, sums.y, sums.xy, sums.next])
      expect(Math.abs(mean / count)).toBeLessThan(error);
    for (const square of [sums.xx, sums.yy]) {
      expect(Math.abs(square / count - 1)).toBeLessThan(Math.SQRT2 * error);
    }
  });

  it('lies where the tables of the normal distribution have it', () => {
    // Source: the percentage points of any table: 1.644854, 1.959964, 2.326348, 3.090232.
    const points = [
      [0.5, 0],
      [0.95, 1.644854],
      [0.975, 1.959964],
      [0.99, 2.326348],
      [0.999, 3.090232],
    ] as const;
    for (const [p, z] of points) {
      expect(normalAt(p)).toBeCloseTo(z, 5);
      expect(normalAt(1 - p)).toBeCloseTo(-z, 5);
    }
    expect(normalAt(1e-15)).toBeCloseTo(-7.941345, 5);
    expect(normalOf(0)).toBe(-4);
    expect(normalOf(0xffffffff)).toBe(4);
  });
});

describe('a percentile', () => {
  it('is the value that stands there in order', () => {
    for (const length of [1, 2, 19, 20, 21, 500]) {
      const values = Float32Array.from({ length }, (_, i) => Math.sin(i * 7.3) * 10);
      values[0] = -Infinity;
      const sorted = values.toSorted();
      for (const share of [0, 0.05, 0.5, 0.95, 1]) {
        const place = Math.max(0, Math.ceil(share * length - 1e-9) - 1);
        expect(percentile(values.slice(), share)).toBe(sorted[place]);
      }
    }
  });
});
