/** Reads source files for the checks: which there are, and what a parser makes of each. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname } from 'node:path';
import { parseSync } from 'vite';
import { ROOT } from '../paths';

export interface SourceFile {
  /** From the root, with slashes: "core/water.ts". */
  readonly path: string;
  readonly text: string;
}

/** A node of the tree a parser makes; only what the checks look at is named. */
export interface SyntaxNode {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

export interface Parsed {
  readonly program: SyntaxNode;
  readonly comments: readonly { readonly value: string; readonly start: number; readonly end: number }[];
}

const FOLDERS = ['core', 'renderer', 'electron', 'build', 'test'];

/** Every TypeScript file of the project, sorted. */
export function sourceFiles(root: string = ROOT): readonly SourceFile[] {
  const inFolders = FOLDERS.filter((folder) => existsSync(`${root}/${folder}`)).flatMap((folder) =>
    readdirSync(`${root}/${folder}`, { recursive: true, encoding: 'utf8' }).map(
      (path) => `${folder}/${path}`,
    ),
  );
  const configs = readdirSync(root).filter((path) => path.endsWith('.config.ts'));
  return [...inFolders, ...configs]
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
    .toSorted()
    .map((path) => ({ path, text: readFileSync(`${root}/${path}`, 'utf8') }));
}

/** Parses a file; throws where it cannot, so that no check passes over what it could not read. */
export function parse({ path, text }: SourceFile): Parsed {
  const { program, comments, errors } = parseSync(path, text, {
    lang: extname(path) === '.tsx' ? 'tsx' : 'ts',
  });
  const [error] = errors;
  if (error !== undefined) throw new Error(`${path}: ${error.message}`);
  return { program: program as unknown as SyntaxNode, comments };
}

/** Calls back for a node and every node under it. */
export function walk(node: SyntaxNode, visit: (node: SyntaxNode) => void): void {
  visit(node);
  for (const value of Object.values(node)) {
    for (const child of Array.isArray(value) ? value : [value]) {
      if (isNode(child)) walk(child, visit);
    }
  }
}

function isNode(value: unknown): value is SyntaxNode {
  return (
    typeof value === 'object' && value !== null && typeof (value as { type?: unknown }).type === 'string'
  );
}

/** The line of a position, counted from 1. */
export function lineAt(text: string, position: number): number {
  return text.slice(0, position).split('\n').length;
}
