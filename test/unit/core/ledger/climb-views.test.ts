import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import type { Trip, TripEvent } from '../../../../core/document/types';
import { ledger } from '../../../../core/ledger/ledger';
import { secondOpinions } from '../../../../core/ledger/second-opinion';
import { altitudeBar } from '../../../../core/water';
import { wallMin } from '../../../../core/words/calendar';
import { climbLines } from '../../../../core/ledger/climb-said';
import { fileWords } from '../../../../core/words/reader';
import { aDive, aDiver, aLedger, aTrip } from '../../../builders/trip';

const SEA = { id: 'wall', name: 'Wall', depthM: 40, notes: '' };
const TARN = { id: 'tarn', name: 'High tarn', depthM: 20, notes: '', water: { altitudeM: 1850 } };

function event(from: string, to: string, altitudeM: number, title = 'Over the saddle'): TripEvent {
  return { id: `e-${from}`, title, from: `2027-03-${from}`, to: `2027-03-${to}`, altitudeM };
}

function climbsOf(dives: Trip['dives'], change: Partial<Trip>) {
  return aLedger(dives, change).divers[0]!.climbs;
}

function told(trip: Trip, code: string): readonly string[] {
  return cautionsOf(ledger(trip))
    .filter((caution) => caution.code === code)
    .map(({ says }) => fileWords(says));
}

describe('going up after dives', () => {
  const two = [aDive(), aDive({ startsAt: '2027-03-06T12:00' })];

  it('is asked by hours, table and model, and the latest counts', () => {
    const [climb] = climbsOf(two, { events: [event('06T16:00', '06T17:30', 2100)] });
    const surfacedMin = climb!.lastSurfacingMin;
    expect(climb).toMatchObject({
      climb: { fromM: 0, toM: 2100, atMin: wallMin('2027-03-06T16:00') },
      guideline: { hours: 18, clearMin: surfacedMin + 18 * 60 },
      latest: 'guideline',
      clearMin: surfacedMin + 18 * 60,
    });
    expect(climb!.table.clearMin).toBeLessThan(climb!.guideline!.clearMin!);
  });

  it('waits no less before a climb that is higher than the table has it, and says so', () => {
    const [at, above] = [3048, 3500].map(
      (altitudeM) => climbsOf(two, { events: [event('06T16:00', '06T17:30', altitudeM)] })[0]!,
    );
    expect(above!.table.clearMin).toBe(at!.table.clearMin);
    const whys = [at!, above!].map((views) => fileWords(climbLines(views)[1]!.why));
    expect(whys[0]).toMatch(/^\d+ h \d+ min from group \w, the highest of the last 24 h, up to 3,?048 m$/);
    expect(whys[1]).toMatch(
      /^at least \d+ h \d+ min from group \w, .+, as the table ends at a climb of 3,?048 m, up to 3,?500 m$/,
    );
  });

  it('takes the hours for a climb of 300 m and more alone', () => {
    const up = (altitudeM: number) =>
      climbsOf(two, { events: [event('06T16:00', '06T17:30', altitudeM)] })[0]!;
    expect(up(299).guideline).toBeNull();
    expect(up(300).guideline).not.toBeNull();
  });

  it('counts the dives before it alone, and none where there are none', () => {
    const events = [event('06T10:00', '06T11:00', 900), event('06T16:00', '06T17:00', 900)];
    expect(climbsOf(two, { events }).map(({ guideline }) => guideline!.hours)).toEqual([12, 18]);
    expect(climbsOf(two, { events: [event('05T10:00', '05T11:00', 900)] })).toEqual([]);
  });

  it('counts the way back up from a stay that is lower, and none between two at one height', () => {
    const water = { density: 'gauge' as const, altitudeM: 1000 };
    const events = [event('06T06:00', '06T18:00', 0, 'Down at the sea'), event('07T10:00', '07T11:00', 800)];
    const made = climbsOf(two, { water, events, sites: [{ ...SEA, water: { altitudeM: 0 } }] });
    expect(made.map(({ climb }) => [climb.fromM, climb.toM])).toEqual([
      [0, 1000],
      [800, 1000],
    ]);
    const joined = [event('07T10:00', '07T11:00', 900), event('07T11:00', '07T12:00', 900)];
    expect(climbsOf(two, { events: joined })).toHaveLength(1);
    const higher = [event('07T10:00', '07T11:00', 900), event('07T11:00', '07T12:00', 1500)];
    expect(climbsOf(two, { events: higher }).map(({ climb }) => climb.fromM)).toEqual([0, 900]);
  });

  it('has no table above 300 m, nor with a dive whose group counts on from there', () => {
    const events = [event('07T06:00', '07T12:00', 1850, 'The tarn'), event('07T20:00', '07T21:00', 900)];
    const dives = [
      aDive({ id: 'a', siteId: 'tarn', depthM: 15, startsAt: '2027-03-07T08:00' }),
      aDive({ id: 'b', startsAt: '2027-03-07T13:00' }),
    ];
    const [last] = climbsOf(dives, { events, sites: [SEA, TARN] });
    expect(last!.table.clearMin).toBeNull();
    expect(last!.model.clearMin).not.toBeNull();
  });

  it('is a stop before the hours, a change before the table alone, and tells until when to wait', () => {
    const early = aTrip(two, { events: [event('06T16:00', '06T17:30', 2100)] });
    const surfacedMin = ledger(early).divers[0]!.climbs[0]!.lastSurfacingMin;
    const [says] = told(early, 'climb-too-soon');
    expect(says).toContain('The climb to 2100 m (“Over the saddle”) on 2027-03-06 at 16:00 comes 14 h');
    expect(says).toContain('(Published hours)');
    expect(told(early, 'climb-before-other-view')).toEqual([]);
    // 1,000 ft and a late group: the hours do not apply, the table does.
    const long = [aDive({ depthM: 12, bottomMin: 160 })];
    const low = aTrip(long, { events: [event('06T11:00', '06T12:00', 299)] });
    expect(told(low, 'climb-too-soon')).toEqual([]);
    expect(told(low, 'climb-before-other-view')[0]).toContain('(Government table)');
    const late = aTrip(two, { events: [event('07T16:00', '07T17:30', 2100)] });
    expect(wallMin('2027-03-07T16:00')).toBeGreaterThan(surfacedMin + 18 * 60);
    expect(told(late, 'climb-too-soon')).toEqual([]);
  });
});

