import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../../core/document/demo-trip';
import type { Trip } from '../../../../../../core/document/types';
import { wallMin } from '../../../../../../core/words/calendar';
import { boardDays, boardRows, type BoardDay } from '../../../../../../renderer/places/days/strip/board-view';
import { dayViews } from '../../../../../../renderer/places/days/strip/day-view';
import { diveViews } from '../../../../../../renderer/places/days/strip/dive-view';
import { hourMarks } from '../../../../../../renderer/places/days/strip/hours';
import { stripForm } from '../../../../../../renderer/places/days/strip/strip-form';
import { timeScale } from '../../../../../../renderer/places/days/strip/time-scale';
import { fitted, textWidth } from '../../../../../../renderer/places/days/strip/text-width';
import {
  selectEntriesByDive,
  selectLedger,
  selectRoomLimit,
  selectRoomMin,
} from '../../../../../../renderer/store/selectors';
import { selectMarked } from '../../../../../../renderer/places/days/strip/marked';
import { desk, freshDesk } from '../../../../../../renderer/store/store';

const READER = { units: 'metric', clock: '24h' } as const;

function boardOf(trip: Trip, dayWidthPx: number, todayMin: number | null = null): readonly BoardDay[] {
  desk.setState(freshDesk(trip));
  const state = desk.getState();
  const views = diveViews({
    trip,
    entriesByDive: selectEntriesByDive(state),
    diverId: null,
    marked: selectMarked(state),
    roomLimitOf: selectRoomLimit(state),
    roomMinOf: selectRoomMin(state),
    reader: READER,
  });
  const { divers } = selectLedger(state);
  const span = { firstDay: Math.floor(views[0]!.startMin / 1440), dayCount: 7 };
  const [first] = divers;
  return boardDays({
    days: dayViews(span, divers, views),
    views,
    form: stripForm(dayWidthPx, 1),
    dayWidthPx,
    flyAfterMin: first!.flyAfterMin,
    flightMin: trip.flight === null ? null : wallMin(trip.flight.at),
    todayMin,
    reader: READER,
  });
}

describe('boardDays', () => {
  it('lists the dives of each day with start and site, and with their room where there is room for it', () => {
    const [, , , wednesday] = boardOf(demoTrip(), 160);
    expect(wednesday!.title).toBe('Wed 17');
    expect(wednesday!.rows.map(({ start, site, room }) => `${start} ${site} ${room}`)).toEqual([
      '07:30 Millstone Ledge 6',
      '09:25 Kettle Pinnacle 7',
      '11:35 Kettle Pinnacle 4',
      '15:00 Thrift Garden 11',
    ]);
    expect(wednesday!.rows.map(({ mark }) => mark)).toEqual([null, null, 'tightest', null]);
    // A figure without its unit is none: the head says what stands at the end of the rows.
    expect(wednesday!.summary).toBe('min room');
  });

  it('keeps a title clear of the button beside it', () => {
    const [sunday] = boardOf(demoTrip(), 119);
    expect(sunday).toMatchObject({ log: 'open', title: 'Sun 14' });
    expect(boardOf(demoTrip(), 240)[0]).toMatchObject({ title: 'Sun 14 March' });
    expect(boardOf(demoTrip(), 80)[0]).toMatchObject({ log: 'open', title: '14', name: 'Sun 14 March' });
    expect(boardOf(demoTrip(), 80)[1]).toMatchObject({ log: null, title: 'Mon 15' });
  });

  it('says by how much a dive is past its limit, rounded up, and marks it so', () => {
    const demo = demoTrip();
    const dives = demo.dives.map((dive) => (dive.id === 'd13' ? { ...dive, bottomMin: 40 } : dive));
    const [, , , wednesday] = boardOf({ ...demo, dives }, 160);
    expect(wednesday!.rows[2]).toMatchObject({ mark: 'past' });
    expect(wednesday!.rows[2]!.room).toMatch(/^−\d+$/);
    const [, , , narrow] = boardOf({ ...demo, dives }, 50);
    expect(narrow!.notes).toContainEqual({ text: '1 over', isCare: true });
  });

  it('says when flying is clear and when the flight leaves, on their day', () => {
    const saturday = boardOf(demoTrip(), 118).at(-1)!;
    expect(saturday.notes).toEqual([
      { text: 'No flying before 13:21', isCare: true },
      { text: 'Flight home 16:30', isCare: false },
    ]);
    const narrow = boardOf(demoTrip(), 80).at(-1)!;
    expect(narrow.notes.map(({ text }) => text)).toEqual(['No flying', 'before 13:21', 'Flight 16:30']);
    expect(
      boardOf(demoTrip(), 50)
        .at(-1)!
        .notes.map(({ text }) => text),
    ).toEqual(['fly 16:30']);
  });

  it('counts what has no row, and has no rows where a day fills the page', () => {
    const demo = demoTrip();
    const [first] = demo.dives;
    const starts = ['06:00', '08:30', '11:00', '13:30', '16:00', '18:30', '21:00'];
    const dives = starts.map((start, i) => ({ ...first!, id: `x${i}`, startsAt: `2027-03-14T${start}` }));
    const [day] = boardOf({ ...demo, dives, flight: null }, 118);
    expect(day!.rows).toHaveLength(5);
    expect(day!.more).toBe(2);
    expect(boardRows([day!], 'start')).toBe(6);
    const [whole] = boardOf({ ...demo, dives, flight: null }, 700);
    expect(whole).toMatchObject({ rows: [], more: 0, title: 'Sun 14 March' });
    expect(whole!.summary).toMatch(/^7 dives, \d+:\d\d in the water$/);
  });
});

