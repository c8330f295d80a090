import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { MendingDocument } from '../../../../core/proposal/mend/mending-document';
import { fileWords } from '../../../../core/words/reader';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { mendCommand } from '../../../../electron/terminal/mend-command';
import { aTerminal } from '../../../support/a-terminal';
import { aDive, aTrip } from '../../../builders/trip';
import { WEDNESDAY_MORNING, worseDemo } from '../../../support/worse-demo';

const ROOT = new URL('../../../../', import.meta.url).pathname;

let folder: string;
let trip: string;
/** A dive too long for its depth, and one too soon after it: quickly mended. */
let small: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mend-'));
  trip = join(folder, 'trip.json');
  small = join(folder, 'small.json');
  writeFileSync(trip, writeTrip(worseDemo()));
  const second = { id: 'second', startsAt: '2027-03-06T09:10' };
  writeFileSync(
    small,
    writeTrip(
      aTrip(
        [aDive({ id: 'first', depthM: 24, bottomMin: 30 }), aDive(second)].map((dive) => ({
          ...dive,
          onBoard: ['air'],
        })),
      ),
    ),
  );
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function mended(...args: string[]) {
  const outcome = await mendCommand(args, aTerminal());
  return { ...outcome, files: readdirSync(folder).toSorted() };
}

const UNDERWAY = ['--done-before', WEDNESDAY_MORNING];

