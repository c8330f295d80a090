import { appendFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../core/host';
import { DiskTrouble } from '../../../electron/disk/disk-trouble';
import { desktopSettings } from '../../../electron/settings';
import { closeDisk, MAY_MOUNT, mountDisk, unmountDisk } from '../../support/own-disk';

let folder: string;
const file = (): string => join(folder, 'settings.json');
const aside = (): readonly string[] =>
  readdirSync(folder).filter((name) => name.startsWith('settings-damaged-'));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-settings-'));
});

describe('desktopSettings', () => {
  it('keeps settings, bounds and recent files from one start to the next', () => {
    const bounds = { x: 1, y: 2, width: 900, height: 700, isMaximized: true };
    const first = desktopSettings(folder);
    first.save({ units: 'imperial' });
    first.saveWindowBounds(bounds);
    first.recent.remember('/a.carryover');
    const second = desktopSettings(folder);
    expect(second.load()).toEqual({ ...DEFAULT_SETTINGS, units: 'imperial' });
    expect(second.windowBounds()).toEqual(bounds);
    expect(second.recent.list()).toEqual(['/a.carryover']);
    expect(second.damaged).toBeNull();
  });

  // Each way in which a settings file was seen or is thinkable to go wrong.
  it.each([
    ['cut short', '{"settings": {"units":'],
    ['empty', ''],
    ['zeroes', '\0'.repeat(100)],
    ['a list', '[]'],
    ['values of another kind', '{"settings": "imperial"}'],
    ['bounds of another kind', '{"windowBounds": {"x": "left"}}'],
  ])('starts with defaults over a file that is %s, keeps it aside and says so', (_what, text) => {
    writeFileSync(file(), text);
    const settings = desktopSettings(folder);
    expect(settings.load()).toEqual(DEFAULT_SETTINGS);
    expect(settings.damaged).toMatchObject({
      kind: 'not-readable',
      what: expect.stringContaining('trips are untouched'),
    });
    expect(aside()).toHaveLength(1);
    expect(readFileSync(join(folder, aside()[0] ?? ''), 'utf8')).toBe(text);
    settings.save({ look: 'cabin' });
    expect(desktopSettings(folder).load().look).toBe('cabin');
  });

  it('takes a file of an older version, which lacks values, for healthy', () => {
    writeFileSync(file(), JSON.stringify({ settings: { units: 'imperial' }, recentFiles: ['/a.carryover'] }));
    const settings = desktopSettings(folder);
    expect(settings.damaged).toBeNull();
    expect(settings.load()).toEqual({ ...DEFAULT_SETTINGS, units: 'imperial' });
    expect(settings.recent.list()).toEqual(['/a.carryover']);
    expect(aside()).toEqual([]);
  });

  it('leaves what a newer version keeps there', () => {
    writeFileSync(file(), JSON.stringify({ settings: { units: 'imperial', tides: 'shown' }, logbook: [1] }));
    const settings = desktopSettings(folder);
    expect(settings.damaged).toBeNull();
    settings.save({ look: 'cabin' });
    expect(JSON.parse(readFileSync(file(), 'utf8'))).toMatchObject({
      settings: { units: 'imperial', tides: 'shown', look: 'cabin' },
      logbook: [1],
    });
  });

  it('writes nothing before there is something to write', () => {
    desktopSettings(folder);
    desktopSettings(join(folder, 'not there'));
    expect(readdirSync(folder)).toEqual([]);
  });

  it('keeps the settings that still fit', () => {
    const stored = { settings: { ...DEFAULT_SETTINGS, units: 'imperial', textScale: 99 } };
    writeFileSync(file(), JSON.stringify(stored));
    expect(desktopSettings(folder).load()).toEqual({ ...DEFAULT_SETTINGS, units: 'imperial' });
  });

  it('holds what it read where the file is damaged while the window is open', () => {
    const settings = desktopSettings(folder);
    settings.save({ units: 'imperial' });
    writeFileSync(file(), '{');
    expect(settings.load().units).toBe('imperial');
    settings.save({ look: 'cabin' });
    expect(desktopSettings(folder).load()).toMatchObject({ units: 'imperial', look: 'cabin' });
    expect(aside()).toHaveLength(1);
  });

  it('remembers ten files, the latest first, each once', () => {
    const told: number[] = [];
    const { recent } = desktopSettings(folder, () => told.push(1));
    for (let index = 0; index < 12; index += 1) recent.remember(`/${index}.carryover`);
    recent.remember('/5.carryover');
    recent.forget('/11.carryover');
    expect(recent.list()).toEqual([5, 10, 9, 8, 7, 6, 4, 3, 2].map((index) => `/${index}.carryover`));
    expect(told).toHaveLength(14);
  });
});

