import { describe, expect, it } from 'vitest';
import {
  namesText,
  numberedNames,
  parseNames,
  parseShares,
  parseTimes,
  sharesText,
  timesText,
} from '../../../../../renderer/places/starting/lists';

const read = <T>(value: T) => ({ ok: true, value });

describe('parseTimes', () => {
  it.each([
    ['08:00, 11:00', '24h', ['08:00', '11:00']],
    ['8 11 14.30', '24h', ['08:00', '11:00', '14:30']],
    ['0730;1100\n1500', '24h', ['07:30', '11:00', '15:00']],
    ['8 am 2:30 pm', '12h', ['08:00', '14:30']],
    ['8:00 am, 11:00 am', '12h', ['08:00', '11:00']],
  ] as const)('reads %s', (text, clock, times) => {
    expect(parseTimes(text, clock)).toEqual(read(times));
  });

  it('refuses the whole list for one that is no time, and an empty list', () => {
    expect(parseTimes('08:00, noon', '24h')).toMatchObject({
      ok: false,
      what: expect.stringContaining('noon'),
    });
    expect(parseTimes(' , ', '24h')).toMatchObject({ ok: false });
  });

  it('reads back what it writes', () => {
    for (const clock of ['24h', '12h'] as const) {
      const times = ['00:15', '08:00', '12:00', '19:45'];
      expect(parseTimes(timesText(times, clock), clock)).toEqual(read(times));
    }
  });
});

describe('parseShares', () => {
  it.each([
    ['21, 32, 36', [0.21, 0.32, 0.36]],
    ['21,32,36', [0.21, 0.32, 0.36]],
    ['Air EAN32', [0.21, 0.32]],
    ['31,5; 36 %', [0.315, 0.36]],
    ['31,5', [0.315]],
    ['32,', [0.32]],
  ])('reads %s', (text, shares) => {
    const parsed = parseShares(text.replace(' %', '%'));
    expect(parsed).toEqual(read(shares.map((share) => expect.closeTo(share, 12))));
  });

  it('refuses a mix that is given twice', () => {
    for (const text of ['32 32', '21, air', 'EAN32 36 32.0']) {
      expect(parseShares(text)).toMatchObject({
        ok: false,
        what: expect.stringMatching(/^(EAN32|Air) is given twice/),
      });
    }
  });

  it('refuses a comma that could part two mixes or begin decimals', () => {
    expect(parseShares('21,32')).toMatchObject({ ok: false, what: expect.stringContaining('two ways') });
  });

  it('reads back what it writes', () => {
    expect(parseShares(sharesText([0.21, 0.32, 0.315]))).toEqual(
      read([0.21, 0.32, 0.315].map((share) => expect.closeTo(share, 12))),
    );
  });
});

describe('parseNames', () => {
  it('reads names, or how many', () => {
    expect(parseNames('Guide, Guest 1\nGuest 2')).toEqual(read(['Guide', 'Guest 1', 'Guest 2']));
    expect(parseNames(' 3 ')).toEqual(read(['Diver 1', 'Diver 2', 'Diver 3']));
  });

  it('refuses none and too many', () => {
    expect(parseNames('0')).toMatchObject({ ok: false });
    expect(parseNames('61')).toMatchObject({ ok: false });
    expect(parseNames('  ')).toMatchObject({ ok: false });
  });

  it('refuses a name that is given twice', () => {
    expect(parseNames('Ann, Guide, ann')).toMatchObject({ ok: false, what: 'ann is given twice.' });
  });

  it('writes a number where nobody was named', () => {
    expect(namesText(numberedNames(4))).toBe('4');
    expect(namesText(['Guide', 'Diver 2'])).toBe('Guide, Diver 2');
  });
});
