/** What stands on a slate, read back from the PDF by an engine that knows nothing of this project. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assert } from '../../core/result';
import { slatePdf } from '../../core/slate/pdf';
import { slateReader } from '../../core/slate/reading';
import { tightestOf } from '../../core/ledger/tightest';
import { inOneSystem, wordsOf } from '../../core/words/reader';
import { cautionsOf } from '../../core/cautions/all';
import { wallText } from '../../core/words/calendar';
import { ledger } from '../../core/ledger/ledger';
import type { DiverLedger, Entry, Ledger, Room } from '../../core/ledger/ledger-types';
import { roomOf } from '../../core/ledger/room';
import type { Trip } from '../../core/document/types';
import { pdfTroubles } from '../support/pdf/qpdf';
import { readPdf } from '../support/pdf/read-pdf';
import { trips } from '../support/trip-arbitrary';
import { aPaper, aRequest } from '../support/slates';
import { careful, ceil, DUST, floor, literal, mixName, readBack, ROOM_TO } from '../support/slates-read-back';

/** Of a dive that begins under water it is how far it is into the one before: "−1 h 15 min". */
function intervalWords(min: number): string {
  const whole = Math.floor(min + DUST);
  if (whole < 0) return `−${intervalWords(-whole)}`;
  if (whole < 60) return `${whole} min`;
  const hours = Math.floor(whole / 60);
  const minutes = whole % 60;
  return hours < 48
    ? `${hours} h${minutes === 0 ? '' : ` ${String(minutes).padStart(2, '0')} min`}`
    : `${Math.floor(hours / 24)} days ${hours % 24} h`;
}

/** A time of the dive's own day, or what stands in its place. */
function earliestWords(entry: Entry, { earlierMin, earlierLimit }: Room): string {
  if (entry.intervalMin === null) return '';
  if (earlierMin === null) {
    if (earlierLimit === null) return 'any interval will do';
    return earlierLimit === 'po2' ? 'earliest not known: PO2' : 'not possible at any interval';
  }
  const [date, clock] = wallText(entry.startMin - earlierMin).split('T');
  const own = wallText(entry.startMin).slice(0, 10);
  if (date! < own) return 'earliest the day before';
  return date === own ? `earliest ${clock}` : `, ${clock}`;
}

/** Each level on a row: depth, run time, moment to leave at, and the minutes there of the limit there. */
function levelRow(entry: Entry, i: number): RegExp {
  const { depthM, min, noStopMin, unlimited } = entry.levels[i]!;
  const run = entry.levels.slice(0, i + 1).reduce((sum, level) => sum + level.min, 0);
  const clock = wallText(Math.floor(entry.startMin + run + DUST)).slice(11);
  const limit = unlimited ? 'no limit' : `${careful(min, entry)} of ${floor(noStopMin!)}`;
  return new RegExp(
    `${literal(careful(depthM, entry))} ${literal(careful(run, entry))}( min)? ${clock} (no-stop )?${literal(limit)}(?!\\d)`,
  );
}

function barUp(label: string, bar: number | null, instead: string): string {
  return bar === null ? `${label} ${instead}` : `${label} bar ${ceil(bar)}`;
}

function cardRoom(entry: Entry, { min, minLimit }: Room): string {
  if (minLimit === null) return 'Room no limit';
  if (min !== null) return `Room to ${ROOM_TO[minLimit]} ${floor(min)} min`;
  const isUnknown = minLimit === 'po2' && entry.po2Bar! <= 1.6 + DUST;
  return `Room to ${ROOM_TO[minLimit]} ${isUnknown ? 'not known' : 'past'}`;
}

/** All that has to stand on the card of a diver with this dive. */
function expected(trip: Trip, mine: DiverLedger, entry: Entry): readonly (string | RegExp)[] {
  const room = roomOf(trip, entry);
  const start = `in ${wallText(entry.startMin).slice(11)}`;
  if (!entry.isMade) return ['not to be dived', start];
  const day = mine.days.find((each) => each.date === wallText(entry.startMin).slice(0, 10))!;
  const { turnBar, minimumBar } = entry.gas;
  return [
    `CNS 24 h ${day.cnsDayPeak === null ? 'not known' : `${ceil(100 * day.cnsDayPeak)} %`}`,
    `OTU ${ceil(day.otu)} of ${floor(Math.max(0, day.otuAllowed))}`,
    start,
    ...entry.levels.map((_, i) => levelRow(entry, i)),
    barUp('Turn', turnBar, minimumBar === null ? 'none' : 'fill too low'),
    barUp('Minimum', minimumBar, 'none'),
    `MOD m ${floor(entry.modM!)}`,
    cardRoom(entry, room),
    ...(entry.stops === null ? [] : [wallText(entry.surfacesMin).slice(11)]),
    entry.intervalMin === null ? 'first dive' : `interval ${intervalWords(entry.intervalMin)}`,
    earliestWords(entry, room),
    ...(entry.stops ?? []).map((stop) => `${stop.depthM} m ${stop.min} min`),
  ];
}

