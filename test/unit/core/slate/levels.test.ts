import { describe, expect, it } from 'vitest';
import { writeCalendar } from '../../../../core/formats/calendar';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import {
  asPrinted,
  levelTexts,
  levelWords,
  noStopFigure,
  pastLevelsText,
} from '../../../../core/slate/levels';
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

/** What is said of the levels of each dive, where they are set in words. */
function divesOf(trip: Trip, units: SlateRequest['units'] = 'metric') {
  return ledger(trip).divers[0]!.entries.map((entry) => {
    const printedEntry = asPrinted(trip, entry, units);
    const levels = levelTexts(entry, units);
    return {
      entry,
      levels: levels.length === 0 ? null : levels.join(', '),
      levelLimits: levelWords(entry, printedEntry, units)?.join(', ') ?? null,
      noStop: noStopFigure(deepestLevel(printedEntry.levels)),
      pastLevels: pastLevelsText(entry, units),
    };
  });
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
    expect([square!.levels, square!.levelLimits]).toEqual([null, null]);
    expect(plain(divesOf(two(), 'both')[0]!.levels)).toBe('24 m / 78 ft 12 min, 14 m / 45 ft 20 min');
    const moved = two({ asDived: [{ startsAt: '2027-03-06T08:05' }] });
    expect(plain(divesOf(moved)[0]!.levels)).toBe('24.1 m 12 min, 14 m 20 min');
  });

  it('has beside its depth the no-stop time of the deepest level, and each level\u2019s own behind it', () => {
    const [levels] = divesOf(two());
    const { levels: limits, noStopMin } = levels!.entry;
    const [deep, shallow] = limits.map((level) => Math.floor(level.noStopMin!));
    expect(deep).toBeLessThan(Math.floor(noStopMin!) - 20);
    expect(levels!.noStop).toEqual({ value: `${deep}`, unit: 'min' });
    expect(plain(levels!.levelLimits)).toBe(
      `24 m 12 of ${deep} min, 14 m 20 of ${shallow} min, in all 32 of ${Math.floor(noStopMin!)} min`,
    );
  });

  it('holds the limits of what was dived to the depths as they are printed', () => {
    const moved = divesOf(two({ asDived: [{ startsAt: '2027-03-06T08:05' }] }), 'imperial')[0]!;
    // 24.06 m are printed as 79 ft, 24.0792 m.
    const deeperM = 79 * 0.3048 - 24.06;
    const legs = LEVELS.map(({ depthM, min }) => ({ depthM: depthM + deeperM, min }));
    const printedAt = two({ startsAt: '2027-03-06T08:05', depthM: 24.06 + deeperM, legs });
    const [deep] = ledger(printedAt).divers[0]!.entries[0]!.levels;
    expect(moved.noStop.value).toBe(String(Math.floor(deep!.noStopMin!)));
    expect(plain(moved.levels)).toContain('79 ft 12 min');
  });

  it('says where there is no limit', () => {
    const legs = [
      { depthM: 24, min: 12 },
      { depthM: 5, min: 20 },
    ];
    const [dive] = divesOf(two({ depthM: 24, legs }));
    const deep = Math.floor(dive!.entry.levels[0]!.noStopMin!);
    expect(plain(dive!.levelLimits)).toBe(
      `24 m 12 of ${deep} min, 5 m 20 min (no limit), in all 32 min (no limit)`,
    );
  });

  it('counts as one level once its depth is known as dived, or where it has but one', () => {
    const one = { levels: null, levelLimits: null };
    expect(divesOf(two({ asDived: [{ depthM: 25 }] }))[0]).toMatchObject(one);
    const single = two({ depthM: 14, bottomMin: 20, legs: LEVELS.slice(1) });
    expect(divesOf(single)[0]).toMatchObject(one);
  });

  it('has on its card each level with its own no-stop time beside it', () => {
    const words = printed(two(), {});
    const [deep, shallow] = divesOf(two())[0]!.entry.levels.map(({ noStopMin }) => Math.floor(noStopMin!));
    expect(words).toContain(`24 12  min 08:12 12 of  ${deep} 14 32  min 08:32 20 of  ${shallow}`);
    expect(words).toContain('Leave each level at No-stop limit');
    expect(words.match(/Leave each level at/g)).toHaveLength(1);
    expect(words).toContain('24, 14 m');
  });

  it('has on the briefing each level with the run time to leave it at', () => {
    const request = { kind: 'briefing', dates: ['2027-03-16'] } as const;
    const wide = printed(demoTrip(), { ...request, paper: aPaper('A4') });
    expect(wide).toContain('36  to  9 ,  20  to  21 ,  12  to  33');
    const narrow = printed(demoTrip(), { ...request, paper: aPaper('A6') });
    expect(narrow).toContain('36 m  to  9 ,  20 m  to  21 ,  12 m  to  33  min');
  });

  it('has on the trip sheet the levels of each dive that has any', () => {
    const levelled = demoTrip().dives.filter(({ legs }) => legs !== undefined);
    for (const name of ['A4', 'A6'] as const) {
      const words = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper(name) }).pages.map(wordsOf);
      const own = words.filter((page) => page.includes('Guide')).join('\n');
      expect(own).toContain('36 m, 20 m, 12 m');
      expect(own.match(/^\d+ m(, \d+ m)+$/gm)).toHaveLength(levelled.length);
    }
  });

  it('has them in the calendar', () => {
    const text = writeCalendar(ledger(two()), '2027-03-01T18:00:00Z').replaceAll('\r\n ', '');
    const [levels, square] = text.split('END:VEVENT').map((event) => event.replaceAll('\\,', ','));
    expect(levels).toContain(
      `levels (minutes of the no-stop time, in all with the last level lengthened) ${plain(divesOf(two())[0]!.levelLimits)}, CNS`,
    );
    expect(square).toMatch(/30 min bottom time, .* no-stop \d+ min, CNS/);
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
      // What the deepest level allows, of which the dive takes twelve.
      noStop: { value: '10' },
      pastLevels: '36 m',
    });
    expect(plain(divesOf(past)[0]!.levelLimits)).toBe(
      '36 m 12 of 10 min, 12 m 20 of 0 min, 6 m 40 min (no limit)',
    );
    expect(divesOf(past)[1]!.pastLevels).toBeNull();
  });

  it('has each depth told once, where two such levels lie at it', () => {
    const legs = [
      { depthM: 36, min: 12 },
      { depthM: 36, min: 1 },
      { depthM: 6, min: 40 },
    ];
    const [dive] = divesOf(aTrip([aDive({ depthM: 36, bottomMin: 53, legs })]));
    expect(dive!.entry.levelsPastLimitM).toEqual([36, 36]);
    expect(dive!.pastLevels).toBe('36 m');
  });

  it('has on its card no room, and the levels with what each allows', () => {
    const words = printed(past, {});
    expect(words).toContain('Room to no-stop past');
    expect(words).toContain('12 of  10');
    expect(words).toContain('20 of  0');
    expect(words).toContain('no limit');
  });

  it('is named among the cautions of the briefing, and its diver has the least room', () => {
    const party = [aDiver({ gradient: { low: 0.9, high: 0.95 } }), aDiver({ id: 'g2', name: 'Guest 2' })];
    const trip = { ...past, party, dives: past.dives.slice(0, 1) };
    const [first, second] = ledger(trip).divers.map(({ entries }) => entries[0]!.levelsPastLimitM);
    expect([first, second]).toEqual([[], [36]]);
    const words = printed(trip, { kind: 'briefing', paper: aPaper('A4') });
    expect(words).toContain('past the no-stop limit Guest 2');
    expect(words).toMatch(/Past a limit, Guest 2, dive 1 +\. /);
  });

  it('is marked on the trip sheet, with where its limit is told', () => {
    const words = printed(past, { kind: 'trip', paper: aPaper('A4') });
    expect(words).toMatch(/36 m, 12 m, 6 m 72 min room +past +, no-stop Past a limit: see its cautions/);
    expect(words.match(/Past a limit: see its cautions/g)).toHaveLength(1);
  });

  it('is named in the calendar', () => {
    const text = writeCalendar(ledger(past), '2027-03-01T18:00:00Z').replaceAll('\r\n ', '');
    expect(text).toContain('past the no-stop limit at the end of the level at 36 m');
  });
});