describe('mend', () => {
  it('takes paths from where the user stands, though npm runs it elsewhere', async () => {
    const args = ['--prefix', ROOT, 'run', '--silent', 'mend', '--', 'trip.json', ...UNDERWAY];
    const { stdout, stderr } = await promisify(execFile)('npm', args, { cwd: folder });
    expect(stderr).toBe('');
    expect(stdout).toContain('1  Best overall, cost 11');
  }, 60_000);

  it('mends one dive alone, and says where there is none of that name', async () => {
    const { stdout } = await mended(trip, ...UNDERWAY, '--dive', 'd13', '--json');
    const { cautions, proposals } = JSON.parse(stdout) as MendingDocument;
    expect(new Set(cautions.map(({ diveId }) => diveId))).toEqual(new Set(['d13']));
    expect(proposals.length).toBeGreaterThan(0);
    const done = await mended(trip, ...UNDERWAY, '--dive', 'd1');
    expect(done.stdout).toContain('There is nothing to mend: the dive is done, or within limits');
    const unknown = await mended(trip, '--dive', 'x9');
    expect(unknown.status).toBe(2);
    expect(unknown.stderr).toContain('The trip has no dive "x9"');
    expect(unknown.stderr).toContain('--dive');
  });

  it('prints each kind with what it changes and what comes of it, at 100 columns', async () => {
    const { status, stdout, stderr, files } = await mended(trip, ...UNDERWAY);
    expect([status, stderr, files]).toEqual([0, '', ['small.json', 'trip.json']]);
    const text = stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('1 Best overall, cost 11');
    expect(text).toContain('start at 10:55; 21 m, not 24 m; 43 min, not 44 min (room −14 min → 0 min');
    expect(text).toContain('2 Keep the times, cost 37');
    expect(text).toContain('3 Keep the depths, cost 16');
    expect(text).toContain('4 Keep everybody in, cost 11');
    expect(text).toContain(fileWords(SAFETY_LINE));
    for (const line of stdout.split('\n')) expect(Array.from(line).length).toBeLessThanOrEqual(100);
  });

  it('prints carryover/mending version 1', async () => {
    const { status, stdout, stderr } = await mended(trip, ...UNDERWAY, '--json');
    expect([status, stderr]).toEqual([0, '']);
    const document = JSON.parse(stdout) as MendingDocument;
    expect(document).toMatchObject({
      format: 'carryover/mending',
      version: 1,
      done: 10,
      none: [],
      reason: null,
    });
    const [best] = document.proposals;
    expect(document.proposals.map(({ kind }) => kind)).toEqual(['best', 'times', 'depths', 'party']);
    expect(best).toMatchObject({ cost: 11, atLeast: 11 });
    expect(best!.moves).toEqual([
      { diveId: 'd13', move: 'later', amount: 20 },
      { diveId: 'd13', move: 'shallower', amount: 3 },
      { diveId: 'd13', move: 'shorter', amount: 1, level: 0 },
    ]);
    const [entry] = best!.entries;
    expect(entry!.before).toMatchObject({ startsAt: '2027-03-17T10:35', depthM: 24, bottomMin: 44 });
    expect(entry!.before.cautions).toContain('past-no-stop');
    expect(entry!.after).toMatchObject({
      startsAt: '2027-03-17T10:55',
      depthM: 21,
      bottomMin: 43,
      cautions: [],
    });
    expect(entry!.after!.roomMin).toBeGreaterThanOrEqual(0);
  });

  it('says why nothing is proposed where there is nothing to mend', async () => {
    const { stdout } = await mended('--json');
    const document = JSON.parse(stdout) as MendingDocument;
    expect(document.proposals).toEqual([]);
    expect(document.reason).toMatch(/^There is nothing to mend/);
  });

  it('keeps to costs, room and steps of 3 ft', async () => {
    const first = async (...args: string[]) => {
      const { stdout } = await mended(small, '--json', ...args);
      return (JSON.parse(stdout) as MendingDocument).proposals[0]!;
    };
    const moves = ({ moves: made }: { readonly moves: MendingDocument['proposals'][0]['moves'] }) =>
      new Set(made.map(({ move }) => move));
    expect(moves(await first('--costs', 'shorter=50,shallower=1'))).toContain('shallower');
    expect(moves(await first('--costs', 'shorter=1,shallower=50'))).not.toContain('shallower');
    for (const { after } of (await first('--least-room', '3')).entries) {
      expect(after!.roomMin).toBeGreaterThanOrEqual(3 - 1e-6);
    }
    const inFeet = await first('--feet', '--costs', 'shorter=50');
    const amounts = inFeet.moves.flatMap((each) => (each.move === 'shallower' ? each.amount : []));
    expect(amounts.length).toBeGreaterThan(0);
    for (const amount of amounts) expect(Number.isInteger(Number((amount / 0.9144).toFixed(9)))).toBe(true);
  });

  it('writes the trip with a proposal carried out, and leaves the other as it was', async () => {
    const before = readFileSync(small, 'utf8');
    const out = join(folder, 'mended.json');
    const { status, stdout, files } = await mended(small, '--apply', '3', '--out', out);
    expect(status).toBe(0);
    expect(stdout).toContain('proposal 3 carried out');
    expect(files).toEqual(['mended.json', 'small.json', 'trip.json']);
    expect(readFileSync(small, 'utf8')).toBe(before);
    const read = readTrip(readFileSync(out, 'utf8'));
    if (!read.ok) throw new Error(read.troubles[0].what);
    expect(cautionsOf(ledger(read.value)).filter(({ severity }) => severity !== 'know')).toEqual([]);
    expect(read.value.dives.map(({ depthM }) => depthM)).toEqual([24, 20]);
    expect(read.value.dives[0]!.bottomMin).toBeLessThan(30);
  });

  it('writes over nothing without being told to, the trip itself least of all', async () => {
    const before = readFileSync(small, 'utf8');
    const over = [small, '--apply', '1', '--out', small];
    const refused = await mended(...over);
    expect([refused.status, refused.stdout]).toEqual([2, '']);
    expect(refused.stderr).toContain('written over the trip');
    expect(readFileSync(small, 'utf8')).toBe(before);
    writeFileSync(join(folder, 'other.json'), 'mine');
    const other = await mended(small, '--apply', '1', '--out', join(folder, 'other.json'));
    expect(other.status).toBe(2);
    expect(readFileSync(join(folder, 'other.json'), 'utf8')).toBe('mine');
    const told = await mended(...over, '--replace');
    expect(told.status).toBe(0);
    expect(readFileSync(small, 'utf8')).not.toBe(before);
  });

  it.each([
    [['--apply', '1'], /--apply.*--out/s],
    [['--out', 'x.json'], /--out.*--apply/s],
    [['--replace'], /--replace/],
    [['--apply', '9', '--out', 'new.json'], /--apply: There is no proposal 9.*1 to 4/s],
    [['--apply', 'one', '--out', 'new.json'], /no whole number/],
    [['--done-before', 'Wednesday'], /no moment/],
    [['--least-room', '-1'], /--least-room/],
    [['--costs', 'later=0'], /from 1/],
    [['--costs', 'toString=1'], /"toString" is no move/],
    [['--nothing'], /There is no such option/],
    [['--json', '--units', 'imperial'], /--units/],
  ])('refuses %j, says why, and writes nothing', async (args, reason) => {
    const { status, stdout, stderr, files } = await mended(small, ...args);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(reason);
    expect(files).toEqual(['small.json', 'trip.json']);
  });
});
