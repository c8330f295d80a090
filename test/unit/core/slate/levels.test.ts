import { describe, expect, it } from 'vitest';
import { writeCalendar } from '../../../../core/formats/calendar';
import { slateDays, type SlateDive } from '../../../../core/slate/contents';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Dive, Trip } from '../../../../core/document/types';
import type { SlateRequest } from '../../../../core/slate/request';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

const LEVELS = [
  { depthM: 24.06, min: 12 },
  { depthM: 14, min: 20 },
];

/** A dive of two levels, and one that is square, on the same day. */
function two(change: Partial<Dive> = {}): Trip {
  return aTrip([
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', depthM: 24.06, bottomMin: 32, legs: LEVELS, ...change }),
    aDive({ id: 'b', startsAt: '2027-03-06T14:00', depthM: 16, bottomMin: 30 }),
  ]);
}

function divesOf(trip: Trip, units: SlateRequest['units'] = 'metric'): readonly SlateDive[] {
  return slateDays(trip, ledger(trip).divers[0]!, null, [], units)[0]!.dives;
}

const plain = (text: string | null | undefined) => text?.replaceAll('\u00a0', ' ');

/** The words of every page, as one line. */
function printed(trip: Trip, change: Partial<SlateRequest>): string {
  return layoutOf(trip, change).pages.map(wordsOf).join('\n').replaceAll('\n', ' ');
}

describe('a dive of several levels', () => {
  it('has its levels told as its depth and time are: planned down, dived up, in the page\u2019s units', () => {
    const [levels, square] = divesOf(two());
    expect(plain(levels!.levels)).toBe('24 m 12 min, 14 m 20 min');
    expect(levels!.noStopMark).toBe('*');
    expect([square!.levels, square!.noStopMark]).toEqual([null, '']);
    expect(plain(divesOf(two(), 'both')[0]!.levels)).toBe('24 m / 78 ft 12 min, 14 m / 45 ft 20 min');
    const moved = two({ asDived: [{ startsAt: '2027-03-06T08:05' }] });
    expect(plain(divesOf(moved)[0]!.levels)).toBe('24.1 m 12 min, 14 m 20 min');
  });

  it('counts as one level once its depth is known as dived, or where it has but one', () => {
    expect(divesOf(two({ asDived: [{ depthM: 25 }] }))[0]).toMatchObject({ levels: null, noStopMark: '' });
    const single = two({ depthM: 14, bottomMin: 20, legs: LEVELS.slice(1) });
    expect(divesOf(single)[0]).toMatchObject({ levels: null, noStopMark: '' });
  });

  it('says on its wet-notes slate for what the no-stop time holds', () => {
    const words = printed(two(), { paper: aPaper('A5') });
    expect(words).toContain('Levels 24 m 12 min, 14 m 20 min * whole time, last level lengthened');
    expect(words).toMatch(/No-stop\* \d+ min/);
    // The planned depth, and at least one step deeper.
    expect(words.match(/ \d+ min\* /g)!.length).toBeGreaterThanOrEqual(2);
    expect(words.match(/Levels/g)).toHaveLength(1);
    expect(words).toMatch(/No-stop \d+ min/);
  });

  it('keeps the profile and the table on the page of A6 where the demo has levels', () => {
    const pages = layoutOf(demoTrip(), { dates: ['2027-03-16'], diverIds: ['guide'] }).pages;
    expect(pages).toHaveLength(3);
    const [first] = pages;
    expect(wordsOf(first!)).toContain('Levels');
    expect(wordsOf(first!)).toContain('past the MOD of');
    expect(first!.marks.some((mark) => mark.kind === 'area')).toBe(true);
  });

  it('says so on the briefing once a dive, at each diver\u2019s no-stop time', () => {
    for (const paper of ['A4', 'A6', '60x150mm']) {
      const words = printed(demoTrip(), { kind: 'briefing', paper: aPaper(paper), dates: ['2027-03-16'] });
      expect(words).toContain(
        'Levels 36 m 9 min, 20 m 12 min, 12 m 12 min. * whole time, last level lengthened.',
      );
      expect(words.match(/last level lengthened/g)).toHaveLength(2);
      // Three divers on the one dive, four on the other.
      expect(words.match(/\d\*/g)).toHaveLength(7);
    }
  });

  it('says so on the trip sheet, once a page that has such a dive', () => {
    const [page] = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper('A4') }).pages.map(wordsOf);
    expect(page!.match(/^\d+\*$/gm)).toHaveLength(4);
    expect(page!.match(/\* whole time, last level lengthened\./g)).toHaveLength(1);
    const narrow = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper('A6') }).pages.map(wordsOf);
    expect(narrow.some((words) => words.includes('*'))).toBe(true);
    for (const words of narrow) expect(words.includes('* whole')).toBe(/\d\*/.test(words));
    expect(printed(aTrip([aDive()]), { kind: 'trip', paper: aPaper('A4') })).not.toContain('*');
  });

  it('says so in the calendar', () => {
    const text = writeCalendar(ledger(two()), '2027-03-01T18:00:00Z').replaceAll('\r\n ', '');
    const [levels, square] = text.split('END:VEVENT').map((event) => event.replaceAll('\\,', ','));
    expect(levels).toContain('32 min bottom time (levels 24 m 12 min, 14 m 20 min)');
    expect(levels).toMatch(/no-stop \d+ min \(whole time, the last level lengthened\)/);
    expect(square).toContain('30 min bottom time, ');
    expect(square).not.toContain('level');
  });
});

