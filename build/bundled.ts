/**
 * Whether what was bundled last still is what the sources are: then `npm start` opens it at once. The installed command
 * asks the like of itself (electron/terminal/bin.mjs), where nothing can be bundled and no time of putting in place counts.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** All that a bundle is made of, and by; the packages by the note that npm keeps of them. */
const SOURCES = [
  'core',
  'electron',
  'renderer',
  'build',
  'package.json',
  'package-lock.json',
  'tsconfig.base.json',
  'node_modules/.package-lock.json',
] as const;

/** Holds when bundling began, in milliseconds; written once it is done. */
const STAMP = 'bundled-from';

/**
 * When a file, or anything in a folder, was last changed; 0 where there is none. A file out of an archive keeps the time at
 * which it was written there; when it was put into its place the system notes apart.
 */
function changedMs(path: string): number {
  const about = statSync(path, { throwIfNoEntry: false });
  if (about === undefined) return 0;
  const own = Math.max(about.mtimeMs, about.ctimeMs);
  if (!about.isDirectory()) return own;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, changedMs(join(path, name))), own);
}

/** To be called before bundling: what is half made is no bundle. @param out the folder of the bundles */
export function forgetBundled(out: string): void {
  rmSync(join(out, STAMP), { force: true });
}

/** To be called once all bundles are made. @param fromMs when bundling began: what was changed since is not in them */
export function noteBundled(out: string, fromMs: number): void {
  mkdirSync(out, { recursive: true });
  writeFileSync(join(out, STAMP), String(fromMs));
}

/** Whether all bundles were made of the sources as they stand. @param root of the project */
export function isBundled(root: string, out: string): boolean {
  let fromMs: number;
  try {
    fromMs = Number(readFileSync(join(out, STAMP), 'utf8'));
  } catch {
    return false;
  }
  return SOURCES.every((name) => changedMs(join(root, name)) < fromMs);
}
