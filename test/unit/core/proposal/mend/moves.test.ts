import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../../../../core/document/check-trip';
import type { Dive } from '../../../../../core/document/types';
import { mendedTrip, otherMixes, reachOn, shapedDive } from '../../../../../core/proposal/mend/carried-out';
import {
  compareTreatments,
  DEAREST,
  DROPPED,
  FEET_STEPS,
  FIXED,
  FULL_REACH,
  KEPT,
  METRIC_STEPS,
  pointsOf,
  priceOf,
  USUAL_COSTS,
} from '../../../../../core/proposal/mend/moves';
import { doneCountOf } from '../../../../../core/proposal/mend/request';
import { surroundingsOf } from '../../../../../core/profile';
import { settingsFrom } from '../../../../../core/settings-schema';
import { wallMin } from '../../../../../core/words/calendar';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';

describe('costs', () => {
  it('are the usual weights: whole points, a dropped dive for itself', () => {
    expect(USUAL_COSTS).toEqual({ later: 1, shallower: 2, shorter: 1, mix: 5, leaveOut: 40, drop: 150 });
    const treatment = { ...KEPT, later: 4, shallower: 3, shorter: 2, mix: 'air', leftOut: [0, 2] };
    expect(pointsOf(treatment, USUAL_COSTS)).toBe(4 + 6 + 2 + 5 + 80);
    expect(pointsOf({ ...treatment, isDropped: true }, USUAL_COSTS)).toBe(150);
  });

  it('put points before dives touched, and both into one number', () => {
    const minute = priceOf({ ...KEPT, shorter: 1 }, USUAL_COSTS);
    expect(priceOf(KEPT, USUAL_COSTS)).toBe(0);
    expect(2 * minute).toBeGreaterThan(priceOf({ ...KEPT, shorter: 2 }, USUAL_COSTS));
    expect(100 * minute).toBeLessThan(priceOf({ ...KEPT, shorter: 101 }, USUAL_COSTS));
  });
});

describe('compareTreatments', () => {
  it('puts a dive touched before one that is not, then fewer points', () => {
    const order = [{ ...KEPT, shorter: 1 }, { ...KEPT, shorter: 2 }, DROPPED, KEPT];
    const sorted = order.toReversed().toSorted((a, b) => compareTreatments(a, b, USUAL_COSTS, []));
    expect(sorted).toEqual(order);
  });

  it('puts made before dropped, mixes in the order of the trip, and the first of the party first', () => {
    const costs = { ...USUAL_COSTS, drop: 5, leaveOut: 5 };
    const order = [
      { ...KEPT, leftOut: [0] },
      { ...KEPT, leftOut: [1] },
      { ...KEPT, mix: 'rich' },
      { ...KEPT, mix: 'air' },
      DROPPED,
    ];
    const sorted = order.toReversed().toSorted((a, b) => compareTreatments(a, b, costs, ['rich', 'air']));
    expect(sorted).toEqual(order);
  });
});

describe('shapedDive', () => {
  const trip = aTrip([]);
  const around = surroundingsOf(trip);
  const levels = [
    { depthM: 30, min: 10 },
    { depthM: 12, min: 20 },
  ];

  it('moves every level and takes minutes of one', () => {
    const dive = aDive({ depthM: 30, bottomMin: 30, legs: levels });
    expect(shapedDive(dive, 2, 1, 5, around)).toMatchObject({
      depthM: 28,
      bottomMin: 25,
      legs: [
        { depthM: 28, min: 10 },
        { depthM: 10, min: 15 },
      ],
    });
  });

  it('leaves no level above 5 m, no time under 5 min or the way down, no stop below the dive', () => {
    const dive = aDive({ depthM: 8, bottomMin: 12 });
    expect(shapedDive(dive, 3, 0, 0, around)).toMatchObject({ depthM: 5 });
    expect(shapedDive(dive, 4, 0, 0, around)).toBeNull();
    expect(shapedDive(dive, 0, 0, 7, around)).toMatchObject({ bottomMin: 5 });
    expect(shapedDive(dive, 0, 0, 8, around)).toBeNull();
    const steep = aDive({ depthM: 30, bottomMin: 30, legs: levels });
    expect(shapedDive(steep, 0, 0, 9, around)).toBeNull();
    const stopped = aDive({ depthM: 8, bottomMin: 20, safetyStop: { depthM: 6, min: 3 } });
    expect(shapedDive(stopped, 1, 0, 0, around)).not.toBeNull();
    expect(shapedDive(stopped, 2, 0, 0, around)).toBeNull();
  });

  it('writes depths without the dust of a subtraction, and whole feet where they were', () => {
    expect(shapedDive(aDive({ depthM: 18.3 }), 1, 0, 0, around)?.depthM).toBe(17.3);
    const feet = shapedDive(aDive({ depthM: 60 * 0.3048 }), 2 * FEET_STEPS.shallowerM, 0, 0, around)!;
    expect(feet.depthM / 0.3048).toBeCloseTo(54, 9);
  });
});

