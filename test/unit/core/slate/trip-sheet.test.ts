import { describe, expect, it } from 'vitest';
import type { SlateRequest } from '../../../../core/slate/request';
import { demoTrip } from '../../../../core/trip/demo-trip';
import type { Trip } from '../../../../core/trip/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

/** The words of the sheet of each diver on A4, which it takes one page of. */
function sheets(trip: Trip, change: Partial<SlateRequest> = {}): readonly string[] {
  const { pages } = layoutOf(trip, { kind: 'trip', paper: aPaper('A4'), ...change });
  expect(pages).toHaveLength(trip.party.length);
  return pages.map((page) => wordsOf(page).replaceAll('\n', ' '));
}

describe('what to stop', () => {
  const party = [aDiver(), aDiver({ id: 'g2', name: 'Guest 2', maxDepthM: 18 })];
  const dives = [
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', depthM: 20 }),
    aDive({ id: 'b', startsAt: '2027-03-06T14:00', depthM: 12 }),
  ];

  it('marks the dives of whom it concerns, and says once where to look', () => {
    const [first, second] = sheets(aTrip(dives, { party }));
    expect(first).not.toContain('!');
    expect(second).toContain('08:00 ! Wall');
    expect(second).toContain('14:00 Wall');
    expect(second!.match(/! see the cautions of this dive\./g)).toHaveLength(1);
  });

  it('says what is about no one dive in full', () => {
    const before = [
      { id: 'e', startsAt: '2027-03-05T08:00', depthM: 20, bottomMin: 30, mix: 'air' },
    ] as const;
    const climber = aDiver({ id: 'g2', name: 'Guest 2', before, arrivedAt: '2027-03-05T12:00' });
    const water = { density: 'fresh', altitudeM: 1200 } as const;
    const [first, second] = sheets(aTrip(dives, { party: [aDiver(), climber], water }));
    expect(first).not.toContain('Stop:');
    expect(second).toContain('Stop: The climb to');
  });

  it('says whether the flight waits for flying to be clear', () => {
    const flying = (at: string | null) => sheets(aTrip(dives, { flight: at === null ? null : { at } }))[0]!;
    expect(flying(null)).toMatch(/No flying before Sun 7 Mar 2027, \d\d:\d\d\. /);
    expect(flying('2027-03-07T06:30')).toMatch(
      /No flying before Sun 7 Mar 2027, \d\d:\d\d; flight Sun 7 Mar 2027, 06:30, too soon\. /,
    );
    const late = flying('2027-03-08T06:30');
    expect(late).toContain('; flight Mon 8 Mar 2027, 06:30. ');
    expect(`${late}${flying('2027-03-07T06:30')}`).not.toContain('Stop:');
  });

  it('leaves the demo trip a page a diver with all dives marked', () => {
    const shallow = demoTrip().party.map((diver) => ({ ...diver, maxDepthM: 10 }));
    for (const sheet of sheets({ ...demoTrip(), party: shallow })) {
      expect(sheet.match(/\d\d:\d\d !/g)!.length).toBeGreaterThan(15);
    }
  });
});
