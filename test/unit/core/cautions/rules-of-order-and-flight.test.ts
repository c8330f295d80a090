import { describe, expect, it } from 'vitest';
import type { Dive } from '../../../../core/document/types';
import { aDive, aLedger, RICH } from '../../../builders/trip';
import { codes, only, party } from '../../../support/cautions';

function secondDive(depthM: number, startsAt = '2027-03-06T12:00'): Dive {
  return aDive({ depthM, bottomMin: 5, startsAt });
}

function nineDaysBut(skip: number): readonly Dive[] {
  return Array.from({ length: 9 }, (_, i) => i)
    .filter((i) => i !== skip)
    .map((i) => aDive({ depthM: 9, startsAt: `2027-03-0${i + 1}T09:00` }));
}

describe('the order of dives', () => {
  it('changes an interval under an hour', () => {
    const ledger = aLedger([aDive({ depthM: 9, bottomMin: 29 }), aDive({ startsAt: '2027-03-06T09:29' })]);
    expect(only('short-interval', ledger).message).toContain('Only 59 min');
    expect(
      codes(aLedger([aDive({ depthM: 9, bottomMin: 29 }), aDive({ startsAt: '2027-03-06T09:30' })])),
    ).not.toContain('short-interval');
  });

  it('changes a dive more than 12 m deeper than the one before, on the same day', () => {
    const shallow = aDive({ depthM: 12 });
    expect(only('deeper-than-the-one-before', aLedger([shallow, secondDive(24.1)])).message).toContain(
      '24.1 m follows one to 12 m',
    );
    expect(codes(aLedger([shallow, secondDive(24)]))).not.toContain('deeper-than-the-one-before');
    expect(codes(aLedger([shallow, secondDive(30, '2027-03-07T08:00')]))).not.toContain(
      'deeper-than-the-one-before',
    );
  });

  it('changes a dive beyond 40 m after a shallower one', () => {
    const dives = [
      aDive({ depthM: 36, bottomMin: 5 }),
      aDive({ depthM: 42, bottomMin: 5, startsAt: '2027-03-06T12:00' }),
    ];
    expect(only('deeper-than-the-one-before', aLedger(dives)).message).toContain('beyond 40 m');
  });

  it('counts a dive made before the trip', () => {
    const before = [{ id: 'b', startsAt: '2027-03-06T05:00', depthM: 8, bottomMin: 20, mix: 'air' as const }];
    expect(codes(aLedger([aDive({ depthM: 25 })], party({ before })))).toContain(
      'deeper-than-the-one-before',
    );
  });

  it('knows the fifth dive of a day and the seventh day in a row', () => {
    const five = ['06:00', '09:00', '12:00', '15:00', '18:00'].map((time) =>
      aDive({ depthM: 9, startsAt: `2027-03-06T${time}` }),
    );
    expect(only('many-dives', aLedger(five))).toMatchObject({ severity: 'know', diveId: five[4]!.id });
    expect(codes(aLedger(five.slice(1)))).not.toContain('many-dives');
    expect(only('no-rest', aLedger(nineDaysBut(8))).message).toContain('2027-03-07 is diving day 7 in a row');
    expect(codes(aLedger(nineDaysBut(4)))).not.toContain('no-rest');
  });
});

