import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../../core/document/demo-trip';
import type { Trip } from '../../../../../../core/document/types';
import { dayViews, headSentence } from '../../../../../../renderer/places/days/strip/day-view';
import { commonMix, diveViews, type DiveView } from '../../../../../../renderer/places/days/strip/dive-view';
import { marksOf, placementOf } from '../../../../../../renderer/places/days/strip/marks';
import { depthScale } from '../../../../../../renderer/places/days/strip/depth-scale';
import { spanOf, timeScale } from '../../../../../../renderer/places/days/strip/time-scale';
import {
  selectEntriesByDive,
  selectLedger,
  selectRoomLimit,
  selectRoomMin,
} from '../../../../../../renderer/store/selectors';
import { selectMarked } from '../../../../../../renderer/places/days/strip/marked';
import { desk, freshDesk } from '../../../../../../renderer/store/store';
import { loopTrip } from '../../../../../support/loop-trip';

const READER = { units: 'metric', clock: '24h' } as const;

function viewsOf(trip: Trip, diverId: string | null = null): readonly DiveView[] {
  desk.setState({ ...freshDesk(trip), selection: { diveIds: [], diverId } });
  const state = desk.getState();
  return diveViews({
    trip,
    entriesByDive: selectEntriesByDive(state),
    diverId,
    marked: selectMarked(state),
    roomLimitOf: selectRoomLimit(state),
    roomMinOf: selectRoomMin(state),
    reader: READER,
  });
}

const withDive = (trip: Trip, id: string, change: Partial<Trip['dives'][number]>): Trip => ({
  ...trip,
  dives: trip.dives.map((dive) => (dive.id === id ? { ...dive, ...change } : dive)),
});

const byId = (views: readonly DiveView[], id: string): DiveView => views.find((view) => view.id === id)!;

const marks = (trip: Trip) => {
  const views = viewsOf(trip);
  const span = spanOf(
    views.map(({ startMin, surfacesMin }) => ({ startMin, endMin: surfacesMin })),
    [],
    0,
  );
  const wet = views.map(({ startMin, surfacesMin }) => ({ startMin, endMin: surfacesMin }));
  const time = timeScale(span, wet, 840);
  const source = { views, time, depth: depthScale(36, 260, 'metric'), heightPx: 260, textScale: 1 };
  return marksOf(source, placementOf(source));
};

const labelsOf = (trip: Trip) => {
  const views = viewsOf(trip);
  const wet = views.map(({ startMin, surfacesMin }) => ({ startMin, endMin: surfacesMin }));
  const time = timeScale(spanOf(wet, [], 0), wet, 840);
  return placementOf({ views, time, depth: depthScale(36, 260, 'metric'), heightPx: 260, textScale: 1 });
};

const daysOf = (trip: Trip, diverId: string | null = null) => {
  const views = viewsOf(trip, diverId);
  const { divers } = selectLedger(desk.getState());
  const span = { firstDay: Math.floor(views[0]!.startMin / 1440), dayCount: 7 };
  return dayViews(
    span,
    diverId === null ? divers : divers.filter(({ diver }) => diver.id === diverId),
    views,
  );
};

beforeEach(() => desk.setState(freshDesk()));

describe('placementOf', () => {
  it('leaves the words of the strip where they are after a change that none of them says, and places anew after others', () => {
    const trip = demoTrip();
    const placed = labelsOf(trip);
    expect(labelsOf(withDive(trip, 'd8', { notes: 'Bring a torch' }))).toBe(placed);
    expect(labelsOf(withDive(trip, 'd13', { depthM: 20 })).labels).not.toEqual(placed.labels);
    expect(labelsOf(trip).labels).toEqual(placed.labels);
  });
});

