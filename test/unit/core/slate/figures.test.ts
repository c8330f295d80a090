import { describe, expect, it } from 'vitest';
import {
  dateText,
  depths,
  diveDepths,
  diveTime,
  down,
  joined,
  minutesDown,
  mixName,
  percentUp,
  po2Text,
  pressuresUp,
  up,
  words,
} from '../../../../core/slate/figures';
import type { Stop } from '../../../../core/profile';
import { pageReader, shown, wordsOf, type Reader } from '../../../../core/words/reader';
import { bare, figure, said, span, type Piece } from '../../../../core/words/said';

const read = (piece: Piece, units: Reader['units'] = 'metric') => wordsOf(pageReader(units))(said`${piece}`);
const pressuresDown = (bar: number | null, units: Reader['units']) =>
  shown(figure('pressureLeft', bar), pageReader(units));
const intervalText = (min: number) => read(span(min, 'down'));
const po2LimitText = (bar: number) => read(bare('po2Limit', bar));
const oxygenPercent = (o2: number) => read(bare('oxygen', o2));
const stopsText = (stops: readonly Stop[], units: Reader['units']) =>
  stops
    .map(({ depthM, min }) => read(said`${figure('depthMet', depthM)} ${figure('minutesMet', min)}`, units))
    .join(', ');

describe('down and up', () => {
  it('round a limit down and an exposure up', () => {
    expect(down(46.999)).toBe(46);
    expect(up(46.001)).toBe(47);
  });

  it('round what is negative the same careful way', () => {
    expect(down(-1.2)).toBe(-2);
    expect(up(-1.2)).toBe(-1);
  });

  it('take binary dust for the whole number it is', () => {
    expect(down(0.1 + 0.2 - 0.3 + 33 - 1e-9)).toBe(33);
    expect(up(1.4 + 2e-16, 0.01)).toBe(1.4);
    expect(up(-1e-9)).toBe(0);
    expect(Object.is(up(-1e-9), 0)).toBe(true);
  });

  it('do not take a real remainder for dust', () => {
    expect(up(47 + 1e-4)).toBe(48);
    expect(down(47 - 1e-4)).toBe(46);
  });
});

describe('depths', () => {
  it('give a limit in whole metres and feet, rounded down', () => {
    expect(joined(depths(33.75, 'limit', 'both'))).toBe('33 m / 110 ft');
    expect(joined(depths(33.75, 'limit', 'imperial'))).toBe('110 ft');
  });

  it('give what is dived to the tenth of a metre and the whole foot, rounded up', () => {
    expect(joined(depths(24, 'exposure', 'both'))).toBe('24 m / 79 ft');
    expect(joined(depths(24.01, 'exposure', 'metric'))).toBe('24.1 m');
  });

  it('give what is planned rounded down: the no-stop time beside it would not hold a foot deeper', () => {
    expect(joined(depths(24, 'plan', 'both'))).toBe('24 m / 78 ft');
    expect(joined(depths(24.06, 'plan', 'metric'))).toBe('24 m');
    expect(joined(depths(80 * 0.3048, 'plan', 'imperial'))).toBe('80 ft');
  });

  it('give a dash for a depth that does not exist', () => {
    expect(joined(depths(null, 'limit', 'both'))).toBe('\u2013');
  });
});

describe('pressures', () => {
  it('to keep to are rounded up, those that are there down; psi in tens', () => {
    expect(joined(pressuresUp(100.2, 'both'))).toBe('101 bar / 1460 psi');
    expect(joined(pressuresDown(100.9, 'both'))).toBe('100 bar / 1460 psi');
    expect(joined(pressuresUp(null, 'metric'))).toBe('\u2013');
  });
});

describe('minutes and intervals', () => {
  it('allowed minutes go down', () => {
    expect(words(minutesDown(-0.1))).toBe('\u22121 min');
    expect(words(minutesDown(null))).toBe('\u2013');
  });

  it('an interval is no longer than it is', () => {
    expect(intervalText(59.9)).toBe('59 min');
    expect(intervalText(125.9)).toBe('2 h 05 min');
    expect(intervalText(-3.5)).toBe('\u22124 min');
    expect(intervalText(3 * 1440 + 61)).toBe('3 days 1 h');
  });
});

describe('oxygen', () => {
  it('PO2 and shares taken are rounded up', () => {
    expect(po2Text(1.391)).toBe('1.40 bar');
    expect(po2Text(null)).toBe('\u2013');
    expect(percentUp(0.4101)).toBe('42 %');
    expect(percentUp(null)).toBe('\u2013');
  });

  it('a share of oxygen keeps the decimals it has', () => {
    expect(oxygenPercent(0.32)).toBe('32');
    expect(oxygenPercent(0.317)).toBe('31.7');
    expect(mixName(0.21)).toBe('Air');
    expect(mixName(0.317)).toBe('EAN31.7');
  });

  it('a limit of PO2 stands as it is set, beside depths that are worked out with it', () => {
    expect([1, 1.4, 1.45, 1.405, 1.4 + 2e-16, 1.4069].map(po2LimitText)).toEqual([
      '1.0',
      '1.4',
      '1.45',
      '1.405',
      '1.4',
      '1.406',
    ]);
  });
});

describe('a dive', () => {
  const dive = { depthM: 15.04, bottomMin: 14.74 };

  it('is rounded down as it is planned, and up as it was dived', () => {
    const planned = { ...dive, isAsDived: false };
    const dived = { ...dive, isAsDived: true };
    expect(joined(diveDepths(planned, 'both'))).toBe('15 m / 49 ft');
    expect(joined(diveDepths(dived, 'both'))).toBe('15.1 m / 50 ft');
    expect(words(diveTime(planned))).toBe('14.7 min');
    expect(words(diveTime(dived))).toBe('14.8 min');
  });

  it('has no decimal that says nothing', () => {
    for (const isAsDived of [false, true]) {
      expect(words(diveTime({ bottomMin: 40 + 1e-9, isAsDived }))).toBe('40 min');
      expect(words(diveTime({ bottomMin: 40 - 1e-9, isAsDived }))).toBe('40 min');
    }
  });
});

describe('stops and dates', () => {
  it('stops read as depth and minutes', () => {
    expect(
      stopsText(
        [
          { depthM: 6, min: 2 },
          { depthM: 3, min: 9 },
        ],
        'metric',
      ),
    ).toBe('6 m 2 min, 3 m 9 min');
    expect(stopsText([{ depthM: 3, min: 9 }], 'imperial')).toBe('10 ft 9 min');
  });

  it('names the weekday; 1970-01-01 was a Thursday, 2027-03-06 is a Saturday', () => {
    expect(dateText('1970-01-01')).toBe('Thu 1 Jan 1970');
    expect(dateText('2027-03-06')).toBe('Sat 6 Mar 2027');
    expect(dateText('1969-12-31')).toBe('Wed 31 Dec 1969');
  });
});