/** To the last byte, and every place for a name. */
function fill(): void {
  const untilFull = (write: (count: number) => void): void => {
    try {
      for (let count = 0; ; count += 1) write(count);
    } catch (error) {
      expect((error as NodeJS.ErrnoException).code).toBe('ENOSPC');
    }
  };
  for (const bytes of [4096, 1]) untilFull(() => appendFileSync(join(folder, 'filler'), Buffer.alloc(bytes)));
  untilFull((count) => writeFileSync(join(folder, `f${count}`), ''));
}

describe.skipIf(!MAY_MOUNT)('a settings disk', () => {
  beforeEach(() => {
    mountDisk(folder, 'size=64k,nr_inodes=40');
    return () => unmountDisk(folder);
  });

  it.each([
    ['full', fill, 'full'],
    ['read-only', () => closeDisk(folder), 'not-writable'],
  ])(
    'that is %s lets settings be read, says so of each that is changed, and keeps it for this window',
    (_what, spoil, kind) => {
      desktopSettings(folder).save({ units: 'imperial' });
      spoil();
      const settings = desktopSettings(folder);
      expect(settings.damaged).toBeNull();
      expect(settings.load().units).toBe('imperial');
      expect(troubleOf(() => settings.save({ look: 'cabin' })).kind).toBe(kind);
      expect(settings.load()).toMatchObject({ units: 'imperial', look: 'cabin' });
    },
  );

  it.each([
    ['full', fill],
    ['read-only', () => closeDisk(folder)],
  ])('that is %s costs no file that was opened, and no copy that was saved', (_what, spoil) => {
    spoil();
    const { recent } = desktopSettings(folder);
    recent.remember('/a.carryover');
    expect(recent.list()).toEqual(['/a.carryover']);
  });

  it.each([
    ['damaged', '{"settings": {"units":'],
    ['of an older version', '{"settings": {"units": "imperial"}}'],
    ['with values of another kind', '{"settings": {"units": "fathoms"}}'],
  ])('that is read-only starts over a file that is %s', (_what, text) => {
    writeFileSync(file(), text);
    closeDisk(folder);
    const settings = desktopSettings(folder);
    expect(settings.load().look).toBe('system');
    expect(troubleOf(() => settings.save({ look: 'cabin' })).kind).toBe('not-writable');
    expect(readFileSync(file(), 'utf8')).toBe(text);
  });

  it('on which something else bears the name of the settings starts, says so and leaves it', () => {
    mkdirSync(file());
    const settings = desktopSettings(folder);
    expect(settings.load()).toEqual(DEFAULT_SETTINGS);
    expect(settings.damaged).toMatchObject({ where: file() });
    expect(troubleOf(() => settings.save({ look: 'cabin' })).kind).toBe('not-writable');
    expect(readdirSync(folder)).toEqual(['settings.json']);
  });
});

function troubleOf(work: () => void): DiskTrouble['trouble'] {
  try {
    work();
  } catch (error) {
    if (error instanceof DiskTrouble) return error.trouble;
    throw error;
  }
  throw new Error('no trouble came');
}