describe('diveViews', () => {
  it('shows every dive in order of start, and the tightest one of the trip once', () => {
    const views = viewsOf(demoTrip());
    expect(views).toHaveLength(demoTrip().dives.length);
    expect(views.every((view, i) => i === 0 || views[i - 1]!.startMin <= view.startMin)).toBe(true);
    expect(views.filter((view) => view.isTightestOfTrip).map((view) => view.id)).toEqual(['d13']);
    expect(views.filter((view) => view.isTightestOfDay)).toHaveLength(6);
  });

  it('keeps the view of a dive that an edit leaves as it was, and words the edited one anew', () => {
    const trip = demoTrip();
    const before = viewsOf(trip);
    const after = viewsOf(withDive(trip, 'd13', { depthM: 20 }));
    const at = before.findIndex(({ id }) => id === 'd13');
    expect(after[0]).toBe(before[0]);
    expect(after[at]!.name).toContain('20 m');
    expect(viewsOf(structuredClone(trip))).toEqual(before);
    expect(viewsOf(trip, trip.party[1]!.id).map(({ name }) => name)).not.toEqual(
      before.map(({ name }) => name),
    );
  });

  it('writes surface intervals within a day, not over the night', () => {
    const views = viewsOf(demoTrip());
    expect(byId(views, 'd4').interval).toBe('');
    expect(byId(views, 'd5').interval).toMatch(/^\d:\d\d$/);
  });

  it('draws what the legs say: down to the levels, then up by way of the stop', () => {
    const dive = byId(viewsOf(demoTrip()), 'd8');
    expect(dive.bottom[0]).toEqual({ atMin: dive.startMin, depthM: 36 });
    expect(dive.bottom.at(-1)!.atMin).toBeCloseTo(dive.bottomEndMin, 6);
    expect(dive.wayUp[0]).toEqual(dive.bottom.at(-1));
    expect(dive.wayUp.map(({ depthM }) => depthM)).toContain(5);
    expect(dive.wayUp.at(-1)!.depthM).toBe(0);
    expect(dive.wayUp.at(-1)!.atMin).toBeCloseTo(dive.surfacesMin, 6);
  });

  it('hangs the weight where the dive begins, and writes the deepest point', () => {
    const legs = [
      { depthM: 10, min: 20 },
      { depthM: 18, min: 20 },
    ];
    const reversed = byId(viewsOf(withDive(demoTrip(), 'd22', { depthM: 18, bottomMin: 40, legs })), 'd22');
    expect(reversed).toMatchObject({ weightM: 10, depthM: 18, sounding: '18' });
  });

  it('says who stays aboard where a diver is chosen', () => {
    const views = viewsOf(demoTrip(), 'guest2');
    expect(byId(views, 'd8')).toMatchObject({ isAbsent: true, room: null, interval: '', part: '3 of 4' });
    expect(byId(views, 'd8').name).toContain('the chosen diver stays aboard');
    expect(byId(views, 'd9').isAbsent).toBe(false);
  });

  it('marks a dive past its limit with care and negative room', () => {
    const dive = byId(viewsOf(withDive(demoTrip(), 'd13', { bottomMin: 50 })), 'd13');
    expect(dive.care).toBe('stop');
    expect(dive.room).toMatch(/^−\d+ min$/);
    expect(dive.name).toContain('caution: past a limit');
    expect(dive).toMatchObject({ isPast: true, isTightestOfTrip: false });
    expect(dive.over).toMatch(/^\d+ min over$/);
  });

  it('calls tightest the dive with the least room of those that keep every limit', () => {
    const views = viewsOf(withDive(demoTrip(), 'd13', { bottomMin: 50 }));
    const kept = views.filter(({ isPast }) => !isPast).map(({ roomMin }) => roomMin ?? Infinity);
    const tightest = views.filter(({ isTightestOfTrip }) => isTightestOfTrip);
    expect(tightest.length).toBeGreaterThan(0);
    for (const { roomMin } of tightest) expect(Math.floor(roomMin!)).toBe(Math.floor(Math.min(...kept)));
  });

  it('names the mix where it is not the one that most dives have', () => {
    const views = viewsOf(demoTrip());
    expect(commonMix(views)).toBe('EAN32');
    expect(byId(views, 'd9')).toMatchObject({ mix: 'EAN32', otherMix: '' });
    expect(byId(views, 'd8')).toMatchObject({ mix: 'EAN28', otherMix: 'EAN28' });
  });

  it('names a loop by its setpoint, in words and in the picture', () => {
    const views = viewsOf(loopTrip());
    const own = viewsOf(loopTrip(), loopTrip().party[0]!.id);
    expect(commonMix(own)).toBe('loop 1.2');
    expect(own.every(({ mix, name }) => mix === 'loop 1.2' && !name.includes('no mix'))).toBe(true);
    expect(views.every(({ name }) => !name.includes('no mix'))).toBe(true);
  });

  it('says as dived where it was', () => {
    const asDived = [{ depthM: 21, bottomMin: 30 }];
    const dive = byId(viewsOf(withDive(demoTrip(), 'd13', { asDived })), 'd13');
    expect(dive).toMatchObject({ isAsDived: true, sounding: '21' });
    expect(dive.name).toContain('as dived');
  });
});

