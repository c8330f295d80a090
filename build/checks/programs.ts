/**
 * Which programs the project starts. The tests need Node, npm and a browser and nothing else: what reads a
 * PDF, packs or draws comes from npm. A program of the system that is started anywhere is written down here
 * with its file and the reason why nobody misses it who has it not.
 */
import { isStarted } from '../paths';
import { lineAt, parse, sourceFiles, walk, type SourceFile, type SyntaxNode } from './read-source';

/** What any file may start: Node itself, and npm that comes with it. */
const EVERYWHERE = ['process.execPath', "'npm'"];

/** By file, as written there: the first argument of the call. */
const BY_FILE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'build/start.ts': { command: 'the browser or the desktop runtime that was found' },
  'build/test-browser.ts': { command: 'apt-get where it is there, Node, and the browser found' },
  'test/unit/build/ci.test.ts': { script: 'the script of the project under test' },
  'test/support/own-disk.ts': { name: 'mount and umount, where a disk may be mounted; skipped elsewhere' },
  'test/unit/electron/terminal/completion.test.ts': {
    "'bash'": 'what completes in it can be tried in it alone; skipped where there is none',
    "'zsh'": 'as bash',
  },
  'test/unit/electron/odd-files.test.ts': { "'mkfifo'": 'Node makes no pipe with a name; skipped elsewhere' },
};

const MODULE = 'node:child_process';
/** They start what stands first in their arguments, with no shell between. */
const STARTERS = ['spawn', 'spawnSync', 'execFile', 'execFileSync'];

export interface StartedProgram {
  /** "build/start.ts:90" */
  readonly where: string;
  readonly what: string;
}

/** Every start of a program that is not written down, and every import by which one could hide. */
export function programBreaches(files: readonly SourceFile[]): readonly StartedProgram[] {
  return files.flatMap((file) => breachesOf(file));
}

function breachesOf(file: SourceFile): readonly StartedProgram[] {
  if (!file.text.includes('child_process')) return [];
  const breaches: StartedProgram[] = [];
  const allowed = [...EVERYWHERE, ...Object.keys(BY_FILE[file.path] ?? {})];
  const add = (node: SyntaxNode, what: string): void => {
    breaches.push({ where: `${file.path}:${lineAt(file.text, node.start)}`, what });
  };
  walk(parse(file).program, (node) => {
    if (node.type === 'ImportDeclaration' && isModule(node['source'])) {
      for (const name of importedNames(node)) {
        if (!STARTERS.includes(name)) add(node, `imports ${name} of ${MODULE}`);
      }
    } else if (node.type === 'ImportExpression' && isModule(node['source'])) {
      add(node, `imports ${MODULE} where no check sees what is started`);
    } else if (node.type === 'CallExpression') {
      const { callee, arguments: args } = node as unknown as {
        readonly callee: SyntaxNode & { readonly name?: string };
        readonly arguments: readonly SyntaxNode[];
      };
      const [first] = args;
      if (callee.type !== 'Identifier' || !STARTERS.includes(callee.name ?? '') || first === undefined)
        return;
      const program = file.text.slice(first.start, first.end);
      if (!allowed.includes(program)) add(node, `starts ${program}`);
    }
  });
  return breaches;
}

function isModule(source: unknown): boolean {
  const value = (source as { readonly value?: unknown } | null)?.value;
  return value === MODULE || value === 'child_process';
}

/** Names of values a statement imports, by the module's own; "*" and "default" stand for all of them. */
function importedNames(node: SyntaxNode): readonly string[] {
  const specifiers = node['specifiers'] as readonly (SyntaxNode & {
    readonly importKind?: string;
    readonly imported?: { readonly name: string };
    readonly local: { readonly name: string };
  })[];
  return node['importKind'] === 'type'
    ? []
    : specifiers
        .filter(({ importKind }) => importKind !== 'type')
        .map(({ type, imported, local }) => {
          if (type !== 'ImportSpecifier' || imported === undefined) return 'everything';
          return imported.name === local.name ? imported.name : `${imported.name} as ${local.name}`;
        });
}

if (isStarted(import.meta.url)) {
  const files = sourceFiles();
  const breaches = programBreaches(files);
  for (const { where, what } of breaches) {
    console.error(
      `${where}: ${what}\n  Take a package of npm that does it; or say in build/checks/programs.ts who needs it and why.`,
    );
  }
  console.log(`programs: ${files.length} files, ${breaches.length} breaches`);
  process.exitCode = breaches.length === 0 && files.length > 0 ? 0 : 1;
}
