import { describe, expect, it } from 'vitest';
import {
  durationDown,
  listed,
  minAllowed,
  minMet,
  percentMet,
  wordingIn,
} from '../../../../core/cautions/wording';
import { wallMin } from '../../../../core/words/calendar';

describe('wordingIn', () => {
  it('rounds what is met up and what is allowed down', () => {
    const say = wordingIn('metric');
    expect([say.depthMet(30.01), say.depthMet(30), say.depthAllowed(28.99)]).toEqual([
      '30.1 m',
      '30 m',
      '28 m',
    ]);
    expect([say.pressureLeft(49.9), say.pressureNeeded(100.1), say.altitude(1499.2)]).toEqual([
      '49 bar',
      '101 bar',
      '1500 m',
    ]);
  });

  it('does so in feet and psi, and gives back a depth that was typed in feet', () => {
    const say = wordingIn('imperial');
    expect([say.depthMet(60 * 0.3048), say.depthMet(18.3), say.depthAllowed(28.756)]).toEqual([
      '60 ft',
      '61 ft',
      '94 ft',
    ]);
    // 50 bar is 725.19 psi.
    expect([say.pressureLeft(50), say.pressureNeeded(50), say.altitude(304.8)]).toEqual([
      '725 psi',
      '726 psi',
      '1000 ft',
    ]);
  });

  it('lets no rounding of a product push a figure on', () => {
    expect(wordingIn('metric').depthMet(0.1 + 0.2 + 30)).toBe('30.3 m');
    expect(wordingIn('metric').depthAllowed(30 - 1e-12)).toBe('30 m');
    expect(wordingIn('metric').percentO2(0.28 + 1e-16)).toBe('28 %');
  });
});

describe('figures without a unit of choice', () => {
  const say = wordingIn('metric');

  it('round exposures up', () => {
    expect([
      say.percentO2(0.3241),
      percentMet(0.801),
      say.po2Met(1.441),
      say.densityMet(5.21),
      minMet(38.2),
    ]).toEqual(['32.5 %', '81 %', '1.45 bar', '5.3 g/L', '39 min']);
  });

  it('round limits and times left down', () => {
    expect([say.po2Limit(1.4), say.po2Limit(1.555), minAllowed(38.99), durationDown(190.9)]).toEqual([
      '1.4 bar',
      '1.555 bar',
      '38 min',
      '3 h 10 min',
    ]);
    expect([durationDown(120), durationDown(40), durationDown(0)]).toEqual(['2 h', '40 min', '0 min']);
  });

  it('name a moment no earlier than it is', () => {
    expect(say.moment(wallMin('2027-03-13T09:09') + 0.2)).toBe('2027-03-13 at 09:10');
  });

  it('take the decimal sign and the moments of whoever reads them', () => {
    const own = wordingIn('metric', {
      decimalSign: ',',
      moment: (min) => `minute ${min}`,
      day: (date) => `day ${date}`,
    });
    expect([own.depthMet(30.01), own.percentO2(0.3241), own.po2Met(1.441), own.densityLimit(5.2)]).toEqual([
      '30,1 m',
      '32,5 %',
      '1,45 bar',
      '5,2 g/L',
    ]);
    expect([own.depthAllowed(28.9), own.moment(7)]).toEqual(['28 m', 'minute 7']);
  });
});

describe('listed', () => {
  it('puts things in a row', () => {
    expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'], 'or')]).toEqual([
      '',
      'a',
      'a and b',
      'a, b or c',
    ]);
  });
});
