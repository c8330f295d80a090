import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import {
  deleteDives,
  goToSite,
  setBottomMin,
  setDepth,
  setMix,
  setStart,
  takeSiteDepth,
} from '../../../../renderer/actions/dives';
import {
  forgetAsDived,
  newSiteFor,
  setAsDived,
  setLevels,
  swapDives,
} from '../../../../renderer/actions/dive-rest';
import { pasteDives, rememberChosen } from '../../../../renderer/actions/clipboard';
import { edit, tell } from '../../../../renderer/actions/edit';
import { undoStep } from '../../../../renderer/actions/history';
import { chooseDives } from '../../../../renderer/actions/view';
import { selectChosenDives } from '../../../../renderer/store/selectors';
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

describe('a site that dives are taken to', () => {
  it('brings its depth, and one step brings back both', () => {
    const dive = single();
    expect(goToSite([dive.id], 'candle').ok).toBe(true);
    expect(again(dive.id)).toMatchObject({ siteId: 'candle', depthM: 12 });
    expect(past().map(({ code }) => code)).toEqual(['dive.site']);
    undoStep();
    expect(again(dive.id)).toMatchObject({ siteId: dive.siteId, depthM: dive.depthM });
  });

  it('moves the deepest of several levels there and leaves none deeper, those alike being one', () => {
    // 36 m for 9, 20 m for 12 and 12 m for 12 min.
    const { id } = again('d8');
    goToSite([id], 'osier');
    expect(again(id)).toMatchObject({ depthM: 21, bottomMin: 33 });
    expect(again(id).legs?.map(({ depthM, min }) => [depthM, min])).toEqual([
      [21, 9],
      [20, 12],
      [12, 12],
    ]);
    goToSite([id], 'thrift');
    expect(again(id).legs?.map(({ depthM, min }) => [depthM, min])).toEqual([
      [16, 21],
      [12, 12],
    ]);
    goToSite([id], 'candle');
    expect(again(id)).toMatchObject({ depthM: 12, bottomMin: 33 });
    expect(again(id).legs).toBeUndefined();
  });

  it('brings its levels with their times where it has any, and undo the old ones', () => {
    const dive = single();
    const levels = [
      { depthM: 30, min: 10 },
      { depthM: 14, min: 20 },
    ];
    const { trip } = desk.getState();
    const sites = trip.sites.map((site) => (site.id === 'anvil' ? { ...site, levels } : site));
    desk.setState({ trip: { ...trip, sites } });
    goToSite([dive.id], 'anvil');
    expect(again(dive.id)).toMatchObject({ depthM: 30, bottomMin: 30, legs: levels });
    undoStep();
    expect(again(dive.id)).toEqual(dive);
  });

  /** The deepest site, as one of which only the depth is known. */
  function forgetLevels(): void {
    const { trip } = desk.getState();
    const sites = trip.sites.map((site) => {
      if (site.id !== 'anvil') return site;
      const { levels: _, ...rest } = site;
      return rest;
    });
    desk.setState({ trip: { ...trip, sites } });
  }

  it('takes the deepest levels down to a deeper site, and the others stay', () => {
    forgetLevels();
    const { id } = again('d9');
    goToSite([id], 'anvil');
    expect(again(id).legs?.map(({ depthM }) => depthM)).toEqual([36, 14]);
  });

  it('is refused where the time does not reach so deep, and the dive stays at its site', () => {
    forgetLevels();
    const { id, siteId } = single();
    setBottomMin(id, 1);
    expect(goToSite([id], 'anvil').ok).toBe(false);
    expect(again(id)).toMatchObject({ siteId, depthM: single().depthM });
  });

  it('is made for them where it is new, in one step; a name twice is refused', () => {
    const dive = single();
    expect(newSiteFor([dive.id], 'Candle Harbour', 9).ok).toBe(false);
    expect(newSiteFor([dive.id, 'd2'], 'Gull Steps', 14).ok).toBe(true);
    const { sites } = desk.getState().trip;
    expect(sites.at(-1)).toMatchObject({ name: 'Gull Steps', depthM: 14 });
    expect([again(dive.id), again('d2')].map(({ siteId, depthM }) => [siteId, depthM])).toEqual([
      [sites.at(-1)!.id, 14],
      [sites.at(-1)!.id, 14],
    ]);
    undoStep();
    expect(desk.getState().trip.sites).toHaveLength(sites.length - 1);
    expect(again(dive.id)).toEqual(dive);
  });

  it('is what a dive takes its depth from where it went deeper', () => {
    const { id, depthM } = single();
    setDepth(id, 30);
    expect(takeSiteDepth(id).ok).toBe(true);
    expect(again(id).depthM).not.toBe(30);
    undoStep();
    undoStep();
    expect(again(id).depthM).toBe(depthM);
  });
});

