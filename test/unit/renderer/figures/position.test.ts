import { describe, expect, it } from 'vitest';
import { parsePosition, positionText } from '../../../../renderer/figures/position';

const HERE = { lat: -7.412, lon: 148.318 };

describe('parsePosition', () => {
  it.each([
    '-7.412, 148.318',
    '-7.412 148.318',
    '-7,412; 148,318',
    '7.412 S, 148.318 E',
    '7° 24.72′ S, 148° 19.08′ E',
    '7° 24,72′ S ; 148° 19,08′ E',
    '7 24 43.2 S 148 19 4.8 E',
  ])('reads %s', (text) => {
    const parsed = parsePosition(text);
    expect(parsed.ok).toBe(true);
    if (!parsed.ok || !parsed.value) throw new Error('not read');
    expect(parsed.value.lat).toBeCloseTo(HERE.lat, 9);
    expect(parsed.value.lon).toBeCloseTo(HERE.lon, 9);
  });

  it('takes nothing for no position', () => {
    expect(parsePosition('  ')).toEqual({ ok: true, value: null });
  });

  it('refuses one figure, words, and what the globe does not have', () => {
    expect(parsePosition('12')).toMatchObject({ ok: false });
    expect(parsePosition('by the pier')).toMatchObject({ ok: false });
    expect(parsePosition('95, 10')).toMatchObject({ ok: false, what: expect.stringContaining('Latitude') });
    expect(parsePosition('10, 190')).toMatchObject({ ok: false, what: expect.stringContaining('Longitude') });
  });

  it('refuses what can be read in two ways', () => {
    expect(parsePosition('7 24 12 19')).toMatchObject({
      ok: false,
      what: expect.stringContaining('two ways'),
    });
  });
});

describe('positionText', () => {
  it('writes degrees and minutes as a chart does, and reads back what it wrote', () => {
    const text = positionText(HERE);
    expect(text).toMatch(/^7° 24[.,]720′ S.*148° 19[.,]080′ E$/);
    expect(parsePosition(text)).toEqual({
      ok: true,
      value: { lat: expect.closeTo(HERE.lat, 5), lon: expect.closeTo(HERE.lon, 5) },
    });
  });

  it('carries minutes that round up into the degree', () => {
    expect(positionText({ lat: 9.9999999, lon: 0 })).toMatch(/^10° 0[.,]000′ N/);
  });

  it('writes nothing where there is none', () => {
    expect(positionText(null)).toBe('');
  });
});
