/** The command export: what each format comes to, where it may go, and what is refused. */
import { spawn, spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { exportCommand } from '../../../../electron/terminal/export-command';
import { EXPORT } from '../../../../electron/terminal/export-options';
import type { Terminal } from '../../../../electron/terminal/terminal';
import { aTerminal } from '../../../support/a-terminal';

const BIN = new URL('../../../../electron/terminal/bin.mjs', import.meta.url).pathname;

/** Start-up of the program on a busy machine. */
const PATIENCE_MS = 60_000;

const NAMES = EXPORT.groups[0].rows[0].completed;
const TRIP = demoTrip();

/** What the demo trip is known by in each. */
const HOLDS: Readonly<Record<(typeof NAMES)[number], string>> = {
  uddf: '<firstname>Guide</firstname>',
  dives: 'Thrift Garden',
  party: 'Guest 3',
  ledger: 'Millstone Ledge',
  sites: 'Anvil Head',
  stock: 'Kettle Pinnacle',
  fills: '2027-03-14,32,',
  calendar: 'SUMMARY:Dive 1: Thrift Garden',
  gpx: '<name>Thrift Garden</name>',
};

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'export-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(() => {
  for (const name of readdirSync(folder)) rmSync(join(folder, name));
});

function exported(args: readonly string[], terminal: Partial<Terminal> = {}) {
  return exportCommand(args, aTerminal(terminal));
}

/** Rows of a table that was written, by their headings, as papaparse reads them. */
function rows(text: string | undefined): Record<string, string>[] {
  const { data, errors } = Papa.parse<Record<string, string>>(text!.replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: true,
  });
  expect(errors).toEqual([]);
  return data;
}

