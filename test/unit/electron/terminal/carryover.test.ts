/** The program `carryover`: the part that finds commands, and the whole as it is started from a pipe. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { stripVTControlCharacters } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { version } from '../../../../package.json';
import { demoTrip } from '../../../../core/document/demo-trip';
import { LARGEST_FILE, readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { carryoverCommand } from '../../../../electron/terminal/carryover-command';
import { COMMANDS } from '../../../../electron/terminal/commands';
import { aDive, aTrip } from '../../../builders/trip';
import { aTerminal } from '../../../support/a-terminal';
import { fixtureText, tenDives } from '../../../support/trip-documents';

const ROOT = new URL('../../../../', import.meta.url).pathname;
/** By its place: what is imported by name is looked for where a program is started. */
const TSX = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
const BIN = join(ROOT, 'electron/terminal/bin.mjs');

/** Start-up of the runner on a busy machine. */
const PATIENCE_MS = 60_000;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function on(...args: string[]) {
  return carryoverCommand(args, aTerminal());
}

const input = (text: string) => aTerminal({ readInput: async () => new TextEncoder().encode(text) });

/** A trip that breaks a limit. */
function pastLimit(): string {
  const trip = tenDives();
  for (const dive of trip.dives) Object.assign(dive, { depthM: 40, bottomMin: 30 });
  return JSON.stringify(trip);
}

describe('carryover', () => {
  it.each([['--help'], ['-h'], ['help']])(
    'lists the commands, the exit codes and what no plan replaces: %s',
    async (asked) => {
      const { status, stdout, stderr } = await on(asked);
      expect([status, stderr]).toEqual([0, '']);
      for (const { name, does } of COMMANDS)
        expect(stdout).toMatch(new RegExp(`^  ${name} +${does.slice(0, 20)}`, 'm'));
      expect(stdout.replaceAll(/\s+/g, ' ')).toContain(fileWords(SAFETY_LINE));
      expect(stdout).toMatch(/Exit 0: .*Exit 1: .*Exit 2: /s);
      expect(stdout.split('\n').filter((line) => line.length > 100)).toEqual([]);
    },
  );

  it('prints its version', async () => {
    expect(await on('--version')).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' });
  });

  it.each<[string[], RegExp]>([
    [[], /^No command is named\.\n\ncarryover COMMAND/],
    [['plna'], /plna: There is no such command\.\n {2}Did you mean plan\?/],
    [['--json', 'plan'], /--json: A command comes first\./],
    [['xyzzy'], /xyzzy: There is no such command\.\n {2}Use plan, /],
    [['completion'], /completion: No shell is named\.\n {2}Use bash or zsh/],
    [['completion', 'fish'], /"fish" is no shell known here/],
    [['plan', '--untis', 'metric'], /--untis: There is no such option\.\n {2}Did you mean --units\?/],
  ])('refuses %j with 2', async (args, says) => {
    const { status, stdout, stderr } = await on(...args);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(says);
  });

  it('runs each command, and has its help from its table', async () => {
    for (const { name, load } of COMMANDS) {
      const { stdout, status } = await on(name, '--help');
      expect(status).toBe(0);
      const { table } = await load();
      expect(stdout.split('\n')[0]).toBe(`carryover ${name} ${table.takes} [options]`);
      for (const row of table.groups.flatMap(({ rows }) => rows)) expect(stdout).toContain(`--${row.name}`);
    }
  });

  it('reads a trip from standard input, and says of it what is wrong', async () => {
    const good = await carryoverCommand(['plan', '-'], input(fixtureText('v1-minimal')));
    expect([good.status, good.stderr]).toEqual([0, '']);
    expect(good.stdout).toContain('One dive.');
    const bad = await carryoverCommand(['mixes', '-'], input('{"format": '));
    expect(bad.status).toBe(2);
    expect(bad.stderr).toMatch(/^Carryover cannot use standard input; one thing to mend/);
    const large = await carryoverCommand(['mend', '-'], input('x'.repeat(LARGEST_FILE + 1)));
    expect(large.stderr).toMatch(/a trip can have 5 MB/);
    const binary = await carryoverCommand(
      ['plan', '-'],
      aTerminal({ readInput: async () => new Uint8Array([0xff, 0x80]) }),
    );
    expect(binary.stderr).toMatch(/standard input: The file is not text in UTF-8/);
  });

  it('hands a mended trip to the next command, and nothing else', async () => {
    const dives = [
      aDive({ id: 'first', depthM: 24, bottomMin: 30 }),
      aDive({ id: 'next', startsAt: '2027-03-06T09:10' }),
    ];
    const worse = input(writeTrip(aTrip(dives.map((dive) => ({ ...dive, onBoard: ['air'] })))));
    const args = ['mend', '-', '--apply', '1', '--out', '-'];
    const { status, stdout, stderr, file } = await carryoverCommand(args, worse);
    expect([status, stdout, stderr]).toEqual([0, '', '']);
    expect(readTrip(file!).ok).toBe(true);
  });

  it('takes what stands behind two dashes for a file', async () => {
    const { stderr, status } = await on('plan', '--', '--json');
    expect(status).toBe(2);
    expect(stderr).toMatch(/^--json: There is no such file/m);
  });

  it('exits 1 where a limit is passed, if it is asked to be strict, and else 0', async () => {
    const past = input(pastLimit());
    const [plain, strict, fine] = await Promise.all([
      carryoverCommand(['plan', '-'], past),
      carryoverCommand(['plan', '-', '--strict'], past),
      carryoverCommand(['plan', '-', '--strict'], input(writeTrip(demoTrip()))),
    ]);
    expect([plain.status, strict.status, fine.status]).toEqual([0, 1, 0]);
    expect(strict.stdout).toBe(plain.stdout);
  });
});

