import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import {
  addDive,
  deleteDives,
  duplicateDay,
  duplicateDives,
  forgetAsDived,
  setAsDived,
  setBottomMin,
  setDepth,
  setDiveParty,
  setLevels,
  setMix,
  setSite,
  setStart,
  shiftDives,
  takeSiteDepth,
} from '../../../../renderer/actions/dives';
import { edit, tell } from '../../../../renderer/actions/edit';
import { nextStart } from '../../../../renderer/actions/next-start';
import { setFlight } from '../../../../renderer/actions/trip';
import { undoStep } from '../../../../renderer/actions/history';
import { chooseDives } from '../../../../renderer/actions/view';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { selectCautions } from '../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../renderer/store/store';

const dives = () => desk.getState().trip.dives;
const past = () => desk.getState().history.past;
const single = () => dives().find((dive) => !dive.legs)!;
const levelled = () => dives().find((dive) => dive.legs)!;
const again = (id: string) => dives().find((dive) => dive.id === id)!;

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

describe('edit', () => {
  it('replaces the dive and nothing else', () => {
    const before = desk.getState().trip;
    const dive = single();
    expect(setDepth(dive.id, dive.depthM - 1).ok).toBe(true);
    const after = desk.getState().trip;
    expect(after.dives.filter((each, i) => each !== before.dives[i]).map(({ id }) => id)).toEqual([dive.id]);
    expect(after.sites).toBe(before.sites);
    expect(past().map(({ code }) => code)).toEqual(['dive.depth']);
  });

  it('refuses what cannot be, says what, where and how to mend it, and changes nothing', () => {
    const before = desk.getState();
    const result = setDepth(single().id, -4);
    expect(result.ok).toBe(false);
    if (!result.ok) {
      const [first] = result.troubles;
      expect(first.where).toContain('depthM');
      expect(first.what).not.toBe('');
      expect(first.mend).not.toBe('');
    }
    expect(desk.getState()).toBe(before);
  });

  it('leaves no step where nothing changed', () => {
    setDepth(single().id, single().depthM);
    edit({ label: 'x', code: 'x' }, (trip) => trip);
    expect(past()).toEqual([]);
  });

  it('says a refusal where no field stands to say it', () => {
    tell(setDepth(single().id, -4));
    expect(desk.getState().notice?.tone).toBe('refused');
    tell(setDepth(single().id, single().depthM - 1));
    expect(desk.getState().notice).toBeNull();
  });
});

describe('the depth of a site', () => {
  it('is taken in one step, and the site chosen before stays when that is undone', () => {
    const dive = single();
    setSite(dive.id, 'candle');
    expect(again(dive.id).depthM).toBe(dive.depthM);
    expect(takeSiteDepth(dive.id).ok).toBe(true);
    expect(again(dive.id).depthM).toBe(12);
    expect(past().map(({ code }) => code)).toEqual(['dive.site', 'dive.depth']);
    undoStep();
    expect(again(dive.id)).toMatchObject({ siteId: 'candle', depthM: dive.depthM });
  });

  it('moves the deepest of several levels there and leaves none deeper, those alike being one', () => {
    // 36 m for 9, 20 m for 12 and 12 m for 12 min.
    const { id } = again('d8');
    setSite(id, 'osier');
    takeSiteDepth(id);
    expect(again(id)).toMatchObject({ depthM: 21, bottomMin: 33 });
    expect(again(id).legs?.map(({ depthM, min }) => [depthM, min])).toEqual([
      [21, 9],
      [20, 12],
      [12, 12],
    ]);
    setSite(id, 'thrift');
    takeSiteDepth(id);
    expect(again(id).legs?.map(({ depthM, min }) => [depthM, min])).toEqual([
      [16, 21],
      [12, 12],
    ]);
    setSite(id, 'candle');
    takeSiteDepth(id);
    expect(again(id)).toMatchObject({ depthM: 12, bottomMin: 33 });
    expect(again(id).legs).toBeUndefined();
  });

  it('takes the deepest levels down to a deeper site, and the others stay', () => {
    const { id } = again('d9');
    setSite(id, 'anvil');
    takeSiteDepth(id);
    expect(again(id).legs?.map(({ depthM }) => depthM)).toEqual([36, 14]);
  });

  it('is refused where the time does not reach so deep', () => {
    const { id } = single();
    setBottomMin(id, 1);
    setSite(id, 'anvil');
    expect(takeSiteDepth(id).ok).toBe(false);
    expect(again(id).depthM).toBe(single().depthM);
  });
});

