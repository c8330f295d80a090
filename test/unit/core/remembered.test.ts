/** Core remembers by identity or not at all: a table by value, or a variable, would outlive the trip it was for. */
import { describe, expect, it } from 'vitest';
import { parse, sourceFiles, type SourceFile, type SyntaxNode } from '../../../build/checks/read-source';

/** Declarations at the top of a file that a later call could find changed: variables, and tables begun empty. */
function rememberedIn(file: SourceFile): readonly string[] {
  return (parse(file).program['body'] as readonly SyntaxNode[]).flatMap((statement) => {
    const node = (statement['declaration'] as SyntaxNode | null | undefined) ?? statement;
    if (node.type !== 'VariableDeclaration') return [];
    const declared = node['declarations'] as readonly SyntaxNode[];
    return declared
      .filter(
        ({ id, init }) =>
          node['kind'] !== 'const' ||
          (isTableByValue(init as SyntaxNode | null) && !isReadonlyList(id as SyntaxNode)),
      )
      .map(({ id }) => String((id as SyntaxNode)['name']));
  });
}

function isTableByValue(init: SyntaxNode | null): boolean {
  if (init?.type === 'ArrayExpression') return (init['elements'] as readonly unknown[]).length === 0;
  if (init?.type !== 'NewExpression') return false;
  const { name } = init['callee'] as unknown as { name: string };
  return (name === 'Map' || name === 'Set') && (init['arguments'] as readonly unknown[]).length === 0;
}

/** A list that nothing can be put into: one that is empty by now. */
function isReadonlyList(id: SyntaxNode): boolean {
  const annotation = id['typeAnnotation'] as { typeAnnotation: SyntaxNode } | null | undefined;
  return annotation?.typeAnnotation.type === 'TSTypeOperator';
}

describe('what core remembers', () => {
  it('is kept in no variable and in no table by value', () => {
    const files = sourceFiles().filter(({ path }) => path.startsWith('core/'));
    expect(files.length).toBeGreaterThan(100);
    expect(files.flatMap((file) => rememberedIn(file).map((name) => `${file.path}: ${name}`))).toEqual([]);
  });

  it.each([
    ['let last: number | null = null;', ['last']],
    ['const known = new Map<number, string>();', ['known']],
    ['export const seen = new Set();', ['seen']],
    ['const kept: string[] = [];', ['kept']],
    ['const known = new WeakMap<object, string>();', []],
    ['const NONE: readonly string[] = [];', []],
    ['const NAMES = new Map([[1, "one"]]); const SIZES = [1, 2];', []],
    ['export function f() { const found = new Map(); let at = 0; return [found, at]; }', []],
  ])('is seen in %s', (text, names) => {
    expect(rememberedIn({ path: 'core/x.ts', text })).toEqual(names);
  });
});
