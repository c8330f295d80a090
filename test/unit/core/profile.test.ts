import { describe, expect, it } from 'vitest';
import {
  ascentLegs,
  legsOf,
  levelsOf,
  profileOf,
  runtimeMin,
  safetyStopOf,
  travelMin,
  surroundingsOf,
} from '../../../core/profile';

const around = surroundingsOf({
  water: { density: 'gauge', altitudeM: 0 },
  settings: {
    descentMPerMin: 18,
    ascentMPerMin: 9,
  },
});

const depths = (legs: readonly { kind: string; fromM: number; toM: number; min: number }[]) =>
  legs.map(({ kind, fromM, toM, min }) => [kind, fromM, toM, Number(min.toFixed(6))]);

describe('travelMin', () => {
  it('goes down at the descent rate and up at the ascent rate', () => {
    expect(travelMin(0, 18, around)).toBe(1);
    expect(travelMin(18, 0, around)).toBe(2);
    expect(travelMin(7, 7, around)).toBe(0);
  });
});

describe('profileOf', () => {
  it('lays a square dive out as descent, level, ascent to the stop, stop and ascent', () => {
    expect(depths(legsOf(profileOf({ depthM: 18, bottomMin: 41 }, around)))).toEqual([
      ['descent', 0, 18, 1],
      ['level', 18, 18, 40],
      ['ascent', 18, 5, 1.444444],
      ['stop', 5, 5, 3],
      ['ascent', 5, 0, 0.555556],
    ]);
  });

  it('counts bottom time from leaving the surface to leaving the last level', () => {
    const profile = profileOf(
      {
        depthM: 30,
        bottomMin: 25,
        legs: [
          { depthM: 30, min: 15 },
          { depthM: 12, min: 10 },
        ],
      },
      around,
    );
    expect(profile.bottomMin).toBe(25);
    expect(profile.deepestM).toBe(30);
    expect(runtimeMin(profile.toLastLevel) + profile.lastLevel.min).toBeCloseTo(25, 12);
    expect(depths(legsOf(profile)).slice(0, 4)).toEqual([
      ['descent', 0, 30, 1.666667],
      ['level', 30, 30, 13.333333],
      ['travel', 30, 12, 2],
      ['level', 12, 12, 8],
    ]);
  });

  it('gives each leg the pressures at its ends', () => {
    const [descent, level] = legsOf(profileOf({ depthM: 20, bottomMin: 30 }, around));
    expect(descent!.fromBar).toBe(around.column.surfaceBar);
    expect(descent!.toBar).toBeCloseTo(around.column.surfaceBar + 20 * around.column.barPerM, 12);
    expect(level!.fromBar).toBe(level!.toBar);
  });

  it('takes a dive that is descent alone', () => {
    expect(profileOf({ depthM: 18, bottomMin: 1 }, around).lastLevel.min).toBe(0);
  });

  it('calls a level shorter than the travel to it a fault, as the file is refused before', () => {
    expect(() => profileOf({ depthM: 18, bottomMin: 0.9 }, around)).toThrow(
      'a level shorter than the travel to it',
    );
  });
});

describe('safetyStopOf', () => {
  it('is 3 min at 5 m on a dive deeper than 10 m that says nothing', () => {
    expect(safetyStopOf({ depthM: 10.1, bottomMin: 30 })).toEqual({ depthM: 5, min: 3 });
    expect(safetyStopOf({ depthM: 10, bottomMin: 30 })).toBeNull();
  });

  it('is what the dive says, and none where it says none', () => {
    expect(safetyStopOf({ depthM: 9, bottomMin: 30, safetyStop: { depthM: 6, min: 5 } })).toEqual({
      depthM: 6,
      min: 5,
    });
    expect(safetyStopOf({ depthM: 30, bottomMin: 20, safetyStop: null })).toBeNull();
  });

  it('is none where the last level lies no deeper than it', () => {
    const legs = [
      { depthM: 20, min: 20 },
      { depthM: 5, min: 10 },
    ];
    expect(safetyStopOf({ depthM: 20, bottomMin: 30, legs })).toBeNull();
    expect(
      safetyStopOf({ depthM: 20, bottomMin: 30, legs: [legs[0]!, { depthM: 5.1, min: 10 }] }),
    ).not.toBeNull();
  });
});

describe('ascentLegs', () => {
  it('stops in turn and ends at the surface', () => {
    expect(
      depths(
        ascentLegs(
          12,
          [
            { depthM: 6, min: 2 },
            { depthM: 3, min: 4 },
          ],
          around,
        ),
      ),
    ).toEqual([
      ['ascent', 12, 6, 0.666667],
      ['stop', 6, 6, 2],
      ['ascent', 6, 3, 0.333333],
      ['stop', 3, 3, 4],
      ['ascent', 3, 0, 0.333333],
    ]);
  });

  it('needs no travel to a stop where it already is', () => {
    expect(depths(ascentLegs(6, [{ depthM: 6, min: 2 }], around)).map(([kind]) => kind)).toEqual([
      'stop',
      'ascent',
    ]);
  });

  it('calls a stop below the diver a fault', () => {
    expect(() => ascentLegs(5, [{ depthM: 6, min: 1 }], around)).toThrow('a stop below');
  });
});

describe('levelsOf', () => {
  it('is the dive itself where it has no levels', () => {
    expect(levelsOf({ depthM: 18, bottomMin: 40 })).toEqual([{ depthM: 18, min: 40 }]);
  });
});
