/** Dives brought to the trip count like dives of the trip: what is said of them, and what they change. */
import { describe, expect, it } from 'vitest';
import type { EarlierDive, Trip } from '../../../../core/document/types';
import { esotAdvised } from '../../../../core/oxygen/budgets';
import { diverOutcome } from '../../../../core/mixes/outcome';
import { aDive, aLedger, RICH } from '../../../builders/trip';
import { codes, only, party } from '../../../support/cautions';

let count = 0;

/** A dive to 9 m for 20 minutes on air, done before the trip. */
function brought(startsAt: string, change: Partial<EarlierDive> = {}): EarlierDive {
  count += 1;
  return { id: `before-${count}`, startsAt, depthM: 9, bottomMin: 20, mix: 'air', ...change };
}

function bringing(...before: readonly EarlierDive[]): Partial<Trip> {
  return party({ before });
}

const afternoon = aDive({ depthM: 9, startsAt: '2027-03-06T18:00' });

describe('dives brought to the trip', () => {
  it('make many dives of a day together with those of the trip', () => {
    const morning = ['05:00', '08:00', '11:00', '14:00'].map((time) => brought(`2027-03-06T${time}`));
    const found = only('many-dives', aLedger([afternoon], bringing(...morning)));
    expect(found).toMatchObject({ diveId: afternoon.id });
    expect(found.message).toContain('5 dives on 2027-03-06');
    expect(codes(aLedger([afternoon], bringing(...morning.slice(1))))).not.toContain('many-dives');
  });

  it('make a long run of days', () => {
    const days = [1, 2, 3, 4, 5, 6].map((day) => brought(`2027-03-0${day}T09:00`));
    const dive = aDive({ depthM: 9, startsAt: '2027-03-07T09:00' });
    expect(only('no-rest', aLedger([dive], bringing(...days))).message).toContain(
      '2027-03-07 is diving day 7 in a row',
    );
    expect(codes(aLedger([dive], bringing(...days.slice(1))))).not.toContain('no-rest');
    expect(codes(aLedger([dive], bringing(...days.toSpliced(3, 1))))).not.toContain('no-rest');
  });

  it('of the same day come before a deeper one, however long ago', () => {
    const early = brought('2027-03-06T05:00', { depthM: 8 });
    const deep = aDive({ depthM: 25, startsAt: '2027-03-06T15:00' });
    expect(only('deeper-than-the-one-before', aLedger([deep], bringing(early))).message).toContain(
      'follows one to 8 m',
    );
    const nextDay = { ...deep, startsAt: '2027-03-07T15:00' };
    expect(codes(aLedger([nextDay], bringing(early)))).not.toContain('deeper-than-the-one-before');
  });

  it('with stops that last into the first dive of the trip stop it, and leave one thing to do', () => {
    const hard = brought('2027-03-06T06:00', { depthM: 36, bottomMin: 60 });
    const soon = aDive({ depthM: 9, startsAt: '2027-03-06T07:15' });
    const { message } = only('stops-into-next-dive', aLedger([soon], bringing(hard)));
    expect(message).toMatch(/^This dive starts before the stops .*: start this one later\.$/);
  });

  it('with required stops ask for 24 h before a flight and before a climb', () => {
    const hard = brought('2027-03-05T06:00', { depthM: 30, bottomMin: 45 });
    const flight = { at: '2027-03-06T04:00' };
    expect(only('flight-too-soon', aLedger([], { flight, ...bringing(hard) })).message).toContain(
      '24 h after a dive with required stops',
    );
    const soon = aLedger([], { flight, ...bringing(brought('2027-03-05T18:00')) });
    expect(only('flight-too-soon', soon).message).toContain('12 h after one no-stop dive');
    expect(codes(soon)).toContain('flight-hours');

    const water = { density: 'fresh' as const, altitudeM: 1200 };
    const climb = (arrivedAt: string) =>
      aLedger([afternoon], { water, ...party({ before: [hard], arrivedAt }) });
    expect(only('altitude-too-soon', climb('2027-03-06T06:00')).message).toContain('leave 24 h between them');
    expect(codes(climb('2027-03-06T10:00'))).not.toContain('altitude-too-soon');
  });

  it('whose mix is not known ask for as long as dives with stops', () => {
    const unknown = brought('2027-03-05T06:00', { depthM: 39, mix: 'auto' });
    const ledger = aLedger([], {
      mixes: [RICH],
      flight: { at: '2027-03-06T04:00' },
      ...bringing(unknown),
    });
    expect(only('flight-too-soon', ledger).message).toContain('24 h after a dive whose mix is not known');
  });

  it('take from the oxygen of the day and of the mission', () => {
    const rich = { depthM: 28, bottomMin: 120, mix: 'rich' };
    const first = brought('2027-03-06T05:00', rich);
    const dive = aDive({ ...rich, startsAt: '2027-03-06T12:00' });
    const alone = aLedger([dive]).divers[0]!;
    const its = aLedger([dive], bringing(first)).divers[0]!;
    expect(its.days[0]!.otu).toBeCloseTo(2 * alone.days[0]!.otu, 9);
    expect(its.days[0]!.esot).toBeCloseTo(2 * alone.days[0]!.esot, 9);
    expect(its.days[0]!.cnsDayPeak).toBeGreaterThan(alone.days[0]!.cnsDayPeak!);
    // Brought two days ago: the allowance is that of the third day, less what it took.
    const earlier = aLedger([dive], bringing({ ...first, startsAt: '2027-03-04T12:00' })).divers[0]!;
    expect(earlier.days[0]!.otuAllowed).toBeCloseTo(1860 - alone.days[0]!.otu, 9);
  });

  it('count as diving days in the advice of ESOT, for cautions and for a stock', () => {
    const dive = aDive({ depthM: 28, bottomMin: 220, mix: 'rich', startsAt: '2027-03-07T12:00' });
    const days = [2, 3, 4, 5, 6].map((day) => brought(`2027-03-0${day}T09:00`));
    const alone = aLedger([dive]);
    const whole = aLedger([dive], bringing(...days));
    const { esot } = alone.divers[0]!.days[0]!;
    expect(esot).toBeGreaterThan(esotAdvised(6));
    expect(esot).toBeLessThan(esotAdvised(2));
    expect(codes(alone)).not.toContain('esot-over-day');
    expect(only('esot-over-day', whole).message).toContain('a trip with 6 diving days');
    expect(whole.divers[0]!.divingDays).toBe(6);
    expect(diverOutcome(whole.trip, whole.divers[0]!, new Set()).oxygenPeak).toBeGreaterThanOrEqual(
      esot / esotAdvised(6),
    );
  });
});
