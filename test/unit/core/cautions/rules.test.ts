import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { RULES } from '../../../../core/cautions/all';

it('has a test that fires each rule', () => {
  const folder = new URL('.', import.meta.url);
  const texts = readdirSync(folder)
    .filter((name) => name.endsWith('.test.ts') && name !== 'rules.test.ts')
    .map((name) => readFileSync(new URL(name, folder), 'utf8'));
  const named = new Set(
    [...texts.join('\n').matchAll(/(?:only|of)\('([a-z0-9-]+)'|toContain\('([a-z0-9-]+)'\)/g)].flatMap(
      (m) => [m[1], m[2]],
    ),
  );
  expect(RULES.map((rule) => rule.code).filter((code) => !named.has(code))).toEqual([]);
});
