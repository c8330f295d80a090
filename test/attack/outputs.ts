/**
 * Every trip that is read is told in every way there is: tables, mixes, files for other programs, slates, workings. None
 * may throw, and none may say what is no figure.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { readTrip } from '../../core/document/read-trip';
import type { Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import { SLATE_KINDS } from '../../core/slate/request';
import { fileWords } from '../../core/words/reader';
import { figuresOf, workingsOf } from '../../core/workings/all';
import { carryoverCommand } from '../../electron/terminal/carryover-command';
import { EXPORT } from '../../electron/terminal/export-options';
import type { CommandTable } from '../../electron/terminal/option-table';
import { aTerminal } from '../support/a-terminal';
import type { Attack, Outcome } from './attack';
import { documents } from './documents';

const NO_FIGURE = /.{0,30}\b(?:undefined|NaN|Infinity|\[object).{0,20}/;

/** The commands, each with the trip on standard input. @param folder where their files go */
function commands(folder: string): readonly (readonly string[])[] {
  const { groups }: CommandTable = EXPORT;
  const row = groups.flatMap(({ rows }) => rows).find(({ name }) => name === 'format');
  const formats = Array.isArray(row?.completed) ? (row.completed as readonly string[]) : [];
  const slates = SLATE_KINDS.map((kind) => ['plan', '-', '--kind', kind, '--slate', join(folder, 'x.pdf')]);
  return [
    ['plan', '-'],
    ['plan', '-', '--json'],
    ['plan', '-', '--units', 'both'],
    ['plan', '-', '--sturdy', '--runs', '50'],
    ['mixes', '-'],
    ['check', '-'],
    ['export', '-', '-f', 'uddf', '-o', join(folder, 'x.zip'), '--replace'],
    ...formats.map((format) => ['export', '-', '-f', format]),
    ...slates,
  ];
}

/** What is said of a trip by one command; throws where it breaks off, or says what is no figure. */
async function say(text: string, args: readonly string[]): Promise<void> {
  const bytes = new TextEncoder().encode(text);
  const { stdout, stderr } = await carryoverCommand(args, aTerminal({ readInput: async () => bytes }));
  const odd = NO_FIGURE.exec(`${stdout}\n${stderr}`);
  if (stderr.includes('no format known here')) throw new Error(stderr);
  if (odd !== null) throw new Error(`said "${odd[0]}"`);
}

function work(trip: Trip): void {
  for (const diverLedger of ledger(trip).divers) {
    for (const entry of diverLedger.entries) {
      for (const figure of figuresOf(entry))
        workingsOf(figure, entry, { trip, diverLedger, words: fileWords });
    }
  }
}

async function run(times: number): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'outputs-'));
  const fell = new Set<string>();
  let tried = 0;
  const note = async (what: string, text: string, each: () => void | Promise<void>): Promise<void> => {
    try {
      await each();
    } catch (error) {
      fell.add(`${what}: ${error instanceof Error ? error.message : String(error)}\n${text.slice(0, 1500)}`);
    }
  };
  try {
    const every = commands(folder);
    // About half of them are read.
    for (const text of fc.sample(documents, 4 * times)) {
      if (tried === times) break;
      const read = readTrip(text);
      if (!read.ok) continue;
      tried += 1;
      // oxlint-disable-next-line no-await-in-loop
      await note('workings', text, () => work(read.value));
      // One after the other: they write the same file.
      // oxlint-disable-next-line no-await-in-loop
      for (const args of every) await note(args.slice(0, 4).join(' '), text, () => say(text, args));
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { tried, told: [`${commands(folder).length} commands on each trip`], fell: [...fell] };
}

export const outputAttack: Attack = {
  title: 'Random trips, told in every way',
  whole: 2000,
  quick: 6,
  run,
};