describe('what was logged and is taken back', () => {
  it('is said with all that is lost, and one step brings it back', () => {
    const { id } = single();
    setAsDived(id, 'guest1', { startsAt: '2027-03-14T09:36', depthM: 14.5, bottomMin: 41, o2: 0.318 });
    const logged = again(id);
    expect(forgetAsDived(id, 'guest1').ok).toBe(true);
    expect(again(id).asDived).toBeUndefined();
    const { notice } = desk.getState();
    expect(notice).toMatchObject({ tone: 'said', canUndo: true });
    expect(notice?.lines[0]?.what).toBe(
      'What was logged of dive 1 for Guest 1 was taken away: started 09:36, 14.5 m, 41 min, 31.8 % oxygen.',
    );
    undoStep();
    expect(again(id)).toBe(logged);
    expect(desk.getState().notice).toBeNull();
  });

  it('says it no longer once something else was done, which undoing would take back instead', () => {
    const { id } = single();
    setAsDived(id, null, { depthM: 14 });
    forgetAsDived(id, null);
    expect(desk.getState().notice?.lines[0]?.what).toBe('What was logged of dive 1 was taken away: 14 m.');
    setDepth(id, 13);
    expect(desk.getState().notice).toBeNull();
  });
});

describe('a dive of several levels', () => {
  it('shifts all of them with its depth', () => {
    const dive = levelled();
    setDepth(dive.id, dive.depthM - 2);
    expect(again(dive.id).legs?.map(({ depthM }) => depthM)).toEqual(
      dive.legs?.map(({ depthM }) => depthM - 2),
    );
  });

  it('takes more bottom time at its last level', () => {
    const dive = levelled();
    setBottomMin(dive.id, dive.bottomMin + 3);
    const { legs, bottomMin } = again(dive.id);
    expect(bottomMin).toBe(dive.bottomMin + 3);
    expect(legs?.at(-1)?.min).toBe(dive.legs!.at(-1)!.min + 3);
    expect(legs?.slice(0, -1)).toEqual(dive.legs?.slice(0, -1));
  });

  it('becomes one level, keeping depth and time', () => {
    const dive = levelled();
    setLevels(dive.id, [{ depthM: dive.depthM, min: dive.bottomMin }]);
    expect(again(dive.id)).not.toHaveProperty('legs');
    expect(again(dive.id)).toMatchObject({ depthM: dive.depthM, bottomMin: dive.bottomMin });
    expect(desk.getState().history.past).toHaveLength(1);
  });
});

describe('a bottom time that the earlier levels take already', () => {
  it('is refused in words of the dive, not of a level below zero', () => {
    const dive = desk.getState().trip.dives.find(({ legs }) => (legs?.length ?? 0) > 1)!;
    const beforeMin = dive.legs!.slice(0, -1).reduce((sum, level) => sum + level.min, 0);
    const result = setBottomMin(dive.id, beforeMin);
    expect(result.ok ? '' : result.troubles[0].what).toBe(
      `The levels before the last one take ${beforeMin} min already.`,
    );
    expect(setBottomMin(dive.id, beforeMin + 5).ok).toBe(true);
  });
});

describe('order and number', () => {
  it('keeps the dives in order of start', () => {
    const [first] = dives();
    const date = first!.startsAt.slice(0, 10);
    const last = dives()
      .filter((dive) => dive.startsAt.startsWith(date))
      .at(-1)!;
    const result = setStart(first!.id, `${date}T23:00`);
    expect(result.ok).toBe(true);
    expect(dives().map(({ startsAt }) => startsAt)).toEqual(
      dives()
        .map(({ startsAt }) => startsAt)
        .toSorted(),
    );
    expect(dives().indexOf(again(first!.id))).toBe(dives().indexOf(last) + 1);
  });

  it('refuses a start that overlaps another dive of a diver', () => {
    const [first, second] = dives();
    expect(setStart(first!.id, second!.startsAt).ok).toBe(false);
  });
});

