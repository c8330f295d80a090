/**
 * The command: status, standard output, standard error and the files it leaves, each time. `plan` runs it as
 * a user does, `planned` without the start of a process, which most of its answers do not depend on.
 */
import { spawn } from 'node:child_process';
import {
  closeSync,
  lstatSync,
  openSync,
  symlinkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { planCommand } from '../../../../electron/terminal/plan-command';
import { aTerminal } from '../../../support/a-terminal';
import { fixtureText, tenDives } from '../../../support/trip-documents';

const ROOT = new URL('../../../../', import.meta.url).pathname;

/** Start-up of the runner on a busy machine. */
const PATIENCE_MS = 60_000;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'plan-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

interface Outcome {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
  /** Names of the files in the folder afterwards. */
  readonly files: readonly string[];
}

function plan(...args: string[]): Promise<Outcome> {
  return planFrom(ROOT, ...args);
}

function planFrom(cwd: string, ...args: string[]): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn('npm', ['--prefix', ROOT, 'run', '--silent', 'plan', '--', ...args], { cwd });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (stdout += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, stdout, stderr, files: readdirSync(folder).toSorted() }));
  });
}

async function planned(...args: string[]): Promise<Outcome> {
  const outcome = await planCommand(args, aTerminal());
  return { ...outcome, files: readdirSync(folder).toSorted() };
}

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** A refusal leaves nothing but its reason. */
function expectRefused(outcome: Outcome, stderr: RegExp, files: readonly string[]): void {
  expect(outcome.stderr).toMatch(stderr);
  expect(outcome.stderr).not.toMatch(/at .*\.ts:\d+/);
  expect(outcome.stdout).toBe('');
  expect(outcome.status).toBe(2);
  expect(outcome.files).toEqual(files);
}

describe('plan', { timeout: PATIENCE_MS }, () => {
  it('prints the demo trip as a table of at most 100 columns when no trip is named', async () => {
    const { status, stdout, stderr, files } = await plan();
    expect(status).toBe(0);
    expect(stderr).toBe('');
    expect(files).toEqual([]);
    const lines = stdout.split('\n');
    expect(lines.filter((line) => Array.from(line).length > 100)).toEqual([]);
    expect(stdout).toContain(demoTrip().title);
    for (const { name } of [...demoTrip().party, ...demoTrip().sites]) expect(stdout).toContain(name);
    // 22 dives of four divers, less the two dives that one of them leaves out.
    expect(lines.filter((line) => /^\d\d:\d\d /.test(line))).toHaveLength(86);
    const order = ['Tightest:', 'Cautions', 'clear to fly from', 'Models and tables do not prevent'];
    const at = order.map((text) => stdout.indexOf(text));
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(Math.min(...at)).toBeGreaterThan(0);
  });

  it('prints the ledger as JSON', async () => {
    const trip = file('trip.json', fixtureText('v1-full'));
    const { status, stdout, stderr, files } = await plan(trip, '--json');
    expect([status, stderr, files]).toEqual([0, '', ['trip.json']]);
    const document = JSON.parse(stdout);
    expect(document).toMatchObject({ format: 'carryover/ledger', version: 1, title: 'Two days on the tarn' });
    expect(document.divers.map((diver: { id: string }) => diver.id)).toEqual(['guide', 'guest1']);
    expect(document.divers[0].entries).toHaveLength(3);
    expect(document.divers[0].entries[0].tensionsAfter).toHaveLength(16);
    expect(document.cautions.length).toBeGreaterThan(0);
  });

  it('keeps to one diver, as a table and as JSON', async () => {
    const trip = file('trip.json', fixtureText('v1-full'));
    const [table, json] = await Promise.all([
      planned(trip, '--diver', 'guest1'),
      planned(trip, '--diver', 'guest1', '--json'),
    ]);
    expect([table.status, table.stderr]).toEqual([0, '']);
    expect(table.stdout).toContain('Guest 1: 15 L at 220 bar');
    expect(table.stdout).not.toContain('Guide');
    expect([json.status, json.stderr]).toEqual([0, '']);
    const document = JSON.parse(json.stdout);
    expect(document.divers.map((diver: { id: string }) => diver.id)).toEqual(['guest1']);
    expect(document.cautions.filter((caution: { diverId: string }) => caution.diverId === 'guide')).toEqual(
      [],
    );
  });

  it('writes slates beside the table, whole and in the place named', async () => {
    const out = join(folder, 'week.pdf');
    const { status, stdout, stderr, files } = await plan(
      '--slate',
      out,
      '--diver',
      'guest2',
      '--days',
      '2027-03-17',
      '--paper',
      'A5',
    );
    expect([status, stderr, files]).toEqual([0, '', ['week.pdf']]);
    expect(stdout).toContain('Guest 2');
    const bytes = readFileSync(out);
    expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(bytes.subarray(-6).toString('latin1').trim()).toBe('%%EOF');
  });

  it('takes paths from where the user stands', async () => {
    file('trip.json', fixtureText('v1-minimal'));
    const { status, stdout, stderr, files } = await planFrom(folder, 'trip.json', '--slate', 'out.pdf');
    expect([status, stderr, files]).toEqual([0, '', ['out.pdf', 'trip.json']]);
    expect(stdout).toContain('One dive.');
  });

  it('explains itself', async () => {
    const { status, stdout, stderr, files } = await planned('--help');
    expect([status, stderr, files]).toEqual([0, '', []]);
    expect(stdout).toContain('--slate OUT.pdf');
  });

  it('exits 0 for a trip that was planned, whatever its cautions', async () => {
    const document = tenDives();
    for (const dive of document.dives) Object.assign(dive, { depthM: 40, bottomMin: 30 });
    const { status, stdout, stderr, files } = await planned(file('deep.json', JSON.stringify(document)));
    expect([status, stderr, files]).toEqual([0, '', ['deep.json']]);
    expect(stdout).toContain('PAST A LIMIT');
  });
});

