import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import {
  addDive,
  deleteDives,
  duplicateDay,
  duplicateDives,
  setMix,
  setStart,
  shiftDives,
} from '../../../../renderer/actions/dives';
import { setAsDived, setDiveParty } from '../../../../renderer/actions/dive-rest';
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
const again = (id: string) => dives().find((dive) => dive.id === id)!;

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

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

  it('adds the first dive of an empty trip on the next morning, with a site to stand on', () => {
    desk.setState(freshDesk(blankTrip()), true);
    expect(addDive({ startsAt: nextStart(desk.getState(), '2027-03-06') }).ok).toBe(true);
    expect(dives()[0]).toMatchObject({ startsAt: '2027-03-07T08:00', siteId: 'site-1', mix: 'auto' });
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
