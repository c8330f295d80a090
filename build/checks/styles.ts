/**
 * Which styles reach what: tokens and base are everybody's, a module (`x.module.css`) is its component's alone, and
 * nothing is neither. Of what is everybody's a class may be styled bare in one file alone, or the one read last wins.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { at, isStarted } from '../paths';

export interface StyleFile {
  /** "renderer/parts/field.css" */
  readonly path: string;
  readonly text: string;
}

export interface StyleBreach {
  readonly where: string;
  readonly what: string;
}

const EVERYBODYS = /^renderer\/look\//;
const MODULE = /\.module\.css$/;

/** Classes that a package gives its own elements. */
const OF_PACKAGES = /^recharts-/;

function selectorsOf(text: string): readonly string[] {
  return (
    text
      .replaceAll(/\/\*[^]*?\*\//g, '')
      // A module's word for a class of somebody else.
      .replaceAll(/:global\([^)]*\)/g, '')
      .split('{')
      .slice(0, -1)
      .map((before) => before.slice(before.lastIndexOf('}') + 1).trim())
      .filter((selector) => !selector.startsWith('@'))
      .flatMap((selector) => selector.split(','))
  );
}

function classesOf(selector: string): readonly string[] {
  return [...selector.matchAll(/\.([a-zA-Z][\w-]*)/g)].map(([, name = '']) => name);
}

function allClasses({ text }: StyleFile): ReadonlySet<string> {
  return new Set(selectorsOf(text).flatMap(classesOf));
}

/** Every breach in the styles given; `code` is all that may name a class. */
export function styleBreaches(
  styles: readonly StyleFile[],
  code: readonly StyleFile[],
): readonly StyleBreach[] {
  const modules = styles.filter(({ path }) => MODULE.test(path));
  const others = styles.filter(({ path }) => !MODULE.test(path));
  const strange = others
    .filter(({ path }) => !EVERYBODYS.test(path))
    .map(({ path }) => ({ where: path, what: 'is global: name it x.module.css beside its component' }));
  return [
    ...strange,
    ...twiceBare(others),
    ...unusedIn(others, code),
    ...modules.flatMap((module) => moduleBreaches(module, code)),
  ];
}

/** Classes that more than one file styles with no other class beside them. */
function twiceBare(files: readonly StyleFile[]): readonly StyleBreach[] {
  const byClass = new Map<string, Set<string>>();
  for (const { path, text } of files) {
    for (const selector of selectorsOf(text)) {
      const [only, ...rest] = new Set(classesOf(selector));
      if (only === undefined || rest.length > 0) continue;
      byClass.set(only, (byClass.get(only) ?? new Set()).add(path));
    }
  }
  return [...byClass]
    .filter(([, paths]) => paths.size > 1)
    .map(([name, paths]) => ({ where: [...paths].join(', '), what: `.${name} is styled in each of them` }));
}

/** Classes that no code names, whole or as the beginning of a name that is put together. */
function unusedIn(files: readonly StyleFile[], code: readonly StyleFile[]): readonly StyleBreach[] {
  const text = code.map((each) => each.text).join('\n');
  const words = new Set(text.match(/[a-zA-Z][\w-]*/g));
  const beginnings = [...text.matchAll(/[\w-]+/g)].flatMap(({ 0: word, index }) =>
    word.endsWith('-') && text.startsWith('${', index + word.length) ? [word] : [],
  );
  const isUsed = (name: string): boolean =>
    words.has(name) || OF_PACKAGES.test(name) || beginnings.some((beginning) => name.startsWith(beginning));
  return files.flatMap((file) =>
    [...allClasses(file)]
      .filter((name) => !isUsed(name))
      .map((name) => ({ where: file.path, what: `.${name} is used by nobody` })),
  );
}

const IMPORT = /^import .*$/gm;

/** What a module has that its components do not ask for, and what they ask for that it does not have. */
function moduleBreaches(module: StyleFile, code: readonly StyleFile[]): readonly StyleBreach[] {
  const users = code.flatMap(({ path, text }) =>
    [...text.matchAll(/import (\w+) from '(\.[^']*\.module\.css)'/g)]
      .filter(([, , target = '']) => posix.join(dirname(path), target) === module.path)
      // The name of a file may read like a class that is asked for.
      .map(([, local = '']) => ({ path, asked: namesAsked(text.replaceAll(IMPORT, ''), local) })),
  );
  const defined = allClasses(module);
  const asked = new Set(users.flatMap((user) => [...user.asked]));
  return [
    ...[...defined]
      .filter((name) => !asked.has(name) && !OF_PACKAGES.test(name))
      .map((name) => ({ where: module.path, what: `.${name} is used by nobody` })),
    ...users.flatMap((user) =>
      [...user.asked]
        .filter((name) => !defined.has(name))
        .map((name) => ({ where: user.path, what: `asks ${module.path} for .${name}, which is not there` })),
    ),
  ];
}

function namesAsked(text: string, local: string): ReadonlySet<string> {
  const dotted = text.matchAll(/\b(\w+)\.(?=(\w+))/g);
  const quoted = text.matchAll(/\b(\w+)\['(?=([\w-]+)'\])/g);
  return new Set([...dotted, ...quoted].flatMap(([, of, name = '']) => (of === local ? [name] : [])));
}

/** The styles of the window and the code that may name their classes. */
export function stylesOfWindow(): {
  readonly styles: readonly StyleFile[];
  readonly code: readonly StyleFile[];
} {
  const files = readdirSync(at('renderer'), { recursive: true, encoding: 'utf8' })
    .map((path) => posix.join('renderer', path.replaceAll('\\', '/')))
    .filter((path) => /\.(css|tsx?|html)$/.test(path))
    .toSorted()
    .map((path) => ({ path, text: readFileSync(join(at(), path), 'utf8') }));
  const isStyle = ({ path }: StyleFile): boolean => path.endsWith('.css');
  return { styles: files.filter(isStyle), code: files.filter((file) => !isStyle(file)) };
}

if (isStarted(import.meta.url)) {
  const { styles, code } = stylesOfWindow();
  const breaches = styleBreaches(styles, code);
  for (const { where, what } of breaches) console.error(`${where}: ${what}`);
  console.log(`styles: ${styles.length} files, ${breaches.length} breaches`);
  process.exitCode = breaches.length === 0 && styles.length > 0 ? 0 : 1;
}
