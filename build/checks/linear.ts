/**
 * What grows faster than its input, or falls over a long one: patterns that take time with the square of a
 * text, patterns that nobody can see because they are put together, and lists of any length spread into the
 * arguments of a call, which end in a stack trace at some hundred thousand.
 */
import { analyse } from 'scslre';
import { isStarted } from '../paths';
import { lineAt, parse, sourceFiles, walk, type SourceFile, type SyntaxNode } from './read-source';

/** Where lists come straight from a file or a person, of any length. */
const ANY_LENGTH = ['core/document/', 'core/formats/', 'core/result.ts', 'electron/terminal/'];

export interface Steep {
  /** "core/library.ts:3" */
  readonly where: string;
  readonly what: string;
  readonly mend: string;
}

interface Call {
  readonly callee: { readonly name?: string };
  readonly arguments: readonly SyntaxNode[];
}

/** Every place of a file that grows faster than what it is given. */
export function steepPlaces(file: SourceFile): readonly Steep[] {
  const found: Steep[] = [];
  const add = (node: SyntaxNode, what: string, mend: string): void => {
    found.push({ where: `${file.path}:${lineAt(file.text, node.start)}`, what, mend });
  };
  walk(parse(file).program, (node) => {
    const regex = node['regex'] as { readonly pattern: string; readonly flags: string } | undefined;
    if (node.type === 'Literal' && regex) {
      const slow = slowReason(regex.pattern, regex.flags);
      if (slow !== null) add(node, `${file.text.slice(node.start, node.end)} ${slow}`, MEND_PATTERN);
    }
    if (node.type !== 'CallExpression' && node.type !== 'NewExpression') return;
    const call = node as unknown as Call;
    if (call.callee.name === 'RegExp') add(node, 'puts a pattern together', 'Write it as a literal.');
    if (!ANY_LENGTH.some((folder) => file.path.startsWith(folder))) return;
    for (const argument of call.arguments) {
      if (argument.type === 'SpreadElement')
        add(argument, 'spreads a list of any length into arguments', MEND_SPREAD);
    }
  });
  return found;
}

const MEND_PATTERN =
  'Let no two repetitions meet on the same letters, begin at a fixed place, or read it by a loop.';
const MEND_SPREAD = 'Pass the list itself, or use a loop; greatest and least of core/numeric take a list.';

function slowReason(source: string, flags: string): string | null {
  const [report] = analyse({ source, flags }).reports;
  if (report === undefined) return null;
  const pace = report.exponential ? 'exponential' : 'quadratic';
  return `is ${pace} in a text of many ${JSON.stringify(report.character.pick)}`;
}

/** The files that the product and its tools are made of. */
export function productFiles(files: readonly SourceFile[]): readonly SourceFile[] {
  return files.filter(({ path }) => !path.startsWith('test/'));
}

if (isStarted(import.meta.url)) {
  const files = productFiles(sourceFiles());
  const steep = files.flatMap(steepPlaces);
  for (const { where, what, mend } of steep) console.error(`${where}: ${what}\n  ${mend}`);
  console.log(`linear: ${files.length} files, ${steep.length} places grow faster than their input`);
  process.exitCode = steep.length === 0 && files.length > 0 ? 0 : 1;
}
