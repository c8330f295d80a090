import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { setAsDived, setDiveParty, setOnDives } from '../../../../renderer/actions/dive-rest';
import { undoStep } from '../../../../renderer/actions/history';
import {
  addDiver,
  addEarlierDive,
  changeEarlierDive,
  removeDiver,
  removeEarlierDive,
  setArrival,
  setCylinder,
  setDiverName,
  setGradient,
  setPo2Limits,
} from '../../../../renderer/actions/party';
import { ledgerOfDiver } from '../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../renderer/store/store';

const party = () => desk.getState().trip.party;
const diver = (at: number) => party()[at]!;
const dive = (at: number) => desk.getState().trip.dives[at]!;
const labels = () => desk.getState().history.past.map(({ label }) => label);
const whole = () => desk.getState().trip.dives.findIndex(({ divers }) => divers === undefined);

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

describe('edits of a diver', () => {
  it('replace that diver and nothing else, under a name a person reads', () => {
    const before = party();
    expect(setCylinder(diver(1).id, { waterL: 10 }).ok).toBe(true);
    expect(party().map((each, i) => each === before[i])).toEqual([true, false, true, true]);
    expect(diver(1).cylinder).toEqual({ ...before[1]!.cylinder, waterL: 10 });
    expect(labels()).toEqual([`Cylinder of ${before[1]!.name}`]);
  });

  it('record nothing where nothing is new', () => {
    setGradient(diver(0).id, { low: diver(0).gradient.low });
    setArrival(diver(0).id, null);
    expect(labels()).toEqual([]);
  });

  it('are refused with what, where and how to mend it', () => {
    const { trip } = desk.getState();
    const result = setPo2Limits(diver(2).id, { working: 1.9 });
    expect(result.ok).toBe(false);
    if (!result.ok) {
      expect(result.troubles[0].where).toContain('party[2].po2.working');
      expect(result.troubles[0].mend).not.toBe('');
    }
    expect(desk.getState().trip).toBe(trip);
  });
});

describe('a name that another diver has', () => {
  it('is refused, capitals and spaces aside, unless it stands so already', () => {
    const result = setDiverName(diver(1).id, ` ${diver(2).name.toLowerCase()}`);
    expect(result.ok ? '' : `${result.troubles[0].what} ${result.troubles[0].mend}`).toBe(
      `${diver(2).name} is the name of another diver. Give a name by which the two are told apart.`,
    );
    expect(setDiverName(diver(1).id, diver(1).name.toUpperCase())).toMatchObject({ ok: true });
    desk.setState(({ trip }) => ({
      trip: { ...trip, party: trip.party.map((each) => ({ ...each, name: 'Ann' })) },
    }));
    expect(setDiverName(diver(1).id, 'Ann')).toMatchObject({ ok: true });
    expect(setDiverName(diver(1).id, 'Ann B.')).toMatchObject({ ok: true });
  });
});

describe('addDiver', () => {
  it('copies gear and limits under a name and an id of its own, and not the past', () => {
    addEarlierDive(diver(2).id, '2027-01-01');
    const { id, result } = addDiver(diver(2).id);
    expect(result.ok).toBe(true);
    const copy = party().find((each) => each.id === id)!;
    expect(copy).toMatchObject({ cylinder: diver(2).cylinder, gradient: diver(2).gradient });
    expect(copy.before).toBe(undefined);
    expect(new Set(party().map(({ name }) => name)).size).toBe(5);
  });
});

describe('removeDiver', () => {
  it('takes the diver out of every dive and of what they recorded', () => {
    const { id } = diver(0);
    setDiveParty(dive(0).id, [id, diver(1).id]);
    setAsDived(dive(0).id, id, { depthM: 10 });
    expect(removeDiver(id).ok).toBe(true);
    expect(party().map((each) => each.id)).not.toContain(id);
    expect(dive(0).divers).toEqual([diver(0).id]);
    expect('asDived' in dive(0)).toBe(false);
  });

  it('is refused where a dive would be left without anybody, and says which', () => {
    setDiveParty(dive(3).id, [diver(0).id]);
    const { trip } = desk.getState();
    const result = removeDiver(diver(0).id);
    expect(result.ok ? '' : result.troubles[0].what).toContain('dive 4 alone');
    expect(desk.getState().trip).toBe(trip);
  });

  it('is refused for the last of the party', () => {
    for (const { id } of party().slice(1)) {
      for (const each of desk.getState().trip.dives) setDiveParty(each.id, null);
      expect(removeDiver(id).ok).toBe(true);
    }
    const result = removeDiver(diver(0).id);
    expect(result.ok ? '' : result.troubles[0].what).toContain('the whole party');
  });
});

