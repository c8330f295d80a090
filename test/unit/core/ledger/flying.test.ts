import { describe, expect, it } from 'vitest';
import type { EarlierDive } from '../../../../core/document/types';
import { flyingRow, lastSurfacingMin } from '../../../../core/ledger/flying';
import { aDive, aDiver, aLedger, RICH } from '../../../builders/trip';

function diverOf(...args: Parameters<typeof aLedger>) {
  return aLedger(...args).divers[0]!;
}

const gentle: EarlierDive = { id: 'b', startsAt: '2027-03-05T10:00', depthM: 10, bottomMin: 30, mix: 'air' };
const hard: EarlierDive = { ...gentle, depthM: 30, bottomMin: 45 };

function bringing(...before: readonly EarlierDive[]) {
  return { party: [aDiver({ before })] };
}

describe('flyingRow', () => {
  it('is one no-stop dive only for a diver who has made no other', () => {
    expect(flyingRow(diverOf([aDive()]))).toBe('oneNoStopDive');
    const two = diverOf([aDive(), aDive({ startsAt: '2027-03-09T08:00' })]);
    expect(flyingRow(two)).toBe('severalDivesOrDays');
    expect(flyingRow(diverOf([aDive()], bringing(gentle)))).toBe('severalDivesOrDays');
  });

  it('is required stops where any dive of the trip had them, or an early level did', () => {
    const stops = aDive({ depthM: 30, bottomMin: 45 });
    expect(flyingRow(diverOf([stops, aDive({ startsAt: '2027-03-08T08:00' })]))).toBe('requiredStops');
    const legs = [
      { depthM: 36, min: 25 },
      { depthM: 6, min: 60 },
    ];
    expect(flyingRow(diverOf([aDive({ depthM: 36, bottomMin: 85, legs })]))).toBe('requiredStops');
  });

  it('is required stops where a dive brought to the trip had them', () => {
    expect(flyingRow(diverOf([aDive()], bringing(hard)))).toBe('requiredStops');
  });

  it('holds for a diver who brought dives and makes none', () => {
    expect(flyingRow(diverOf([], bringing(gentle)))).toBe('oneNoStopDive');
    expect(flyingRow(diverOf([], bringing(hard)))).toBe('requiredStops');
  });

  it('reads a brought dive whose mix is not known as one with stops', () => {
    const deep = { ...gentle, depthM: 39, mix: 'auto' as const };
    const its = diverOf([], { mixes: [RICH], ...bringing(deep) });
    expect(flyingRow(its)).toBe('unknownMix');
    expect(its.flight!.guideline.hours).toBe(24);
    // 30 min to leaving the bottom, then 39 m at 9 m/min and the safety stop.
    expect(lastSurfacingMin(its)! - its.earlier[0]!.startMin).toBeCloseTo(30 + 39 / 9 + 3, 6);
  });

  it('leaves out a dive of the trip that no mix reaches, as it will not be made', () => {
    const none = aDive({ depthM: 39, mix: 'auto', startsAt: '2027-03-09T08:00' });
    expect(flyingRow(diverOf([aDive({ mix: 'rich' }), none], { mixes: [RICH] }))).toBe('oneNoStopDive');
  });

  it('is nothing without dives', () => expect(flyingRow(diverOf([]))).toBeNull());
});
