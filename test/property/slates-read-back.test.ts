/** Trip sheets, tags and short cards say what the ledger says, over random trips and on every paper. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { modM } from '../../core/gas';
import type { Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import type { DiverLedger, Entry } from '../../core/ledger/ledger-types';
import { roomOf } from '../../core/ledger/room';
import { surroundingsOf } from '../../core/profile';
import type { SlateRequest } from '../../core/slate/request';
import { wallText } from '../../core/words/calendar';
import { careful, ceil, DUST, floor, literal, mixName, readBack, ROOM_TO } from '../support/slates-read-back';
import { trips } from '../support/trip-arbitrary';

const PAPERS = ['A4', 'letter', 'A5', 'half-letter', 'A6', '4x6in'] as const;
const SOME = trips({ dives: { min: 1, max: 4 }, party: { min: 1, max: 2 } });

function clock(min: number): string {
  return wallText(min).slice(11);
}

/** Room and what it is to, with what stands between them. */
function roomWords(trip: Trip, entry: Entry, between: (to: string, says: string) => string): string {
  const { min, minLimit } = roomOf(trip, entry);
  if (minLimit === null) return between('', 'no limit');
  const isUnknown = minLimit === 'po2' && entry.po2Bar! <= 1.6 + DUST;
  return between(ROOM_TO[minLimit], min === null ? (isUnknown ? 'not known' : 'past') : floor(min));
}

/** Each diver's pages by themselves, as one text; none of who makes no dive. */
async function ofEach(
  trip: Trip,
  paper: string,
  change: Partial<SlateRequest>,
  check: (mine: DiverLedger, text: string) => void,
): Promise<void> {
  for (const mine of ledger(trip).divers) {
    if (!mine.entries.some(({ isMade }) => isMade)) continue;
    // oxlint-disable-next-line no-await-in-loop
    const pages = await readBack(trip, paper, { diverIds: [mine.diver.id], ...change });
    check(mine, ` ${pages.join(' ').replaceAll('- ', '-')} `);
  }
}

function oxygenWords({ days }: DiverLedger): readonly string[] {
  return days.flatMap(({ cnsDayPeak, otu, otuAllowed }) => [
    `CNS 24 h ${cnsDayPeak === null ? 'not known' : `${ceil(100 * cnsDayPeak)} %`}`,
    `OTU ${ceil(otu)} of ${floor(Math.max(0, otuAllowed))}`,
  ]);
}

function checkTripSheet(trip: Trip, mine: DiverLedger, text: string): void {
  for (const words of oxygenWords(mine)) expect(text).toContain(words);
  if (mine.flyAfterMin !== null) expect(text).toContain(`No flying before`);
  if (mine.flyAfterMin !== null) expect(text).toContain(`, ${clock(mine.flyAfterMin)}`);
  for (const entry of mine.entries) {
    const depths = entry.levels.map(({ depthM }) => `${careful(depthM, entry)} m`).join(', ');
    const room = entry.isMade
      ? roomWords(trip, entry, (to, says) => {
          const limit = to === 'own depth' ? 'own depth limit' : to;
          return limit === '' ? `room ${says}` : `room ${says} ?, ${limit}`;
        })
      : 'not to be dived';
    const mix = `(, (no mix|Air|EAN[\\d.]+))?`;
    // Before its depth stands the site, or after it where the column is narrow.
    const row = `${clock(entry.startMin)} .{0,160}?${literal(depths)} .{0,160}?${literal(careful(entry.bottomMin, entry))} min${mix} ${room}`;
    expect(text).toMatch(new RegExp(row));
  }
}

function checkTags(trip: Trip, mine: DiverLedger, text: string): void {
  const { column } = surroundingsOf(trip);
  for (const { isMade, isAnalysed, o2, diver, modM: ledgerModM } of mine.entries) {
    if (!isMade) continue;
    const percent = Number((100 * o2!).toFixed(2));
    const mod = floor(modM(o2!, diver.po2.working, column));
    expect(text).toContain(` ${mixName(o2!)} `);
    // The tag never says more than the ledger, which counts what is not analysed yet.
    expect(Number(floor(ledgerModM!))).toBeLessThanOrEqual(Number(mod));
    if (isAnalysed) expect(text).toMatch(new RegExp(` ${literal(String(percent))} % ${mod} m`));
    else {
      const around = [percent - 1, percent, percent + 1].filter(
        (each) => Number.isInteger(each) && each >= 20 && each <= 100,
      );
      for (const share of around) {
        expect(text).toContain(` ${share} ${floor(modM(share / 100, diver.po2.working, column))} `);
      }
    }
  }
}

function checkShortCard(trip: Trip, mine: DiverLedger, text: string): void {
  for (const words of oxygenWords(mine)) expect(text).toContain(words);
  for (const entry of mine.entries) {
    expect(text).toContain(`in ${clock(entry.startMin)}`);
    if (!entry.isMade) {
      expect(text).toContain('not to be dived');
      continue;
    }
    let run = 0;
    for (const { depthM, min, noStopMin, unlimited } of entry.levels) {
      run += min;
      const leave = clock(Math.floor(entry.startMin + run + DUST));
      const [depth, minutes] = [careful(depthM, entry), careful(run, entry)];
      expect(text).toMatch(new RegExp(` ${literal(depth)} ${literal(minutes)} ?min ${leave}`));
      const limit = unlimited ? 'no limit' : `${careful(min, entry)} of ${floor(noStopMin!)}`;
      expect(text).toMatch(
        new RegExp(`No-stop (limit|[\\d.]+ m) .*${literal(limit)}|no-stop here ${literal(limit)}`),
      );
    }
    const { turnBar, minimumBar } = entry.gas;
    if (turnBar !== null) expect(text).toMatch(new RegExp(`Turn, bar .*?${ceil(turnBar)} `));
    if (minimumBar !== null) expect(text).toMatch(new RegExp(`Minimum .*?${ceil(minimumBar)} `));
    expect(text).toMatch(new RegExp(`MOD, m .*?${floor(entry.modM!)} `));
    expect(text).toContain(
      roomWords(trip, entry, (to, says) => (to === '' ? `Room ${says}` : `Room to ${to} ${says}`)),
    );
    if (entry.stops !== null) expect(text).toMatch(new RegExp(`up (\\d+ )?${clock(entry.surfacesMin)}`));
    for (const stop of entry.stops ?? []) expect(text).toContain(`${stop.depthM} m ${stop.min} min`);
  }
}

const KINDS: readonly (readonly [
  string,
  Partial<SlateRequest>,
  (trip: Trip, mine: DiverLedger, text: string) => void,
])[] = [
  ['trip sheets', { kind: 'trip' }, checkTripSheet],
  ['tags', { kind: 'tags' }, checkTags],
  ['short cards', { kind: 'card', card: 'short' }, checkShortCard],
];

describe('what is read back', () => {
  for (const [name, change, check] of KINDS) {
    it(`of ${name} is what the ledger says, rounded to the careful side, on every paper`, async () => {
      let sheets = 0;
      await fc.assert(
        fc.asyncProperty(SOME, fc.constantFrom(...PAPERS), (trip, paper) =>
          ofEach(trip, paper, change, (mine, text) => {
            sheets += 1;
            check(trip, mine, text);
          }),
        ),
        { numRuns: 15, interruptAfterTimeLimit: 60_000 },
      );
      expect(sheets).toBeGreaterThanOrEqual(10);
    }, 90_000);
  }
});