describe('setOnDives', () => {
  it('takes a diver off a dive and puts them back, to the same dive as before', () => {
    const at = whole();
    const before = dive(at);
    expect(setOnDives(diver(1).id, [before.id], false).ok).toBe(true);
    expect(dive(at).divers).toEqual([diver(0).id, diver(2).id, diver(3).id]);
    expect(
      ledgerOfDiver(desk.getState(), diver(1).id)?.entries.some((entry) => entry.dive.id === before.id),
    ).toBe(false);
    expect(setOnDives(diver(1).id, [before.id], true).ok).toBe(true);
    expect(dive(at)).toEqual(before);
  });

  it('is refused for the last one on a dive', () => {
    const { id } = dive(whole());
    setDiveParty(id, [diver(1).id]);
    const result = setOnDives(diver(1).id, [id], false);
    expect(result.ok ? '' : result.troubles[0].what).toContain('without anybody');
  });

  it('takes a diver off a whole day in one step, and leaves all as it was where a dive would have nobody', () => {
    const day = desk
      .getState()
      .trip.dives.filter(({ startsAt }) => startsAt.startsWith(dive(0).startsAt.slice(0, 10)));
    const ids = day.map(({ id }) => id);
    const { id } = diver(1);
    expect(ids.length).toBeGreaterThan(1);
    const steps = labels().length;
    expect(setOnDives(id, ids, false).ok).toBe(true);
    expect(labels()).toHaveLength(steps + 1);
    expect(labels().at(-1)).toBe(`Divers of ${ids.length} dives`);
    const onDay = ({ dive: each }: { readonly dive: { readonly id: string } }) => ids.includes(each.id);
    expect(ledgerOfDiver(desk.getState(), id)?.entries.filter(onDay)).toEqual([]);
    setDiveParty(ids[1]!, [diver(0).id]);
    const { trip } = desk.getState();
    const refused = setOnDives(diver(0).id, ids, false);
    expect(refused.ok ? '' : refused.troubles[0].what).toBe('Dive 2 would be left without anybody.');
    expect(desk.getState().trip).toBe(trip);
  });
});

describe('earlier dives', () => {
  it('begin the morning before whatever is known, and change what is carried into the trip', () => {
    const { id } = diver(0);
    const first = dive(0).startsAt.slice(0, 10);
    const before = ledgerOfDiver(desk.getState(), id)!.entries[0]!.tensionsBefore;
    expect(addEarlierDive(id, '2020-01-01').ok).toBe(true);
    expect(addEarlierDive(id, '2020-01-01').ok).toBe(true);
    const dates = diver(0).before!.map(({ startsAt }) => startsAt.slice(0, 10));
    expect(dates).toEqual(dates.toSorted());
    expect(dates.every((date) => date < first)).toBe(true);
    expect(new Set(dates).size).toBe(2);
    expect(ledgerOfDiver(desk.getState(), id)!.entries[0]!.tensionsBefore).not.toEqual(before);
  });

  it('breathe a mix of the trip or any other, never both', () => {
    const { id } = diver(0);
    addEarlierDive(id, '2020-01-01');
    const [earlier] = diver(0).before!;
    const mix = desk.getState().trip.mixes[0]!.id;
    changeEarlierDive(id, earlier!.id, { gas: { mix } });
    expect(diver(0).before![0]).toMatchObject({ mix });
    expect('o2' in diver(0).before![0]!).toBe(false);
    changeEarlierDive(id, earlier!.id, { gas: { o2: 0.3 }, depthM: 12 });
    expect(diver(0).before![0]).toMatchObject({ mix: 'auto', o2: 0.3, depthM: 12 });
  });

  it('are refused after the trip has begun', () => {
    const { id } = diver(0);
    addEarlierDive(id, '2020-01-01');
    const result = changeEarlierDive(id, diver(0).before![0]!.id, { startsAt: '2199-01-01T10:00' });
    expect(result.ok).toBe(false);
  });

  it('leave no empty list behind', () => {
    const { id } = diver(0);
    addEarlierDive(id, '2020-01-01');
    removeEarlierDive(id, diver(0).before![0]!.id);
    expect('before' in diver(0)).toBe(false);
    undoStep();
    expect(diver(0).before).toHaveLength(1);
  });
});
