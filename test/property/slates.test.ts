/** What stands on a slate, read back from the PDF by an engine that knows nothing of this project. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assert } from '../../core/result';
import { slatePdf } from '../../core/slate/pdf';
import { slateWords } from '../../core/slate/reading';
import { cautionsOf } from '../../core/cautions/all';
import { wallText } from '../../core/words/calendar';
import { ledger } from '../../core/ledger/ledger';
import type { DiverLedger, Entry, Room, RoomLimit } from '../../core/ledger/ledger-types';
import { roomOf } from '../../core/ledger/room';
import type { Trip } from '../../core/document/types';
import { pdfTroubles } from '../support/pdf/qpdf';
import { readPdf } from '../support/pdf/read-pdf';
import { trips } from '../support/trip-arbitrary';
import { aPaper, aRequest } from '../support/slates';

/** The text of each page, in the order it was written. */
async function readBack(trip: Trip, kind: 'card' | 'briefing', paper: string): Promise<readonly string[]> {
  const made = await slatePdf(aRequest(trip, { kind, paper: aPaper(paper), isFolded: false }));
  assert(made.ok && made.value !== null, 'no slates');
  expect(await pdfTroubles(made.value.bytes)).toBe('');
  const pages = await readPdf(made.value.bytes);
  expect(pages).toHaveLength(made.value.pageCount);
  return pages.map(({ text }) => text.replaceAll(/[\s\u00a0]+/g, ' '));
}

/** Binary dust: 33 m that comes out as 32.9999999 is 33 m. Far below what any figure is printed to. */
const DUST = 1e-6;

function floor(value: number): string {
  return minus(Math.floor(value + DUST));
}

function ceil(value: number): string {
  return minus(Math.ceil(value - DUST));
}

function minus(value: number): string {
  return value < 0 ? `\u2212${-value}` : `${value + 0}`;
}

function tenthsUp(value: number): string {
  return `${Math.ceil(value * 10 - DUST) / 10}`;
}

/** What is planned is rounded down with the limits it keeps; what was dived, up: to the tenth. */
function careful(value: number, { isAsDived }: Pick<Entry, 'isAsDived'>): string {
  return isAsDived ? tenthsUp(value) : `${Math.floor(value * 10 + DUST) / 10}`;
}

function hundredthsUp(value: number): string {
  return (Math.ceil(value * 100 - DUST) / 100).toFixed(2);
}

function intervalWords(min: number): string {
  const whole = Math.floor(min + DUST);
  if (whole < 60) return `${minus(whole)} min`;
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
    return earlierLimit === 'po2' ? 'earliest not known: PO2' : 'no interval would do';
  }
  const [date, clock] = wallText(entry.startMin - earlierMin).split('T');
  const own = wallText(entry.startMin).slice(0, 10);
  if (date! < own) return 'earliest the day before';
  return date === own ? `earliest ${clock}` : `, ${clock}`;
}

