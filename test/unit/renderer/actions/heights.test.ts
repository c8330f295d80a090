import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import {
  addEvent,
  removeEvent,
  setEventAltitude,
  setEventFrom,
  setEventTo,
} from '../../../../renderer/actions/heights';
import { undoStep } from '../../../../renderer/actions/history';
import { setSiteWater } from '../../../../renderer/actions/sites';
import { desk, freshDesk } from '../../../../renderer/store/store';

const events = () => desk.getState().trip.events;

describe('stays at other heights', () => {
  beforeEach(() => desk.setState({ ...freshDesk(), trip: demoTrip() }));

  it('begin on the morning after the last dive, then after the last stay, and each is one step', () => {
    const lastDay = demoTrip().dives.at(-1)!.startsAt.slice(0, 10);
    expect(addEvent('2027-01-01').ok).toBe(true);
    expect(addEvent('2027-01-01').ok).toBe(true);
    const [first, second] = events()!;
    expect(first!.from > `${lastDay}T23:59`).toBe(true);
    expect(second!.from > first!.to).toBe(true);
    undoStep();
    expect(events()).toEqual([first]);
  });

  it('are moved as they are long, stand in order, and are refused one over another', () => {
    addEvent('2027-01-01');
    addEvent('2027-01-01');
    const [first, second] = events()!;
    expect(setEventTo(first!.id, second!.from).ok).toBe(true);
    expect(setEventTo(first!.id, second!.to)).toMatchObject({ ok: false });
    const early = `${demoTrip().dives[0]!.startsAt.slice(0, 10)}T05:00`;
    expect(setEventFrom(second!.id, early).ok).toBe(true);
    expect(events()!.map(({ id }) => id)).toEqual([second!.id, first!.id]);
    expect(events()![0]).toMatchObject({ from: early, to: early.replace('05:00', '06:30') });
    expect(setEventAltitude(first!.id, 7000)).toMatchObject({ ok: false });
  });

  it('leave nothing behind where the last is removed', () => {
    addEvent('2027-01-01');
    removeEvent(events()![0]!.id);
    expect('events' in desk.getState().trip).toBe(false);
  });

  it('begin today where nothing is planned', () => {
    desk.setState({ ...freshDesk(), trip: { ...demoTrip(), dives: [], flight: null } });
    addEvent('2027-01-01');
    expect(events()![0]!.from).toBe('2027-01-01T10:00');
  });
});

describe('the water of a site', () => {
  beforeEach(() => desk.setState({ ...freshDesk(), trip: demoTrip() }));

  it('is what is not as the trip’s, and goes where nothing is left of it', () => {
    const { id } = demoTrip().sites[0]!;
    const site = () => desk.getState().trip.sites[0]!;
    setSiteWater(id, { altitudeM: 1200 });
    setSiteWater(id, { density: 'fresh' });
    expect(site().water).toEqual({ altitudeM: 1200, density: 'fresh' });
    setSiteWater(id, { altitudeM: null });
    setSiteWater(id, { density: null });
    expect('water' in site()).toBe(false);
    expect(setSiteWater(id, { altitudeM: 9000 })).toMatchObject({ ok: false });
  });
});
