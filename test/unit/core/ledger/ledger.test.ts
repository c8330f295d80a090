import { describe, expect, it } from 'vitest';
import { dayNumber, wallDate, wallMin, wallText } from '../../../../core/words/calendar';
import { diverLedger, ledger } from '../../../../core/ledger/ledger';
import { mixFor, mayBreathe } from '../../../../core/ledger/mix-choice';
import { roomOf } from '../../../../core/ledger/room';
import type { Dive, Diver, Trip } from '../../../../core/document/types';
import { surroundingsOf } from '../../../../core/profile';

const guide: Diver = {
  id: 'guide',
  name: 'Guide',
  surfaceRateLpm: 15,
  cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 },
  maxDepthM: 40,
  maxO2: 0.4,
  po2: { working: 1.4, contingency: 1.6 },
  gradient: { low: 0.5, high: 0.8 },
};

function dive(
  id: string,
  startsAt: string,
  depthM: number,
  bottomMin: number,
  more: Partial<Dive> = {},
): Dive {
  return { id, siteId: 's', startsAt, depthM, bottomMin, mix: 'auto', ...more };
}

function tripOf(dives: readonly Dive[], more: Partial<Trip> = {}): Trip {
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'Two days',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    party: [guide],
    sites: [{ id: 's', name: 'Shelf', depthM: 30, notes: '' }],
    mixes: [
      { id: 'air', o2: 0.21, costPerFill: 0 },
      { id: 'ean32', o2: 0.32, costPerFill: 5 },
      { id: 'ean36', o2: 0.36, costPerFill: 7 },
    ],
    dives,
    flight: null,
    ...more,
  };
}

const only = (trip: Trip) => ledger(trip).divers[0]!;

describe('mixFor "auto"', () => {
  const around = surroundingsOf(tripOf([]));

  it('is the richest mix whose MOD reaches the planned depth', () => {
    const pick = (depthM: number) =>
      mixFor(dive('d', '2027-03-01T08:00', depthM, 20), guide, tripOf([]), around)?.id;
    expect(pick(28)).toBe('ean36');
    expect(pick(30)).toBe('ean32');
    expect(pick(40)).toBe('air');
    expect(pick(70)).toBeUndefined();
  });

  it("stays within the diver's ceiling", () => {
    const careful = { ...guide, maxO2: 0.32 };
    expect(mixFor(dive('d', '2027-03-01T08:00', 12, 20), careful, tripOf([]), around)?.id).toBe('ean32');
  });

  it('goes by what was analysed, not by the label', () => {
    const trip = tripOf([], { mixes: [{ id: 'ean36', o2: 0.36, analysedO2: 0.39, costPerFill: 0 }] });
    expect(mixFor(dive('d', '2027-03-01T08:00', 28, 20), guide, trip, around)).toBeNull();
  });

  it('allows for the fill to be richer than its label where the trip asks for it', () => {
    const settings = { ...tripOf([]).settings, analysisTolerance: 0.01 };
    const trip = tripOf([], { settings });
    const mix = trip.mixes[2]!;
    expect(mayBreathe(mix, 28.7, guide, tripOf([]), around)).toBe(true);
    expect(mayBreathe(mix, 28.7, guide, trip, around)).toBe(false);
    expect(mayBreathe({ ...mix, analysedO2: 0.36 }, 28.7, guide, trip, around)).toBe(true);
  });
});