describe('two dives that are swapped', () => {
  it('begin when the other did and keep all else, in one step', () => {
    const [one, other] = [again('d9'), again('d13')];
    expect(swapDives('d9', 'd13').ok).toBe(true);
    expect(again('d9')).toEqual({ ...one, startsAt: other.startsAt });
    expect(again('d13')).toEqual({ ...other, startsAt: one.startsAt });
    const starts = desk.getState().trip.dives.map(({ startsAt }) => startsAt);
    expect(starts).toEqual(starts.toSorted());
    expect(past()).toHaveLength(1);
  });

  it('are refused where one was logged', () => {
    setAsDived('d9', null, { depthM: 20 });
    const result = swapDives('d13', 'd9');
    expect(result.ok ? '' : result.troubles[0].what).toBe(
      'Dive 9 was logged as dived, and stays where it was.',
    );
  });
});

describe('several dives', () => {
  it('are set to one time and one mix in a step each, a step of all or none', () => {
    expect(setBottomMin(['d1', 'd2'], 20).ok).toBe(true);
    expect(setMix(['d1', 'd2'], 'air').ok).toBe(true);
    expect([again('d1'), again('d2')].map(({ bottomMin, mix }) => [bottomMin, mix])).toEqual([
      [20, 'air'],
      [20, 'air'],
    ]);
    expect(past().map(({ label }) => label)).toEqual(['Bottom time of 2 dives', 'Mix of 2 dives']);
    // Dive 8 has levels of 21 min before its last.
    const before = desk.getState().trip;
    expect(setBottomMin(['d1', 'd8'], 15).ok).toBe(false);
    expect(desk.getState().trip).toBe(before);
  });

  it('are pasted on the day of the chosen dive, at their times of day, without what was logged', () => {
    setAsDived('d1', null, { depthM: 12 });
    chooseDives(['d1', 'd3']);
    expect(rememberChosen().split('\n')).toHaveLength(2);
    expect(rememberChosen()).toContain('\tThrift Garden\t');
    const to = desk.getState().trip.dives.at(-1)!;
    const day = to.startsAt.slice(0, 10);
    chooseDives([to.id]);
    expect(pasteDives().ok).toBe(false);
    // The last day is full at those times; on the day of the flight nothing is dived.
    deleteDives(
      desk
        .getState()
        .trip.dives.filter(({ startsAt, id }) => startsAt.startsWith(day) && id !== to.id)
        .map(({ id }) => id),
    );
    setStart(to.id, `${day}T12:00`);
    const result = pasteDives();
    expect(result.ok ? [] : result.troubles).toEqual([]);
    const pasted = selectChosenDives(desk.getState());
    expect(pasted.map(({ startsAt }) => startsAt)).toEqual([`${day}T09:30`, `${day}T17:10`]);
    expect(pasted.every(({ asDived }) => asDived === undefined)).toBe(true);
  });

  it('are pasted where a duplicate would go while their own day is chosen', () => {
    chooseDives(['d1']);
    rememberChosen();
    expect(pasteDives().ok).toBe(true);
    expect(selectChosenDives(desk.getState())[0]!.startsAt > again('d1').startsAt).toBe(true);
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
