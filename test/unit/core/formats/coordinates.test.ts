import { describe, expect, it } from 'vitest';
import { coordinateDegrees, positionDegrees } from '../../../../core/formats/coordinates';

describe('coordinateDegrees', () => {
  it('reads decimals with point or comma, sign or letter', () => {
    expect(coordinateDegrees('12.5', 'lat')).toBe(12.5);
    expect(coordinateDegrees('-12,5', 'lat')).toBe(-12.5);
    expect(coordinateDegrees('−12.5°', 'lat')).toBe(-12.5);
    expect(coordinateDegrees('12.5 S', 'lat')).toBe(-12.5);
    expect(coordinateDegrees('W 41.25', 'lon')).toBe(-41.25);
    expect(coordinateDegrees('e41.25', 'lon')).toBe(41.25);
  });

  it('reads degrees with minutes and seconds', () => {
    expect(coordinateDegrees("12° 30' N", 'lat')).toBe(12.5);
    expect(coordinateDegrees('12 30.6 S', 'lat')).toBeCloseTo(-12.51, 12);
    expect(coordinateDegrees('12°30′36″S', 'lat')).toBeCloseTo(-12.51, 12);
    expect(coordinateDegrees('41 15 00 W', 'lon')).toBe(-41.25);
  });

  it.each(['', 'north', '12.5 E', '-12.5 S', '12 60', '12 30 60', '12..5', '12.5.6', '1e1', '12 30 15 10'])(
    'does not guess at "%s"',
    (text) => {
      expect(coordinateDegrees(text, 'lat')).toBeNull();
    },
  );
});

describe('positionDegrees', () => {
  it('reads both in one text, and of several readings the one that is on the globe', () => {
    expect(positionDegrees('-12.345 45.6')).toEqual({ lat: -12.345, lon: 45.6 });
    expect(positionDegrees("12° 20.7' S, 45° 36' E")).toEqual({ lat: -12.345, lon: 45.6 });
    // The first comma could end the latitude, but no longitude is 345 degrees.
    expect(positionDegrees('-12,345 45,6')).toEqual({ lat: -12.345, lon: 45.6 });
    expect(positionDegrees('95, 10')).toEqual({ lat: 95, lon: 10 });
  });

  it('does not choose between two places, and reads no words', () => {
    expect(positionDegrees('7 24 12 19')).toBe('ambiguous');
    expect(positionDegrees('by the pier')).toBeNull();
    expect(positionDegrees('12.5')).toBeNull();
  });

  it('takes nothing longer than a position for one', () => {
    const digits = '0'.repeat(88);
    expect(positionDegrees(`12.${digits} -45.5`)).toEqual({ lat: 12, lon: -45.5 });
    expect(positionDegrees(`12.${'0'.repeat(100)} -45.5`)).toBeNull();
    expect(coordinateDegrees(`12.${'0'.repeat(100)}`, 'lat')).toBeNull();
  });
});
