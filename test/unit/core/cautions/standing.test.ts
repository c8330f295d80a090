import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { standingOf, stateSaid, type Standing } from '../../../../core/cautions/standing';
import type { Id, Trip } from '../../../../core/document/types';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { roomMinutes } from '../../../../core/ledger/room';
import { fileWords } from '../../../../core/words/reader';
import { aDive, aDiver, AIR, aTrip, RICH } from '../../../builders/trip';

function standing(trip: Trip, how: { asked?: readonly Id[]; diverId?: Id } = {}): Standing {
  const of = ledger(trip);
  const asked = new Set(how.asked ?? trip.dives.map(({ id }) => id));
  return standingOf(of, cautionsOf(of), (entry) => roomMinutes(trip, entry), asked, how.diverId ?? null);
}

const says = (of: Standing, whose: string | null = null): string => fileWords(stateSaid(of, whose).says);
const tightIds = (of: Standing): readonly Id[] => [...new Set(of.tight.map(({ dive }) => dive.id))];

const easy = aDive({ id: 'easy', startsAt: '2027-03-06T08:00', depthM: 10, bottomMin: 20 });
const over = aDive({ id: 'over', startsAt: '2027-03-07T08:00', depthM: 30, bottomMin: 30 });
const hot = aDive({ id: 'hot', startsAt: '2027-03-08T08:00', depthM: 38, bottomMin: 5, mix: 'rich' });
const party = [aDiver({ maxO2: 1 })];
const mixes = [AIR, RICH];

describe('standingOf', () => {
  it('finds the demo trip within its limits, and its tightest dive', () => {
    const of = standing(demoTrip());
    expect(of.past).toEqual([]);
    expect(says(of)).toBe('all 22 dives are within limits');
    expect(tightIds(of)).toEqual(['d13']);
  });

  it('calls a dive past a limit past, and looks for the tightest among the others', () => {
    const of = standing(aTrip([easy, over, hot], { party, mixes }));
    expect(of.past).toEqual(['over', 'hot']);
    expect(tightIds(of)).toEqual(['easy']);
    expect(stateSaid(of, null)).toMatchObject({ diveIds: ['over', 'hot'], isPast: true });
    expect(says(of)).toBe('two dives pass a limit');
  });

  it('counts a caution to stop for, though minutes of room are left', () => {
    // Within every time, but richer than this diver may breathe.
    const trip = aTrip([{ ...easy, mix: 'rich' }], { party: [aDiver({ maxO2: 0.21 })], mixes });
    const [entry] = ledger(trip).divers[0]!.entries;
    expect(roomMinutes(trip, entry!).min).toBeGreaterThan(5);
    const of = standing(trip);
    expect(of.past).toEqual(['easy']);
    expect(of.tight).toEqual([]);
    expect(says(of)).toBe('one dive passes a limit');
  });

  it('tells a dive that no mix may make apart from one past a limit', () => {
    const deep = aDive({ id: 'deep', startsAt: '2027-03-09T08:00', depthM: 75, bottomMin: 8, mix: 'auto' });
    const of = standing(aTrip([easy, deep], { party, mixes }));
    expect(of.withoutMix).toEqual(['deep']);
    expect(of.past).toEqual([]);
    expect(says(of)).toBe('one dive has no mix that can be used there');
    expect(says(standing(aTrip([easy, over, deep], { party, mixes })))).toBe('one dive passes a limit');
  });

  it('names the limits of the trip itself, such as a flight too soon', () => {
    const of = standing(aTrip([easy], { party, mixes, flight: { at: '2027-03-06T12:00' } }));
    expect(of.pastTrip.map(({ code }) => code)).toEqual(['flight-too-soon']);
    expect(stateSaid(of, null)).toMatchObject({ isPast: true, diveIds: [] });
    expect(says(of)).toBe('the one dive is within limits, but the trip is not');
  });

  it('names what is to adjust where no limit is passed', () => {
    const again = aDive({ id: 'again', startsAt: '2027-03-06T08:50', depthM: 10, bottomMin: 20 });
    const of = standing(aTrip([easy, again], { party, mixes }));
    expect(of.past).toEqual([]);
    expect(of.toAdjust).toEqual(['again']);
    expect(says(of)).toBe('both dives are within limits; one to adjust');
  });

  it('looks at the dives asked about alone, and at one diver’s alone', () => {
    const trip = aTrip([easy, over], {
      party: [aDiver({ maxO2: 1 }), aDiver({ id: 'g2', name: 'Guest 2' })],
      mixes,
    });
    expect(standing(trip, { asked: ['easy'] }).past).toEqual([]);
    const alone = { ...trip, dives: [easy, { ...over, divers: ['guest-1'] }] };
    const theirs = standing(alone, { diverId: 'g2' });
    expect([theirs.dives, theirs.past]).toEqual([['easy'], []]);
    expect(says(theirs, 'Guest 2')).toBe('the dive of Guest 2 is within limits');
    expect(standing(alone, { diverId: 'guest-1' }).past).toEqual(['over']);
  });
});

describe('a trip under way', () => {
  it('is told by what lies ahead: what is done is neither past a limit nor tightest', () => {
    const later = { ...easy, id: 'later', startsAt: '2027-03-09T08:00' };
    const trip = aTrip([{ ...over, asDived: [{}] }, hot, later], { party, mixes });
    const ahead = standing(trip, { asked: ['hot', 'later'] });
    expect(ahead.past).toEqual(['hot']);
    expect(says(ahead)).toBe('one dive ahead passes a limit');
    expect(says(standing(trip, { asked: ['later'] }))).toBe('the one dive ahead is within limits');
    expect(says(standing(demoTrip(), { asked: ['d20', 'd21', 'd22'] }), 'Guide')).toBe(
      'all 3 dives ahead of Guide are within limits',
    );
    expect(standing(demoTrip()).isUnderWay).toBe(false);
  });
});
