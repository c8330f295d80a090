/** Finds an installed browser of the Chromium family: on PATH, else where each system installs one. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES_ON_PATH = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
  'brave-browser',
  'vivaldi-stable',
];

const PLACES: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: [
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    '/Applications/Brave Browser.app/Contents/MacOS/Brave Browser',
  ],
  win32: [
    String.raw`C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`,
    String.raw`C:\Program Files\Microsoft\Edge\Application\msedge.exe`,
    String.raw`C:\Program Files\Google\Chrome\Application\chrome.exe`,
    String.raw`C:\Program Files (x86)\Google\Chrome\Application\chrome.exe`,
  ],
};

/**
 * The path of an installed browser, or null.
 * @param env whose PATH is searched
 * @param platform whose usual places are looked at besides
 */
export function findBrowser(
  env: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
): string | null {
  const folders = (env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  const onPath = NAMES_ON_PATH.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...(PLACES[platform] ?? [])].find(isExecutable) ?? null;
}

/** The engine alone, with nothing that a window of its own would need: a page costs half of what it costs with it. */
const SHELLS_ON_PATH = ['chromium-headless-shell', 'chrome-headless-shell'];

/** The path of a browser to test in, or null: the engine without a window where it is on PATH, else any. */
export function findTestBrowser(
  env: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
): string | null {
  const [shell] = SHELLS_ON_PATH.flatMap((name) => findProgram(name, env) ?? []);
  return shell ?? findBrowser(env, platform);
}

/** The path of a program on PATH, or null. */
export function findProgram(name: string, env: NodeJS.ProcessEnv = process.env): string | null {
  const folders = (env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.map((folder) => join(folder, name)).find(isExecutable) ?? null;
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
