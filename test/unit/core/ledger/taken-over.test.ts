/** What a ledger takes over from the one before an edit: only what the edit did not touch. */
import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { secondOpinions } from '../../../../core/ledger/second-opinion';
import type { Ledger } from '../../../../core/ledger/ledger-types';
import { timelineOf, type Timeline } from '../../../../core/ledger/timeline';
import type { Dive, Trip } from '../../../../core/document/types';

/** A shallow dive, soon after it one with little room, and one the morning after. */
function threeDives(): Trip {
  const trip = demoTrip();
  const [first] = trip.dives;
  const dive = (id: string, startsAt: string, depthM: number, bottomMin: number): Dive => ({
    ...first!,
    id,
    startsAt,
    depthM,
    bottomMin,
    mix: 'auto',
  });
  return {
    ...trip,
    flight: null,
    party: [trip.party[0]!],
    dives: [
      dive('a', '2027-03-14T08:00', 12, 40),
      dive('b', '2027-03-14T08:50', 30, 18),
      dive('c', '2027-03-15T07:30', 18, 40),
    ],
  };
}

function withDive(trip: Trip, id: string, change: Partial<Dive>): Trip {
  return { ...trip, dives: trip.dives.map((dive) => (dive.id === id ? { ...dive, ...change } : dive)) };
}

describe('a ledger taken up again', () => {
  it('reckons gas and oxygen anew where an edit before a dive brings it stops, or takes them away', () => {
    const gentle = threeDives();
    const hard = withDive(gentle, 'a', { depthM: 30, bottomMin: 35 });
    for (const [before, after] of [
      [gentle, hard],
      [hard, gentle],
    ] as const) {
      const fresh = ledger(after);
      expect(ledger(after, ledger(before))).toEqual(fresh);
    }
    const [inside] = ledger(gentle).divers;
    const [past] = ledger(hard).divers;
    // The test would prove nothing were the dive not changed by stops, and the day after not by its oxygen.
    expect(inside!.entries[1]!.stops).toEqual([]);
    expect(past!.entries[1]!.stops!.length).toBeGreaterThan(0);
    expect(past!.entries[1]!.gas.usedL).not.toBeCloseTo(inside!.entries[1]!.gas.usedL!, 0);
    expect(past!.entries[2]!.cns.day).toBeGreaterThan(inside!.entries[2]!.cns.day!);
  });

  it('looks the table up anew where stops before a dive shorten its interval, though the group is what it was', () => {
    let told = 0;
    for (let min = 0; min < 60; min += 1) {
      const startsAt = `2027-03-14T12:${String(min).padStart(2, '0')}`;
      const later = withDive(withDive(threeDives(), 'c', { startsAt }), 'b', {
        startsAt: '2027-03-14T10:20',
        bottomMin: 30,
      });
      const before = withDive(later, 'a', { depthM: 30, bottomMin: 44 });
      const after = withDive(later, 'a', { depthM: 30, bottomMin: 50 });
      const [was, is] = [ledger(before), ledger(after)];
      expect(ledger(after, was)).toEqual(is);
      const groups = [was, is].map(({ divers }) => divers[0]!.entries.map(({ table }) => table!.groupBefore));
      // The group that the last dive counts on from, by another interval after the same dive.
      if (groups[0]![1] === groups[1]![1] && groups[0]![2] !== groups[1]![2]) told += 1;
    }
    expect(told).toBeGreaterThan(0);
  });
});

describe('a dive changed for one diver alone', () => {
  const [diver] = demoTrip().party;
  const party = ['own', 'other'].map((id) => ({ ...diver!, id, name: id }));
  const before = ledger({ ...threeDives(), party });
  const logged = withDive(before.trip, 'a', { asDived: [{ by: 'own', depthM: 20 }] });
  const after = ledger(logged, before);

  it('leaves the dives after it as they were for everybody else', () => {
    const [own, other] = after.divers.map(({ entries }) => entries);
    const [ownBefore, otherBefore] = before.divers.map(({ entries }) => entries);
    expect(other!.slice(1)).toEqual(otherBefore!.slice(1));
    expect(other![1]).toBe(otherBefore![1]);
    expect(other![2]).toBe(otherBefore![2]);
    expect(other![0]!.dive).toBe(logged.dives[0]);
    expect(own![1]!.tensionsBefore).not.toEqual(ownBefore![1]!.tensionsBefore);
    expect(after).toEqual(ledger({ ...logged, water: { ...logged.water } }));
  });

  it('is taken up again from there as from any other', () => {
    const back = withDive(logged, 'a', { asDived: [{ by: 'other', depthM: 20 }] });
    const again = ledger(back, after);
    expect(again).toEqual(ledger({ ...back, water: { ...back.water } }));
    expect(again.divers[1]!.entries[1]).not.toBe(after.divers[1]!.entries[1]);
  });
});

