import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeTrip } from '../../core/document/write-trip';
import { bundle } from '../../build/bundle';
import { at, OUT } from '../../build/paths';
import { bigTrip } from './big-trip';
import type { BenchLine } from './report';

/** What is started, in turn with an empty program, so often. */
const STARTS = 15;

/** Trips of a fleet, and twice of them. */
const TRIPS = 60;

function startMs(args: readonly string[]): number {
  const startedMs = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr}`);
  return performance.now() - startedMs;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

/** Medians of two programs that are started in turn, so that both see the same machine. */
function inTurn(one: () => number, other: () => number, times: number): readonly [number, number] {
  const pairs = Array.from({ length: times }, () => [one(), other()] as const);
  return [median(pairs.map(([ms]) => ms)), median(pairs.map(([, ms]) => ms))];
}

/**
 * Runs the program and tells its largest memory, MB. A file of its own: what is handed over by `-e` sets an option that
 * threads take over, and each would end at once.
 */
const WITH_MEMORY = `
process.on('exit', () => process.stderr.write('MEMORY ' + process.resourceUsage().maxRSS / 1024));
const [bundle] = process.argv.splice(2, 1);
await import(bundle);
`;

function memoryMb(folder: string, bundleFile: string, args: readonly string[]): number {
  const program = join(folder, 'with-memory.mjs');
  writeFileSync(program, WITH_MEMORY);
  const { status, stderr } = spawnSync(process.execPath, [program, bundleFile, ...args], {
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  if (status !== 0) throw new Error(`${args[0]} ended with ${status}: ${stderr.slice(-500)}`);
  return Number(/MEMORY ([\d.]+)/.exec(stderr)?.[1]);
}

/** The program `carryover`: its start beside that of an empty one; a fleet beside half of it and beside one core. */
export async function benchCommand(): Promise<readonly BenchLine[]> {
  await bundle(['command']);
  const bin = at('electron/terminal/bin.mjs');
  const starts = [['--version'], ['plan', '--help'], ['plan', at('test/fixtures/trips/v1-minimal.json')]].map(
    (args): BenchLine => {
      const [ms, floorMs] = inTurn(
        () => startMs([bin, ...args]),
        () => startMs(['-e', '0']),
        STARTS,
      );
      const what = `starting carryover ${args.map((arg) => arg.split('/').at(-1)).join(' ')}`;
      return { what, ms, floor: 'an empty program', floorMs, atMost: 4 };
    },
  );
  const folder = mkdtempSync(join(tmpdir(), 'fleet-'));
  try {
    const text = writeTrip(bigTrip(60, 12));
    const paths = Array.from({ length: 2 * TRIPS }, (_, index) => join(folder, `${index}.carryover`));
    for (const path of paths) writeFileSync(path, text);
    const half = paths.slice(0, TRIPS);
    const file = `${OUT}/command/carryover.js`;
    const check = (some: readonly string[]) => () => startMs([file, 'check', ...some]);
    const [allMs, halfMs] = inTurn(check(paths), check(half), 3);
    // One after the other, on one thread: few are not parted.
    const few = paths.slice(0, 4);
    const oneMs =
      ((median([1, 2, 3].map(check(few))) - startMs([file, '--version'])) / few.length) * half.length;
    const [allMb, halfMb] = [
      memoryMb(folder, file, ['check', ...paths]),
      memoryMb(folder, file, ['check', ...half]),
    ];
    return [
      ...starts,
      {
        what: `checking ${2 * TRIPS} trips of 60 dives and 12 divers`,
        ms: allMs,
        floor: 'twice the half of them',
        floorMs: 2 * halfMs,
        atMost: 1.2,
      },
      {
        what: `checking ${TRIPS} of them on ${availableParallelism()} cores`,
        ms: halfMs,
        floor: 'one by one on one core, over the cores',
        floorMs: oneMs / availableParallelism(),
        atMost: 2,
      },
      {
        what: `memory of ${2 * TRIPS} trips`,
        ms: allMb,
        floor: 'of the half of them',
        floorMs: halfMb,
        unit: 'MB',
        atMost: 1.25,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