describe('reachOn', () => {
  it('ends with the day, at 5 m and at 5 min', () => {
    const trip = aTrip([aDive({ startsAt: '2027-03-06T22:00', depthM: 12, bottomMin: 25 })]);
    expect(reachOn(trip, trip.dives[0]!, METRIC_STEPS, FULL_REACH)).toMatchObject({
      later: 23,
      shallower: 7,
      shorter: 20,
      fewestDivers: 1,
    });
  });
});

describe('dives that somebody will miss', () => {
  const party = [aDiver({ id: 'a' }), aDiver({ id: 'b' }), aDiver({ id: 'c' })];

  it('are moved for who makes them, and keep who missed them', () => {
    const dive = aDive({ notDived: [{ by: 'b' }] });
    const trip = aTrip([dive], { party });
    expect(reachOn(trip, dive, METRIC_STEPS, FULL_REACH).fewestDivers).toBe(2);
    const mended = mendedTrip(trip, [{ ...KEPT, leftOut: [2] }], METRIC_STEPS);
    expect(mended.dives[0]).toMatchObject({ divers: ['a', 'b'], notDived: [{ by: 'b' }] });
    expect(checkTrip(mended)).toEqual([]);
  });

  it('are not moved where nobody makes them', () => {
    const dive = aDive({ notDived: [{}] });
    expect(reachOn(aTrip([dive], { party }), dive, METRIC_STEPS, FULL_REACH)).toEqual({
      ...FIXED,
      fewestDivers: 0,
    });
  });
});

describe('otherMixes', () => {
  it('are those on board that the dive does not name; none where a cylinder is analysed', () => {
    const trip = aTrip([]);
    expect(otherMixes(trip, aDive({ mix: 'air' }))).toEqual(['lean', 'rich']);
    expect(otherMixes(trip, aDive({ mix: 'auto', onBoard: ['air', 'rich'] }))).toEqual(['air', 'rich']);
    expect(otherMixes(trip, aDive({ asDived: [{ o2: 0.31 }] }))).toEqual([]);
  });
});

describe('mendedTrip', () => {
  const party = [aDiver({ id: 'a' }), aDiver({ id: 'b' }), aDiver({ id: 'c' })];
  const records = [{ by: 'b', o2: 0.3 }];
  const first: Dive = aDive({ id: 'first', asDived: records });
  const second: Dive = aDive({ id: 'second', startsAt: '2027-03-06T12:00' });

  it('keeps what it does not touch as the same objects', () => {
    const trip = aTrip([first, second], { party });
    const mended = mendedTrip(trip, [KEPT, { ...KEPT, later: 2 }], METRIC_STEPS);
    expect(mended.dives[0]).toBe(first);
    expect(mended.dives[1]).toEqual({ ...second, startsAt: '2027-03-06T12:10' });
  });

  it('takes with a diver what was analysed for them, so that the file is still one', () => {
    const trip = aTrip([first, second], { party });
    const mended = mendedTrip(trip, [{ ...KEPT, leftOut: [1] }, DROPPED], METRIC_STEPS);
    expect(mended.dives).toHaveLength(1);
    expect(mended.dives[0]!.divers).toEqual(['a', 'c']);
    expect(mended.dives[0]).not.toHaveProperty('asDived');
    expect(checkTrip(mended)).toEqual([]);
  });
});

describe('doneCountOf', () => {
  const dives = ['08:00', '12:00', '16:00'].map((time) => aDive({ startsAt: `2027-03-06T${time}` }));

  it('counts to the last dive that is logged; an analysis leaves a dive planned', () => {
    expect(doneCountOf(aTrip(dives), null)).toBe(0);
    expect(doneCountOf(aTrip(dives.with(1, { ...dives[1]!, asDived: [{ bottomMin: 21 }] })), null)).toBe(2);
    expect(doneCountOf(aTrip(dives.with(1, { ...dives[1]!, asDived: [{}] })), null)).toBe(2);
    expect(doneCountOf(aTrip(dives.with(1, { ...dives[1]!, asDived: [{ o2: 0.21 }] })), null)).toBe(0);
  });

  it('counts dives planned to start by a moment', () => {
    expect(doneCountOf(aTrip(dives), wallMin('2027-03-06T11:59'))).toBe(1);
    expect(doneCountOf(aTrip(dives), wallMin('2027-03-06T12:00'))).toBe(2);
  });
});

describe('costs that are kept', () => {
  const costs = { ...USUAL_COSTS, later: DEAREST };

  it('are taken as whole points up to the dearest', () => {
    expect(settingsFrom({ mendCosts: costs }).mendCosts).toEqual(costs);
    expect(settingsFrom({ mendCosts: { ...costs, drop: DEAREST + 1 } }).mendCosts).toBeNull();
    expect(settingsFrom({ mendCosts: { ...costs, drop: 0.5 } }).mendCosts).toBeNull();
    expect(settingsFrom({}).mendCosts).toBeNull();
  });
});