describe('before and after the trip', () => {
  it('stops a flight too soon and says until when one may dive', () => {
    const dives = [aDive(), aDive({ startsAt: '2027-03-06T12:00' })];
    const { flyAfterMin, entries } = aLedger(dives).divers[0]!;
    const soon = aLedger(dives, { flight: { at: '2027-03-07T06:20' } });
    expect(flyAfterMin).toBe(entries[1]!.surfacesMin + 18 * 60);
    expect(only('flight-too-soon', soon).message).toContain('be out of the water by 2027-03-06 at 12:20');
    const later = aLedger(dives, { flight: { at: '2027-03-07T06:26' } });
    expect(codes(later)).not.toContain('flight-too-soon');
    expect(only('flight-hours', later).message).toContain('even after 24 h');
  });

  it('asks to adjust a flight that keeps the published hours and not the table’s', () => {
    // Two levels that the model takes and the table, for which they are square, does not: group Z, 21:01.
    const legs = [
      { depthM: 30, min: 12 },
      { depthM: 9, min: 50 },
    ];
    const dives = ['08:00', '12:00'].map((time) =>
      aDive({ depthM: 30, bottomMin: 62, legs, startsAt: `2027-03-06T${time}` }),
    );
    const at = (time: string) => aLedger(dives, { flight: { at: `2027-03-07T${time}` } });
    const asked = only('flight-before-other-view', at('08:00'));
    expect(asked).toMatchObject({ severity: 'change', diveId: null });
    expect(asked.message).toContain('by another view (Government table)');
    expect(codes(at('08:00'))).not.toContain('flight-too-soon');
    expect(codes(at('07:00'))).toContain('flight-too-soon');
    expect(codes(at('07:00'))).not.toContain('flight-before-other-view');
    expect(codes(at('10:30'))).not.toContain('flight-before-other-view');
  });

  it('takes 12 h after a single dive and 24 h after required stops', () => {
    const flight = { at: '2027-03-06T20:00' };
    expect(only('flight-too-soon', aLedger([aDive()], { flight })).message).toContain(
      '12 h after one no-stop dive',
    );
    const stops = aLedger([aDive({ depthM: 30, bottomMin: 45 })], { flight });
    expect(only('flight-too-soon', stops).message).toContain('24 h after a dive with required stops');
  });

  it('stops a climb to altitude soon after earlier dives', () => {
    const before = [
      { id: 'b', startsAt: '2027-03-05T10:00', depthM: 20, bottomMin: 30, mix: 'air' as const },
    ];
    const water = { density: 'fresh' as const, altitudeM: 1200 };
    const climb = (arrivedAt: string) => aLedger([aDive()], { water, ...party({ before, arrivedAt }) });
    expect(only('altitude-too-soon', climb('2027-03-05T15:00')).message).toContain('leave 12 h between them');
    expect(codes(climb('2027-03-05T23:00'))).not.toContain('altitude-too-soon');
  });

  it('counts the climb from the last of several earlier dives, 18 h', () => {
    const dive = { depthM: 20, bottomMin: 30, mix: 'air' as const };
    const before = [
      { ...dive, id: 'b1', startsAt: '2027-03-05T06:00' },
      { ...dive, id: 'b2', startsAt: '2027-03-05T11:00' },
    ];
    const water = { density: 'fresh' as const, altitudeM: 1200 };
    const later = aDive({ startsAt: '2027-03-07T08:00' });
    const climb = (arrivedAt: string) => aLedger([later], { water, ...party({ before, arrivedAt }) });
    expect(only('altitude-too-soon', climb('2027-03-06T05:00')).message).toContain('leave 18 h between them');
    expect(codes(climb('2027-03-06T05:40'))).not.toContain('altitude-too-soon');
  });

  it('stops where an earlier dive cannot be counted', () => {
    const before = [
      { id: 'b', startsAt: '2027-03-05T10:00', depthM: 39, bottomMin: 5, mix: 'auto' as const },
    ];
    const ledger = aLedger([aDive({ mix: 'rich' })], { mixes: [RICH], ...party({ before }) });
    const found = only('earlier-dive-without-mix', ledger);
    expect(found).toMatchObject({ severity: 'stop', diveId: null });
    expect(found.message).toContain('the dive to 39 m on 2027-03-05 at 10:00');
    expect(codes(aLedger([aDive()], party({ before })))).not.toContain('earlier-dive-without-mix');
  });
});

describe('heights', () => {
  const stay = (from: string, to: string, altitudeM: number) => ({
    events: [
      { id: 'e', title: 'Over the saddle', from: `2027-03-06T${from}`, to: `2027-03-06T${to}`, altitudeM },
    ],
  });

  it('stops a climb before the published hours', () => {
    const early = only('climb-too-soon', aLedger([aDive()], stay('12:00', '13:00', 2100)));
    expect(early).toMatchObject({ severity: 'stop', diveId: null });
    expect(early.message).toContain('is clear on 2027-03-06 at 20:');
    const late = aLedger([aDive({ startsAt: '2027-03-05T08:00' })], stay('12:00', '13:00', 2100));
    expect(codes(late)).not.toContain('climb-too-soon');
  });

  it('changes a climb that the table alone would have wait', () => {
    const long = aDive({ depthM: 12, bottomMin: 160 });
    const low = only('climb-before-other-view', aLedger([long], stay('11:00', '12:00', 299)));
    expect(low).toMatchObject({ severity: 'change', diveId: null });
    expect(low.message).toContain('(Government table)');
    expect(codes(aLedger([aDive()], stay('11:00', '12:00', 299)))).not.toContain('climb-before-other-view');
  });

  it('changes a dive whose height no event tells of', () => {
    const sites = [{ id: 'wall', name: 'Tarn', depthM: 40, notes: '', water: { altitudeM: 300 } }];
    expect(only('height-not-told', aLedger([aDive()], { sites })).severity).toBe('change');
    expect(codes(aLedger([aDive()], { sites, ...stay('07:00', '12:00', 300) }))).not.toContain(
      'height-not-told',
    );
  });
});