/** The program in a process of its own; its input is what a pipe brings. */
function started(args: readonly string[], stdin = '', env: NodeJS.ProcessEnv = {}) {
  return spawnSync(process.execPath, [BIN, ...args], {
    cwd: folder,
    encoding: 'utf8',
    input: stdin,
    env: { ...process.env, ...env },
  });
}

describe('carryover, started', { timeout: PATIENCE_MS }, () => {
  it('plans what comes through a pipe, without colours in one unless they are asked for', () => {
    const past = pastLimit();
    const plain = started(['plan', '-', '--strict'], past);
    expect([plain.status, plain.stderr]).toEqual([1, '']);
    expect(plain.stdout).toContain('PAST A LIMIT');
    expect(plain.stdout).not.toContain('\u001B');
    const colored = started(['plan', '-', '--color=always'], past, { NO_COLOR: '1' }).stdout;
    expect(colored).toContain('\u001B[1;31mPAST A LIMIT\u001B[0m');
    expect(stripVTControlCharacters(colored)).toBe(plain.stdout);
  });

  it('takes paths from where it is started, and writes there', () => {
    writeFileSync(join(folder, 'trip.json'), fixtureText('v1-minimal'));
    const { status, stderr } = started(['plan', 'trip.json', '--slate', 'out.pdf']);
    expect([status, stderr]).toEqual([0, '']);
    expect(readFileSync(join(folder, 'out.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it.skipIf(process.platform !== 'linux')(
    'says that a folder cannot be written to, and prints nothing',
    () => {
      // The kernel's own folder: not even root may write there.
      const { status, stdout, stderr } = started(['plan', '--slate', '/sys/out.pdf']);
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(/^\/sys\/out\.pdf: The slates cannot be written\. /m);
    },
  );

  it('is quiet when its reader has seen enough', async () => {
    const child = spawn(process.execPath, [BIN, 'plan', '--json'], { stdio: ['ignore', 'pipe', 'pipe'] });
    let stderr = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
    child.stdout.once('data', () => child.stdout.destroy());
    const status = await new Promise((done) => child.once('close', done));
    expect([status, stderr]).toEqual([0, '']);
  });

  it('ends with 2 and one sentence where the disk is full, however many pieces do not fit', () => {
    const trips = ['a.json', 'b.json', 'c.json'].map((name) => join(folder, name));
    for (const path of trips) writeFileSync(path, fixtureText('v1-minimal'));
    for (const args of [['plan'], ['check', ...trips]]) {
      const full = spawnSync(process.execPath, ['-e', FULL_DISK, BIN, ...args], {
        cwd: folder,
        encoding: 'utf8',
      });
      expect(full.status).toBe(2);
      expect(full.stderr.match(/standard output: The answer could not be written \(ENOSPC\)/g)).toHaveLength(
        1,
      );
    }
  });
});

describe('the scripts of npm', { timeout: PATIENCE_MS }, () => {
  it.each([
    ['plan', ['trip.json']],
    ['mixes', ['trip.json']],
    ['mend', ['trip.json']],
    ['lesson', ['--out', 'sheet.pdf']],
  ])('take paths from where npm was started, as npm itself goes elsewhere: %s', (script, args) => {
    writeFileSync(join(folder, 'trip.json'), fixtureText('v1-minimal'));
    const file = join(ROOT, `electron/terminal/${script}.ts`);
    const { status, stderr } = spawnSync(process.execPath, ['--import', TSX, file, ...args], {
      cwd: tmpdir(),
      encoding: 'utf8',
      env: { ...process.env, npm_lifecycle_event: script, INIT_CWD: folder },
    });
    expect([status, stderr]).toEqual([0, '']);
    if (script === 'lesson') {
      expect(readFileSync(join(folder, 'sheet.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    }
  });
});

/** Starts the program with standard output on a full disk. */
const FULL_DISK = `
const { openSync } = require('node:fs');
const { spawnSync } = require('node:child_process');
const stdio = ['ignore', openSync('/dev/full', 'w'), 'inherit'];
process.exitCode = spawnSync(process.execPath, process.argv.slice(1), { stdio }).status;
`;
