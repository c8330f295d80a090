import { describe, expect, it } from 'vitest';
import type { SlateRequest } from '../../../../core/slate/request';
import { demoTrip } from '../../../../core/document/demo-trip';
import type { Trip } from '../../../../core/document/types';
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

describe('what is not known, and what is counted', () => {
  it('says once what a dash means once a dive was above 1.6 bar', () => {
    const dives = [12, 42, 14, 15].map((depthM, i) =>
      aDive({ id: `x${i}`, startsAt: `2027-03-0${6 + i}T08:00`, depthM, mix: 'rich' }),
    );
    const meaning = /\u2013: oxygen clock not known, PO2 above 1\.6 bar here or on a dive before\./g;
    expect(sheets(aTrip(dives))[0]!.match(meaning)).toHaveLength(1);
    expect(sheets(aTrip(dives.slice(0, 1)))[0]).not.toMatch(meaning);
  });

  it('counts dives in the singular and the plural', () => {
    const one = aDive({ id: 'a', startsAt: '2027-03-06T08:00', mix: 'rich', depthM: 18 });
    const none = aDive({ id: 'b', startsAt: '2027-03-07T08:00', mix: 'auto', depthM: 45 });
    const rich = { mixes: [{ id: 'rich', o2: 0.36, costPerFill: 0 }] };
    const [words] = sheets(aTrip([one, none], rich));
    expect(words).toContain('1 dive, times in minutes');
    expect(words).toContain('1 dive, 20 min');
    expect(words).toContain('no dives, 0 min');
    expect(words).not.toMatch(/\b[01] dives/);
    const two = { ...one, id: 'c', startsAt: '2027-03-06T14:00' };
    expect(sheets(aTrip([one, two]))[0]).toContain('2 dives, times in minutes');
  });
});