describe('the command export', () => {
  it.each(NAMES.map((name) => [name]))('prints a file and nothing else: %s', async (name) => {
    const whose = name === 'uddf' ? ['--diver', TRIP.party[0]!.id] : [];
    const { status, stdout, file } = await exported(['-f', name, ...whose]);
    expect([status, stdout]).toEqual([0, '']);
    expect(file).toContain(HOLDS[name]);
    const out = join(folder, `out-${name}`);
    expect(await exported(['-f', name, ...whose, '-o', out])).toMatchObject({ status: 0, stdout: '' });
    expect(readFileSync(out, 'utf8')).toBe(file);
  });

  it('counts the same fills by diver and by day', async () => {
    const stock = rows((await exported(['-f', 'stock'])).file);
    const fills = await exported(['-f', 'fills']);
    const sum = (table: Record<string, string>[], column: string) =>
      table.reduce((total, row) => total + Number(row[column]), 0);
    expect(sum(stock, 'fills')).toBe(sum(rows(fills.file), 'fills'));
    expect(sum(stock, 'cost')).toBe(sum(rows(fills.file), 'cost'));
    expect(sum(stock, 'fills')).toBeGreaterThan(TRIP.dives.length);
    expect(fills.stderr).toBe(
      'Filled from banks of the mix with 50 bar left in each cylinder, amounts of an ideal gas; Mixes has other ways.\n',
    );
    expect(stock[0]).toEqual({
      diver: 'Guide',
      site: 'Thrift Garden',
      'depth of the site (m)': '16',
      'oxygen (%)': '21',
      fills: '1',
      'cost of a fill': '0',
      cost: '0',
    });
  });

  it('fills from empty where a cylinder is filled to less than is usually left, and says so', async () => {
    const [first, ...others] = TRIP.party;
    const small = { ...first!, cylinder: { ...first!.cylinder, fillBar: 45, reserveBar: 10 } };
    const text = writeTrip({ ...TRIP, party: [small, ...others] });
    const readInput = async () => new TextEncoder().encode(text);
    const { status, stderr } = await exported(['-', '-f', 'fills'], { readInput });
    expect(status).toBe(0);
    expect(stderr).toContain('into empty cylinders');
  });

  it('has commas in numbers and semicolons between cells where they are asked for', async () => {
    const { file } = await exported(['-f', 'party', '--decimal', 'comma']);
    const [head, first] = file!.split('\r\n');
    expect(head).toMatch(/^\uFEFFname;certification;/);
    expect(first).toContain(';1,4;1,6;');
  });

  it('speaks to who reads the calendar', async () => {
    const { file } = await exported(['-f', 'calendar', '--units', 'imperial', '--clock', '12h']);
    const unfolded = file!.replaceAll('\r\n ', '');
    expect(unfolded).toMatch(/No flying before .* [ap]m/);
    expect(unfolded).toMatch(/\d+ ft/);
    expect(unfolded).not.toMatch(/\d m\b/);
  });

  it('puts the dives of a party into one archive', async () => {
    const out = join(folder, 'party.zip');
    expect(await exported(['-f', 'uddf', '-o', out])).toMatchObject({ status: 0, stdout: '' });
    const bytes = readFileSync(out);
    for (const name of ['guide', 'guest-1', 'guest-2', 'guest-3']) {
      expect(bytes.includes(`${name}.uddf`)).toBe(true);
    }
  });

  it.each<[string[], RegExp]>([
    [[], /--format: Nothing says what to write\./],
    [['-f', 'xls'], /--format: "xls" is no format known here\.\n {2}Use one of uddf, dives/],
    [['-f', 'uddf'], /--out: UDDF knows one diver a file, so this is 4 files\.\n {2}Name an archive/],
    [['-f', 'uddf', '--diver', 'nobody'], /--diver: There is no diver "nobody"/],
    [['-f', 'dives', '--diver', 'guide'], /--diver: Only uddf looks at it\./],
    [['-f', 'gpx', '--decimal', 'comma'], /--decimal: Only a table looks at it\./],
    [
      ['-f', 'dives', '--units', 'metric', '--clock', '12h'],
      /--units: Only the calendar.*--clock: Only the/s,
    ],
    [['-f', 'dives', '--decimal', 'dot'], /"dot" is not known here\.\n {2}Use point or comma/],
    [['-f', 'dives', 'a.json', 'b.json'], /b\.json: One trip is written at a time\./],
    [['-f', 'dives', '--replace'], /--replace: It says more about --out, which is not given/],
  ])('refuses %j with 2, and writes nothing', async (args, says) => {
    const { status, stdout, stderr, file } = await exported(args);
    expect([status, stdout, file]).toEqual([2, '', undefined]);
    expect(stderr).toMatch(says);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('never writes over a file without being told to, and never over the trip', async () => {
    const out = join(folder, 'dives.csv');
    writeFileSync(out, 'mine');
    expect((await exported(['-f', 'dives', '-o', out])).stderr).toContain(
      'There is a file of that name already.',
    );
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect((await exported(['-f', 'dives', '-o', out, '--replace'])).status).toBe(0);
    expect(readFileSync(out, 'utf8')).toContain('Thrift Garden');
    const trip = join(folder, 'trip.json');
    writeFileSync(trip, writeTrip(TRIP));
    const over = await exported([trip, '-f', 'dives', '-o', trip, '--replace']);
    expect(over.stderr).toContain('The file would be written over the trip.');
    expect(readFileSync(trip, 'utf8')).toBe(writeTrip(TRIP));
  });
});

describe('the command export, started', { timeout: PATIENCE_MS }, () => {
  const started = (...args: string[]) =>
    spawnSync(process.execPath, [BIN, 'export', ...args], { cwd: folder, encoding: 'utf8' });

  it('hands the bytes of the file to a pipe, its mark and line ends kept', async () => {
    const { status, stdout, stderr } = started('-f', 'dives');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toBe((await exported(['-f', 'dives'])).file);
    expect(stdout).toMatch(/^\uFEFFdive,.*\r\n/);
  });

  it('is quiet when its reader has seen enough', async () => {
    const child = spawn(process.execPath, [BIN, 'export', '-f', 'ledger'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let stderr = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
    child.stdout.once('data', () => child.stdout.destroy());
    const status = await new Promise((done) => child.once('close', done));
    expect([status, stderr]).toEqual([0, '']);
  });

  it.skipIf(process.platform !== 'linux')('says where it cannot write', () => {
    // The kernel's own folder: not even root may write there. What is no file is not replaced either.
    const closed = started('-f', 'dives', '-o', '/sys/dives.csv');
    expect([closed.status, closed.stdout]).toEqual([2, '']);
    expect(closed.stderr).toMatch(/^\/sys\/dives\.csv: The export cannot be written\. /m);
    const device = started('-f', 'dives', '-o', '/dev/full', '--replace');
    expect([device.status, device.stdout]).toEqual([2, '']);
    expect(device.stderr).toMatch(/^\/dev\/full: The export cannot be written\. /m);
  });

  it.skipIf(process.platform !== 'linux')('ends with 2 and a sentence where the disk is full', () => {
    const disk = openSync('/dev/full', 'w');
    const full = spawnSync(process.execPath, [BIN, 'export', '-f', 'dives'], {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', disk, 'pipe'],
    });
    closeSync(disk);
    expect(full.status).toBe(2);
    expect(full.stderr).toMatch(/standard output: The answer could not be written \(ENOSPC\)/);
  });
});
