import { describe, expect, it } from 'vitest';
import { secondOpinions } from '../../../../core/ledger/second-opinion';
import { tableDepthFsw } from '../../../../core/ledger/table-depth';
import { tableStep, type TableDive } from '../../../../core/tables/procedure';
import type { Ledger } from '../../../../core/ledger/ledger-types';
import { aDive, aDiver, aLedger, aTrip, RICH } from '../../../builders/trip';
import { surroundingsOf } from '../../../../core/profile';

/** Sixty feet of sea water in gauge water, metres. */
const SIXTY_FSW_M = (60 * 0.030643) / ((1019.7 * 9.80665) / 1e5);

function opinions(ledger: Ledger) {
  return secondOpinions(ledger.divers[0]!, ledger.trip);
}

/** The last reading of several dives in a row. */
function lastReading(dives: readonly TableDive[]) {
  let state = null;
  let reading;
  for (const dive of dives) ({ reading, state } = tableStep(dive, state));
  return reading!;
}

describe('tableDepthFsw', () => {
  const around = surroundingsOf(aTrip([]));

  it('turns pressure into feet of sea water', () => {
    expect(tableDepthFsw(SIXTY_FSW_M, 0.21, around)).toBeCloseTo(60, 4);
  });

  it('takes a mix at its equivalent air depth, and never above the surface', () => {
    // 0.64 * (60 + 33) / 0.79 - 33 = 42.3418
    expect(tableDepthFsw(SIXTY_FSW_M, 0.36, around)).toBeCloseTo(42.3418, 3);
    expect(tableDepthFsw(3, 0.4, around)).toBe(0);
  });
});

describe('tableStep', () => {
  it('rounds depth and time up, the interval down', () => {
    const first = { depthFsw: 60.01, bottomMin: 47.1, intervalMin: null };
    expect(lastReading([first])).toMatchObject({
      rowFsw: 70,
      equivalentMin: 48,
      isWithin: true,
      groupAfter: 'K',
    });
    const second = { depthFsw: 50, bottomMin: 10, intervalMin: 52.99 };
    expect(lastReading([first, second])).toMatchObject({ groupBefore: 'K', residualMin: 81 });
  });

  it('counts an interval of ten minutes as one, a shorter one as none', () => {
    const first = { depthFsw: 60, bottomMin: 20, intervalMin: null };
    const second = { depthFsw: 40, bottomMin: 10, intervalMin: 10 };
    expect(lastReading([first, second])).toMatchObject({ rowFsw: 40, groupBefore: 'D', residualMin: 37 });
    expect(lastReading([first, { ...second, intervalMin: 9.99 }])).toMatchObject({
      rowFsw: 60,
      residualMin: 0,
    });
  });

  it('goes to the 30 fsw row where the table says so', () => {
    // 40 fsw 160 min: O; the 25 fsw row prints a dagger for O: 308 min at 30 fsw, limit 371.
    const reading = lastReading([
      { depthFsw: 40, bottomMin: 160, intervalMin: null },
      { depthFsw: 22, bottomMin: 60, intervalMin: 20 },
    ]);
    expect(reading).toMatchObject({
      groupBefore: 'O',
      rowFsw: 30,
      residualMin: 308,
      limitMin: 371,
      groupAfter: 'Z',
    });
  });

  it('keeps the group where no residual time is given, and says why', () => {
    const reading = lastReading([
      { depthFsw: 40, bottomMin: 160, intervalMin: null },
      { depthFsw: 15, bottomMin: 60, intervalMin: 20 },
    ]);
    expect(reading).toMatchObject({ residualMin: null, unlimited: true, isWithin: true, groupAfter: 'O' });
    expect(reading.reason).toContain('no residual nitrogen time for group O at 15 fsw');
  });

  it('gives the asterisk group after a long shallow dive', () => {
    expect(lastReading([{ depthFsw: 15, bottomMin: 500, intervalMin: null }])).toMatchObject({
      groupAfter: 'I',
    });
  });

  it('joins three dives that follow each other closely, from the group of the first', () => {
    const reading = lastReading([
      { depthFsw: 50, bottomMin: 40, intervalMin: null },
      { depthFsw: 60, bottomMin: 10, intervalMin: 60 },
      { depthFsw: 30, bottomMin: 5, intervalMin: 9 },
      { depthFsw: 40, bottomMin: 6, intervalMin: 9.9 },
    ]);
    // F after 40 min at 50 fsw; after 1:00 E, residual 29 at 60 fsw; 10 + 5 + 6 min.
    expect(reading).toMatchObject({ rowFsw: 60, groupBefore: 'E', residualMin: 29, equivalentMin: 50 });
  });
});

