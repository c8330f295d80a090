/** Laws of leaving points out of the bands: nothing is seen to change. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BandPoint } from '../../renderer/places/days/strip/band-data';
import { thinned, TOLERANCE } from '../../renderer/places/days/strip/thinned';

const shares = fc.double({ min: 0, max: 1.5, noNaN: true });
const clocks = fc.option(fc.double({ min: 0, max: 1.2, noNaN: true }), { freq: 12, nil: null });
const steps = fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 20, noNaN: true }));
const walks = fc
  .array(fc.record({ step: steps, share: shares, cns: clocks, cnsDay: clocks }), {
    minLength: 1,
    maxLength: 80,
  })
  .map((rows) => {
    let x = 0;
    return rows.map(({ step, share, cns, cnsDay }, i): BandPoint => {
      x += step;
      return { x, atMin: i, depthM: 0, share, compartment: 1, cns, cnsDay };
    });
  });

/** The curve through the kept points at a place between two of them. */
function between(a: number, b: number, at: number): number {
  return a + (b - a) * at;
}

describe('thinned', () => {
  it('keeps the ends, and points it was given in their order', () => {
    fc.assert(
      fc.property(walks, (points) => {
        const kept = thinned(points);
        expect(kept[0]).toBe(points[0]);
        expect(kept.at(-1)).toBe(points.at(-1));
        const places = kept.map((point) => points.indexOf(point));
        expect(places.every((place, i) => place >= 0 && (i === 0 || place > places[i - 1]!))).toBe(true);
      }),
    );
  });

  it('passes every point left out within the tolerance, and never bridges a gap', () => {
    fc.assert(
      fc.property(walks, (points) => {
        const kept = thinned(points);
        for (let i = 1; i < kept.length; i += 1) {
          const from = kept[i - 1]!;
          const to = kept[i]!;
          for (const point of points.slice(points.indexOf(from) + 1, points.indexOf(to))) {
            const at = to.x === from.x ? 0 : (point.x - from.x) / (to.x - from.x);
            // Beyond the tolerance only the rounding of a slope over its run.
            expect(Math.abs(between(from.share, to.share, at) - point.share)).toBeLessThanOrEqual(
              TOLERANCE.share + 1e-9,
            );
            for (const series of ['cns', 'cnsDay'] as const) {
              if (point[series] === null) {
                expect(from[series]).toBeNull();
                expect(to[series]).toBeNull();
              } else {
                expect(Math.abs(between(from[series]!, to[series]!, at) - point[series])).toBeLessThanOrEqual(
                  TOLERANCE[series] + 1e-9,
                );
              }
            }
          }
        }
      }),
    );
  });

  it('leaves out what lies on a line', () => {
    const line = Array.from({ length: 50 }, (_, i) => ({
      x: i * 3,
      atMin: i,
      depthM: 0,
      share: 0.01 * i,
      compartment: 1,
      cns: 0.005 * i,
      cnsDay: 0.3,
    }));
    expect(thinned(line)).toHaveLength(2);
  });
});
