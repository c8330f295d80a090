import { describe, expect, it } from 'vitest';
import { breathedUntil } from '../../../../core/ledger/breathed';
import { aDive, aDiver, aLedger } from '../../../builders/trip';

const party = [
  aDiver({ id: 'a' }),
  aDiver({ id: 'b', name: 'Guest 2', rates: [{ from: '2027-03-08', surfaceRateLpm: 17 }] }),
];
const dives = [60, 90, 40, 80].map((endBar, i) =>
  aDive({ startsAt: `2027-03-0${6 + i}T08:00`, bottomMin: 40, asDived: [{ by: 'a', endBar }] }),
);

describe('breathedUntil', () => {
  it('is the median and spread of the dives read up to a day, beside what is planned on another', () => {
    const ledger = aLedger(dives, { party });
    const rates = ledger.divers[0]!.entries.map(({ gas }) => gas.breathedLpm!);
    const [three, none] = breathedUntil(ledger, '2027-03-08', '2027-03-09');
    // The less is left the more was breathed: of 60, 90 and 40 bar that is the first.
    expect(three).toMatchObject({
      medianLpm: rates[0],
      leastLpm: rates[1],
      mostLpm: rates[2],
      plannedLpm: 12,
    });
    expect(three!.dives).toHaveLength(3);
    const [four] = breathedUntil(ledger, '2027-03-09', '2027-03-10');
    expect(four!.medianLpm).toBeCloseTo((rates[0]! + rates[3]!) / 2, 12);
    expect(none).toMatchObject({ dives: [], medianLpm: null, plannedLpm: 17 });
    expect(breathedUntil(ledger, '2027-03-05', '2027-03-06').map(({ plannedLpm }) => plannedLpm)).toEqual([
      12, 12,
    ]);
  });
});
