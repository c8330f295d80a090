/**
 * Settings files of every kind on a disk that is whole, full or read-only: the start reads them, says what is not so,
 * and never ends in an error.
 *
 * What it found before: on a full or a read-only disk the start ended in a stack trace, a healthy file of an older
 * version was called damaged, and a trip that had been opened or saved was told as failed.
 */
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { DEFAULT_SETTINGS, type Settings } from '../../core/host';
import { bundled } from '../faults/bundled';
import { dice } from '../faults/rounds';
import { closeDisk, MAY_MOUNT, mountDisk, unmountDisk } from '../support/own-disk';
import type { Attack, Outcome } from './attack';

type Desktop = typeof import('../faults/desktop-side');
type Spoilt = 'no file' | 'whole' | 'older' | 'newer' | 'cut short' | 'a bit turned' | 'another kind';
type Disk = 'whole' | 'full' | 'read-only';

const KINDS: readonly Spoilt[] = [
  'no file',
  'whole',
  'older',
  'newer',
  'cut short',
  'a bit turned',
  'another kind',
];
const DISKS: readonly Disk[] = MAY_MOUNT ? ['whole', 'full', 'read-only'] : ['whole'];
const STORED: Settings = { ...DEFAULT_SETTINGS, units: 'imperial', textScale: 1.2, cautionsAccepted: true };
const TEXT = JSON.stringify({ settings: STORED, recentFiles: ['/a.carryover'] });

function textOf(kind: Spoilt, random: () => number): Buffer | null {
  const text = Buffer.from(TEXT);
  const at = Math.floor(random() * text.length);
  switch (kind) {
    case 'no file':
      return null;
    case 'whole':
      return text;
    case 'older': {
      const some = Object.entries(STORED).filter(() => random() < 0.5);
      return Buffer.from(JSON.stringify({ settings: Object.fromEntries(some) }));
    }
    case 'newer':
      return Buffer.from(JSON.stringify({ settings: { ...STORED, tides: 'shown' }, logbook: [1] }));
    case 'cut short':
      return text.subarray(0, at);
    case 'a bit turned':
      text[at] = text[at]! ^ (1 << Math.floor(random() * 8));
      return text;
    case 'another kind':
      return Buffer.from(
        JSON.stringify([{ settings: 1 }, [], null, 'settings', { settings: { units: 1 } }][at % 5]),
      );
  }
}

/** Writes until there is no room for another byte, nor for another name. */
function fill(folder: string): void {
  const untilFull = (write: (count: number) => void): void => {
    try {
      for (let count = 0; ; count += 1) write(count);
    } catch {
      // Full.
    }
  };
  const filler = openSync(join(folder, 'filler'), 'w');
  for (const bytes of [4096, 1]) untilFull(() => writeSync(filler, Buffer.alloc(bytes)));
  closeSync(filler);
  untilFull((count) => writeFileSync(join(folder, `f${count}`), ''));
}

/** What is wrong with a start over a file on a disk; empty where nothing is. */
function faultsOf(
  { desktopSettings, DiskTrouble }: Desktop,
  folder: string,
  kind: Spoilt,
  disk: Disk,
): readonly string[] {
  const wrong: string[] = [];
  const path = join(folder, 'settings.json');
  const before = kind === 'no file' ? null : readFileSync(path);
  const settings = desktopSettings(folder);
  const read = settings.load();
  for (const key of Object.keys(DEFAULT_SETTINGS) as (keyof Settings)[])
    if (read[key] === undefined) wrong.push(`no ${key}`);
  const isHealthy = kind === 'no file' || kind === 'whole' || kind === 'older' || kind === 'newer';
  if (isHealthy && settings.damaged !== null) wrong.push(`a healthy file is told: ${settings.damaged.what}`);
  if ((kind === 'whole' || kind === 'newer') && read.units !== 'imperial')
    wrong.push('what it says is not read');
  try {
    settings.save({ look: 'cabin' });
    if (disk !== 'whole') wrong.push('a save that cannot be is not told');
  } catch (error) {
    if (!(error instanceof DiskTrouble)) throw error;
    const { kind: told, what, mend } = error.trouble;
    if (disk === 'whole' || !['full', 'not-writable'].includes(told) || what === '' || mend === '')
      wrong.push(`a save is told ${told}: ${what}`);
    if (before !== null && disk === 'read-only' && !readFileSync(path).equals(before))
      wrong.push('the file is another');
  }
  if (settings.load().look !== 'cabin') wrong.push('what was chosen is not kept for this window');
  settings.recent.remember('/b.carryover');
  if (!settings.recent.list().includes('/b.carryover'))
    wrong.push('a file that was opened is not remembered');
  if (disk === 'whole' && desktopSettings(folder).load().look !== 'cabin')
    wrong.push('what was saved is not there');
  return wrong;
}

async function run(times: number): Promise<Outcome> {
  const out = mkdtempSync(join(tmpdir(), 'carryover-settings-attack-'));
  const side = (await import(pathToFileURL(await bundled('desktop-side.ts', out)).href)) as Desktop;
  const random = dice(29);
  const fell: string[] = [];
  let slowestMs = 0;
  for (let turn = 0; turn < times; turn += 1) {
    const kind = KINDS[turn % KINDS.length]!;
    const disk = DISKS[Math.floor(turn / KINDS.length) % DISKS.length]!;
    const folder = mkdtempSync(join(tmpdir(), 'carryover-settings-'));
    if (disk !== 'whole') mountDisk(folder, 'size=64k,nr_inodes=40');
    try {
      const text = textOf(kind, random);
      if (text !== null) writeFileSync(join(folder, 'settings.json'), text);
      if (disk === 'full') fill(folder);
      if (disk === 'read-only') closeDisk(folder);
      const from = performance.now();
      for (const each of faultsOf(side, folder, kind, disk))
        fell.push(`${kind} on a disk that is ${disk}: ${each}`);
      slowestMs = Math.max(slowestMs, performance.now() - from);
    } catch (error) {
      fell.push(`${kind} on a disk that is ${disk}: ${error instanceof Error ? error.stack : String(error)}`);
    } finally {
      if (disk !== 'whole') unmountDisk(folder);
      rmSync(folder, { recursive: true });
    }
  }
  rmSync(out, { recursive: true });
  return {
    tried: times,
    told: [
      `${times} starts over ${KINDS.length} kinds of file, on disks that are ${DISKS.join(', ')}${MAY_MOUNT ? '' : ' (no other may be mounted here)'}`,
      `slowest start and change ${slowestMs.toFixed(0)} ms`,
    ],
    fell: fell.slice(0, 20),
  };
}

export const settingsAttack: Attack = {
  title: 'Settings on a full or read-only disk',
  whole: 2100,
  quick: 84,
  run,
};