describe('adding, copying, moving, removing', () => {
  it('adds a dive that is valid at once and selects it', () => {
    const startsAt = nextStart(desk.getState(), '2027-01-01');
    expect(addDive({ startsAt }).ok).toBe(true);
    const [id] = desk.getState().selection.diveIds;
    expect(again(id!).startsAt).toBe(startsAt);
  });

  it('adds the first dive of an empty trip, with a site to stand on', () => {
    desk.setState(freshDesk(blankTrip()), true);
    expect(addDive({ startsAt: nextStart(desk.getState(), '2027-03-06') }).ok).toBe(true);
    expect(dives()[0]).toMatchObject({ startsAt: '2027-03-06T08:00', siteId: 'site-1', mix: 'auto' });
  });

  it('refuses the copy of a day that would take of the hours before the flight, and says which day', () => {
    const { trip } = desk.getState();
    const [first] = dives();
    const result = duplicateDay(first!.startsAt.slice(0, 10));
    expect(result.ok ? '' : result.troubles[0].what).toMatch(
      /^The first day without dives is Sat 20, and a copy there would not leave (18|24) h before the flight on Sat 20, 16:30\.$/,
    );
    expect(desk.getState().trip).toBe(trip);
    // The first day ends before six in the evening: with a day more it is a day and a half to the flight.
    setFlight('2027-03-22T12:00');
    expect(duplicateDay(first!.startsAt.slice(0, 10))).toMatchObject({ ok: true });
    undoStep();
    setFlight('2027-03-21T10:00');
    expect(duplicateDay(first!.startsAt.slice(0, 10)).ok).toBe(false);
  });

  it('copies a day to the next one without dives, and what was really dived stays behind', () => {
    setFlight(null);
    const { startsAt } = dives()[0]!;
    const date = startsAt.slice(0, 10);
    const ofDay = dives().filter((dive) => dive.startsAt.startsWith(date));
    setAsDived(ofDay[0]!.id, null, { depthM: 14 });
    expect(duplicateDay(date).ok).toBe(true);
    const copies = desk.getState().selection.diveIds.map(again);
    expect(copies.map((dive) => dive.startsAt.slice(11))).toEqual(
      ofDay.map((dive) => dive.startsAt.slice(11)),
    );
    expect(new Set(copies.map((dive) => dive.startsAt.slice(0, 10))).size).toBe(1);
    expect(copies.some((dive) => 'asDived' in dive)).toBe(false);
  });

  it('copies a dive under an id of its own', () => {
    const last = dives().at(-1)!;
    expect(duplicateDives([last.id]).ok).toBe(true);
    expect(new Set(dives().map(({ id }) => id)).size).toBe(dives().length);
  });

  it.each([11, 0, 6])('copies the dive at %i again and again, each time where the water is free', (at) => {
    let [id] = [dives()[at]!.id];
    for (let turn = 0; turn < 5; turn += 1) {
      const original = again(id);
      expect(duplicateDives([id])).toMatchObject({ ok: true });
      [id] = desk.getState().selection.diveIds as [string];
      expect(Date.parse(again(id).startsAt)).toBeGreaterThanOrEqual(
        Date.parse(original.startsAt) + 3 * 3_600_000,
      );
      expect(again(id).startsAt.slice(11) <= '19:00').toBe(true);
    }
    const cautions = selectCautions(desk.getState());
    expect(cautions.filter(({ code }) => code === 'short-interval')).toEqual([]);
  });

  it('puts the copies of several dives where all of them are free', () => {
    const ids = dives()
      .slice(0, 2)
      .map((dive) => dive.id);
    expect(duplicateDives(ids)).toMatchObject({ ok: true });
    const [first, second] = desk.getState().selection.diveIds.map(again);
    expect(Date.parse(second!.startsAt) - Date.parse(first!.startsAt)).toBe(4.5 * 3_600_000);
  });

  it('puts a new dive where the water is free', () => {
    for (const { id } of dives()) {
      chooseDives([id]);
      expect(addDive({ startsAt: nextStart(desk.getState(), '2027-01-01') })).toMatchObject({ ok: true });
      undoStep();
    }
  });

  it('calls what is refused before it is there by what it is, not by an id', () => {
    const result = addDive({ startsAt: dives()[1]!.startsAt.replace('14:00', '14:20') });
    expect(result.ok ? '' : result.troubles[0].what).toMatch(
      /^The new dive starts Sun 14, 14:20, while the party surfaces from dive 2 at /,
    );
    const before = addDive({ startsAt: dives()[1]!.startsAt.replace('14:00', '13:50') });
    expect(before.ok ? '' : before.troubles[0].what).toMatch(
      /^Dive 2 starts Sun 14, 14:00, while the party surfaces from the new dive at /,
    );
  });

  it('moves several together or none of them', () => {
    const ids = dives().map(({ id }) => id);
    const before = dives();
    expect(shiftDives(ids, 10).ok).toBe(true);
    expect(shiftDives(ids, 0, 500).ok).toBe(false);
    undoStep();
    expect(dives()).toEqual(before);
  });

  it('removes and says so', () => {
    deleteDives([dives()[3]!.id]);
    expect(past().at(-1)?.label).toBe('Removal of dive 4');
  });
});

describe('what belongs to a dive', () => {
  it('takes back what was said rather than leaving an empty word', () => {
    const { id } = single();
    const [guide] = desk.getState().trip.party;
    setDiveParty(id, [guide!.id]);
    expect(again(id).divers).toEqual([guide!.id]);
    setDiveParty(id, null);
    expect(again(id)).not.toHaveProperty('divers');
    setAsDived(id, null, { depthM: 10 });
    setAsDived(id, guide!.id, { bottomMin: 20 });
    expect(again(id).asDived).toHaveLength(2);
    setAsDived(id, null, null);
    setAsDived(id, guide!.id, null);
    expect(again(id)).not.toHaveProperty('asDived');
  });

  it('refuses a mix that is not on board', () => {
    expect(setMix(single().id, 'none-such').ok).toBe(false);
  });
});
