#!/usr/bin/env node
/**
 * `carryover`, as npm installs it. It runs the bundle of the command where there is one that is newer than every
 * source; else the sources themselves, by tsx, which takes half a second longer and needs nothing built.
 */
import { readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const BUNDLE = new URL('../../out/command/carryover.js', import.meta.url);
const SOURCES = ['../../core/', './', '../disk/', '../../package.json'];

/** When a file, or the newest in a folder, was changed last; 0 where there is none. */
function changedMs(url) {
  const about = statSync(url, { throwIfNoEntry: false });
  if (about === undefined) return 0;
  if (!about.isDirectory()) return about.mtimeMs;
  const folder = fileURLToPath(url);
  let newest = about.mtimeMs;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const ms = changedMs(new URL(entry.isDirectory() ? `${entry.name}/` : entry.name, url));
    if (ms > newest) newest = ms;
  }
  return newest;
}

const bundledMs = changedMs(BUNDLE);
const isNewest =
  bundledMs > 0 && SOURCES.every((path) => changedMs(new URL(path, import.meta.url)) <= bundledMs);
if (isNewest) await import(BUNDLE.href);
else {
  const { register } = await import('tsx/esm/api');
  register();
  await import(new URL('carryover.ts', import.meta.url).href);
}
