import { describe, expect, it } from 'vitest';
import { doneDates, nextDay } from '../../../../core/slate/next-day';
import { aDive, aTrip } from '../../../builders/trip';

describe('the next diving day', () => {
  const days = ['2027-03-06', '2027-03-07', '2027-03-09'];

  it('is the first that is not over and not before today', () => {
    expect(nextDay(days, '2027-03-01', [])).toBe('2027-03-06');
    expect(nextDay(days, '2027-03-07', [])).toBe('2027-03-07');
    expect(nextDay(days, '2027-03-07', ['2027-03-07'])).toBe('2027-03-09');
    expect(nextDay(days, '2027-03-08', [])).toBe('2027-03-09');
  });

  it('is of a trip that lies behind the first nobody said to be over, and else the last', () => {
    expect(nextDay(days, '2028-01-01', ['2027-03-06'])).toBe('2027-03-07');
    expect(nextDay(days, '2028-01-01', days)).toBe('2027-03-09');
    expect(nextDay([], '2028-01-01', [])).toBeNull();
  });

  it('is not one on which a later dive is logged', () => {
    const dives = [
      aDive({ id: 'a', startsAt: '2027-03-06T08:00' }),
      aDive({ id: 'b', startsAt: '2027-03-07T08:00', asDived: [{ depthM: 18 }] }),
      aDive({ id: 'c', startsAt: '2027-03-07T12:00' }),
    ];
    expect(doneDates(aTrip(dives), null)).toEqual(['2027-03-06']);
    expect(doneDates(aTrip(dives.slice(0, 2)), null)).toEqual(['2027-03-06', '2027-03-07']);
  });
});
