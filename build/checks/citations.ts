/**
 * What a `Source:` in core cites of this repository is in it: a section of core/CONVENTIONS.md, a file, a name of core.
 */
import { basename, dirname, posix } from 'node:path';
import { lineAt, parse, type SourceFile } from './read-source';

/** What can be cited. */
export interface Citable {
  /** Headings of core/CONVENTIONS.md. */
  readonly sections: ReadonlySet<string>;
  /** Paths of files from the root of the repository. */
  readonly paths: ReadonlySet<string>;
  /** Names declared in core. */
  readonly names: ReadonlySet<string>;
}

export interface BadCitation {
  /** "core/water.ts:12" */
  readonly where: string;
  readonly what: string;
}

const FILE_ENDING = /\w\.(?:ts|tsx|md|json|csv)$/;

const DECLARED = /\b(?:function|const|class|interface|type)\s+([A-Za-z_$][\w$]*)/g;

/** Headings of a page. */
export function sectionsOf(page: string): ReadonlySet<string> {
  return new Set([...page.matchAll(/^#{2,} (.+)$/gm)].map(([, heading]) => heading!.trim()));
}

/** Everything that is declared in some files. */
export function namesIn(files: readonly SourceFile[]): ReadonlySet<string> {
  return new Set(files.flatMap(({ text }) => [...text.matchAll(DECLARED)].map(([, name]) => name!)));
}

/** The text after each "Source:" of a comment, as far as the next tag, on one line. */
function sourcesOf(comment: string): readonly string[] {
  const plain = comment.replaceAll(/\n\s*\*? ?/g, ' ');
  return plain
    .split(/\bSource:/)
    .slice(1)
    .map((text) => text.split(' @', 1)[0]!);
}

/** What the sources of one file cite and is not there. */
export function badCitationsIn(file: SourceFile, citable: Citable): readonly BadCitation[] {
  return parse(file).comments.flatMap(({ value, start }) => {
    const where = `${file.path}:${lineAt(file.text, start)}`;
    return sourcesOf(value).flatMap((source) =>
      missingIn(source, file.path, citable).map((what) => ({ where, what })),
    );
  });
}

function missingIn(source: string, path: string, { sections, paths, names }: Citable): readonly string[] {
  const missing: string[] = [];
  for (const [, page] of source.matchAll(/\b(NUMBERS|DESIGN)\b/g)) missing.push(`there is no ${page}`);
  for (const [, section] of source.matchAll(/\bCONVENTIONS\b(?:, "([^"]+)")?/g)) {
    if (section === undefined) missing.push('CONVENTIONS is cited without a section');
    else if (!sections.has(section)) missing.push(`CONVENTIONS has no section "${section}"`);
  }
  for (const [, name] of source.matchAll(/\bas (?:in )?`([A-Za-z_$][\w$]*)`/g)) {
    if (!names.has(name!)) missing.push(`nothing is called ${name}`);
  }
  for (const word of source.split(/[^\w./-]/)) {
    // The full stop of the sentence is no part of the name.
    const cited = word.endsWith('.') ? word.slice(0, -1) : word;
    if (FILE_ENDING.test(cited) && !isThere(cited, path, paths)) missing.push(`there is no ${cited}`);
  }
  return missing;
}

/** A file is cited from the root, from core, from the folder of who cites it, or by its bare name. */
function isThere(cited: string, path: string, paths: ReadonlySet<string>): boolean {
  if (paths.has(cited) || paths.has(`core/${cited}`) || paths.has(posix.join(dirname(path), cited)))
    return true;
  return (
    !cited.includes('/') && [...paths].some((each) => each.startsWith('core/') && basename(each) === cited)
  );
}