describe('day cards', () => {
  it('say what the ledger says, limits rounded down and exposures up', async () => {
    let dives = 0;
    await fc.assert(
      fc.asyncProperty(
        trips({ dives: { min: 1, max: 5 }, party: { min: 1, max: 2 } }),
        fc.constantFrom('A6', 'A5', '4x6in', 'half-letter', 'A4', 'letter'),
        async (trip, paper) => {
          const whole = ledger(trip);
          for (const mine of whole.divers) {
            const alone = { ...trip, party: trip.party };
            const made = await slatePdf(
              aRequest(alone, { paper: aPaper(paper), isFolded: false, diverIds: [mine.diver.id] }),
            );
            if (mine.entries.length === 0) {
              expect(made.ok).toBe(false);
              continue;
            }
            assert(made.ok && made.value !== null, 'no cards');
            expect(await pdfTroubles(made.value.bytes)).toBe('');
            const pages = await readPdf(made.value.bytes);
            const text = pages
              .map((page) => page.text)
              .join(' ')
              .replaceAll(/[\s\u00a0]+/g, ' ');
            for (const entry of mine.entries) {
              dives += 1;
              for (const words of expected(trip, mine, entry)) {
                if (typeof words === 'string') expect(text).toContain(words);
                else expect(text).toMatch(words);
              }
            }
          }
        },
      ),
      { numRuns: 25, interruptAfterTimeLimit: 90_000 },
    );
    expect(dives).toBeGreaterThanOrEqual(25);
  }, 120_000);
});

const BRIEFING_PAPERS = ['A4', 'letter', 'A5', 'half-letter', 'A6', '4x6in'] as const;

interface Briefed {
  readonly id: string;
  readonly entries: readonly Entry[];
}

/** The dives of a day with everybody who makes them, in order of their starts. */
function briefed(whole: Ledger, date: string): readonly Briefed[] {
  const today = whole.divers.flatMap(({ entries }) =>
    entries.filter(({ startMin }) => wallText(Math.floor(startMin)).startsWith(date)),
  );
  const starts = (id: string): number =>
    Math.min(...today.filter(({ dive }) => dive.id === id).map(({ startMin }) => startMin));
  return [...new Set(today.map(({ dive }) => dive.id))]
    .toSorted((a, b) => starts(a) - starts(b))
    .map((id) => ({ id, entries: today.filter(({ dive }) => dive.id === id) }));
}

/** What stands in the table of pressures for a diver and a dive. */
function pressureCell({ entries }: Briefed, diverId: string): string {
  const entry = entries.find(({ diver }) => diver.id === diverId);
  if (entry === undefined) return 'stays up';
  if (!entry.isMade) return 'no mix';
  const mixes = new Set(entries.flatMap(({ isMade, o2 }) => (isMade ? [mixName(o2!)] : [])));
  const bar = (gauge: number | null): string => (gauge === null ? '\u2013' : ceil(gauge));
  const mix = mixes.size > 1 ? `${mixName(entry.o2!)} ` : '';
  return `${mix}${bar(entry.gas.turnBar)} ${bar(entry.gas.minimumBar)}`;
}

/** The cells of a diver's row, which may stand in several tables, each after name and cylinder; what is left over. */
function leftOver(text: string, head: string, cells: readonly string[]): readonly string[] {
  let left = cells;
  for (const after of text.split(head).slice(1)) {
    let row = after.trimStart();
    while (left.length > 0 && `${row} `.startsWith(`${left[0]!} `)) {
      row = row.slice(left[0]!.length).trimStart();
      left = left.slice(1);
    }
  }
  return left;
}

/** The plan of a dive: under a head that names the units, or with them. */
function planWays(entry: Entry): readonly string[] {
  let run = 0;
  const levels = entry.levels.map(({ depthM, min }) => {
    run += min;
    return [careful(depthM, entry), careful(run, entry)] as const;
  });
  return [
    levels.map(([depth, min]) => `${depth} to ${min}`).join(', '),
    `${levels.map(([depth, min]) => `${depth} m to ${min}`).join(', ')} min`,
  ];
}

function roomWords(entry: Entry, { min, minLimit }: Room): string {
  if (minLimit === null) return 'no limit';
  if (min !== null) return `${floor(min)} min to ${ROOM_TO[minLimit]}`;
  return minLimit === 'po2' && entry.po2Bar! <= 1.6 + DUST ? 'not known: PO2' : 'past the';
}

