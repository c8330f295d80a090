import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../core/host';
import { desktopSettings } from '../../../electron/settings';

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
