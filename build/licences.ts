/** The licences of everything that goes into the packaged app, gathered from the lock file's own list. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { at, isStarted, OUT } from './paths';

/** Licences that let a packaged app be given to anybody, as long as their texts travel along. */
const ACCEPTED = new Set([
  'MIT',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'OFL-1.1',
  'BlueOak-1.0.0',
  'Unlicense',
]);

/** A licence that its package names in words of its own; read, and found to be what is said here. */
const NAMED_OTHERWISE: Readonly<Record<string, string>> = {
  // The text beside it is that of the MIT License; only its package.json is silent.
  'png-js': 'MIT',
};

export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

interface LockedPackage {
  readonly version?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly devOptional?: boolean;
  readonly peer?: boolean;
}

/** Every package that is not for developers alone, by name. */
export function bundledLicences(): readonly Licence[] {
  const { packages } = JSON.parse(readFileSync(at('package-lock.json'), 'utf8')) as {
    packages: Record<string, LockedPackage>;
  };
  return Object.entries(packages)
    .filter(
      ([path, { dev, devOptional, peer }]) =>
        path !== '' && !dev && !devOptional && !peer && existsSync(at(path)),
    )
    .map(([path]) => licenceOf(path))
    .toSorted((a, b) => a.name.localeCompare(b.name));
}

function licenceOf(path: string): Licence {
  const manifest = JSON.parse(readFileSync(at(path, 'package.json'), 'utf8')) as {
    name: string;
    version: string;
    license?: string;
    author?: string | { name: string };
  };
  const { author = 'its authors' } = manifest;
  // Some packages come without the text of their licence; then who wrote them is named with its name.
  const credit = `${manifest.license ?? ''}, by ${typeof author === 'string' ? author : author.name}`;
  const file = readdirSync(at(path)).find((name) => /^(licen[cs]e|copying|ofl)/i.test(name));
  return {
    name: manifest.name,
    version: manifest.version,
    licence: NAMED_OTHERWISE[manifest.name] ?? manifest.license ?? 'none named',
    text: file === undefined ? credit : readFileSync(at(path, file), 'utf8').trim(),
  };
}

/** Those whose terms nobody has accepted yet. */
export function unaccepted(licences: readonly Licence[]): readonly Licence[] {
  return licences.filter(({ name, licence }) => {
    const terms = licence.replace(/[()]/g, '');
    // "A OR B": one of them will do; "A AND B": parts of the package are under each.
    const accepted = terms
      .split(' OR ')
      .some((each) => each.split(' AND ').every((part) => ACCEPTED.has(part.trim())));
    return !(name in NAMED_OTHERWISE) && !accepted;
  });
}

/** Writes the list with every text beside the bundles; throws over a licence that nobody has accepted. */
export function writeLicences(): string {
  const licences = bundledLicences();
  const [problem] = unaccepted(licences);
  if (problem !== undefined) {
    throw new Error(
      `${problem.name} is under "${problem.licence}"; say in build/licences.ts that it may go in, or leave it out.`,
    );
  }
  const blocks = licences.map(
    ({ name, version, licence, text }) => `${name} ${version} (${licence})\n\n${text}`,
  );
  const path = `${OUT}/licences.txt`;
  mkdirSync(OUT, { recursive: true });
  writeFileSync(path, `${blocks.join(`\n\n${'-'.repeat(72)}\n\n`)}\n`);
  return path;
}

if (isStarted(import.meta.url)) {
  const licences = bundledLicences();
  for (const { name, version, licence } of licences) console.log(`${licence.padEnd(16)} ${name} ${version}`);
  try {
    console.log(`licences: ${licences.length} packages, written to ${writeLicences()}`);
  } catch (error) {
    console.error(`licences: ${error instanceof Error ? error.message : String(error)}`);
    process.exitCode = 1;
  }
}
