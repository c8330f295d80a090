import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thinned } from '../../../../core/slate/trip/thinned';

interface At {
  readonly x: number;
  readonly y: number;
}

/** How far above or below lines through points another one lies; at a jump from the nearer end. */
function distance(lines: readonly At[], { x, y }: At): number {
  const gaps = lines.slice(1).flatMap((to, i) => {
    const from = lines[i]!;
    if (x < from.x || x > to.x) return [];
    if (to.x === from.x) return [Math.max(0, Math.min(from.y, to.y) - y, y - Math.max(from.y, to.y))];
    return [Math.abs(from.y + ((x - from.x) / (to.x - from.x)) * (to.y - from.y) - y)];
  });
  return Math.min(...gaps);
}

const curves = fc
  .array(fc.record({ step: fc.constantFrom(0, 0.2, 1, 5), y: fc.double({ min: 0, max: 3, noNaN: true }) }), {
    minLength: 2,
    maxLength: 60,
  })
  .map((steps) => {
    let x = 0;
    return steps.map(({ step, y }): At => ({ x: (x += step), y }));
  });

describe('thinned', () => {
  it('leaves one stretch of a straight line, and keeps the corners', () => {
    const straight = Array.from({ length: 50 }, (_, x) => ({ x, y: 3 + 0.5 * x }));
    expect(thinned(straight)).toEqual([straight[0], straight[49]]);
    const corner = [...straight, ...Array.from({ length: 50 }, (_, x) => ({ x: 50 + x, y: 26.5 - x }))];
    expect(thinned(corner)).toEqual([corner[0], corner[49], corner[99]]);
  });

  it('draws a decay with a tenth of its points', () => {
    const decay = Array.from({ length: 600 }, (_, x) => ({ x: x / 3, y: 60 * Math.exp(-x / 90) }));
    expect(thinned(decay).length).toBeLessThan(60);
  });

  it('keeps first and last, only points that are there, and nothing farther off than nobody sees', () => {
    fc.assert(
      fc.property(curves, (points) => {
        const kept = thinned(points);
        expect(kept[0]).toBe(points[0]);
        expect(kept.at(-1)).toBe(points.at(-1));
        for (const point of kept) expect(points).toContain(point);
        for (const point of points) expect(distance(kept, point)).toBeLessThanOrEqual(0.1 + 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  it('leaves nothing and a single point as they are', () => {
    expect(thinned([])).toEqual([]);
    expect(thinned([{ x: 1, y: 2 }])).toEqual([{ x: 1, y: 2 }]);
  });
});