describe('a dive of levels taken up again', () => {
  it('reckons its minimum gas anew where an edit before it brings an earlier level past its limit', () => {
    const legs = [
      { depthM: 30, min: 18 },
      { depthM: 9, min: 20 },
      { depthM: 4, min: 15 },
    ];
    const gentle = withDive(threeDives(), 'b', { legs, bottomMin: 53, startsAt: '2027-03-14T09:10' });
    const hard = withDive(gentle, 'a', { depthM: 36, bottomMin: 30 });
    const [inside] = ledger(gentle).divers;
    const [past] = ledger(hard).divers;
    expect(inside!.entries[1]!.isPastLimit).toBe(false);
    expect(past!.entries[1]!).toMatchObject({ isPastLimit: true, stops: [] });
    // The legs are the very same, and only going up from 30 m takes more.
    expect(past!.entries[1]!.legs).toBe(inside!.entries[1]!.legs);
    expect(past!.entries[1]!.gas.minimumBar).toBeGreaterThan(inside!.entries[1]!.gas.minimumBar!);
    expect(ledger(hard, ledger(gentle))).toEqual(ledger(hard));
    expect(ledger(gentle, ledger(hard))).toEqual(ledger(gentle));
  });
});

describe('the bands after an edit', () => {
  const STEPS = { waterMin: 2, surfaceMin: 8 };
  const ends = (trip: Trip, untilMin: number, previous?: { whole: Ledger; bands: Timeline }) => {
    const whole = ledger(trip, previous?.whole);
    const [own] = whole.divers;
    const bands = timelineOf(own!, trip, untilMin, STEPS, previous?.bands);
    return { whole, own: own!, bands, points: bands.points };
  };

  it('run on to where the next dive begins now, and to where they end now', () => {
    const trip = threeDives();
    const lastMin = ledger(trip).divers[0]!.entries[2]!.surfacesMin + 600;
    const first = ends(trip, lastMin);
    const later = withDive(trip, 'c', { startsAt: '2027-03-15T09:30' });
    const second = ends(later, lastMin + 300, first);
    // The same entry as before, with a longer time at the surface after it.
    expect(second.own.entries[1]).toBe(first.own.entries[1]);
    expect(second.points.at(-1)!.atMin).toBe(lastMin + 300);
    const third = second.own.entries[2]!;
    const arrival = second.points.findIndex((point) => point.atMin === third.startMin);
    expect(second.points[arrival]!.surfacingTensions.map((bar) => Number(bar.toFixed(9)))).toEqual(
      third.tensionsBefore.map((bar) => Number(bar.toFixed(9))),
    );
    expect(timelineOf(second.own, later, lastMin + 900, STEPS, second.bands).points.at(-1)!.atMin).toBe(
      lastMin + 900,
    );
    // What was not touched is taken over, and all of it is what it would be from scratch.
    const [untouched] = second.own.entries;
    expect(second.bands.parts.get(untouched!)).toBe(first.bands.parts.get(untouched!));
    expect(second.bands).toEqual(timelineOf(second.own, later, lastMin + 300, STEPS));
    // Where points are wanted nearer to each other, nothing of the coarse ones is left.
    const closer = { waterMin: 1, surfaceMin: 2 };
    const near = timelineOf(second.own, later, lastMin + 300, closer, second.bands);
    expect(near).toEqual(timelineOf(second.own, later, lastMin + 300, closer));
    expect(near.points.length).toBeGreaterThan(second.bands.points.length);
  });
});

describe('a party of two groups whose divers stand by turns', () => {
  const trip = threeDives();
  const [diver] = trip.party;
  const guest = (id: string, high: number) => ({ ...diver!, id, name: id, gradient: { low: 0.5, high } });
  const party = [guest('early 1', 0.8), guest('late 1', 0.8), guest('early 2', 0.8), guest('late 2', 0.6)];
  const early = party.filter(({ id }) => id.startsWith('early')).map(({ id }) => id);
  const apart = withDive(withDive({ ...trip, party }, 'a', { divers: early }), 'b', { bottomMin: 10 });
  const of = ledger(apart);
  const [early1, late1, early2, late2] = of.divers.map(({ entries }) => entries.at(-2)!);

  it('is reckoned once a group, and limits apart once more', () => {
    expect(early2!.tensionsBefore).toBe(early1!.tensionsBefore);
    expect(late2!.tensionsBefore).toBe(late1!.tensionsBefore);
    expect(late1!.tensionsBefore).not.toEqual(early1!.tensionsBefore);
    expect(early2!.levels).toBe(early1!.levels);
    expect(late2!.noStopMin!).toBeLessThan(late1!.noStopMin!);
  });

  it('comes to what each diver comes to alone', () => {
    for (const each of of.divers) {
      const [alone] = ledger({ ...apart, water: { ...apart.water }, party: [each.diver] }).divers;
      expect(
        each.entries.map(({ leading, noStopMin, cns, gas }) => ({ leading, noStopMin, cns, gas })),
      ).toEqual(alone!.entries.map(({ leading, noStopMin, cns, gas }) => ({ leading, noStopMin, cns, gas })));
    }
  });

  it('reads the air table once a group, and holds it against each limit', () => {
    const opinions = of.divers.map((each) => secondOpinions(each, apart).at(-2)!);
    expect(early2!.table).toBe(early1!.table);
    expect(opinions[1]!.equivalentMin).not.toBe(opinions[0]!.equivalentMin);
    for (const [i, { entries }] of of.divers.entries()) {
      expect(opinions[i]!.agrees).toBe(opinions[i]!.isWithin === !entries.at(-2)!.isPastLimit);
    }
  });
});
