import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GROUPS, type Group } from '../../core/tables/data';
import { altitudeWaitMin, groupAfterInterval, rowFor, tableStep } from '../../core/tables/procedure';

const depths = fc.double({ min: 0, max: 190, noNaN: true });
const minutes = fc.double({ min: 0.5, max: 240, noNaN: true });
const intervals = fc.double({ min: 0, max: 1200, noNaN: true });
const groups = fc.constantFrom(...GROUPS);

function rank(group: Group | null): number {
  return group === null ? -1 : GROUPS.indexOf(group);
}

function first(depthFsw: number, bottomMin: number) {
  return tableStep({ depthFsw, bottomMin, intervalMin: null }, null);
}

describe('the hand procedure', () => {
  it('never lowers the group, nor finds a limit again, with a longer or deeper first dive', () => {
    fc.assert(
      fc.property(depths, minutes, fc.nat(60), (depthFsw, bottomMin, more) => {
        const { reading } = first(depthFsw, bottomMin);
        const longer = first(depthFsw, bottomMin + more).reading;
        const deeper = first(Math.min(190, depthFsw + more), bottomMin).reading;
        expect(rank(longer.groupAfter)).toBeGreaterThanOrEqual(rank(reading.groupAfter));
        expect(deeper.limitMin ?? Infinity).toBeLessThanOrEqual(reading.limitMin ?? Infinity);
        if (reading.isWithin === false) expect([longer.isWithin, deeper.isWithin]).toEqual([false, false]);
      }),
    );
  });

  it('never gains residual nitrogen with a longer interval of 10 minutes or more', () => {
    fc.assert(
      fc.property(groups, intervals, fc.nat(600), (group, intervalMin, more) => {
        const sooner = groupAfterInterval(group, intervalMin + 10);
        expect(rank(groupAfterInterval(group, intervalMin + 10 + more))).toBeLessThanOrEqual(rank(sooner));
        expect(rank(sooner)).toBeLessThanOrEqual(rank(group));
      }),
    );
  });

  it('enters at the same or the next deeper row, and the time that counts holds the time that was dived', () => {
    fc.assert(
      fc.property(depths, minutes, depths, minutes, intervals, (depth1, min1, depth2, min2, intervalMin) => {
        const { state } = first(depth1, min1);
        const { reading } = tableStep({ depthFsw: depth2, bottomMin: min2, intervalMin }, state);
        expect(reading.rowFsw!).toBeGreaterThanOrEqual(depth2 - 1e-9);
        if (reading.equivalentMin === null) expect(reading.reason).not.toBeNull();
        else expect(reading.equivalentMin).toBeGreaterThanOrEqual(min2 - 1e-9);
        if (reading.limitMin !== null) expect(rowFor(reading.rowFsw!)!.limitMin).toBe(reading.limitMin);
        else expect(reading.unlimited).toBe(true);
      }),
    );
  });

  it('waits longer before a higher climb and after a higher group', () => {
    fc.assert(
      fc.property(groups, fc.nat(10_000), fc.nat(3000), (group, feet, more) => {
        const wait = altitudeWaitMin(group, feet);
        expect(altitudeWaitMin(group, feet + more)).toBeGreaterThanOrEqual(wait);
        const higher = GROUPS[GROUPS.indexOf(group) + 1];
        if (higher) expect(altitudeWaitMin(higher, feet)).toBeGreaterThanOrEqual(wait);
      }),
    );
  });
});
