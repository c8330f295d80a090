/** The command `check`: its lines and exit codes, and the threads it works on. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import * as nodeFs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { checkCommand } from '../../../../electron/terminal/check-command';
import { checkedInOrder } from '../../../../electron/terminal/check-pool';
import { readTripFile } from '../../../../electron/terminal/trip-input';
import { tripsIn, type Folders } from '../../../../electron/terminal/trips-in';
import { aTerminal } from '../../../support/a-terminal';
import { fixtureText, tenDives } from '../../../support/trip-documents';

/** Threads begin by reading the sources. */
const PATIENCE_MS = 60_000;

let folder: string;
let good: string;
let past: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'check-'));
  const boats = join(folder, 'boats');
  mkdirSync(join(boats, 'north'), { recursive: true });
  mkdirSync(join(boats, '.versions'));
  mkdirSync(join(folder, 'empty'));
  good = join(boats, 'a.carryover');
  past = join(boats, 'north', 'past.json');
  writeFileSync(good, writeTrip(demoTrip()));
  const deep = tenDives();
  for (const dive of deep.dives) Object.assign(dive, { depthM: 40, bottomMin: 30 });
  writeFileSync(past, JSON.stringify(deep));
  writeFileSync(join(boats, 'broken.carryover'), '{"format": ');
  writeFileSync(join(boats, 'ledger.json'), '{"format": "carryover/ledger"}');
  writeFileSync(join(boats, 'notes.txt'), 'no trip');
  writeFileSync(join(boats, '.versions', 'old.json'), '{');
  // A folder that leads back to itself.
  symlinkSync('..', join(boats, 'north', 'back'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A disk on which a folder is closed to this user. */
function closed(name: string): Folders & Pick<typeof nodeFs, 'opendir' | 'readFile'> {
  const enter = (path: unknown): void => {
    if (String(path).endsWith(name)) throw Object.assign(new Error('closed'), { code: 'EACCES' });
  };
  return {
    ...nodeFs,
    readdir: (async (path: string, options: object) => {
      enter(path);
      return nodeFs.readdir(path, options);
    }) as typeof nodeFs.readdir,
    opendir: async (path, options) => {
      enter(path);
      return nodeFs.opendir(path, options);
    },
  };
}

async function check(...args: readonly string[]) {
  return checkOn(undefined, ...args);
}

async function checkOn(folders: Folders | undefined, ...args: readonly string[]) {
  const lines: string[] = [];
  const terminal = aTerminal({
    print: async (text) => {
      lines.push(text);
      return true;
    },
    readInput: async () => new TextEncoder().encode(fixtureText('v1-minimal')),
  });
  return { ...(await checkCommand(args, terminal, folders)), lines };
}

describe('check', { timeout: PATIENCE_MS }, () => {
  it('tells each trip on a line, folders by name, what is no trip passed over, and ends by the worst', async () => {
    const { status, stdout, stderr, lines } = await check(join(folder, 'boats'));
    expect(lines.map((line) => line.replace(folder, ''))).toEqual([
      expect.stringMatching(
        /^Within limits \/boats\/a\.carryover: Seven nights.*All 22 dives are within limits\..*\n$/,
      ),
      expect.stringMatching(
        /^CANNOT USE {4}\/boats\/broken\.carryover: line 1, column 12: The file is not JSON.*\n$/,
      ),
      expect.stringMatching(/^PAST A LIMIT {2}\/boats\/north\/past\.json: .*dives pass a limit: .*\n$/),
    ]);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      '3 trips, 1 past a limit, 0 to adjust, 1 cannot be used. One JSON file that is no trip was passed over.\n',
    );
  });

  it('exits 0 for trips past a limit, and 1 where it is strict', async () => {
    expect((await check(good, past)).status).toBe(0);
    expect((await check(good, past, '--strict')).status).toBe(1);
    expect(await check(good, '--strict')).toMatchObject({ status: 0, stderr: '' });
  });

  it('tells what was named itself and is no trip, or is not there', async () => {
    const { status, lines } = await check(join(folder, 'boats', 'ledger.json'), join(folder, 'nothing'));
    expect(status).toBe(2);
    expect(lines[0]).toMatch(/^CANNOT USE .*ledger\.json: format: This is a ledger/);
    expect(lines[1]).toMatch(/^CANNOT USE .*nothing: There is no such file\./);
  });

  it('tells a folder that is closed to this user, named or below one, and goes on with the others', async () => {
    const north = closed('north');
    const found: (readonly [string, boolean])[] = [];
    for await (const { path, isTold } of tripsIn(
      [join(folder, 'boats'), join(folder, 'boats', 'north')],
      north,
    ))
      found.push([path.replace(folder, ''), isTold]);
    expect(found).toEqual([
      ['/boats/a.carryover', false],
      ['/boats/broken.carryover', false],
      ['/boats/ledger.json', false],
      ['/boats/north', true],
      ['/boats/north', true],
    ]);
    expect(await readTripFile(join(folder, 'boats', 'north'), north)).toMatchObject({
      ok: false,
      troubles: [
        { what: 'The folder cannot be looked into (EACCES).', where: join(folder, 'boats', 'north') },
      ],
    });
    const { status, lines } = await checkOn(north, join(folder, 'boats', 'north'), good);
    expect(status).toBe(2);
    expect(lines).toEqual([
      expect.stringMatching(/^CANNOT USE .*north: This is a folder\./),
      expect.stringMatching(/^Within limits /),
    ]);
  });

  it('has a line of JSON a trip', async () => {
    const { lines } = await check(good, '-', '--json');
    const documents = lines.map((line) => JSON.parse(line) as Record<string, unknown>);
    // Standard input is read once, and first.
    expect(documents.map(({ path }) => path)).toEqual(['standard input', good]);
    expect(documents[1]).toMatchObject({
      format: 'carryover/check',
      version: 1,
      title: demoTrip().title,
      cautions: { stop: 0, change: 0 },
    });
  });

  it.each<[string[], RegExp]>([
    [[], /TRIP: No trip is named/],
    [['x.json', '--units', 'both'], /--units: A line has no room for both/],
    [['x.json', '--json', '--units', 'imperial'], /--units: JSON is in metres/],
  ])('refuses %j', async (args, says) => {
    const { status, stderr, lines } = await check(...args);
    expect([status, lines]).toEqual([2, []]);
    expect(stderr).toMatch(says);
  });

  it('refuses a folder without trips', async () => {
    const { status, stderr } = await check(join(folder, 'empty'));
    expect(status).toBe(2);
    expect(stderr).toMatch(/There is no trip in it\./);
  });

  it('gives feet to who asks for them', async () => {
    const trip = { ...demoTrip(), title: 'Feet' };
    writeFileSync(join(folder, 'feet.json'), writeTrip(trip));
    const [metric, imperial] = await Promise.all([
      check(join(folder, 'feet.json')),
      check(join(folder, 'feet.json'), '--units', 'imperial'),
    ]);
    expect(imperial.lines[0]).toContain('min of room');
    expect(metric.lines).toHaveLength(1);
  });

  it('stops where nobody reads on', async () => {
    const lines: string[] = [];
    const print = async (text: string) => {
      lines.push(text);
      return false;
    };
    await checkCommand([good, good, good], aTerminal({ print }));
    expect(lines).toHaveLength(1);
  });

  it('tells on threads what it tells without them, in the order of the paths', async () => {
    const paths = Array.from({ length: 30 }, (_, at) => [good, past, join(folder, 'nothing')][at % 3]!);
    const found: string[] = [];
    for await (const each of checkedInOrder(paths, 'metric')) {
      expect(each.path).toBe(paths[found.length]);
      found.push(each.found.says);
    }
    expect(found).toHaveLength(30);
    const plain: string[] = [];
    for await (const each of checkedInOrder(paths.slice(0, 3), 'metric')) plain.push(each.found.says);
    found.forEach((says, at) => expect(says).toBe(plain[at % 3]));
  });
});
