/**
 * What the desktop remembers besides trips: settings, where the window stood, which files were opened.
 * Written by electron-store, read here: reading depends on no writing, each value that fits stays and each that
 * does not is the default. A file that is no settings at all is kept aside before another takes its place.
 */
import { constants, copyFileSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import ElectronStore from 'electron-store';
import * as z from 'zod';
import type { HostTrouble, Settings } from '../core/host';
import { settingsFrom } from '../core/settings-schema';
import { codeOf, DiskTrouble, readTrouble, writeTrouble } from './disk/disk-trouble';
import type { RecentFiles } from './trip-places';

export interface WindowBounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly isMaximized: boolean;
}

const boundsSchema = z.strictObject({
  x: z.int(),
  y: z.int(),
  width: z.int().min(200).max(20_000),
  height: z.int().min(200).max(20_000),
  isMaximized: z.boolean(),
}) satisfies z.ZodType<WindowBounds>;

const recentSchema = z.array(z.string().min(1)).max(10);

interface Stored {
  readonly settings: Settings;
  readonly windowBounds: WindowBounds | null;
  /** Absolute paths, the latest first. */
  readonly recentFiles: readonly string[];
}

const NAME = 'settings';
const RECENT_KEPT = 10;

export interface DesktopSettings {
  load(): Settings;
  /** Throws a DiskTrouble where it cannot be written down. */
  save(patch: Partial<Settings>): void;
  windowBounds(): WindowBounds | null;
  saveWindowBounds(bounds: WindowBounds): void;
  readonly recent: RecentFiles;
  /** Set where the settings file could not be read, for the user to know. */
  readonly damaged: HostTrouble | null;
}

/**
 * The settings kept in a folder.
 * @param folder the user's data folder
 * @param onRecent called when the list of recent files has changed
 */
export function desktopSettings(folder: string, onRecent: () => void = () => {}): DesktopSettings {
  const path = join(folder, `${NAME}.json`);
  const { given, damaged, mayWrite } = readStored(folder, path);
  // Read once: what is in memory holds even where someone damages the file while the window is open.
  let { settings, windowBounds, recentFiles } = storedFrom(given);
  let store: ElectronStore | undefined;

  const put = (patch: Partial<Stored>): void => {
    // Opened by the first write: opening makes folders. What a newer version keeps there stays as it is.
    store ??= new ElectronStore({
      cwd: folder,
      name: NAME,
      clearInvalidConfig: false,
      accessPropertiesByDotNotation: false,
    });
    store.set(
      patch.settings === undefined
        ? patch
        : { ...patch, settings: { ...unknownIn(given), ...patch.settings } },
    );
  };
  const write = (patch: Partial<Stored>): void => {
    if (!mayWrite && damaged !== null) throw new DiskTrouble({ ...damaged, kind: 'not-writable' });
    try {
      try {
        put(patch);
      } catch (error) {
        if (!(error instanceof SyntaxError)) throw error;
        // Damaged while the window was open: what is in memory is whole.
        moveAside(folder, path);
        put({ settings, windowBounds, recentFiles });
      }
    } catch (error) {
      throw new DiskTrouble(writeTrouble(error, path, 0));
    }
  };
  const writeRecent = (paths: readonly string[]): void => {
    recentFiles = paths;
    onRecent();
    try {
      write({ recentFiles: paths });
    } catch {
      // The file itself was opened or saved; that it will not stand in the menu at the next start is no failure of that.
    }
  };
  return {
    damaged,
    load: () => settings,
    save: (patch) => {
      settings = { ...settings, ...patch };
      write({ settings });
    },
    windowBounds: () => windowBounds,
    saveWindowBounds: (bounds) => {
      windowBounds = { ...bounds };
      write({ windowBounds });
    },
    recent: {
      list: () => recentFiles,
      remember: (file) =>
        writeRecent([file, ...recentFiles.filter((other) => other !== file)].slice(0, RECENT_KEPT)),
      forget: (file) => writeRecent(recentFiles.filter((other) => other !== file)),
    },
  };
}