describe('dives at several heights and in several waters', () => {
  it('are reckoned each in its own', () => {
    const dives = [
      aDive({ id: 'a', depthM: 18 }),
      aDive({ id: 'b', depthM: 18, siteId: 'tarn', startsAt: '2027-03-09T08:00' }),
      aDive({ id: 'c', depthM: 18, siteId: 'fresh', startsAt: '2027-03-12T08:00' }),
    ];
    const sites = [SEA, TARN, { ...SEA, id: 'fresh', water: { density: 'fresh' as const } }];
    const events = [event('08T20:00', '10T12:00', 1850, 'The tarn')];
    const [sea, high, fresh] = aLedger(dives, { sites, events }).divers[0]!.entries;
    expect(sea!.po2Bar).toBeCloseTo(0.21 * (1.01325 + (18 * 1019.7 * 9.80665) / 1e5), 9);
    expect(fresh!.po2Bar).toBeCloseTo(0.21 * (1.01325 + (18 * 1000 * 9.80665) / 1e5), 9);
    expect(high!.po2Bar! - sea!.po2Bar!).toBeCloseTo(0.21 * (altitudeBar(1850) - 1.01325), 9);
    // The same depth is a deeper dive where less air lies on the water: less time, a deeper MOD.
    expect(high!.noStopMin).toBeLessThan(sea!.noStopMin!);
    expect(high!.modM).toBeGreaterThan(sea!.modM!);
  });

  it('hold the pressure of the dive’s own water while under it, whatever the event', () => {
    const dives = [aDive({ id: 'a' }), aDive({ id: 'b', siteId: 'tarn', startsAt: '2027-03-07T08:00' })];
    const found = told(aTrip(dives, { sites: [SEA, TARN] }), 'height-not-told');
    expect(found).toHaveLength(1);
    expect(found[0]).toContain('1850 m');
    const events = [event('06T20:00', '07T12:00', 1850, 'The tarn')];
    expect(told(aTrip(dives, { sites: [SEA, TARN], events }), 'height-not-told')).toEqual([]);
    // A stay that covers a dive in the sea contradicts it.
    const over = [event('06T07:00', '06T12:00', 1850, 'The tarn')];
    expect(told(aTrip(dives.slice(0, 1), { sites: [SEA], events: over }), 'height-not-told')[0]).toContain(
      'while “The tarn”',
    );
  });

  it('enter the table in their own water, and not with a group from too high', () => {
    const dives = [
      aDive({ id: 'a', siteId: 'tarn', depthM: 15, startsAt: '2027-03-07T08:00' }),
      aDive({ id: 'b', startsAt: '2027-03-07T11:00' }),
      aDive({ id: 'c', startsAt: '2027-03-09T11:00' }),
    ];
    const whole = aLedger(dives, { sites: [SEA, TARN] });
    const opinions = secondOpinions(whole.divers[0]!, whole.trip);
    expect(opinions.map(({ holds }) => holds)).toEqual(['too high', 'after a dive too high', 'holds']);
    expect(opinions.map(({ groupAfter }) => groupAfter === null)).toEqual([true, true, false]);
  });

  it('leave a diver who climbed before the trip on what the sea left', () => {
    const before = [{ id: 'x', startsAt: '2027-03-05T10:00', depthM: 30, bottomMin: 20, mix: 'air' }];
    const diver = aDiver({ before, arrivedAt: '2027-03-05T20:00' });
    const water = { density: 'gauge' as const, altitudeM: 1500 };
    const { earlier } = aLedger([], { water, party: [diver] }).divers[0]!;
    expect(earlier[0]!.po2Bar).toBeCloseTo(0.21 * (1.01325 + (30 * 1019.7 * 9.80665) / 1e5), 9);
  });
});