describe('ledger', () => {
  it('starts at rest and carries nitrogen through intervals and nights', () => {
    const own = only(
      tripOf([
        dive('d1', '2027-03-01T08:00', 30, 20),
        dive('d2', '2027-03-01T10:00', 30, 20),
        dive('d3', '2027-03-02T08:00', 30, 20),
      ]),
    );
    const [first, second, third] = own.entries;
    const rest = 0.79 * (1.01325 - 0.0627);
    expect(new Set(first!.tensionsBefore)).toEqual(new Set([rest]));
    expect(second!.noStopMin!).toBeLessThan(first!.noStopMin!);
    expect(third!.noStopMin!).toBeGreaterThan(second!.noStopMin!);
    expect(third!.tensionsBefore[15]!).toBeGreaterThan(rest + 0.01);
    expect(second!.intervalMin!).toBeCloseTo(120 - (first!.surfacesMin - first!.startMin), 9);
  });

  it('halves the single-exposure clock every 90 minutes at the surface', () => {
    const [first, second] = only(
      tripOf([dive('d1', '2027-03-01T08:00', 25, 30), dive('d2', '2027-03-01T11:00', 15, 30)]),
    ).entries;
    expect(second!.cns.before).toBeCloseTo(first!.cns.after! * 2 ** (-second!.intervalMin! / 90), 12);
  });

  it('sums OTU by dive, day and trip, and gives each day what the days before left of it', () => {
    const own = only(
      tripOf([
        dive('d1', '2027-03-01T08:00', 20, 40),
        dive('d2', '2027-03-01T12:00', 20, 40),
        dive('d3', '2027-03-03T08:00', 20, 40),
      ]),
    );
    const doses = own.entries.map((entry) => entry.otu.dive!);
    expect(own.entries.map((entry) => entry.otu.day)).toEqual([doses[0], doses[0]! + doses[1]!, doses[2]]);
    expect(own.entries[2]!.otu.trip).toBeCloseTo(doses[0]! + doses[1]! + doses[2]!, 12);
    expect(own.days.map(({ date, dives }) => [date, dives])).toEqual([
      ['2027-03-01', 2],
      ['2027-03-03', 1],
    ]);
    expect(own.days[0]!.otuAllowed).toBe(850);
    // Day 3 of the mission, the rest day counted: its row is 1860.
    expect(own.days[1]!.otuAllowed).toBeCloseTo(1860 - doses[0]! - doses[1]!, 9);
  });

  it('leaves a dive out that no mix may go to, and goes on as if it were not made', () => {
    const without = only(
      tripOf([dive('d1', '2027-03-01T08:00', 20, 30), dive('d3', '2027-03-01T14:00', 20, 30)]),
    );
    const withIt = only(
      tripOf([
        dive('d1', '2027-03-01T08:00', 20, 30),
        dive('d2', '2027-03-01T11:00', 70, 20),
        dive('d3', '2027-03-01T14:00', 20, 30),
      ]),
    );
    const left = withIt.entries[1]!;
    expect([left.isMade, left.mix, left.noStopMin, left.po2Bar, left.gas.usedL]).toEqual([
      false,
      null,
      null,
      null,
      null,
    ]);
    expect(withIt.entries[2]!.tensionsBefore).toEqual(without.entries[1]!.tensionsBefore);
    expect(withIt.days[0]!.dives).toBe(2);
  });

  it('has no oxygen clock above 1.6 bar, nor on the dives after it', () => {
    const own = only(
      tripOf([
        dive('d1', '2027-03-01T08:00', 45, 10, { mix: 'ean36' }),
        dive('d2', '2027-03-01T14:00', 15, 30),
      ]),
    );
    expect(own.entries[0]!.po2Bar!).toBeGreaterThan(1.6);
    expect(own.entries.map((entry) => entry.cns.after)).toEqual([null, null]);
    expect(own.entries.map((entry) => entry.cns.day)).toEqual([null, null]);
    expect(own.entries[0]!.otu.dive!).toBeGreaterThan(0);
  });

  it('makes required stops part of every figure', () => {
    const inside = only(tripOf([dive('d1', '2027-03-01T08:00', 36, 6, { mix: 'air' })])).entries[0]!;
    const past = only(tripOf([dive('d1', '2027-03-01T08:00', 36, 25, { mix: 'air' })])).entries[0]!;
    expect(inside.stops).toEqual([]);
    expect(past.isPastLimit).toBe(true);
    const stopMin = past.stops!.reduce((sum, stop) => sum + stop.min, 0);
    expect(past.surfacesMin - past.startMin).toBeCloseTo(25 + 36 / 9 + stopMin, 9);
    expect(past.legs.filter((leg) => leg.kind === 'stop').map((leg) => leg.toM)).toEqual(
      past.stops!.map((stop) => stop.depthM),
    );
  });

  it('sees a level that ended past its own limit, though the last level is inside', () => {
    const legs = [
      { depthM: 36, min: 25 },
      { depthM: 9, min: 60 },
    ];
    const entry = only(tripOf([dive('d1', '2027-03-01T08:00', 36, 85, { mix: 'air', legs })])).entries[0]!;
    expect(entry.levelsPastLimitM).toEqual([36]);
    expect(entry.isPastLimit).toBe(true);
  });

  it('is at rest at altitude too, unless the diver has just come up', () => {
    const high = { water: { density: 'fresh' as const, altitudeM: 2000 } };
    const dives = [dive('d1', '2027-03-01T08:00', 18, 30)];
    const settled = only(tripOf(dives, high)).entries[0]!;
    const arrived = only(tripOf(dives, { ...high, party: [{ ...guide, arrivedAt: '2027-03-01T06:00' }] }))
      .entries[0]!;
    expect(arrived.tensionsBefore[15]!).toBeGreaterThan(settled.tensionsBefore[15]!);
    expect(arrived.noStopMin!).toBeLessThan(settled.noStopMin!);
    expect(arrived.intervalMin).toBeNull();
  });

  it('counts dives done before the trip like its own', () => {
    const earlier = { id: 'e1', startsAt: '2027-02-28T16:00', depthM: 30, bottomMin: 20, mix: 'air' };
    const arriving = tripOf([dive('d2', '2027-03-01T08:00', 20, 30)], {
      party: [{ ...guide, before: [earlier] }],
    });
    const asOne = tripOf([
      dive('d1', '2027-02-28T16:00', 30, 20, { mix: 'air' }),
      dive('d2', '2027-03-01T08:00', 20, 30),
    ]);
    const a = only(arriving).entries[0]!;
    const b = only(asOne).entries[1]!;
    a.tensionsBefore.forEach((tension, i) => expect(tension).toBeCloseTo(b.tensionsBefore[i]!, 12));
    expect(a.cns).toEqual(b.cns);
    expect(a.otu).toEqual(b.otu);
    expect(a.intervalMin).toBeCloseTo(b.intervalMin!, 9);
  });

  it('breathes what was analysed and dives what was dived', () => {
    const asDived = [{ o2: 0.31 }, { by: 'guide', depthM: 26, bottomMin: 33, startsAt: '2027-03-01T08:20' }];
    const entry = only(tripOf([dive('d1', '2027-03-01T08:00', 28, 25, { mix: 'ean32', asDived })]))
      .entries[0]!;
    expect([entry.o2, entry.depthM, entry.bottomMin, entry.isAsDived, entry.isAnalysed]).toEqual([
      0.31,
      26,
      33,
      true,
      true,
    ]);
    expect(wallText(entry.startMin)).toBe('2027-03-01T08:20');
  });

  it('counts a dive that was made on a gas of its own, though "auto" finds none for the plan', () => {
    const planned = dive('d1', '2027-03-01T08:00', 70, 20);
    const made = only(tripOf([{ ...planned, asDived: [{ o2: 0.25, depthM: 40, bottomMin: 10 }] }]))
      .entries[0]!;
    expect([made.isMade, made.o2, made.isAnalysed]).toEqual([true, 0.25, true]);
    expect(only(tripOf([planned])).entries[0]!.isMade).toBe(false);
  });

  it('is planned still where only the cylinder has been analysed', () => {
    const entry = only(tripOf([dive('d1', '2027-03-01T08:00', 28, 25, { asDived: [{ o2: 0.31 }] })]))
      .entries[0]!;
    expect([entry.isAsDived, entry.isAnalysed, entry.o2]).toEqual([false, true, 0.31]);
  });

  it('gives no time to what required stops run over', () => {
    const dives = [
      dive('d1', '2027-03-01T08:00', 39, 40, { mix: 'air' }),
      dive('d2', '2027-03-01T09:00', 12, 20),
    ];
    const [first, second] = only(tripOf(dives)).entries;
    expect(second!.intervalMin!).toBeLessThan(0);
    expect(second!.tensionsBefore).toEqual(first!.after.tensions);
  });

  it('has no flight to wait for without a dive', () => {
    const own = only(tripOf([]));
    expect([own.flyAfterMin, own.clearAtMin, own.days, own.entries]).toEqual([null, null, [], []]);
  });

  it('counts a diver as clear when each compartment is within 1 % of its limit', () => {
    const trip = tripOf([dive('d1', '2027-03-01T08:00', 30, 20)]);
    const own = only(trip);
    const next = diverLedger(tripOf([trip.dives[0]!, dive('d2', wallText(own.clearAtMin!), 5, 10)]), guide)
      .entries[1]!;
    const rest = 0.79 * (1.01325 - 0.0627);
    const shares = next.tensionsBefore.map((tension, i) => (tension - rest) / limit(i));
    function limit(i: number): number {
      const [a, b] = [
        [
          1.1696, 1, 0.8618, 0.7562, 0.62, 0.5043, 0.441, 0.4, 0.375, 0.35, 0.3295, 0.3065, 0.2835, 0.261,
          0.248, 0.2327,
        ][i]!,
        [
          0.5578, 0.6514, 0.7222, 0.7825, 0.8126, 0.8434, 0.8693, 0.891, 0.9092, 0.9222, 0.9319, 0.9403,
          0.9477, 0.9544, 0.9602, 0.9653,
        ][i]!,
      ];
      return 1.01325 + 0.8 * (a + 1.01325 / b - 1.01325) - rest;
    }
    expect(Math.max(...shares)).toBeLessThanOrEqual(0.01);
    expect(Math.max(...shares)).toBeGreaterThan(0.0098);
  });
});

