import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { at } from '../../../build/paths';

const PAGE = readFileSync(at('build/before-a-release.md'), 'utf8');

/** As one line: where the page breaks its lines says nothing. */
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');

/** Titles of the end-to-end tests that the double alone can run. */
function doubleOnly(): readonly string[] {
  return readdirSync(at('test/e2e'))
    .filter((name) => name.endsWith('.spec.ts'))
    .flatMap((name) => {
      const text = readFileSync(at(`test/e2e/${name}`), 'utf8').replaceAll('\\u2019', '’');
      const tagged = [...text.matchAll(/test\(\s*'([^']+)',\s*\{ tag: '@double' \}/g)].map(
        ([, title]) => title!,
      );
      expect(tagged, `tags of ${name}`).toHaveLength(text.match(/tag: '@double'/g)?.length ?? 0);
      return tagged;
    });
}

describe('the page to tick before a release', () => {
  it('has a box for every test that the double alone can run', () => {
    const titles = doubleOnly();
    expect(titles.length).toBeGreaterThan(10);
    expect(titles.filter((title) => !flat(PAGE).includes(`(${title})`))).toEqual([]);
  });

  it('names no test that is not there', () => {
    const titles = doubleOnly();
    const named = [...flat(PAGE).matchAll(/\(([a-z][^()]{20,})\)\./g)].map(([, title]) => title!);
    expect(named.filter((title) => !titles.includes(title))).toEqual([]);
    expect(named.length).toBe(titles.length);
  });

  it('has the part that each gap of the double is answered in', () => {
    const readme = readFileSync(at('test/doubles/desktop/README.md'), 'utf8');
    const gaps = flat(readme.slice(readme.indexOf('What it cannot show')))
      .split(/ - /)
      .slice(1);
    expect(gaps.length).toBeGreaterThan(5);
    for (const gap of gaps) {
      const part = /\("([^"]+)"\)[;.]/.exec(gap)?.[1];
      expect(PAGE, gap).toContain(`## ${part}\n`);
    }
  });
});
