/** What is found in what a file says of dives done: records, who missed one, what was left, rates and days. */
import { describe, expect, it } from 'vitest';
import { broken } from '../../../support/broken-trip';
import type { Loose } from '../../../support/trip-documents';

describe('readTrip, mistakes in what was logged', () => {
  const cases: readonly [string, (document: Loose) => void, string, RegExp][] = [
    [
      'what was dived in no time',
      (d) => (d.dives[0].asDived = [{ depthM: 30, bottomMin: 1.2 }]),
      'dives[0].asDived[0].bottomMin (dive "d1")',
      /before 30 m is reached/,
    ],
    [
      'a record twice',
      (d) => (d.dives[0].asDived = [{ o2: 0.31 }, { o2: 0.32 }]),
      'dives[0].asDived[1].by (dive "d1")',
      /two records for everybody/,
    ],
    [
      'a record of a stranger',
      (d) => (d.dives[0].asDived = [{ by: 'q' }]),
      'dives[0].asDived[0].by (dive "d1")',
      /There is no diver "q"/,
    ],
    [
      'a record of one who stayed',
      (d) => {
        d.dives[0].divers = ['a'];
        d.dives[0].asDived = [{ by: 'b' }];
      },
      'dives[0].asDived[0].by (dive "d1")',
      /"b" is not on this dive/,
    ],
    [
      'who missed it and has a record',
      (d) => Object.assign(d.dives[0], { asDived: [{ by: 'b', depthM: 17 }], notDived: [{ by: 'b' }] }),
      'dives[0].notDived[0].by (dive "d1")',
      /"b" did not make this dive, but has a record of it/,
    ],
    [
      'nobody dived it and there is a record',
      (d) => Object.assign(d.dives[0], { asDived: [{}], notDived: [{ reason: 'swell' }] }),
      'dives[0].notDived[0].by (dive "d1")',
      /Nobody made this dive, but there is a record of it/,
    ],
    [
      'missed twice',
      (d) => (d.dives[0].notDived = [{ by: 'b' }, { by: 'b' }]),
      'dives[0].notDived[1].by (dive "d1")',
      /said twice who did not dive it/,
    ],
    [
      'missed by a stranger',
      (d) => (d.dives[0].notDived = [{ by: 'q' }]),
      'dives[0].notDived[0].by (dive "d1")',
      /There is no diver "q"/,
    ],
    [
      'missed by one who was not on it',
      (d) => Object.assign(d.dives[0], { divers: ['a'], notDived: [{ by: 'b' }] }),
      'dives[0].notDived[0].by (dive "d1")',
      /"b" was not on this dive, so cannot have missed it/,
    ],
    [
      'a reason on two lines',
      (d) => (d.dives[0].notDived = [{ reason: 'swell\nand fog' }]),
      'dives[0].notDived[0].reason (dive "d1")',
      /Reason has a line break/,
    ],
    [
      'added, but not by yes or no',
      (d) => (d.dives[0].added = 'yes'),
      'dives[0].added (dive "d1")',
      /Added is the text "yes"/,
    ],
    [
      'more left than was filled',
      (d) => (d.dives[0].asDived = [{ endBar: 100 }, { by: 'b', endBar: 260 }]),
      'dives[0].asDived[1].endBar (dive "d1")',
      /260 bar are left, more than the fill of \d+ bar of "b"/,
    ],
    [
      'more left for everybody than one was filled with',
      (d) => (d.dives[0].asDived = [{ endBar: 260 }]),
      'dives[0].asDived[0].endBar (dive "d1")',
      /260 bar are left, more than the fill of \d+ bar of "a"/,
    ],
    [
      'a rate from a day there is not',
      (d) => (d.party[0].rates = [{ from: '2027-02-30', surfaceRateLpm: 14 }]),
      'party[0].rates[0].from (diver "a")',
      /does not exist in the calendar/,
    ],
    [
      'a rate from a time',
      (d) => (d.party[0].rates = [{ from: '2027-03-06T10:00', surfaceRateLpm: 14 }]),
      'party[0].rates[0].from (diver "a")',
      /not a day/,
    ],
    [
      'rates out of order',
      (d) =>
        (d.party[0].rates = [
          { from: '2027-03-08', surfaceRateLpm: 14 },
          { from: '2027-03-07', surfaceRateLpm: 15 },
        ]),
      'party[0].rates[1].from (diver "a")',
      /from 2027-03-07 stands after one from 2027-03-08/,
    ],
    [
      'a day twice',
      (d) =>
        (d.days = [
          { date: '2027-03-06', notes: 'Fog.' },
          { date: '2027-03-06', notes: 'Sun.' },
        ]),
      'days[1].date',
      /The day 2027-03-06 is there twice/,
    ],
  ];

  it.each(cases)('finds %s', (_, change, where, what) => {
    const troubles = broken(change);
    expect(troubles.map((trouble) => trouble.where)).toEqual([where]);
    expect(troubles[0].what).toMatch(what);
    expect(troubles[0].kind).toBe('invalid');
    expect(troubles[0].mend.length).toBeGreaterThan(5);
  });
});
