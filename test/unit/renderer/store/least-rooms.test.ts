import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { leastRooms } from '../../../../renderer/store/least-rooms';

const [diver] = ledger(demoTrip()).divers;
const [first, second, third, fourth] = diver!.entries as [Entry, Entry, Entry, Entry];

/** The order of rooms, given entry by entry. */
function rooms(...pairs: readonly (readonly [Entry, number])[]): (entry: Entry) => number {
  const of = new Map(pairs);
  return (entry) => of.get(entry)!;
}

describe('leastRooms', () => {
  it('gives the least first, then all that read alike to the whole minute, in order of start', () => {
    const key = rooms([first, 4.9], [second, 5], [third, 4.1], [fourth, 4.5]);
    expect(leastRooms([fourth, second, first, third], key)).toEqual([third, first, fourth]);
  });

  it('keeps a minute and a half apart from it', () => {
    const key = rooms([first, 5.4], [second, 3.9]);
    expect(leastRooms([first, second], key)).toEqual([second]);
  });

  it('puts all that are past a limit without a figure together, and none that has one', () => {
    const past = Number.NEGATIVE_INFINITY;
    const key = rooms([first, past], [second, -30], [third, past]);
    expect(leastRooms([first, second, third], key)).toEqual([first, third]);
  });

  it('is empty where no limit is in reach', () => {
    const none = Number.POSITIVE_INFINITY;
    expect(leastRooms([first, second], rooms([first, none], [second, none]))).toEqual([]);
    expect(leastRooms([], rooms())).toEqual([]);
  });

  it('passes over what is not known, and still finds the least of what is', () => {
    const unknown: Entry = { ...first, cns: { ...first.cns, after: null } };
    const key = rooms([unknown, Number.NEGATIVE_INFINITY], [second, 12], [third, 30]);
    expect(leastRooms([unknown, second, third], key)).toEqual([second]);
    expect(leastRooms([unknown], key)).toEqual([]);
  });
});