describe('what is done', () => {
  const planned = byId(viewsOf(demoTrip()), 'd13');

  it('keeps the plan behind a dive that was made otherwise, and none behind one made as planned', () => {
    const otherwise = byId(
      viewsOf(withDive(demoTrip(), 'd13', { asDived: [{ depthM: 21, bottomMin: 30 }] })),
      'd13',
    );
    const ghost = otherwise.planned!;
    expect(ghost[0]).toEqual({ atMin: planned.startMin, depthM: 0 });
    expect(Math.max(...ghost.map(({ depthM }) => depthM))).toBe(24);
    expect(ghost.at(-1)!.depthM).toBe(0);
    expect(ghost.at(-1)!.atMin).toBeCloseTo(planned.surfacesMin, 6);
    const asPlanned = byId(viewsOf(withDive(demoTrip(), 'd13', { asDived: [{}] })), 'd13');
    expect(asPlanned).toMatchObject({ isAsDived: true, planned: null });
    expect(planned.planned).toBeNull();
  });

  it('is neither tight nor over: it is told as it was', () => {
    const views = viewsOf(withDive(demoTrip(), 'd13', { asDived: [{ bottomMin: 50 }] }));
    expect(byId(views, 'd13')).toMatchObject({
      isPast: false,
      over: '',
      care: null,
      isTightestOfTrip: false,
    });
  });

  it('stays on the strip where nobody dived it, with its plan and the reason', () => {
    const missed = byId(viewsOf(withDive(demoTrip(), 'd7', { notDived: [{ reason: 'swell' }] })), 'd7');
    expect(missed).toMatchObject({ isMissed: true, isAsDived: false, isPast: false, room: null });
    expect(missed.planned).not.toBeNull();
    expect(missed.name).toContain('not dived: swell');
  });

  it('is missed for the diver who missed it, and dived for who is shown else', () => {
    const trip = withDive(demoTrip(), 'd7', { notDived: [{ by: 'guest1' }], asDived: [{}] });
    expect(byId(viewsOf(trip, 'guest1'), 'd7')).toMatchObject({ isMissed: true, isAbsent: false });
    expect(byId(viewsOf(trip, 'guest2'), 'd7')).toMatchObject({ isMissed: false, isAsDived: true });
    expect(byId(viewsOf(trip), 'd7')).toMatchObject({ isMissed: false, part: '3 of 4' });
  });

  it('has no plan behind it where it was added', () => {
    const trip = withDive(demoTrip(), 'd7', { added: true, asDived: [{ depthM: 9 }] });
    expect(byId(viewsOf(trip), 'd7')).toMatchObject({ isAdded: true, planned: null });
  });
});

/** Two dives a morning so shallow that the gas ends them: the same room twice. */
function alike(): Trip {
  const trip = demoTrip();
  const [first] = trip.dives;
  const shallow = { ...first!, depthM: 8, bottomMin: 60, mix: 'auto' as const };
  return {
    ...trip,
    flight: null,
    dives: [
      { ...shallow, id: 'a', startsAt: '2027-03-14T08:00' },
      { ...shallow, id: 'b', startsAt: '2027-03-14T11:00' },
      { ...shallow, id: 'c', startsAt: '2027-03-14T14:00', bottomMin: 40 },
    ],
  };
}

describe('dives with as little room', () => {
  it('are all marked, and all named at the head of their day', () => {
    const views = viewsOf(alike());
    expect(views.map(({ isTightestOfTrip }) => isTightestOfTrip)).toEqual([true, true, false]);
    expect(views.map(({ isTightestOfDay }) => isTightestOfDay)).toEqual([true, true, false]);
    const [day] = daysOf(alike());
    expect(day!.tightest!.ofDay).toEqual([1, 2]);
    const { room } = views[0]!;
    expect(headSentence(day!)).toContain(`tightest are the first and second: ${room} left`);
  });
});