function literal(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
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

const ROOM_TO: Record<RoomLimit, string> = {
  'no-stop': 'no-stop',
  mod: 'MOD',
  po2: 'PO2',
  cns: 'CNS',
  'cns-day': 'CNS 24 h',
  gas: 'gas',
  'diver-depth': 'own depth',
  interval: 'dive before',
};

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

/** Papers a briefing is read from, down to one that a hand holds; each puts the divers its own way. */
const BRIEFING_PAPERS = ['A4', 'letter', 'A5', 'half-letter', 'A6', '4x6in', '70x130mm'] as const;

const SET_BY: Record<RoomLimit, string> = {
  'no-stop': 'no-stop',
  mod: 'MOD',
  po2: 'PO2',
  cns: 'CNS',
  'cns-day': 'CNS 24 h',
  gas: 'gas',
  'diver-depth': 'own depth limit',
  interval: 'dive before',
};

interface Briefed {
  readonly entry: Entry;
  readonly room: Room;
}

function briefed(trip: Trip, mine: DiverLedger): readonly Briefed[] {
  return mine.entries
    .map((entry) => ({ entry, room: roomOf(trip, entry) }))
    .filter(({ entry }) => entry.isMade);
}

/** No minutes are left, and none would be: past the no-stop limit before the last level, or on arrival there. */
function isRoomPast({ min, minLimit }: Room): boolean {
  return min === null && minLimit === 'no-stop';
}

/** Whether nobody on the same dive has less room, by the minutes that are printed; past a limit is less than any. */
function isTightest(mine: Briefed, everybody: readonly Briefed[]): boolean {
  const others = everybody.filter((each) => each.entry.dive.id === mine.entry.dive.id);
  // Of a dive whose clocks an earlier one left unknown nobody can say how tight it is.
  const whole = ({ entry, room: { min, minLimit } }: Briefed): number =>
    min !== null
      ? Math.floor(min + DUST)
      : minLimit === null || (minLimit === 'po2' && entry.po2Bar! <= 1.6 + DUST)
        ? Infinity
        : -Infinity;
  if (others.length < 2 || whole(mine) === Infinity) return false;
  return others.every((each) => whole(each) >= whole(mine));
}

/** What a sheet says of a diver: the words in a table, under a label, and whether they may be said for all at once. */
function briefedFigures({ entry, room }: Briefed): readonly {
  readonly cell: string;
  readonly labelled: string;
  readonly isCommon: boolean;
}[] {
  const inUnit = (figure: string, unit: string): string => (/\d/.test(figure) ? `${figure} ${unit}` : figure);
  const bar = (gauge: number | null): string => (gauge === null ? '\u2013' : ceil(gauge));
  const noStop = entry.levels
    .map(({ noStopMin, unlimited }) => (unlimited ? 'no limit' : floor(noStopMin!)))
    .join('/');
  const setBy = room.minLimit === null ? '\u2013' : SET_BY[room.minLimit];
  const left = isRoomPast(room)
    ? 'past limit'
    : room.min !== null
      ? floor(room.min)
      : room.minLimit === null
        ? 'no limit'
        : '\u2013';
  const mix = Math.abs(entry.o2! - 0.21) < DUST ? 'Air' : `EAN${Number((100 * entry.o2!).toFixed(2))}`;
  const mod = floor(entry.modM!);
  const po2 = hundredthsUp(entry.po2Bar!);
  const fill = floor(entry.diver.cylinder.fillBar);
  const turn = bar(entry.gas.turnBar);
  const minimum = bar(entry.gas.minimumBar);
  const roomWords = `Room ${inUnit(left, 'min')}${setBy === '\u2013' ? '' : `, set by ${setBy}`}`;
  return [
    { cell: mix, labelled: mix, isCommon: true },
    { cell: mod, labelled: `MOD ${mod} m`, isCommon: true },
    { cell: po2, labelled: `PO2 ${po2} bar`, isCommon: true },
    {
      cell: noStop,
      labelled: `No-stop ${noStop.includes('no') ? noStop : inUnit(noStop, 'min')}`,
      isCommon: false,
    },
    { cell: left, labelled: roomWords, isCommon: false },
    { cell: setBy, labelled: '', isCommon: false },
    { cell: fill, labelled: `fill ${fill} bar`, isCommon: true },
    { cell: turn, labelled: `Turn ${inUnit(turn, 'bar')}`, isCommon: false },
    { cell: minimum, labelled: `Minimum ${inUnit(minimum, 'bar')}`, isCommon: false },
  ];
}

/** The words of a diver of a dive in each of the ways a sheet may put them; one of them has to be there. */
function briefedWays(each: Briefed, everybody: readonly Briefed[]): readonly (readonly string[])[] {
  const name = `${each.entry.diver.name}${isTightest(each, everybody) ? ' (tightest)' : ''}`;
  const mine = briefedFigures(each);
  const others = everybody
    .filter((other) => other.entry.dive.id === each.entry.dive.id)
    .map((other) => briefedFigures(other));
  const isAlike = (i: number): boolean =>
    mine[i]!.isCommon && others.every((other) => other[i]!.cell === mine[i]!.cell);
  const alike = mine.filter((_, i) => isAlike(i)).map(({ labelled }) => labelled);
  return [
    [`${name} ${mine.map(({ cell }) => cell).join(' ')}`],
    [
      `All: ${alike.join(', ')}`,
      `${name} ${mine
        .filter((_, i) => !isAlike(i))
        .map(({ cell }) => cell)
        .join(' ')}`,
    ],
    [
      `${name} ${mine
        .map(({ labelled }) => labelled)
        .filter((words) => words !== '')
        .join(' ')}`,
    ],
  ];
}

async function checkBriefing(trip: Trip, paper: string): Promise<void> {
  const whole = ledger(trip);
  const text = (await readBack(trip, 'briefing', paper)).join(' ');
  const everybody = whole.divers.flatMap((mine) => briefed(trip, mine));
  for (const each of everybody) {
    const ways = briefedWays(each, everybody);
    const isThere = ways.some((words) => words.every((part) => text.includes(part)));
    expect(isThere, `${JSON.stringify(ways)}\nin\n${text}`).toBe(true);
  }
  for (const caution of cautionsOf(whole)) {
    if (caution.severity !== 'stop' || caution.diveId === null) continue;
    expect(text).toContain(
      slateWords({ units: 'metric', clock: '24h' })(caution.says).replaceAll(/\s+/g, ' '),
    );
  }
}

describe('briefing sheets', () => {
  const parties = trips({ dives: { min: 1, max: 4 }, party: { min: 2, max: 3 } });

  it('give each diver the ledger\u2019s limits and pressures on any paper, mark the tightest, say each stop', async () => {
    await fc.assert(fc.asyncProperty(parties, fc.constantFrom(...BRIEFING_PAPERS), checkBriefing), {
      numRuns: 20,
      interruptAfterTimeLimit: 90_000,
    });
  }, 120_000);

  it('keep PO2 and what sets the room where a day on A4 is set side by side (a seed that failed)', async () => {
    await fc.assert(
      fc.asyncProperty(parties, (trip) => checkBriefing(trip, 'A4')),
      { numRuns: 10, seed: -8_352_838, interruptAfterTimeLimit: 90_000 },
    );
  }, 120_000);
});
