/**
 * Several Carryovers that save one file at once, in one process and in processes of their own: nobody reads half a
 * trip, and every save stands on the one before it, or its saver is asked.
 *
 * What it found before: all writers had one temporary name beside the file, so that two showed each other half trips,
 * and a third of the saves was refused with a reason that was not so.
 */
import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { bundled } from '../faults/bundled';
import { rival, rivalText, type RivalOutcome } from '../faults/rival';
import type { Attack, Outcome } from './attack';

/** What is wrong with what the rivals made of it: a save went over one that its saver did not know, or one is missing. */
function faultsIn(outcomes: readonly RivalOutcome[], each: number): readonly string[] {
  const fell = outcomes.flatMap(({ faults }) => faults);
  const saves = outcomes
    .flatMap((outcome) => outcome.saves)
    .toSorted((a, b) => (a.savedAt < b.savedAt ? -1 : 1));
  if (saves.length !== each * outcomes.length)
    fell.push(`${saves.length} saves came of ${outcomes.length} times ${each}`);
  for (const [index, { savedAt }] of saves.slice(0, -1).entries()) {
    if (saves[index + 1]!.over !== savedAt) fell.push(`the save after ${savedAt} went over another one`);
  }
  return fell;
}

interface Started {
  readonly begin: () => void;
  readonly outcome: Promise<RivalOutcome>;
}

/** A rival in a process of its own, once it is ready to begin. */
async function started(args: readonly string[]): Promise<Started> {
  const child = spawn(process.execPath, args, { stdio: ['pipe', 'pipe', 'inherit'] });
  const output = text(child.stdout);
  await new Promise((ready) => child.stdout.once('data', ready));
  return {
    begin: () => void child.stdin.end('begin'),
    outcome: output.then((all) => JSON.parse(all.slice(all.indexOf('\n'))) as RivalOutcome),
  };
}

/** Rivals in processes of their own, all begun at once: one that is slow to start would meet nobody. */
async function apart(all: readonly (readonly string[])[]): Promise<readonly RivalOutcome[]> {
  const rivals = await Promise.all(all.map(started));
  for (const { begin } of rivals) begin();
  return Promise.all(rivals.map(({ outcome }) => outcome));
}

async function run(times: number): Promise<Outcome> {
  const folder = await mkdtemp(join(tmpdir(), 'carryover-rivals-'));
  const script = await bundled('rival-process.ts', folder);
  const fell: string[] = [];
  let [overtaken, slowestMs] = [0, 0];
  const groups: readonly { readonly names: readonly string[]; readonly inProcesses: boolean }[] = [
    { names: ['one', 'two'], inProcesses: false },
    { names: ['one', 'two', 'three'], inProcesses: true },
  ];
  for (const { names, inProcesses } of groups) {
    const place = join(folder, inProcesses ? 'processes' : 'one process');
    const shared = join(place, 'Our week.carryover');
    const mine = (name: string): string => join(place, name);
    const from = performance.now();
    // One group after the other: they share no file, and would only share the processor.
    /* oxlint-disable no-await-in-loop */
    await mkdir(place);
    await writeFile(shared, rivalText('start', 0));
    const outcomes = inProcesses
      ? await apart(names.map((name) => [script, shared, mine(name), name, String(times)]))
      : await Promise.all(names.map((name) => rival(shared, mine(name), name, times)));
    /* oxlint-enable no-await-in-loop */
    slowestMs = Math.max(slowestMs, (performance.now() - from) / times);
    const met = outcomes.reduce((sum, outcome) => sum + outcome.overtaken, 0);
    overtaken += met;
    fell.push(...faultsIn(outcomes, times));
    // Or nothing was tested.
    if (met === 0) fell.push(`${names.length} savers never met`);
  }
  await rm(folder, { recursive: true });
  const saves = groups.reduce((sum, { names }) => sum + names.length * times, 0);
  return {
    tried: saves,
    told: [
      `${saves} saves of two and of three at once, ${overtaken} asked about, no half trip`,
      `slowest group took ${slowestMs.toFixed(0)} ms for a save of each`,
    ],
    fell: fell.slice(0, 20),
  };
}

export const rivalAttack: Attack = { title: 'Several savers at once (disk)', whole: 300, quick: 25, run };