/** Ten dives with something wrong. */
const changed = (change: (document: ReturnType<typeof tenDives>) => void): string => {
  const document = tenDives();
  change(document);
  return JSON.stringify(document);
};

describe('plan, refusing', { timeout: PATIENCE_MS }, () => {
  it.each<[string, string, RegExp]>([
    ['text that is not JSON', '{"format": ', /line 1, column 12: The file is not JSON: it ends too early/],
    ['JSON that is no trip', '{"format": "other"}', /format: This is JSON, but not a trip/],
    ['a newer version', '{"format": "carryover/trip", "version": 9}', /version: The file is version 9/],
    ['a trip without dives', changed((trip) => (trip.dives = [])), /dives: The trip has no dives/],
    ['an empty party', changed((trip) => (trip.party = [])), /party: Party: the list is empty/],
    [
      'a depth of 1000',
      changed((trip) => (trip.dives[8].depthM = 1000)),
      /dives\[8\]\.depthM \(dive "d9"\): Depth is 1000 m/,
    ],
    [
      'three mistakes at once',
      changed((trip) => {
        trip.dives[8].depthM = 0;
        trip.mixes[0].o2 = 1.2;
        trip.dives[2].siteId = 'q';
      }),
      /3 things to mend[^]*mixes\[0\]\.o2 \(mix "m"\)[^]*dives\[8\]\.depthM \(dive "d9"\)[^]*dives\[2\]\.siteId \(dive "d3"\)/,
    ],
  ])('refuses %s and writes nothing', async (name, text, stderr) => {
    const run = name === 'three mistakes at once' ? plan : planned;
    const trip = file('trip.json', text);
    expectRefused(await run(trip, '--slate', join(folder, 'out.pdf')), stderr, ['trip.json']);
    expect(readFileSync(trip, 'utf8')).toBe(text);
  });

  it('lets neither the name of a file nor what is in it steer the terminal', async () => {
    const trip = tenDives();
    trip.title = 'Week\u001b[2J';
    trip.dives[0].siteId = '\u009b31m';
    const path = file('\u001b]0;owned\u0007.json', JSON.stringify(trip));
    const { status, stdout, stderr } = await plan(path);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('Title has a sign in it that cannot be shown (U+001B)');
    expect(stderr).toContain(String.raw`\u001b]0;owned\u0007.json`);
    expect(stderr.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });

  it('refuses a file of 50 MB by its size', async () => {
    const trip = file('big.json', '');
    truncateSync(trip, 50_000_000);
    expectRefused(await planned(trip), /The file has 50 MB; a trip can have 5 MB/, ['big.json']);
  });

  it('refuses what is not there, a folder, and what is no text', async () => {
    mkdirSync(join(folder, 'folder'));
    const bytes = join(folder, 'bytes.json');
    writeFileSync(bytes, new Uint8Array([0xff, 0xfe, 0x00, 0x80]));
    const files = ['bytes.json', 'folder'];
    const [missing, isFolder, binary] = await Promise.all([
      planned(join(folder, 'nothing.json')),
      planned(join(folder, 'folder')),
      planned(bytes),
    ]);
    expectRefused(missing, /nothing\.json: There is no such file/, files);
    expectRefused(isFolder, /folder: This is a folder/, files);
    expectRefused(binary, /bytes\.json: The file is not text in UTF-8/, files);
  });

  it('refuses options it does not know, and ids and papers that are not there', async () => {
    const out = join(folder, 'out.pdf');
    const [option, diver, paper, day, since] = await Promise.all([
      planned('--slates', out),
      planned('--diver', 'nobody'),
      planned('--slate', out, '--paper', 'B17'),
      planned('--slate', out, '--days', '2027-04-01'),
      planned('--slate', out, '--kind', 'briefing', '--since', join(folder, 'gone.json')),
    ]);
    expectRefused(option, /--slates: There is no such option[^]*Did you mean --slate/, []);
    expectRefused(diver, /--diver: There is no diver "nobody"[^]*guide, guest1, guest2, guest3/, []);
    expectRefused(paper, /--paper: "B17"/, []);
    expectRefused(day, /--days: [^]*2027-04-01/, []);
    expectRefused(since, /--since .*gone\.json: There is no such file/, []);
  });

  it('refuses options of slates that do not go together, and a margin that is no number', async () => {
    const out = join(folder, 'out.pdf');
    const [onePerPage, label, blank] = await Promise.all([
      planned('--slate', out, '--kind', 'briefing', '--single-faces'),
      planned('--slate', out, '--label', '70x37mm'),
      planned('--slate', out, '--margin', ' '),
    ]);
    expectRefused(onePerPage, /--single-faces: [^]*Leave it out, or use --kind card/, []);
    expectRefused(label, /--label: [^]*Leave it out, or use --kind tags/, []);
    expectRefused(blank, /--margin: " " is not a number/, []);
  });

  it('writes no half slate where the folder lacks, and prints nothing either', async () => {
    expectRefused(
      await planned('--slate', join(folder, 'no', 'out.pdf')),
      /out\.pdf: The slates cannot be written\. The folder is no longer there/,
      [],
    );
  });

  it('writes as the desktop does: through links, the mode kept, nothing left beside', async () => {
    const target = join(folder, 'deep.pdf');
    writeFileSync(target, 'old', { mode: 0o600 });
    symlinkSync('deep.pdf', join(folder, 'out.pdf'));
    const { status, files } = await planned('--slate', join(folder, 'out.pdf'));
    expect([status, files]).toEqual([0, ['deep.pdf', 'out.pdf']]);
    expect(readFileSync(target).subarray(0, 5).toString()).toBe('%PDF-');
    expect(statSync(target).mode & 0o777).toBe(0o600);
    expect(lstatSync(join(folder, 'out.pdf')).isSymbolicLink()).toBe(true);
  });

  it('writes a name as long as the disk allows, and tells a longer one', async () => {
    const longest = `${'x'.repeat(251)}.pdf`;
    const { status, files } = await planned('--slate', join(folder, longest));
    expect([status, files]).toEqual([0, [longest]]);
    expectRefused(
      await planned('--slate', join(folder, `${'x'.repeat(252)}.pdf`)),
      /The slates cannot be written\. The name is longer than the disk allows[^]*shorter name/,
      [longest],
    );
  });

  it('refuses a read-only file and a device, and leaves both as they are', async () => {
    writeFileSync(join(folder, 'closed.pdf'), 'mine', { mode: 0o444 });
    symlinkSync('/dev/full', join(folder, 'full.pdf'));
    const files = ['closed.pdf', 'full.pdf'];
    expectRefused(await planned('--slate', join(folder, 'closed.pdf')), /The file is read-only/, files);
    expectRefused(await planned('--slate', join(folder, 'full.pdf')), /a pipe or a device/, files);
    expect(readFileSync(join(folder, 'closed.pdf'), 'utf8')).toBe('mine');
    expect(lstatSync(join(folder, 'full.pdf')).isSymbolicLink()).toBe(true);
  });

  it.skipIf(process.platform !== 'linux').each(['plan', 'mixes'])(
    'tells an answer that could not be written down: %s on a full disk',
    async (script) => {
      const { status, stderr } = await new Promise<{ status: number | null; stderr: string }>(
        (done, fail) => {
          const full = openSync('/dev/full', 'w');
          const child = spawn('npm', ['--prefix', ROOT, 'run', '--silent', script], {
            cwd: folder,
            stdio: ['ignore', full, 'pipe'],
          });
          closeSync(full);
          let text = '';
          child.stderr!.setEncoding('utf8').on('data', (piece: string) => (text += piece));
          child.on('error', fail);
          child.on('close', (code) => done({ status: code, stderr: text }));
        },
      );
      expect(status).toBe(2);
      expect(stderr).toMatch(/standard output: The answer could not be written \(ENOSPC\)/);
      expect(stderr).not.toMatch(/^ +at /m);
    },
  );

  it('does not write over a folder', async () => {
    const out = join(folder, 'out.pdf');
    mkdirSync(out);
    expectRefused(await planned('--slate', out), /cannot be written/, ['out.pdf']);
    expect(statSync(out).isDirectory()).toBe(true);
  });

  it('does not write slates over the trip, whatever the trip is called', async () => {
    const text = fixtureText('v1-minimal');
    const trip = file('trip.pdf', text);
    expectRefused(
      await planned(trip, '--slate', trip),
      /--slate: The slates would be written over the trip/,
      ['trip.pdf'],
    );
    expect(readFileSync(trip, 'utf8')).toBe(text);
  });
});
