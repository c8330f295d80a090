/**
 * Every number of the trade in core/ says where it was published: an exported function or table with
 * figures in it bears a `Source:` in its own docstring, or in the docstring at the head of its file. What of this
 * repository it cites must be there (citations.ts).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { at, isStarted } from '../paths';
import { badCitationsIn, namesIn, sectionsOf, type Citable } from './citations';
import {
  lineAt,
  parse,
  sourceFiles,
  walk,
  type Parsed,
  type SourceFile,
  type SyntaxNode,
} from './read-source';

/** Counting, halving, percent, thousands, the minutes of a day and the dust of floating point are nobody's finding. */
const PLAIN_NUMBERS = new Set([0, 1, 2, 10, 24, 60, 100, 1000, 1440, 1e6, 1e-9]);

/** Parts of core that compute nothing of the trade, each with the reason. */
const WITHOUT_TRADE: readonly { readonly path: string; readonly reason: string }[] = [
  { path: 'core/library.ts', reason: 'how many past saves stay is our own choice' },
  { path: 'core/host.ts', reason: 'types only' },
  { path: 'core/settings-schema.ts', reason: 'how large type may be set is our own choice' },
  { path: 'core/slate/', reason: 'millimetres of paper and points of type are our own layout' },
  { path: 'core/formats/', reason: 'each format cites its standard in its own README line' },
  { path: 'core/numeric.ts', reason: 'the series and its error bound are derived beside the code' },
  { path: 'core/words/calendar.ts', reason: 'calendar arithmetic' },
  { path: 'core/document/fields.ts', reason: 'how much of a wrong value a message shows is our own choice' },
  { path: 'core/document/read-trip.ts', reason: 'how large a file may be is our own choice' },
];

const SOURCE = /\bSource:|\bcommon practice\b/;

export interface Unsourced {
  /** "core/water.ts:12" */
  readonly where: string;
  readonly name: string;
  readonly figures: readonly number[];
}

/** The exported functions and tables of one file that carry figures without saying from where. */
export function unsourcedIn(file: SourceFile): readonly Unsourced[] {
  const parsed = parse(file);
  if (SOURCE.test(headComment(file, parsed))) return [];
  const body = parsed.program['body'] as readonly SyntaxNode[];
  return body.flatMap((statement) => {
    const declaration = statement['declaration'] as SyntaxNode | null | undefined;
    if (statement.type !== 'ExportNamedDeclaration' || declaration === null || declaration === undefined)
      return [];
    const figures = figuresIn(declaration);
    if (figures.length === 0 || SOURCE.test(commentsOf(file, parsed, statement, body))) return [];
    return [
      { where: `${file.path}:${lineAt(file.text, statement.start)}`, name: nameOf(declaration), figures },
    ];
  });
}

/** A comment at the top that speaks for the whole file: before the imports, or with a blank line after it. */
function headComment({ text }: SourceFile, { comments, program }: Parsed): string {
  const [first] = comments;
  const [statement] = program['body'] as readonly SyntaxNode[];
  if (first === undefined || statement === undefined || text.slice(0, first.start).trim() !== '') return '';
  const isOfFile =
    statement.type === 'ImportDeclaration' || /^[^\S\n]*\n[^\S\n]*\n/.test(text.slice(first.end));
  return isOfFile ? first.value : '';
}

/**
 * The comments before a statement, after the one before it, and those within it. Statements that follow each
 * other line by line, without a blank line or a word between them, share the comment above the first.
 */
function commentsOf(
  file: SourceFile,
  parsed: Parsed,
  statement: SyntaxNode,
  body: readonly SyntaxNode[],
): string {
  const previous = body[body.indexOf(statement) - 1];
  const own = parsed.comments
    .filter(({ start, end }) => start >= (previous?.end ?? 0) && end <= statement.end)
    .map(({ value }) => value);
  const between = previous === undefined ? '' : file.text.slice(previous.end, statement.start);
  if (previous === undefined || own.length > 0 || !/^[^\S\n]*\n[^\S\n]*$/.test(between))
    return own.join('\n');
  return commentsOf(file, parsed, previous, body);
}

function figuresIn(declaration: SyntaxNode): readonly number[] {
  if (declaration.type === 'TSTypeAliasDeclaration' || declaration.type === 'TSInterfaceDeclaration')
    return [];
  const figures: number[] = [];
  const exponents = new Set<unknown>();
  walk(declaration, (node) => {
    const { value } = node as { value?: unknown };
    // A square or a cube is arithmetic; an exponent with a fraction is somebody's finding.
    if (node.type === 'BinaryExpression' && node['operator'] === '**' && isWhole(node['right'])) {
      exponents.add(node['right']);
    }
    if (exponents.has(node)) return;
    if (node.type === 'Literal' && typeof value === 'number' && !PLAIN_NUMBERS.has(value))
      figures.push(value);
  });
  return figures;
}

function isWhole(node: unknown): boolean {
  const { value } = node as { value?: unknown };
  return Number.isInteger(value);
}

function nameOf(declaration: SyntaxNode): string {
  const declared = (declaration['declarations'] as readonly SyntaxNode[] | undefined)?.[0] ?? declaration;
  const name = (declared['id'] as { name?: unknown } | null)?.name;
  return typeof name === 'string' ? name : '?';
}

/** The files of core whose figures must be sourced. */
export function tradeFiles(files: readonly SourceFile[]): readonly SourceFile[] {
  return files.filter(
    ({ path }) => path.startsWith('core/') && !WITHOUT_TRADE.some((other) => path.startsWith(other.path)),
  );
}

/** What the repository has that can be cited. */
export function citable(core: readonly SourceFile[]): Citable {
  const inside = ['core', 'test'].flatMap((folder) =>
    readdirSync(at(folder), { recursive: true, encoding: 'utf8' }).map(
      (path) => `${folder}/${path.replaceAll('\\', '/')}`,
    ),
  );
  return {
    sections: sectionsOf(readFileSync(at('core/CONVENTIONS.md'), 'utf8')),
    paths: new Set([...readdirSync(at('.')), ...inside]),
    names: namesIn(core),
  };
}

if (isStarted(import.meta.url)) {
  const core = sourceFiles().filter(({ path }) => path.startsWith('core/'));
  const there = citable(core);
  const bad = core.flatMap((file) => badCitationsIn(file, there));
  for (const { where, what } of bad) console.error(`${where}: ${what}`);
  if (bad.length > 0)
    console.error('  Cite what is there: `CONVENTIONS, "Minimum gas"`, a file, or a name of core.');
  const files = tradeFiles(core);
  const unsourced = files.flatMap(unsourcedIn);
  for (const { where, name, figures } of unsourced) {
    console.error(`${where}: ${name} carries ${figures.slice(0, 5).join(', ')} without a source`);
  }
  if (unsourced.length > 0)
    console.error('  Name the publication after "Source:" in the docstring, or say "common practice".');
  console.log(
    `sources: ${files.length} files of core, ${unsourced.length} without a source, ${bad.length} citing what is not there`,
  );
  process.exitCode = unsourced.length + bad.length === 0 && files.length > 0 ? 0 : 1;
}
