/**
 * Hostile paths against the folder that is served, and hostile tokens, names of past saves and titles against the
 * table of places: nothing outside is served, read or named.
 *
 * What it found before: in 200,000 paths nothing got out; links inside the folder were followed, and a pipe in it hung.
 */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';
import { fileInside, staticAnswer } from '../../electron/static-files';
import { DiskTrouble } from '../../electron/disk/disk-trouble';
import { tripFiles, type TripFiles } from '../../electron/trip-files';
import { slugOf } from '../../core/library';
import { dice } from '../faults/rounds';
import type { Attack, Outcome } from './attack';

const SECRET = 'nobody-may-read-this';
const SERVED = 'a file of the bundle';

const PIECES = [
  '/',
  '//',
  '\\',
  '.',
  '..',
  '...',
  '%2e',
  '%2E%2e',
  '%252e%252e',
  '%2f',
  '%2F',
  '%5c',
  '%00',
  '\0',
  '%c0%ae',
  '%ff',
  '%',
  '%u002e',
  ';',
  '?',
  '#',
  ' ',
  '%20',
  '\n',
  '%0a',
  ':',
  '::$DATA',
  '~',
  '*',
  'C:',
  'file:',
  'carryover:',
  'index.html',
  'assets',
  'a.js',
  'deep',
  'link',
  'folder-link',
  'secret.txt',
  'secret.html',
  'outside',
  'etc',
  'passwd',
  '\u2024',
  '\u2215',
  '\uff0e',
  '\uff0f',
  '\u202e',
  '\ud800',
  'é',
  'e\u0301',
  'con',
  'nul.html',
  '.html',
  '.js',
  '.carryover',
  'library-',
  'file-',
  'a'.repeat(32),
  'x'.repeat(300),
];

function pathOf(random: () => number): string {
  const count = 1 + Math.floor(random() * 9);
  const pieces = Array.from({ length: count }, () => PIECES[Math.floor(random() * PIECES.length)]!);
  return `${random() < 0.8 ? '/' : ''}${pieces.join(random() < 0.3 ? '/' : '')}`;
}

/** A folder to serve, with a file, links that lead outside, and a secret beside it. */
function makeFolders(whole: string): string {
  const folder = join(whole, 'served');
  mkdirSync(join(folder, 'assets', 'deep'), { recursive: true });
  mkdirSync(join(whole, 'outside'));
  for (const name of ['index.html', 'assets/a.js', 'assets/deep/index.html'])
    writeFileSync(join(folder, name), SERVED);
  for (const name of [
    'secret.txt',
    'secret.html',
    'outside/index.html',
    'outside/secret.html',
    'outside/a.js',
  ])
    writeFileSync(join(whole, name), SECRET);
  symlinkSync(join(whole, 'secret.html'), join(folder, 'link'));
  symlinkSync(join(whole, 'secret.html'), join(folder, 'assets', 'secret.html'));
  symlinkSync(join(whole, 'outside'), join(folder, 'folder-link'));
  return folder;
}

/** As the page's own addresses are taken apart before they are served; null where it is none. */
function addressPathOf(path: string): string | null {
  return URL.canParse(`carryover://app${path}`) ? new URL(`carryover://app${path}`).pathname : null;
}

/** What is wrong with how a path was answered; null where nothing is. */
async function faultOf(folder: string, path: string, seen: { served: number }): Promise<string | null> {
  const file = fileInside(folder, path);
  if (file === null) {
    // Refused by its look alone, whatever is on the disk.
    return (await staticAnswer(folder, path)).status === 400 ? null : 'leads outside and was looked up';
  }
  const inside = relative(folder, file);
  if (inside.split(sep).includes('..') || file.includes('\0') || !file.startsWith(`${folder}${sep}`))
    return `leads to ${file}`;
  const { status, body } = await staticAnswer(folder, path);
  if (status !== 200) return null;
  seen.served += 1;
  return body.toString() === SERVED ? null : `gives ${body.toString()}`;
}

async function wordOf(work: Promise<unknown>): Promise<string> {
  return work.then(
    () => 'answered',
    (error: unknown) => (error instanceof DiskTrouble ? error.trouble.kind : String(error)),
  );
}

/** What is wrong with how the table of places took a text for a token, a past save and a title. */
async function faultOfPlaces(trips: TripFiles, token: string, text: string): Promise<string | null> {
  const asToken = await Promise.all([
    wordOf(trips.read(text)),
    wordOf(trips.versions(text)),
    trips.pathOf(text),
  ]);
  // A name made of nothing but a token's own letters may stand for a trip that never was.
  const isLikeOne = /^(library|file)-[0-9a-f]{32}$/.test(text);
  if (asToken[0] !== 'not-found' || asToken[2] !== undefined || (asToken[1] !== 'not-found' && !isLikeOne))
    return `as a token is ${asToken.join(', ')}`;
  const asVersion = await wordOf(trips.version(token, text));
  if (asVersion !== 'not-found') return `as a past save is ${asVersion}`;
  const name = `${slugOf(text)}-00000000.carryover`;
  if (!/^[a-z0-9-]+\.carryover$/.test(name)) return `as a title names ${name}`;
  return dirname(trips.placeAt(join(trips.libraryFolder, name)).path) === trips.libraryFolder
    ? null
    : 'leaves the library';
}

async function run(times: number): Promise<Outcome> {
  const whole = mkdtempSync(join(tmpdir(), 'carryover-paths-'));
  const folder = makeFolders(whole);
  const none = { list: () => [], remember: () => {}, forget: () => {} };
  const trips = tripFiles({ folder: join(whole, 'user'), recent: none });
  const { token } = await trips.write(
    null,
    '{"format":"carryover/trip","version":1,"title":"Mine"}',
    'Mine',
    null,
  );
  const random = dice(37);
  const seen = { served: 0, slowestMs: 0 };
  const fell: string[] = [];
  // One after the other, so that the slowest is the slowest of one.
  /* oxlint-disable no-await-in-loop */
  for (let turn = 0; turn < times; turn += 1) {
    const path = pathOf(random);
    const asAddress = turn % 2 === 0 ? path : (addressPathOf(path) ?? path);
    const from = performance.now();
    const fault =
      (await faultOf(folder, asAddress, seen)) ??
      // The library is read for each: a tenth of them is enough.
      (turn % 10 === 0 ? await faultOfPlaces(trips, token, path) : null);
    seen.slowestMs = Math.max(seen.slowestMs, performance.now() - from);
    if (fault !== null && fell.length < 20) fell.push(`${JSON.stringify(path.slice(0, 200))} ${fault}`);
  }
  /* oxlint-enable no-await-in-loop */
  rmSync(whole, { recursive: true });
  // Or nothing was tested: some must have led to what is served.
  if (seen.served < times / 5000) fell.push(`only ${seen.served} led to a file`);
  return {
    tried: times,
    told: [
      `${times} paths, of which ${seen.served} led to a file of the bundle; every tenth as a token, a past save and a title too`,
      `slowest ${seen.slowestMs.toFixed(1)} ms`,
    ],
    fell,
  };
}

export const pathAttack: Attack = { title: 'Hostile paths', whole: 200_000, quick: 5000, run };