describe('roomOf', () => {
  const room = (trip: Trip, at = 0) => roomOf(trip, only(trip).entries[at]!);

  it('names the limit that comes first', () => {
    const big = { ...guide, cylinder: { waterL: 24, fillBar: 200, reserveBar: 50 } };
    const deep = tripOf([dive('d1', '2027-03-01T08:00', 30, 15)], { party: [big] });
    expect(room(deep)).toMatchObject({ minLimit: 'no-stop', mLimit: 'mod' });
    const shallow = tripOf([dive('d1', '2027-03-01T08:00', 12, 40)]);
    expect(room(shallow).minLimit).toBe('gas');
    const bounded = tripOf([dive('d1', '2027-03-01T08:00', 20, 10)], { party: [{ ...big, maxDepthM: 22 }] });
    expect(room(bounded)).toMatchObject({ m: 2, mLimit: 'diver-depth' });
    const long = tripOf([dive('d1', '2027-03-01T08:00', 28, 110, { safetyStop: null })], {
      party: [{ ...guide, surfaceRateLpm: 1, gradient: { low: 1, high: 1 } }],
      mixes: [{ id: 'rich', o2: 0.36, costPerFill: 0 }],
    });
    expect(room(long).minLimit).toBe('no-stop');
    const oxygenBound = tripOf([dive('d1', '2027-03-01T08:00', 5, 60, { mix: 'rich' })], {
      party: [{ ...guide, surfaceRateLpm: 1, po2: { working: 1.6, contingency: 1.6 } }],
      mixes: [{ id: 'rich', o2: 1, costPerFill: 0 }],
    });
    expect(room(oxygenBound).minLimit).toBe('cns');
    const dayBound = {
      ...oxygenBound,
      dives: [
        { ...oxygenBound.dives[0]!, bottomMin: 110 },
        dive('d2', '2027-03-01T18:00', 5, 60, { mix: 'rich' }),
      ],
    };
    expect(room(dayBound, 1).minLimit).toBe('cns-day');
  });

  it('is negative where a limit is passed, and null with its name above 1.6 bar', () => {
    expect(room(tripOf([dive('d1', '2027-03-01T08:00', 36, 25, { mix: 'air' })])).min!).toBeLessThan(0);
    expect(room(tripOf([dive('d1', '2027-03-01T08:00', 34, 10, { mix: 'ean36' })])).m!).toBeLessThan(0);
    const beyond = room(tripOf([dive('d1', '2027-03-01T08:00', 45, 10, { mix: 'ean36' })]));
    expect([beyond.min, beyond.minLimit]).toEqual([null, 'po2']);
    expect(beyond.m!).toBeLessThan(0);
  });

  it('has nothing to say of an interval before a first dive, or of a dive that is not made', () => {
    expect(room(tripOf([dive('d1', '2027-03-01T08:00', 30, 15)])).earlierMin).toBeNull();
    expect(Object.values(room(tripOf([dive('d1', '2027-03-01T08:00', 70, 15)])))).toEqual([
      null,
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('the wall clock', () => {
  it('reads and writes the same minute, over month, year and leap day', () => {
    for (const text of ['2027-03-06T07:30', '2027-12-31T23:59', '2028-02-29T00:00', '1970-01-01T00:00']) {
      expect(wallText(wallMin(text))).toBe(text);
    }
    expect(wallMin('1970-01-02T01:01')).toBe(1440 + 61);
  });

  it('rounds up to the minute, but not for dust', () => {
    const at = wallMin('2027-03-06T07:30');
    expect(wallText(at + 0.01)).toBe('2027-03-06T07:31');
    expect(wallText(at + 1e-10)).toBe('2027-03-06T07:30');
  });

  it('knows the date of a moment', () => {
    expect(wallDate(wallMin('2027-03-06T23:59') + 0.9)).toBe('2027-03-06');
    expect(dayNumber(wallMin('1970-01-03T00:00'))).toBe(2);
  });

  it('refuses a date that does not exist', () => {
    expect(() => wallMin('2027-02-29T08:00')).toThrow(RangeError);
  });
});
