import { beforeEach, describe, expect, it } from 'vitest';
import { withLogged, logProgress } from '../../../../core/document/log';
import { wallMin } from '../../../../core/words/calendar';
import { demoTrip } from '../../../../core/document/demo-trip';
import { dayToLog } from '../../../../renderer/actions/evening';
import { undoStep } from '../../../../renderer/actions/history';
import {
  addDived,
  divesOfDay,
  logAsPlanned,
  logMissed,
  logRestAsPlanned,
  planWithRate,
  putLog,
  setDayNotes,
  setDiveNotes,
  type LogEntry,
} from '../../../../renderer/actions/log';
import { ledgerOfDiver } from '../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../renderer/store/store';

const DATE = '2027-03-14';
const trip = () => desk.getState().trip;
const ofDay = () => divesOfDay(trip(), DATE);
const party = () => trip().party.map(({ id }) => id);
const steps = () => desk.getState().history.past.length;
const entry = (at: number, by: string | null, field: 'depthM' | 'endBar', value: number): LogEntry => ({
  diveId: ofDay()[at]!.id,
  change: (dive, all) => withLogged(dive, by, field, value, all),
});

beforeEach(() => desk.setState(freshDesk(demoTrip())));

describe('putLog', () => {
  it('puts many entries in one step, and one step takes them back', () => {
    const before = trip();
    const [a, b] = party();
    expect(putLog(DATE, [entry(0, a!, 'depthM', 16), entry(1, b!, 'endBar', 70)])).toEqual([null, null]);
    expect(steps()).toBe(1);
    expect(desk.getState().history.past[0]!.label).toBe('Log of Sun 14');
    undoStep();
    expect(trip()).toBe(before);
  });

  it('takes what stands and gives back what cannot, with its reason', () => {
    const [a, b] = party();
    const [why, none] = putLog(DATE, [entry(0, a!, 'depthM', 900), entry(0, b!, 'endBar', 70)]);
    expect(why?.what).toBeDefined();
    expect(none).toBeNull();
    expect(ofDay()[0]!.asDived).toEqual([{ by: b, endBar: 70 }]);
    expect(steps()).toBe(1);
  });
});

describe('a whole day or dive', () => {
  it('is logged as planned in one step, but for what is logged already', () => {
    logMissed(ofDay()[2]!.id, party()[0]!, 'ear');
    logRestAsPlanned(DATE);
    expect(logProgress(ofDay(), party())).toEqual({ done: 12, all: 12 });
    expect(ofDay()[2]!.notDived).toEqual([{ by: party()[0], reason: 'ear' }]);
    expect(ofDay().map(({ asDived }) => asDived)).toEqual([[{}], [{}], [{}]]);
    logMissed(ofDay()[0]!.id, null, 'swell');
    expect(ofDay()[0]).not.toHaveProperty('asDived');
    logAsPlanned(ofDay()[0]!.id);
    expect(ofDay()[0]).not.toHaveProperty('notDived');
  });

  it('has notes that nothing takes away but emptying them', () => {
    setDayNotes('2027-03-16', 'Fog.');
    setDayNotes(DATE, 'Swell from noon.');
    expect(trip().days).toEqual([
      { date: DATE, notes: 'Swell from noon.' },
      { date: '2027-03-16', notes: 'Fog.' },
    ]);
    setDayNotes(DATE, '');
    setDayNotes('2027-03-16', ' ');
    expect(trip()).not.toHaveProperty('days');
  });

  it('has notes of each dive too, which go with the dive', () => {
    const [first] = ofDay();
    setDiveNotes(first!.id, 'Torch flooded.');
    expect(ofDay()[0]).toEqual({ ...first, notes: 'Torch flooded.' });
    setDiveNotes(first!.id, '');
    expect(ofDay()[0]).toEqual(first);
  });

  it('takes a dive that nobody planned, in its place among the others', () => {
    const [first] = ofDay();
    const known = { siteId: first!.siteId, depthM: 9, bottomMin: 35 };
    expect(addDived({ ...known, startsAt: `${DATE}T12:00` }).ok).toBe(true);
    expect(ofDay()[1]).toMatchObject({ ...known, added: true, asDived: [{}] });
    expect(addDived({ ...known, startsAt: `${DATE}T12:10` }).ok).toBe(false);
  });
});

describe('dayToLog', () => {
  it('is the day of the chosen dive, else today, else the first that nothing is known of', () => {
    expect(dayToLog(desk.getState())).toBe(DATE);
    logRestAsPlanned(DATE);
    expect(dayToLog(desk.getState())).toBe('2027-03-15');
    desk.setState({ nowMin: wallMin('2027-03-17T21:00') });
    expect(dayToLog(desk.getState())).toBe('2027-03-17');
    const last = trip().dives.at(-1)!;
    desk.setState(({ selection }) => ({ selection: { ...selection, diveIds: [last.id] } }));
    expect(dayToLog(desk.getState())).toBe(last.startsAt.slice(0, 10));
  });
});

describe('planWithRate', () => {
  it('holds from its day on, and the days before keep their figures', () => {
    const [id] = party();
    const used = () => ledgerOfDiver(desk.getState(), id!)!.entries.map(({ gas }) => gas.usedL);
    const before = used();
    const ofDayOne = ofDay().length;
    planWithRate(id!, '2027-03-15', 14);
    expect(used().slice(0, ofDayOne)).toEqual(before.slice(0, ofDayOne));
    expect(used()[ofDayOne]).not.toBe(before[ofDayOne]);
    planWithRate(id!, '2027-03-15', null);
    expect(used()).toEqual(before);
    expect(trip().party[0]).not.toHaveProperty('rates');
  });
});