describe('a day that is logged', () => {
  it('says so once every dive of it is known, and marks what was missed and added', () => {
    const demo = demoTrip();
    const logged = (last: Partial<Trip['dives'][number]>): Trip => ({
      ...demo,
      dives: demo.dives.map((dive) =>
        dive.id === 'd1' || dive.id === 'd2'
          ? { ...dive, asDived: [{}] }
          : dive.id === 'd3'
            ? { ...dive, ...last }
            : dive,
      ),
    });
    const [partly] = boardOf(logged({}), 160);
    expect(partly).toMatchObject({ log: 'open' });
    expect(partly!.rows.map(({ state }) => state)).toEqual(['dived', 'dived', 'ahead']);
    const [missed] = boardOf(logged({ notDived: [{}] }), 160);
    expect(missed).toMatchObject({ log: 'logged', summary: '' });
    // Beside the word there is less room than beside the button.
    expect(boardOf(logged({ notDived: [{}] }), 145)[0]).toMatchObject({ title: 'Sun 14' });
    expect(boardOf(demoTrip(), 145)[0]).toMatchObject({ title: 'Sun 14 March' });
    expect(boardOf(logged({ notDived: [{}] }), 80)[0]).toMatchObject({ title: 'Sun 14' });
    expect(boardOf(demoTrip(), 80)[0]).toMatchObject({ title: '14' });
    expect(missed!.rows.map(({ state }) => state)).toEqual(['dived', 'dived', 'missed']);
    const [added] = boardOf(logged({ asDived: [{}], added: true }), 160);
    expect(added!.rows.map(({ state, room }) => [state, room])).toEqual([
      ['dived', ''],
      ['dived', ''],
      ['added', ''],
    ]);
  });
});

describe('the button to log a day', () => {
  const logs = (todayMin: number | null) => boardOf(demoTrip(), 160, todayMin).map(({ log }) => log);

  it('stands at the first day of which not all is known, and at every day up to today', () => {
    expect(logs(null)).toEqual(['open', null, null, null, null, null, null]);
    expect(logs(wallMin('2027-03-16T20:40'))).toEqual(['open', 'open', 'open', null, null, null, null]);
    expect(boardOf(demoTrip(), 50, null).every(({ log }) => log === null)).toBe(true);
  });
});

describe('stripForm', () => {
  it('says less the narrower a day is, and as much in larger text as a narrower day has', () => {
    const forms = [700, 300, 160, 118, 80, 50].map((width) => stripForm(width, 1));
    expect(forms).toEqual(['day', 'room', 'room', 'start', 'site', 'least']);
    expect(stripForm(160, 2)).toBe('site');
  });
});

describe('hourMarks', () => {
  const day = 20_884;
  const dive = { startMin: day * 1440 + 600, endMin: day * 1440 + 660 };
  const at = (dayWidthPx: number) =>
    hourMarks(timeScale({ firstDay: day, dayCount: 1 }, [dive], dayWidthPx), 1, '24h', []);

  it('are every hour where a day fills the page, every third in half of it, and none in less', () => {
    const told = (dayWidthPx: number) =>
      at(dayWidthPx)
        .filter(({ isTold }) => isTold)
        .map(({ label }) => label);
    expect(told(900)).toContain('11');
    expect(told(300)).not.toContain('11');
    expect(told(300)).toContain('12');
    expect(at(200)).toEqual([]);
  });

  it('are not written across a line', () => {
    const time = timeScale({ firstDay: day, dayCount: 1 }, [dive], 900);
    const noon = at(900).find(({ label }) => label === '12')!;
    const across = hourMarks(time, 1, '24h', [noon.x + 2]);
    expect(across.find(({ label }) => label === '12')!.isTold).toBe(false);
  });

  it('are of the reader’s clock', () => {
    const time = timeScale({ firstDay: day, dayCount: 1 }, [dive], 900);
    expect(hourMarks(time, 1, '12h', []).map(({ label }) => label)).toContain('1');
  });
});

describe('fitted', () => {
  it('leaves a text that fits, and ends another with a sign that more was there', () => {
    expect(fitted('Anvil Head', 'condensed', 12, 100)).toBe('Anvil Head');
    const short = fitted('Kettle Pinnacle', 'condensed', 12, 50);
    expect(short).toMatch(/^Kettle.*…$/);
    expect(textWidth(short, 'condensed', 12)).toBeLessThanOrEqual(50);
  });
});
