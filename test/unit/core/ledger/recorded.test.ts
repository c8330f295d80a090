import { describe, expect, it } from 'vitest';
import { secondsApart, type Sample } from '../../../support/recorded';
import { effectiveDive } from '../../../../core/document/as-dived';
import { checkTrip } from '../../../../core/document/check-trip';
import { withAsPlanned, withLogged } from '../../../../core/document/log';
import { readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { entryWith, longer } from '../../../../core/ledger/changed-dive';
import { ledger } from '../../../../core/ledger/ledger';
import { roomOf } from '../../../../core/ledger/room';
import { leavesBottomMin } from '../../../../core/profile';
import type { AsDived, Trip } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

/** 18 m for 40 minutes at the usual rates, its stop at 5 m, as the plan has it. */
const SQUARE: readonly Sample[] = [
  [0, 0],
  [1, 18],
  [40, 18],
  [40 + 13 / 9, 5],
  [43 + 13 / 9, 5],
  [45, 0],
];

function recorded(record: AsDived, after: Partial<Trip> = {}): Trip {
  return aTrip(
    [
      aDive({ id: 'd', depthM: 18, bottomMin: 40, asDived: [record] }),
      aDive({ id: 'e', startsAt: '2027-03-06T11:00', depthM: 15, bottomMin: 40 }),
    ],
    after,
  );
}

function entriesOf(trip: Trip) {
  return ledger(trip).divers[0]!.entries;
}

function troublesOf(trip: Trip): string {
  return checkTrip(trip)
    .map(({ where, what }) => `${where}: ${what}`)
    .join('\n');
}

describe('a recorded profile', () => {
  it('comes to what the same corners come to as a plan', () => {
    const [asRecorded, next] = entriesOf(recorded({ samples: SQUARE }));
    const [asPlanned, nextAfterPlan] = entriesOf(recorded({}));
    expect(asRecorded).toMatchObject({ depthM: 18, bottomMin: 40, isAsDived: true, isAsPlanned: false });
    expect(asRecorded!.surfacesMin).toBeCloseTo(asPlanned!.surfacesMin, 9);
    asPlanned!.after.tensions.forEach((bar, i) => expect(asRecorded!.after.tensions[i]).toBeCloseTo(bar, 12));
    expect(asRecorded!.cns.after).toBeCloseTo(asPlanned!.cns.after!, 12);
    expect(asRecorded!.otu.dive).toBeCloseTo(asPlanned!.otu.dive!, 10);
    expect(asRecorded!.gas.usedL).toBeCloseTo(asPlanned!.gas.usedL!, 8);
    expect(asRecorded!.noStopMin).toBeCloseTo(asPlanned!.noStopMin!, 9);
    expect(next!.noStopMin).toBeCloseTo(nextAfterPlan!.noStopMin!, 9);
  });

  it('may begin under water, at its deepest too: as if it came there in no time', () => {
    const rest: readonly Sample[] = [
      [2, 17.5],
      [30, 12],
      [38, 0],
    ];
    const [under, afterUnder] = entriesOf(recorded({ samples: [[0, 18], ...rest] }));
    const [quick, afterQuick] = entriesOf(recorded({ samples: [[0, 0], [1e-6, 18], ...rest] }));
    expect(under).toMatchObject({ depthM: 18, levels: [{ depthM: 18 }, {}] });
    expect(under!.levels.map(({ noStopMin }) => noStopMin)).toEqual(
      quick!.levels.map(({ noStopMin }) => noStopMin && expect.closeTo(noStopMin, 4)),
    );
    expect(under!.noStopMin).toBeCloseTo(quick!.noStopMin!, 4);
    expect(afterUnder!.noStopMin).toBeCloseTo(afterQuick!.noStopMin!, 4);
  });

  it('does not care how finely it was sampled', () => {
    const [coarse] = entriesOf(recorded({ samples: SQUARE }));
    const [fine] = entriesOf(recorded({ samples: secondsApart(SQUARE, 10) }));
    coarse!.after.tensions.forEach((bar, i) => expect(fine!.after.tensions[i]).toBeCloseTo(bar, 12));
    expect(fine!.cns.day).toBeCloseTo(coarse!.cns.day!, 12);
    expect(fine!.bottomMin).toBeCloseTo(coarse!.bottomMin, 9);
  });

  it('is followed where it differs from the square reading of the same depth and time', () => {
    const spike: readonly Sample[] = [
      [0, 0],
      [2, 30],
      [4, 10],
      [60, 10],
      [61.5, 0],
    ];
    const [entry] = entriesOf(recorded({ samples: spike }));
    const [square] = entriesOf(recorded({ depthM: 30, bottomMin: 60 }));
    expect(entry).toMatchObject({ depthM: 30, bottomMin: 60, isPastLimit: false, stops: [] });
    expect(square!.isPastLimit).toBe(true);
    expect(entry!.leading.fractionOfLimit).toBeLessThan(square!.leading.fractionOfLimit);
    // The no-stop time beside the depth is that of the depth.
    expect(entry!.levels.map(({ depthM, min }) => [depthM, min])).toEqual([
      [30, 2],
      [10, 58],
    ]);
    const [own] = entriesOf(
      aTrip([aDive({ depthM: 30, bottomMin: 5 })], {
        settings: { ...recorded({}).settings, descentMPerMin: 15 },
      }),
    );
    expect(entry!.levels[0]!.noStopMin).toBeCloseTo(own!.noStopMin!, 9);
  });

  it('tells a limit that was passed on the way, and puts no stop in that nobody made', () => {
    const deep: readonly Sample[] = [
      [0, 0],
      [2, 36],
      [22, 36],
      [26, 12],
      [90, 12],
      [92, 0],
    ];
    const [entry] = entriesOf(recorded({ samples: deep }));
    expect(entry!.isPastLimit).toBe(true);
    expect(entry!.levelsPastLimitM).toEqual([36]);
    expect(entry!.legs).toHaveLength(6);
    expect(entry!.surfacesMin - entry!.startMin).toBeCloseTo(92, 9);
    expect(roomOf(recorded({ samples: deep }), entry!).min).toBeNull();
  });

  it('counts as known of what was breathed, and may be stayed on in thought', () => {
    const trip = recorded({ samples: SQUARE, endBar: 100 });
    const [entry] = entriesOf(trip);
    expect(entry!.gas.breathedLpm).not.toBeNull();
    const { shape } = effectiveDive(trip.dives[0]!, aDiver());
    const [stayed] = entriesOf(recorded({ depthM: 18, bottomMin: 41 }));
    expect(entryWith(trip, entry!, longer(shape, 1)).leading.fractionOfLimit).toBeCloseTo(
      stayed!.leading.fractionOfLimit,
      9,
    );
  });

  it("gives way to a diver's own depth, and stays beside an edit of anything else", () => {
    const trip = recorded({ samples: SQUARE });
    const [dive] = trip.dives;
    const party = ['guest-1'];
    const own = { ...dive!, asDived: [...dive!.asDived!, { by: 'guest-1', depthM: 20 }] };
    expect(effectiveDive(own, aDiver()).shape.samples).toBeUndefined();
    const later = withLogged(dive!, null, 'startsAt', '2027-03-06T08:10', party);
    expect(effectiveDive(later, aDiver()).shape.samples).toBe(SQUARE);
    const withTime = withLogged(dive!, null, 'bottomMin', 40, party);
    expect(withTime.asDived![0]).toMatchObject({ bottomMin: 40, samples: SQUARE });
    expect(withAsPlanned(dive!, null, party).asDived).toEqual([{}]);
  });
});

describe('leaving the bottom', () => {
  it.each<[string, readonly Sample[], number]>([
    ['a square dive', SQUARE, 40],
    [
      'there and back',
      [
        [0, 0],
        [2, 20],
        [4, 0],
      ],
      2,
    ],
    [
      'a slope up the reef',
      [
        [0, 0],
        [1, 20],
        [31, 8],
        [33, 0],
      ],
      31,
    ],
    [
      'a stay at 8 m on the way up',
      [
        [0, 0],
        [1, 20],
        [20, 20],
        [21.5, 8],
        [30, 8],
        [31, 0],
      ],
      30,
    ],
    [
      'a long shallow stop',
      [
        [0, 0],
        [1, 20],
        [20, 20],
        [22, 5.5],
        [40, 5],
        [41, 0],
      ],
      20,
    ],
    [
      'down again from the stop',
      [
        [0, 0],
        [1, 20],
        [20, 20],
        [22, 5],
        [24, 9],
        [25, 5],
        [26, 0],
      ],
      24,
    ],
    [
      'a shallow dive',
      [
        [0, 0],
        [1, 4],
        [30, 4],
        [31, 0],
      ],
      30,
    ],
    [
      'a dive along 5 m that touched 13 m',
      [
        [0, 0],
        [0.7, 13],
        [2, 5],
        [40, 5],
        [41, 0],
      ],
      40,
    ],
    [
      'a bottom of a minute',
      [
        [0, 0],
        [1, 13],
        [2, 5],
        [40, 5],
        [41, 0],
      ],
      1,
    ],
  ])('is read as late as can be: %s', (_, samples, min) => {
    expect(leavesBottomMin(samples)).toBe(min);
  });
});

describe('samples in a trip file', () => {
  it('come back as they are, a sample a line', () => {
    const trip = recorded({ samples: SQUARE });
    const text = writeTrip(trip);
    expect(text).toContain('\n            [1, 18],\n');
    const read = readTrip(text);
    expect(read.ok && read.value.dives[0]!.asDived![0]!.samples).toEqual(SQUARE);
  });

  it.each<[string, unknown, string]>([
    ['no list', 7, 'Samples are no list'],
    ['one', [[0, 0]], '1 are given'],
    [
      'text',
      [
        [0, 0],
        ['1', 5],
        [2, 0],
      ],
      'Sample 2 is not two numbers',
    ],
    [
      'a later start',
      [
        [1, 0],
        [2, 5],
        [3, 0],
      ],
      'not at 0 min',
    ],
    [
      'going back',
      [
        [0, 0],
        [2, 5],
        [2, 0],
      ],
      'Sample 3 is not later',
    ],
    [
      'above the water',
      [
        [0, 0],
        [2, -5],
        [3, 0],
      ],
      'Sample 2 lies at -5 m',
    ],
    [
      'an end under water',
      [
        [0, 0],
        [2, 5],
      ],
      'not at the surface',
    ],
    [
      'no depth',
      [
        [0, 0],
        [2, 0.5],
        [3, 0],
      ],
      'No sample is as deep as 1 m',
    ],
    ['too many', Array.from({ length: 8001 }, (_, at) => [at, 5]), '8001 are given'],
  ])('are refused with what and where: %s', (_, samples, what) => {
    const told = troublesOf(recorded({ samples } as unknown as AsDived));
    expect(told).toContain('dives[0].asDived[0].samples (dive "d")');
    expect(told).toContain(what);
  });

  it('bear out depth and time beside them', () => {
    expect(troublesOf(recorded({ samples: SQUARE, depthM: 18, bottomMin: 41 }))).toBe('');
    expect(troublesOf(recorded({ samples: SQUARE, depthM: 20 }))).toContain(
      'Depth is 20 m, but the recorded profile goes to 18 m',
    );
    expect(troublesOf(recorded({ samples: SQUARE, bottomMin: 45 }))).toContain(
      'the recorded profile ends after 45 min',
    );
  });
});
