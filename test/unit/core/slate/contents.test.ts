import { describe, expect, it } from 'vitest';
import { slateDive } from '../../../../core/slate/contents';
import { demoTrip } from '../../../../core/trip/demo-trip';
import { ledger } from '../../../../core/trip/ledger';
import type { Dive } from '../../../../core/trip/types';
import { aDive, aTrip } from '../../../builders/trip';

const trip = demoTrip();
const guest = ledger(trip).divers.find(({ diver }) => diver.id === 'guest2')!;
const wednesday = guest.entries.findIndex((entry) => entry.dive.startsAt.startsWith('2027-03-17'));

describe('slateDive', () => {
  it('tells the earliest entry of a dive whose interval matters', () => {
    const third = slateDive(trip, guest, wednesday + 2, 3, [], 'metric');
    expect(third.earliest).toMatch(/^\d\d:\d\d$/);
    expect(third.earliest! <= third.startsAt).toBe(true);
  });

  it('names the day where it lies on another', () => {
    expect(slateDive(trip, guest, wednesday, 1, [], 'metric').earliest).toBe('day before');
  });

  it('says why where there is none', () => {
    const earliest = (change: Partial<Dive>, first: Partial<Dive> = {}): string | null => {
      const dives = [
        aDive({ id: 'a', startsAt: '2027-03-06T08:00', ...first }),
        aDive({ id: 'b', startsAt: '2027-03-06T20:00', ...change }),
      ];
      const two = aTrip(dives);
      return slateDive(two, ledger(two).divers[0]!, 1, 2, [], 'metric').earliest;
    };
    expect(earliest({ depthM: 6, bottomMin: 10 })).toBe('no limit');
    expect(earliest({ depthM: 30, bottomMin: 90 })).toBe('no interval would do');
    expect(earliest({ depthM: 20 }, { depthM: 42, mix: 'rich' })).toBe('not known: PO2');
    const one = aTrip([aDive()]);
    expect(slateDive(one, ledger(one).divers[0]!, 0, 1, [], 'metric').earliest).toBeNull();
  });
});
