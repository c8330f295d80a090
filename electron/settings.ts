/**
 * What the desktop remembers besides trips: settings, where the window stood, which files were opened.
 * Kept by electron-store; a file that cannot be read costs the settings alone, and is kept aside.
 */
import { readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import ElectronStore from 'electron-store';
import * as z from 'zod';
import { DEFAULT_SETTINGS, type HostTrouble, type Settings } from '../core/host';
import { settingsFrom, settingsSchema } from '../core/settings-schema';
import { DiskTrouble, writeTrouble } from './disk-trouble';
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

const storeSchema = z.strictObject({
  settings: settingsSchema,
  windowBounds: boundsSchema.nullable(),
  /** Absolute paths, the latest first. */
  recentFiles: z.array(z.string().min(1)).max(10),
});

type Stored = z.infer<typeof storeSchema>;

const DEFAULTS: Stored = { settings: DEFAULT_SETTINGS, windowBounds: null, recentFiles: [] };
const FILE = 'settings.json';
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
  const { store, damaged } = openStore(folder);
  const write = <K extends keyof Stored>(key: K, value: Stored[K]): void => {
    try {
      store.set(key, value);
    } catch (error) {
      throw new DiskTrouble(writeTrouble(error, store.path, 0));
    }
  };
  // Read once: what is in memory holds even where someone damages the file while the window is open.
  let settings: Settings = store.get('settings');
  let recentFiles: readonly string[] = store.get('recentFiles');
  const writeRecent = (paths: readonly string[]): void => {
    recentFiles = paths;
    onRecent();
    write('recentFiles', [...paths]);
  };
  return {
    damaged,
    load: () => settings,
    save: (patch) => {
      const patched = { ...settings, ...patch };
      write('settings', patched);
      settings = patched;
    },
    windowBounds: () => store.get('windowBounds'),
    saveWindowBounds: (bounds) => write('windowBounds', { ...bounds }),
    recent: {
      list: () => recentFiles,
      remember: (path) =>
        writeRecent([path, ...recentFiles.filter((other) => other !== path)].slice(0, RECENT_KEPT)),
      forget: (path) => writeRecent(recentFiles.filter((other) => other !== path)),
    },
  };
}

function openStore(folder: string): { store: ElectronStore<Stored>; damaged: HostTrouble | null } {
  const open = (defaults: Stored): ElectronStore<Stored> =>
    new ElectronStore<Stored>({
      cwd: folder,
      name: FILE.replace(/\.json$/, ''),
      defaults,
      schema: z.toJSONSchema(storeSchema).properties as never,
      clearInvalidConfig: false,
      accessPropertiesByDotNotation: false,
    });
  try {
    return { store: open(DEFAULTS), damaged: null };
  } catch (error) {
    const path = join(folder, FILE);
    const rescued = rescue(path);
    const aside = join(folder, `settings-damaged-${new Date().toISOString().replace(/[:.]/g, '-')}.json`);
    // Where even this fails, the folder itself is at fault and start-up says so.
    renameSync(path, aside);
    const reason =
      error instanceof SyntaxError
        ? 'The settings file is damaged.'
        : 'The settings file has values of another kind.';
    return {
      store: open({ ...DEFAULTS, settings: rescued }),
      damaged: {
        kind: 'not-readable',
        what: `${reason} The settings that could be read were kept; your trips are untouched.`,
        where: aside,
        mend: 'Look through the settings once; the old file is kept beside the new one.',
      },
    };
  }
}

/** Single settings out of a file that as a whole does not fit. */
function rescue(path: string): Settings {
  try {
    const whole: unknown = JSON.parse(readFileSync(path, 'utf8'));
    return settingsFrom((whole as { settings?: unknown } | null)?.settings);
  } catch {
    return DEFAULT_SETTINGS;
  }
}
