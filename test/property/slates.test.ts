/** What stands on a slate, read back from the PDF by a tool that knows nothing of this project. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assert } from '../../core/result';
import { slatePdf } from '../../core/slate/pdf';
import { cautionsOf } from '../../core/cautions/all';
import { wallText } from '../../core/trip/clock';
import { ledger } from '../../core/trip/ledger';
import type { DiverLedger, Entry } from '../../core/trip/ledger-types';
import { roomOf } from '../../core/trip/room';
import type { Trip } from '../../core/trip/types';
import { trips } from '../support/trip-arbitrary';
import { aPaper, aRequest } from '../support/slates';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-slates-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function tool(name: string, args: readonly string[]): string {
  const { status, stdout, stderr, error } = spawnSync(name, args, { encoding: 'utf8' });
  if (error)
    throw new Error(`${name} is needed for this test (Debian: poppler-utils, qpdf): ${error.message}`);
  if (status !== 0) throw new Error(`${name} ended with ${status}: ${stderr}${stdout}`);
  return stdout;
}

/** The text of each page, in the order it was written. */
async function readBack(trip: Trip, kind: 'wet' | 'briefing'): Promise<readonly string[]> {
  const paper = aPaper(kind === 'wet' ? 'A5' : 'A4');
  const made = await slatePdf(aRequest(trip, { kind, paper, onePerPage: true }));
  assert(made.ok && made.value !== null, 'no slates');
  const file = join(folder, 'slates.pdf');
  writeFileSync(file, made.value.bytes);
  expect(tool('qpdf', ['--check', file])).toContain('No syntax or stream encoding errors found');
  tool('pdftotext', ['-raw', '-enc', 'UTF-8', file, `${file}.txt`]);
  const pages = readFileSync(`${file}.txt`, 'utf8').split('\f').slice(0, -1);
  expect(pages).toHaveLength(made.value.pageCount);
  return pages.map((page) => page.replaceAll(/[\s\u00a0]+/g, ' '));
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

function hundredthsUp(value: number): string {
  return (Math.ceil(value * 100 - DUST) / 100).toFixed(2);
}

function minutesOrNot(min: number | null, unlimited: boolean): string {
  return unlimited ? 'no limit' : min === null ? '\u2013' : `${floor(min)} min`;
}

function barUp(bar: number | null): string {
  return bar === null ? '\u2013' : `${ceil(bar)} bar`;
}

function intervalWords(min: number): string {
  const whole = Math.floor(min + DUST);
  if (whole < 60) return `${minus(whole)} min`;
  const hours = Math.floor(whole / 60);
  return hours < 48
    ? `${hours} h ${String(whole % 60).padStart(2, '0')} min`
    : `${Math.floor(hours / 24)} days ${hours % 24} h`;
}

/** Told only where it lies on the dive's own day. */
function earliestWords(entry: Entry, earlierMin: number | null): readonly string[] {
  if (earlierMin === null) return [];
  const [date, clock] = wallText(entry.startMin - earlierMin).split('T');
  return date === wallText(entry.startMin).slice(0, 10) ? [`Earliest ${clock}`] : [];
}

/** All that has to stand on the page of one dive. */
function expected(trip: Trip, mine: DiverLedger, entry: Entry): readonly string[] {
  const carry = mine.carries[mine.entries.indexOf(entry) - 1] ?? mine.start;
  const room = roomOf(trip, carry, entry);
  if (!entry.isMade) return ['not to be dived', `Depth ${tenthsUp(entry.depthM)} m`];
  const day = mine.days.find((each) => each.date === wallText(entry.startMin).slice(0, 10))!;
  const noRoom = room.min === null && room.minLimit === null;
  return [
    mine.diver.name,
    `CNS 24 h ${day.cnsDayPeak === null ? '\u2013' : `${ceil(100 * day.cnsDayPeak)} %`}`,
    `OTU ${ceil(day.otu)} of ${floor(Math.max(0, day.otuAllowed))}`,
    `${wallText(entry.startMin).slice(11)} to ${wallText(entry.surfacesMin).slice(11)}`,
    `Depth ${tenthsUp(entry.depthM)} m`,
    `Time ${ceil(entry.bottomMin)} min`,
    `No-stop ${minutesOrNot(entry.noStopMin, entry.unlimited)}`,
    minutesOrNot(room.min, noRoom),
    `MOD ${floor(entry.modM!)} m`,
    `PO2 ${hundredthsUp(entry.po2Bar!)} bar`,
    `Turn ${barUp(entry.gas.turnBar)}`,
    `Minimum ${barUp(entry.gas.minimumBar)}`,
    entry.intervalMin === null ? 'First dive' : `Interval ${intervalWords(entry.intervalMin)}`,
    ...earliestWords(entry, room.earlierMin),
    ...(entry.stops ?? []).map((stop) => `${stop.depthM} m ${stop.min} min`),
  ];
}

describe('wet-notes slates', () => {
  it('say what the ledger says, limits rounded down and exposures up', async () => {
    let pagesRead = 0;
    await fc.assert(
      fc.asyncProperty(trips({ dives: { min: 1, max: 5 }, party: { min: 1, max: 2 } }), async (trip) => {
        const whole = ledger(trip);
        const pages = await readBack(trip, 'wet');
        // A dive with long cautions runs over onto a page of its own second half; its figures are on the first.
        const firsts = pages.filter((page) => page.includes('Depth ') && !page.includes('continued'));
        const entries = whole.divers.flatMap((mine) => mine.entries.map((entry) => ({ mine, entry })));
        expect(firsts).toHaveLength(entries.length);
        entries.forEach(({ mine, entry }, i) => {
          for (const words of expected(trip, mine, entry)) expect(firsts[i]).toContain(words);
        });
        pagesRead += pages.length;
      }),
      { numRuns: 25, interruptAfterTimeLimit: 90_000 },
    );
    expect(pagesRead).toBeGreaterThanOrEqual(25);
  }, 120_000);
});

describe('briefing sheets', () => {
  it('give each diver the ledger\u2019s limit and pressures, and each stop', async () => {
    await fc.assert(
      fc.asyncProperty(trips({ dives: { min: 1, max: 4 }, party: { min: 2, max: 3 } }), async (trip) => {
        const whole = ledger(trip);
        const text = (await readBack(trip, 'briefing')).join(' ');
        for (const mine of whole.divers) {
          for (const entry of mine.entries.filter((each) => each.isMade)) {
            expect(text).toContain(
              `${floor(entry.modM!)} ${hundredthsUp(entry.po2Bar!)} ${entry.unlimited ? 'no limit' : floor(entry.noStopMin!)}`,
            );
            const bar = (gauge: number | null): string => (gauge === null ? '\u2013' : ceil(gauge));
            expect(text).toContain(`${bar(entry.gas.turnBar)} ${bar(entry.gas.minimumBar)}`);
          }
        }
        for (const caution of cautionsOf(whole).filter(
          (each) => each.severity === 'stop' && each.diveId !== null,
        )) {
          expect(text).toContain(caution.message.replaceAll(/\s+/g, ' '));
        }
      }),
      { numRuns: 10, interruptAfterTimeLimit: 90_000 },
    );
  }, 120_000);
});
