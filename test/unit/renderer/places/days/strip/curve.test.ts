import { describe, expect, it } from 'vitest';
import { curvePath, heightOf, washPath } from '../../../../../../renderer/places/days/strip/curve';

const scale = { top: 1.25, heightPx: 100 };
const valueOf = (point: { readonly v: number | null }) => point.v;

describe('heightOf', () => {
  it('is the foot of the band at nothing, and its head at the top', () => {
    expect(heightOf(0, scale)).toBe(100);
    expect(heightOf(1.25, scale)).toBe(0);
    expect(heightOf(1, scale)).toBeCloseTo(20, 12);
  });
});

describe('curvePath', () => {
  it('goes through every point, a tenth of a pixel exact', () => {
    const points = [
      { x: 0, v: 0 },
      { x: 10.04, v: 0.5 },
      { x: 20.06, v: 1 },
    ];
    expect(curvePath(points, valueOf, scale)).toBe('M0 1000L100 600L201 200');
  });

  it('has a gap where there is no figure', () => {
    const points = [
      { x: 0, v: 0.5 },
      { x: 1, v: null },
      { x: 2, v: 0.5 },
      { x: 3, v: 1 },
    ];
    expect(curvePath(points, valueOf, scale)).toBe('M0 600M20 600L30 200');
  });

  it('is empty without points', () => {
    expect(curvePath([], valueOf, scale)).toBe('');
  });
});

describe('washPath', () => {
  it('closes the curve along the foot of the band, in the units of the curve', () => {
    const points = [
      { x: 1, v: 0.5 },
      { x: 3, v: 1 },
    ];
    const curve = curvePath(points, valueOf, scale);
    expect(washPath(curve, points, scale.heightPx)).toBe('M10 600L30 200L30 1000L10 1000Z');
  });

  it('is empty without points', () => {
    expect(washPath('', [], 100)).toBe('');
  });
});