describe('a dive past its limit on an earlier level', () => {
  // Twelve minutes at 36 m on air are past the limit; on the levels after it that is given off again.
  const past = aTrip([
    aDive({
      id: 'a',
      startsAt: '2027-03-06T08:00',
      depthM: 36,
      bottomMin: 72,
      legs: [
        { depthM: 36, min: 12 },
        { depthM: 12, min: 20 },
        { depthM: 6, min: 40 },
      ],
    }),
    aDive({ id: 'b', startsAt: '2027-03-06T18:00', depthM: 12, bottomMin: 30 }),
  ]);

  it('is such a dive: inside its limit where the last level ends', () => {
    const [entry] = ledger(past).divers[0]!.entries;
    expect(entry).toMatchObject({ levelsPastLimitM: [36], stops: [], isPastLimit: true });
    expect(divesOf(past)[0]).toMatchObject({
      noStop: { value: 'past limit' },
      noStopMark: '',
      room: { value: 'past limit' },
      pastLevels: '36 m',
      roomMin: null,
    });
    expect(divesOf(past)[1]!.pastLevels).toBeNull();
  });

  it('has neither a no-stop time nor room on its wet-notes slate', () => {
    const words = printed(past, { paper: aPaper('A5'), onePerPage: true });
    expect(words).toContain('No-stop past limit Room past limit');
    expect(words).not.toContain('whole time');
    expect(words).toMatch(/No-stop \d+ min Room/);
  });

  it('is named in the briefing\u2019s card with the level, and its diver is the tightest', () => {
    const party = [aDiver({ gradient: { low: 0.9, high: 0.95 } }), aDiver({ id: 'g2', name: 'Guest 2' })];
    const trip = { ...past, party, dives: past.dives.slice(0, 1) };
    const [first, second] = ledger(trip).divers.map(({ entries }) => entries[0]!.levelsPastLimitM);
    expect([first, second]).toEqual([[], [36]]);
    const words = printed(trip, { kind: 'briefing', paper: aPaper('A4') });
    expect(words).toContain('Guest 2: past the limit at the end of the level at 36 m');
    expect(words).not.toContain('Guest 1: past');
    expect(words).toContain('Guest 2 (tightest)');
    expect(words).toMatch(/past limit past limit no-stop/);
  });

  it('is marked on the trip sheet, with what that means', () => {
    const words = printed(past, { kind: 'trip', paper: aPaper('A4') });
    expect(words).toContain('past past');
    expect(words.match(/past: past the limit at the end of an earlier level\./g)).toHaveLength(1);
  });

  it('is named in the calendar', () => {
    const text = writeCalendar(ledger(past), '2027-03-01T18:00:00Z').replaceAll('\r\n ', '');
    expect(text).toContain('past the no-stop limit at the end of the level at 36 m');
  });
});
