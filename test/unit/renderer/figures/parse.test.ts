import { describe, expect, it } from 'vitest';
import {
  parseClock,
  parseFigure,
  parseMinutes,
  parseNumber,
  parseShare,
} from '../../../../renderer/figures/parse';

const value = (parsed: { ok: boolean; value?: unknown }): unknown => (parsed.ok ? parsed.value : 'refused');

describe('parseNumber', () => {
  it.each([
    ['22', 22],
    [' 22,5 ', 22.5],
    ['22.5', 22.5],
    ['.5', 0.5],
    ['5.', 5],
    ['−3', -3],
    ['0.032', 0.032],
    ['0,125', 0.125],
  ])('reads %j as %d', (text, number) => {
    expect(value(parseNumber(text))).toBe(number);
  });

  it.each(['', '  ', 'abc', '1e3', '1.2.3', '.', '-', '1,200', '22.125', '--2', 'Infinity', 'NaN'])(
    'refuses %j',
    (text) => {
      const parsed = parseNumber(text);
      expect(parsed.ok).toBe(false);
      if (!parsed.ok) expect([parsed.what, parsed.mend].every((line) => line.endsWith('.'))).toBe(true);
    },
  );
});

describe('parseFigure', () => {
  it('reads in the chosen units unless the text says others', () => {
    expect(value(parseFigure('22', 'depth', 'metric'))).toBe(22);
    expect(value(parseFigure('72 ft', 'depth', 'metric'))).toBeCloseTo(21.9456, 10);
    expect(value(parseFigure('72', 'depth', 'imperial'))).toBeCloseTo(21.9456, 10);
    expect(value(parseFigure('22m', 'depth', 'imperial'))).toBe(22);
    expect(value(parseFigure('200 bar', 'pressure', 'imperial'))).toBe(200);
  });

  it('refuses the unit of another kind, and one that is none', () => {
    expect(parseFigure('22 bar', 'depth', 'metric').ok).toBe(false);
    expect(parseFigure('22 km', 'depth', 'metric').ok).toBe(false);
  });
});

describe('parseMinutes', () => {
  it.each([
    ['45', 45],
    ['45 min', 45],
    ['1:05', 65],
    ['1 h 05', 65],
    ['1h5min', 65],
    ['2h', 120],
    ['7,5', 7.5],
  ])('reads %j as %d', (text, min) => {
    expect(value(parseMinutes(text))).toBe(min);
  });

  it.each(['', '1:75', 'an hour', '1:2:3'])('refuses %j', (text) => {
    expect(parseMinutes(text).ok).toBe(false);
  });
});

describe('parseClock', () => {
  it.each([
    ['13:10', '13:10'],
    ['1310', '13:10'],
    ['7', '07:00'],
    ['7.30', '07:30'],
    ['1:10 pm', '13:10'],
    ['12 am', '00:00'],
    ['12:30pm', '12:30'],
  ])('reads %j as %s', (text, time) => {
    expect(value(parseClock(text, '24h'))).toBe(time);
  });

  it.each(['', '24:00', '12:60', '13 pm', '0 am', 'noon'])('refuses %j', (text) => {
    expect(parseClock(text, '12h').ok).toBe(false);
  });
});

describe('parseShare', () => {
  it.each([
    ['32', 0.32],
    ['32 %', 0.32],
    ['EAN32', 0.32],
    ['31,5', 0.315],
  ])('reads %j as %d', (text, share) => {
    expect(value(parseShare(text))).toBe(share);
  });
});