interface Read {
  /** The parts as the file has them, not judged yet. */
  readonly given: Record<string, unknown>;
  readonly damaged: HostTrouble | null;
  /** False where something stands there that a write would destroy. */
  readonly mayWrite: boolean;
}

function readStored(folder: string, path: string): Read {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return { given: {}, damaged: null, mayWrite: true };
    const { what, where, mend } = readTrouble(error, path);
    const damaged = {
      kind: 'not-readable',
      what: `The settings are the usual ones for now. ${what}`,
      where,
      mend,
    } as const;
    return { given: {}, damaged, mayWrite: false };
  }
  const given = objectIn(text);
  if (given !== null) return { given, damaged: misfits(given, folder, path), mayWrite: true };
  try {
    const aside = moveAside(folder, path);
    return {
      given: {},
      damaged: {
        kind: 'not-readable',
        what: 'The settings file is damaged; the settings are the usual ones now, and your trips are untouched.',
        where: aside,
        mend: 'Look through the settings once; the old file is kept beside the new one.',
      },
      mayWrite: true,
    };
  } catch (error) {
    return {
      given: {},
      damaged: {
        kind: 'not-readable',
        what:
          'The settings file is damaged and could not be moved aside ' +
          `(${codeOf(error) || String(error)}); the settings are the usual ones for now, and your trips are untouched.`,
        where: path,
        mend: 'Move that file away, or free some space; until then no settings are kept.',
      },
      mayWrite: false,
    };
  }
}

function objectIn(text: string): Record<string, unknown> | null {
  try {
    const whole: unknown = JSON.parse(text);
    const isObject = typeof whole === 'object' && whole !== null && !Array.isArray(whole);
    return isObject ? (whole as Record<string, unknown>) : null;
  } catch {
    return null;
  }
}

function moveAside(folder: string, path: string): string {
  const aside = asideOf(folder);
  renameSync(path, aside);
  return aside;
}

function asideOf(folder: string): string {
  return join(folder, `settings-damaged-${new Date().toISOString().replace(/[:.]/g, '-')}.json`);
}

/** What of a file fits; what is missing or of another kind is the default. */
function storedFrom(given: Record<string, unknown>): Stored {
  const bounds = boundsSchema.safeParse(given['windowBounds']);
  const recent = recentSchema.safeParse(given['recentFiles']);
  return {
    settings: settingsFrom(given['settings']),
    windowBounds: bounds.success ? bounds.data : null,
    recentFiles: recent.success ? recent.data : [],
  };
}

/** What `settings` holds that this version does not know. */
function unknownIn({ settings }: Record<string, unknown>): Record<string, unknown> {
  const isObject = typeof settings === 'object' && settings !== null && !Array.isArray(settings);
  return isObject ? (settings as Record<string, unknown>) : {};
}

/** Values of another kind are told, and kept aside; those that are missing or unknown are of another version. */
function misfits(given: Record<string, unknown>, folder: string, path: string): HostTrouble | null {
  const { settings, windowBounds, recentFiles } = given;
  const names: string[] = [];
  if (settings !== undefined) {
    const isObject = typeof settings === 'object' && settings !== null && !Array.isArray(settings);
    const read = { ...settingsFrom(settings) } as Record<string, unknown>;
    const values = unknownIn(given);
    const isOther = (key: string): boolean => key in values && values[key] !== read[key];
    names.push(...(isObject ? Object.keys(read).filter(isOther) : ['settings']));
  }
  if (windowBounds !== undefined && !boundsSchema.nullable().safeParse(windowBounds).success) {
    names.push('windowBounds');
  }
  if (recentFiles !== undefined && !recentSchema.safeParse(recentFiles).success) names.push('recentFiles');
  if (names.length === 0) return null;
  const aside = asideOf(folder);
  let where = aside;
  try {
    copyFileSync(path, aside, constants.COPYFILE_EXCL);
  } catch {
    // On a disk that takes no copy the file itself cannot be written over either.
    where = path;
  }
  const which = names.join(', ');
  return {
    kind: 'not-readable',
    what: `The settings file has values of another kind (${which}). The settings that could be read were kept; your trips are untouched.`,
    where,
    mend: 'Look through the settings once; the old file is kept.',
  };
}