describe('secondOpinions', () => {
  it('follows the dives of a diver, one opinion each', () => {
    const dives = [
      aDive({ depthM: SIXTY_FSW_M, bottomMin: 40 }),
      aDive({ depthM: SIXTY_FSW_M, bottomMin: 20, startsAt: '2027-03-06T09:56' }),
    ];
    const ledger = aLedger(dives);
    const { intervalMin } = ledger.divers[0]!.entries[1]!;
    expect(intervalMin).toBeGreaterThan(60);
    expect(intervalMin).toBeLessThan(104);
    // The first of the worked cases in test/published: H, then G, 40 + 20 = 60 of 63.
    expect(opinions(ledger)).toMatchObject([
      {
        diveId: dives[0]!.id,
        procedure: 'usn-rev7-air',
        groupBefore: null,
        groupAfter: 'H',
        residualMin: 0,
        agrees: true,
      },
      { groupBefore: 'G', residualMin: 40, equivalentMin: 60, limitMin: 63, groupAfter: 'K' },
    ]);
  });

  it('disagrees where only one of the two is past a limit', () => {
    // A multi-level dive is square to the table.
    const legs = [
      { depthM: 30, min: 8 },
      { depthM: 8, min: 40 },
    ];
    const ledger = aLedger([aDive({ depthM: 30, bottomMin: 48, legs })]);
    expect(ledger.divers[0]!.entries[0]!.isPastLimit).toBe(false);
    expect(opinions(ledger)).toMatchObject([{ isWithin: false, agrees: false, groupAfter: 'Z' }]);
  });

  it('counts the dives made before the trip', () => {
    const before = [
      { id: 'b1', startsAt: '2027-03-06T05:00', depthM: SIXTY_FSW_M, bottomMin: 40, mix: 'air' as const },
      { id: 'b2', startsAt: '2027-03-06T05:55', depthM: 39, bottomMin: 3, mix: 'auto' as const },
    ];
    const alone = opinions(aLedger([aDive()]))[0]!;
    const after = opinions(
      aLedger([aDive()], { mixes: [RICH, { ...RICH, id: 'air', o2: 0.21 }], party: [aDiver({ before })] }),
    )[0]!;
    expect(alone.residualMin).toBe(0);
    expect(after.residualMin).toBeGreaterThan(0);
  });

  it('has no row for the deepest dives, and counts from Z after them', () => {
    const ledger = aLedger([aDive({ depthM: 60, bottomMin: 5 }), aDive({ startsAt: '2027-03-06T12:00' })]);
    const [deep, next] = opinions(ledger);
    expect(deep).toMatchObject({ rowFsw: null, limitMin: null, isWithin: null, agrees: null });
    expect(deep!.reason).toContain('ends at 190');
    expect(['K', 'L', 'M']).toContain(next!.groupBefore);
  });

  it('does not enter the table at altitude or without a mix, and says why', () => {
    const within = { water: { density: 'fresh' as const, altitudeM: 300 } };
    expect(opinions(aLedger([aDive()], within))[0]!.agrees).toBe(true);
    const high = opinions(aLedger([aDive()], { water: { density: 'fresh', altitudeM: 301 } }))[0]!;
    expect(high).toMatchObject({ limitMin: null, groupAfter: null, agrees: null });
    expect(high.reason).toContain('300 m above sea level');
    const none = aLedger([aDive({ depthM: 35, mix: 'auto' }), aDive({ startsAt: '2027-03-06T12:00' })], {
      mixes: [RICH, { ...RICH, id: 'air', o2: 0.33 }],
    });
    expect(opinions(none)).toMatchObject([
      { limitMin: null, agrees: null },
      { residualMin: 0, groupBefore: null },
    ]);
  });
});