describe('a dive past a limit without a figure', () => {
  it('says which, in its name and at the head of its day', () => {
    const rich = demoTrip().mixes.find((mix) => mix.o2 === 0.32)!;
    const trip = withDive(
      { ...demoTrip(), mixes: [...demoTrip().mixes, { ...rich, id: 'rich', o2: 0.6 }] },
      'd1',
      { depthM: 30, bottomMin: 20, mix: 'rich' },
    );
    const view = byId(viewsOf(trip), 'd1');
    expect(view.room).toBe('past the PO2 limit');
    expect(view).toMatchObject({ isPast: true, over: 'past the PO2 limit', isTightestOfTrip: false });
    expect(view.name).toContain(', past the PO2 limit, tightest of the day');
    const [day] = daysOf(trip);
    expect(headSentence(day!)).toContain('tightest is the first: past the PO2 limit');
    // What comes after it is not known, which is no reason to call it tight.
    expect(view.isTightestOfDay).toBe(true);
    expect(day!.tightest!.ofDay).toEqual([1]);
  });
});

describe('dayViews', () => {
  it('counts dives and names the tightest of each day; a day without dives says so', () => {
    const days = daysOf(demoTrip());
    expect(days.map((day) => day.dives)).toEqual([3, 4, 3, 4, 4, 4, 0]);
    expect(days[3]!.tightest).toEqual({ ofDay: [3], room: '4 min' });
    expect(headSentence(days[6]!)).toBe('Sat 20 March: no dives');
  });

  it('tells the oxygen of the diver who takes most', () => {
    const party = daysOf(demoTrip());
    const { divers } = selectLedger(desk.getState());
    for (const day of party.slice(0, 6)) {
      const lines = divers.flatMap(({ days }) => days.filter(({ date }) => date === day.date));
      expect(lines.length).toBeGreaterThanOrEqual(3);
      expect(day.cnsDayPeak).toBe(Math.max(...lines.map((line) => line.cnsDayPeak!)));
      expect(day.cnsDayPeak).toBeGreaterThan(0);
      expect(day.otu!.taken).toBe(Math.max(...lines.map((line) => line.otu)));
    }
  });
});

describe('marksOf', () => {
  it('leaves the marks of other days untouched when one dive goes deeper', () => {
    const before = marks(demoTrip());
    const after = marks(withDive(demoTrip(), 'd21', { depthM: 16 }));
    // Marks are compared value by value when drawn: 18 dives of the other days are not drawn again.
    expect(after.slice(0, 18)).toEqual(before.slice(0, 18));
    expect(after[20]).not.toEqual(before[20]);
  });
});

describe('what a screen reader is told of a dive', () => {
  const when = 'Wed 17 March 11:35, Kettle Pinnacle';
  it.each<[string, string, Partial<Trip['dives'][number]>, string]>([
    [
      'a dive as planned',
      'd1',
      {},
      'Dive 1, Sun 14 March 09:30, Thrift Garden, 15 m, 40 min, Air, 16 min of room',
    ],
    [
      'the tightest, after a dive of the same day',
      'd13',
      {},
      `Dive 13, ${when}, 24 m, 29 min, EAN32, after 1:44 at the surface, 4 min of room, tightest of the trip`,
    ],
    [
      'one past its limit',
      'd13',
      { bottomMin: 60 },
      `Dive 13, ${when}, 24 m, 60 min, EAN32, after 1:44 at the surface, −27 min of room, tightest of the day, caution: past a limit`,
    ],
    [
      'one that not everybody makes',
      'd8',
      {},
      'Dive 8, Tue 16 March 07:30, Anvil Head, 36 m, 33 min, EAN28, 7 min of room, 3 of 4 divers',
    ],
    [
      'one that was dived',
      'd1',
      { asDived: [{ depthM: 15.5, bottomMin: 41 }] },
      'Dive 1, Sun 14 March 09:30, Thrift Garden, 15.5 m, 41 min, Air, 13 min of room, as dived',
    ],
  ])('%s', (_, id, change, told) => {
    expect(byId(viewsOf(withDive(demoTrip(), id, change)), id).name).toBe(told);
  });
});
