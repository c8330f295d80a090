/**
 * What the window loads before it first paints: the page, its style sheets, its script and all that imports
 * without being asked to. Whoever adds to it pays at each start, and on a boat's computer that is seen.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { gzipSync } from 'node:zlib';
import { isStarted, OUT } from '../paths';
import { parse } from './read-source';

/** Bytes, gzipped. Charts, sheets, other places and workers come when they are first asked for. */
export const BUDGET_BYTES = 200_000;

export interface Loaded {
  /** From the folder of the window: "assets/index-1a2b.js". */
  readonly path: string;
  readonly gzippedBytes: number;
}

/** Every file of the first load, the largest first. */
export function firstLoad(folder: string): readonly Loaded[] {
  const page = readFileSync(`${folder}/index.html`, 'utf8');
  const named = [...page.matchAll(/<(?:script|link)\b[^>]*?\b(?:src|href)="([^"]+)"/g)].map(
    ([, path]) => path!,
  );
  const wanted = ['index.html', ...named.filter((path) => !path.startsWith('data:'))];
  const found = new Map<string, Loaded>();
  while (wanted.length > 0) {
    const path = posix.normalize(wanted.pop()!).replace(/^\//, '');
    if (found.has(path)) continue;
    const bytes = readFileSync(`${folder}/${path}`);
    found.set(path, { path, gzippedBytes: gzipSync(bytes, { level: 9 }).length });
    if (path.endsWith('.js')) wanted.push(...importsOf(path, bytes.toString('utf8')));
  }
  return [...found.values()].toSorted((a, b) => b.gzippedBytes - a.gzippedBytes);
}

/** What a script imports as it starts; not what it asks for later. */
function importsOf(path: string, text: string): readonly string[] {
  const { program } = parse({ path, text });
  const statements = program['body'] as readonly { readonly source?: { readonly value?: unknown } | null }[];
  return statements.flatMap(({ source }) =>
    typeof source?.value === 'string' ? [posix.join(posix.dirname(path), source.value)] : [],
  );
}

/** What breaks the budget, in words; empty where nothing does. */
export function firstLoadTroubles(folder: string): readonly string[] {
  const files = firstLoad(folder);
  const sum = files.reduce((bytes, each) => bytes + each.gzippedBytes, 0);
  const troubles: string[] = [];
  if (!files.some(({ path }) => path.endsWith('.js'))) troubles.push('The page loads no script.');
  if (sum > BUDGET_BYTES) {
    const largest = files.map(({ path, gzippedBytes }) => `  ${gzippedBytes} ${path}`).slice(0, 6);
    troubles.push(
      `The first load is ${sum} bytes gzipped; it can have ${BUDGET_BYTES}. Load what is shown later when it is shown (renderer/parts/lazily.tsx).\n${largest.join('\n')}`,
    );
  }
  const old = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) =>
    path.endsWith('.woff'),
  );
  if (old.length > 0) troubles.push(`Fonts nobody asks for are shipped: ${old.join(', ')}.`);
  return troubles;
}

if (isStarted(import.meta.url)) {
  const folder = `${OUT}/renderer`;
  const troubles = existsSync(folder)
    ? firstLoadTroubles(folder)
    : [`${folder} is not there: npm run bundle.`];
  for (const trouble of troubles) console.error(trouble);
  if (troubles.length === 0) {
    const sum = firstLoad(folder).reduce((bytes, each) => bytes + each.gzippedBytes, 0);
    console.log(`first load: ${sum} of ${BUDGET_BYTES} bytes, gzipped`);
  }
  process.exitCode = troubles.length === 0 ? 0 : 1;
}