async function checkBriefing(trip: Trip, paper: string): Promise<void> {
  const whole = ledger(trip);
  const text = (await readBack(trip, paper, { kind: 'briefing' })).join(' ').replaceAll('- ', '-');
  const dates = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  const days = dates.map((date) => briefed(whole, date));
  for (const { diver } of whole.divers) {
    const { waterL, fillBar } = diver.cylinder;
    const head = `${diver.name} ${Number(waterL.toFixed(1))} L, ${floor(fillBar)} bar`;
    const cells = days.flatMap((dives) => dives.map((dive) => pressureCell(dive, diver.id)));
    expect(leftOver(text, head, cells), `${head}: ${cells.join(' | ')}\nin\n${text}`).toEqual([]);
  }
  for (const { entries } of days.flat()) {
    const made = entries.filter(({ isMade }) => isMade);
    for (const entry of entries) {
      expect(planWays(entry).some((plan) => text.includes(plan))).toBe(true);
    }
    for (const entry of made) {
      expect(text).toContain(`${mixName(entry.o2!)} `);
      expect(text).toContain(`MOD ${floor(entry.modM!)} m`);
      for (const stop of entry.stops ?? []) expect(text).toContain(`${stop.depthM} m ${stop.min} min`);
    }
    if (made.length === 0) continue;
    const last = Math.max(...made.map(({ surfacesMin }) => surfacesMin));
    expect(text).toContain(`${made.length > 1 ? 'all up' : 'up'} ${wallText(last).slice(11)}`);
    const least = tightestOf(made, (entry) => roomOf(trip, entry))[0] ?? made[0]!;
    expect(text).toContain(roomWords(least, roomOf(trip, least)));
  }
  for (const caution of cautionsOf(whole)) {
    if (caution.severity !== 'stop' || caution.diveId === null) continue;
    expect(text).toContain(
      wordsOf(inOneSystem(slateReader({ units: 'metric', clock: '24h' })))(caution.says)
        .replaceAll(/\s+/g, ' ')
        .replaceAll('- ', '-'),
    );
  }
}

describe('briefings', () => {
  const parties = trips({ dives: { min: 1, max: 4 }, party: { min: 1, max: 3 } });

  it('give each diver the ledger\u2019s pressures, each dive its plan, mixes, least room and stops, on every paper', async () => {
    await fc.assert(fc.asyncProperty(parties, fc.constantFrom(...BRIEFING_PAPERS), checkBriefing), {
      numRuns: 25,
      interruptAfterTimeLimit: 90_000,
    });
  }, 120_000);
});

async function checkGuests(trip: Trip, paper: string): Promise<void> {
  const whole = ledger(trip);
  const text = (await readBack(trip, paper, { kind: 'guest' })).join(' ').replaceAll('- ', '-');
  for (const { entries, flyAfterMin } of whole.divers) {
    const made = entries.filter(({ isMade }) => isMade);
    for (const entry of made) {
      expect(text).toContain(`${wallText(entry.startMin).slice(11)} ${careful(entry.depthM, entry)} m`);
      const ofMix = made.filter(({ o2 }) => mixName(o2!) === mixName(entry.o2!));
      const count = ofMix.length === 1 ? '1 dive' : `${ofMix.length} dives`;
      const mod = floor(Math.min(...ofMix.map(({ modM }) => modM!)));
      expect(text).toContain(`${mixName(entry.o2!)} ${count}, MOD ${mod} m`);
    }
    if (flyAfterMin !== null) expect(text).toContain(`, ${wallText(flyAfterMin).slice(11)}`);
    if (made.length > 0) {
      // As it stands beside its dive, rounded as there.
      const deepest = Math.max(...made.map((entry) => Number(careful(entry.depthM, entry))));
      expect(text).toContain(`none below ${deepest} m`);
    }
  }
  // Nothing that needs an instructor: no minutes of a dive, no pressures, no shares.
  expect(text).not.toMatch(/\d (bar|psi|%|L)\b/);
  expect(text).not.toMatch(/room|no-stop|turn|CNS|OTU/);
}

describe('guest sheets', () => {
  it('say when, where, how deep, on what and when to fly as the ledger does, and no more, on every paper', async () => {
    const some = trips({ dives: { min: 1, max: 5 }, party: { min: 1, max: 2 } });
    await fc.assert(fc.asyncProperty(some, fc.constantFrom(...BRIEFING_PAPERS), checkGuests), {
      numRuns: 15,
      interruptAfterTimeLimit: 60_000,
    });
  }, 90_000);
});
