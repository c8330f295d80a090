import { describe, expect, it } from 'vitest';
import { dayAt, momentAt, timeAt, wallMin } from '../../../../core/words/calendar';
import { FILE_READER, pageReader, wordsOf, type Reader } from '../../../../core/words/reader';
import { clockSpan, dayOf, moment, said, span, timeOfDay, type Piece } from '../../../../core/words/said';

const PAGE = pageReader('metric');
const WINDOW: Reader = { ...PAGE, dates: 'day', clock: '12h' };

function read(piece: Piece, reader: Reader = PAGE): string {
  return wordsOf(reader)(said`${piece}`);
}

describe('a day', () => {
  it('is told with its weekday, as much as the reader wants', () => {
    expect([
      read(dayOf('2027-03-06'), FILE_READER),
      read(dayOf('2027-03-06'), WINDOW),
      read(dayOf('2027-03-06')),
    ]).toEqual(['2027-03-06', 'Sat 6 March', 'Sat 6 Mar 2027']);
    expect([read(dayOf('2027-03-06', 'weekday')), read(dayOf('2027-03-06', 'month'))]).toEqual([
      'Sat 6',
      'Sat 6 Mar',
    ]);
    expect([
      read(dayOf('2027-03-06', 'weekday'), WINDOW),
      read(dayOf('2027-03-06', 'month'), WINDOW),
    ]).toEqual(['Sat 6', 'Sat 6 March']);
  });

  it('has the weekday of the calendar, in leap years and over centuries', () => {
    const dates = [
      '1970-01-01',
      '1999-12-31',
      '2000-02-29',
      '2000-03-01',
      '2100-02-28',
      '2100-03-01',
      '2199-12-31',
    ];
    for (const date of dates) {
      const weekday = new Date(`${date}T00:00Z`).toLocaleDateString('en', {
        weekday: 'short',
        timeZone: 'UTC',
      });
      expect(read(dayOf(date, 'weekday')).slice(0, 3)).toBe(weekday);
    }
  });

  it('has each month by its name', () => {
    const dates = Array.from({ length: 12 }, (_, at) => `2027-${String(at + 1).padStart(2, '0')}-15`);
    for (const date of dates) {
      const at = new Date(`${date}T00:00Z`);
      const long = at.toLocaleDateString('en', { month: 'long', timeZone: 'UTC' });
      expect(read(dayOf(date), WINDOW)).toMatch(new RegExp(`^\\w{3} 15 ${long}$`));
      expect(read(dayOf(date))).toMatch(new RegExp(`^\\w{3} 15 ${long.slice(0, 3)} 2027$`));
    }
  });
});

describe('a moment', () => {
  it('is told as the reader has days and clocks', () => {
    const at = moment('2027-03-06T13:05');
    expect([read(at, FILE_READER), read(at, WINDOW), read(at)]).toEqual([
      '2027-03-06T13:05',
      'Sat 6, 1:05 pm',
      'Sat 6 Mar 2027, 13:05',
    ]);
  });

  it('that was worked out is no earlier than it is', () => {
    const at = momentAt(wallMin('2027-03-13T09:09') + 0.2);
    expect([read(at, FILE_READER), read(at)]).toEqual(['2027-03-13 at 09:10', 'Sat 13 Mar 2027, 09:10']);
    const nearMidnight = wallMin('2027-03-13T23:59') + 0.2;
    expect([read(dayAt(nearMidnight)), read(timeAt(nearMidnight))]).toEqual(['Sun 14 Mar 2027', '00:00']);
    expect(read(dayAt(nearMidnight, 'weekday'))).toBe('Sun 14');
  });

  it('of the day is before or after noon', () => {
    expect(
      ['00:05', '09:30', '11:59', '12:00', '13:10', '23:59'].map((time) => read(timeOfDay(time), WINDOW)),
    ).toEqual(['12:05 am', '9:30 am', '11:59 am', '12:00 pm', '1:10 pm', '11:59 pm']);
    expect(read(timeOfDay('09:30'))).toBe('09:30');
  });
});

describe('a stretch of time', () => {
  it.each([
    [59.9, '59 min'],
    [0, '0 min'],
    [60, '1 h'],
    [120.5, '2 h'],
    [125.9, '2 h 05 min'],
    [190.9, '3 h 10 min'],
    [-3.5, '\u22124 min'],
    [-65, '\u22121 h 05 min'],
    [47 * 60 + 59, '47 h 59 min'],
    [48 * 60, '2 days 0 h'],
    [3 * 1440 + 61, '3 days 1 h'],
  ])('of %s min is no longer than it is', (min, text) => {
    expect(read(span(min, 'down'))).toBe(text);
  });

  it('that is taken up is no shorter', () => {
    expect([read(span(150.2, 'up')), read(clockSpan(150.2, 'up'))]).toEqual(['2 h 31 min', '2:31']);
  });

  it('reads as on a clock', () => {
    expect([
      read(clockSpan(125.9, 'down')),
      read(clockSpan(5, 'down')),
      read(clockSpan(-65, 'down')),
    ]).toEqual(['2:05', '0:05', '\u22121:05']);
  });
});
