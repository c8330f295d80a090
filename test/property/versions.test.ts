/** Past saves as they are thinned after every save of weeks of editing. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { versionsToKeep } from '../../core/library';

const START_MS = Date.parse('2027-03-01T00:00:00.000Z');
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Moments of saves: bursts of some seconds, pauses of minutes, nights and idle weeks between. */
const pauses = fc.array(
  fc.oneof(
    { weight: 8, arbitrary: fc.integer({ min: 1, max: 60_000 }) },
    { weight: 3, arbitrary: fc.integer({ min: 60_000, max: 2 * HOUR_MS }) },
    { weight: 1, arbitrary: fc.integer({ min: 2 * HOUR_MS, max: 12 * DAY_MS }) },
  ),
  { minLength: 1, maxLength: 200 },
);

function momentsOf(gaps: readonly number[]): readonly string[] {
  let now = START_MS;
  return gaps.map((gap) => new Date((now += gap)).toISOString());
}

/** What stays after each save, thinned each time. */
function thinned(saves: readonly string[]): readonly string[] {
  let kept: readonly string[] = [];
  for (const save of saves) kept = versionsToKeep([...kept, save]);
  return kept;
}

/** The last save of each span of so many letters of its date-time, among those younger than an age. */
function lastOfEach(saves: readonly string[], letters: number, youngerThanMs: number): readonly string[] {
  const newestMs = Date.parse(saves.at(-1)!);
  const last = new Map<string, string>();
  for (const save of saves) {
    if (newestMs - Date.parse(save) < youngerThanMs) last.set(save.slice(0, letters), save);
  }
  return [...last.values()];
}

describe('versionsToKeep', () => {
  it('keeps the last save of every hour of today and of every day of a month, whatever came since', () => {
    fc.assert(
      fc.property(pauses, (gaps) => {
        const saves = momentsOf(gaps);
        const kept = new Set(thinned(saves));
        // To the minute, as ages are told.
        for (const save of lastOfEach(saves, 13, DAY_MS - 60_000)) expect(kept).toContain(save);
        for (const save of lastOfEach(saves, 10, 31 * DAY_MS - 60_000)) expect(kept).toContain(save);
      }),
    );
  });

  it('keeps the ten latest of the last hour', () => {
    fc.assert(
      fc.property(pauses, (gaps) => {
        const saves = momentsOf(gaps);
        const newestMs = Date.parse(saves.at(-1)!);
        const late = saves.filter((save) => newestMs - Date.parse(save) < HOUR_MS - 60_000).slice(-10);
        expect(thinned(saves)).toEqual(expect.arrayContaining([...late]));
      }),
    );
  });

  it('keeps no more than ten, one an hour and one a day, and gives them newest first', () => {
    fc.assert(
      fc.property(pauses, (gaps) => {
        const kept = thinned(momentsOf(gaps));
        expect(kept.length).toBeLessThanOrEqual(10 + 25 + 31);
        expect(kept).toEqual(kept.toSorted().toReversed());
      }),
    );
  });

  it('keeps the same whether thinned after each save or once at the end', () => {
    fc.assert(
      fc.property(pauses, (gaps) => {
        const saves = momentsOf(gaps);
        expect(thinned(saves)).toEqual(versionsToKeep(saves));
      }),
    );
  });
});
