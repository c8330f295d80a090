import { describe, expect, it } from 'vitest';
import { slateDays, slateDive } from '../../../../core/slate/contents';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Dive } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

const trip = demoTrip();
const guest = ledger(trip).divers.find(({ diver }) => diver.id === 'guest2')!;
const wednesday = guest.entries.findIndex((entry) => entry.dive.startsAt.startsWith('2027-03-17'));

describe('slateDive', () => {
  it('tells the earliest entry of a dive whose interval matters', () => {
    const third = slateDive(trip, guest, wednesday + 2, [], { units: 'metric', clock: '24h' });
    expect(third.earliest).toMatch(/^\d\d:\d\d$/);
    expect(third.earliest! <= third.startsAt).toBe(true);
  });

  it('holds the no-stop time of what was dived to the depth printed beside it', () => {
    const asDived = [{ depthM: 18.3, bottomMin: 33 }];
    const dived = aTrip([aDive({ depthM: 18, bottomMin: 30, asDived })]);
    const told = slateDive(dived, ledger(dived).divers[0]!, 0, [], { units: 'imperial', clock: '24h' });
    // 18.3 m is 60.04 ft.
    expect(told.depth[0]!.value).toBe('61');
    const deeper = aTrip([aDive({ depthM: 61 * 0.3048, bottomMin: 33 })]);
    const { noStopMin } = ledger(deeper).divers[0]!.entries[0]!;
    expect(told.noStop.value).toBe(String(Math.floor(noStopMin!)));
    expect(noStopMin).toBeLessThan(ledger(dived).divers[0]!.entries[0]!.noStopMin!);
  });

  it('names the day where it lies on another', () => {
    expect(slateDive(trip, guest, wednesday, [], { units: 'metric', clock: '24h' }).earliest).toBe(
      'day before',
    );
  });

  it('says why where there is none', () => {
    const earliest = (change: Partial<Dive>, first: Partial<Dive> = {}): string | null => {
      const dives = [
        aDive({ id: 'a', startsAt: '2027-03-06T08:00', ...first }),
        aDive({ id: 'b', startsAt: '2027-03-06T20:00', ...change }),
      ];
      const two = aTrip(dives);
      return slateDive(two, ledger(two).divers[0]!, 1, [], { units: 'metric', clock: '24h' }).earliest;
    };
    expect(earliest({ depthM: 6, bottomMin: 10 })).toBe('no limit');
    expect(earliest({ depthM: 30, bottomMin: 90 })).toBe('no interval would do');
    expect(earliest({ depthM: 20 }, { depthM: 42, mix: 'rich' })).toBe('not known: PO2');
    const one = aTrip([aDive()]);
    expect(
      slateDive(one, ledger(one).divers[0]!, 0, [], { units: 'metric', clock: '24h' }).earliest,
    ).toBeNull();
  });
});

describe('the number of a dive', () => {
  const party = [aDiver({ name: 'Ann' }), aDiver({ id: 'bob', name: 'Bob' })];
  const dives = [
    aDive({ id: 'z', startsAt: '2027-03-05T08:00' }),
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', divers: ['guest-1'] }),
    // Dived before the one planned before it: its number stays.
    aDive({ id: 'b', startsAt: '2027-03-06T12:00', asDived: [{ by: 'bob', startsAt: '2027-03-06T07:30' }] }),
    aDive({ id: 'c', startsAt: '2027-03-06T16:00', divers: ['guest-1'] }),
    aDive({ id: 'd', startsAt: '2027-03-06T19:00', divers: ['bob'] }),
  ];
  const boat = aTrip(dives, { party });
  const numbers = (index: number) =>
    slateDays(boat, ledger(boat).divers[index]!, ['2027-03-06'], [], {
      units: 'metric',
      clock: '24h',
    })[0]!.dives.map(({ number, entry }) => `${number}${entry.dive.id}`);

  it('counts the trip\u2019s dives of the day, whoever makes them', () => {
    expect(numbers(0)).toEqual(['1a', '2b', '3c']);
    expect(numbers(1)).toEqual(['2b', '4d']);
  });

  it('is the same on each kind of slate', () => {
    const dates = ['2027-03-06'];
    const words = (change: Parameters<typeof layoutOf>[1]) =>
      layoutOf(boat, { dates, paper: aPaper('A4'), ...change }).pages.map((page) => ({
        name: page.name,
        text: wordsOf(page).replaceAll('\n', ' '),
      }));
    const [card] = words({ kind: 'card', paper: aPaper('A6'), diverIds: ['bob'] });
    expect(card!.name).toBe('Bob, Sat 6 March, dives 2, 4; Bob, Sat 6 March');
    expect(card!.text).toContain('2 Wall in 07:30');
    const [tags] = words({ kind: 'tags', diverIds: ['bob'] });
    expect(tags!.text).toContain('dive 2,');
    expect(tags!.text).toContain('dive 4,');
    expect(tags!.text).not.toMatch(/dive [13],/);
    const [briefing] = words({ kind: 'briefing', diverIds: null });
    expect(briefing!.text).toContain('2 07:30 or 12:00');
    expect(briefing!.text).toContain('4 19:00');
    expect(words({ kind: 'briefing', diverIds: ['bob'] })[0]!.text).toContain('2 07:30');
  });
});
