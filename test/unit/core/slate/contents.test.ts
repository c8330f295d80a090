import { describe, expect, it } from 'vitest';
import { slateDive } from '../../../../core/slate/contents';
import { demoTrip } from '../../../../core/trip/demo-trip';
import { ledger } from '../../../../core/trip/ledger';

const trip = demoTrip();
const guest = ledger(trip).divers.find(({ diver }) => diver.id === 'guest2')!;
const wednesday = guest.entries.findIndex((entry) => entry.dive.startsAt.startsWith('2027-03-17'));

describe('slateDive', () => {
  it('tells the earliest entry of a dive whose interval matters', () => {
    const third = slateDive(trip, guest, wednesday + 2, 3, [], 'metric');
    expect(third.earliest).toMatch(/^\d\d:\d\d$/);
    expect(third.earliest! <= third.startsAt).toBe(true);
  });

  it('leaves it out where it lies on the day before, as a slate gives no date beside it', () => {
    expect(slateDive(trip, guest, wednesday, 1, [], 'metric').earliest).toBeNull();
  });
});
