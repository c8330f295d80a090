import { describe, expect, it } from 'vitest';
import { flyAfterMin, flyingRow } from '../../../../core/ledger/flying';
import { aDive, aDiver, aLedger } from '../../../builders/trip';

function entriesOf(...args: Parameters<typeof aLedger>) {
  return aLedger(...args).divers[0]!.entries;
}

describe('flyingRow', () => {
  it('is one no-stop dive only for a diver who has made no other', () => {
    expect(flyingRow(entriesOf([aDive()]))).toBe('oneNoStopDive');
    expect(flyingRow(entriesOf([aDive(), aDive({ startsAt: '2027-03-09T08:00' })]))).toBe(
      'severalDivesOrDays',
    );
    const before = [
      { id: 'b', startsAt: '2027-03-05T10:00', depthM: 10, bottomMin: 30, mix: 'air' as const },
    ];
    expect(flyingRow(entriesOf([aDive()], { party: [aDiver({ before })] }))).toBe('severalDivesOrDays');
  });

  it('is required stops where any dive of the trip had them, or an early level did', () => {
    const stops = aDive({ depthM: 30, bottomMin: 45 });
    expect(flyingRow(entriesOf([stops, aDive({ startsAt: '2027-03-08T08:00' })]))).toBe('requiredStops');
    const legs = [
      { depthM: 36, min: 25 },
      { depthM: 6, min: 60 },
    ];
    expect(flyingRow(entriesOf([aDive({ depthM: 36, bottomMin: 85, legs })]))).toBe('requiredStops');
  });

  it('is nothing without dives', () => expect(flyingRow([])).toBeNull());
});

describe('flyAfterMin', () => {
  it('counts from the last surfacing', () => {
    const entries = entriesOf([aDive(), aDive({ startsAt: '2027-03-06T12:00' })]);
    expect(flyAfterMin(entries)).toBe(entries[1]!.surfacesMin + 18 * 60);
    expect(flyAfterMin([])).toBeNull();
  });
});
