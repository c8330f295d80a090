import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../../../renderer/look/tokens.css', import.meta.url), 'utf8');

/** The colours of a look, as its block has them. */
function colours(selector: string): ReadonlyMap<string, string> {
  const from = css.indexOf(`${selector} {`);
  const block = css.slice(from, css.indexOf('\n}', from));
  return new Map(
    [...block.matchAll(/--([\w-]+): (#[\da-f]{6});/g)].map(([, name, value]) => [name!, value!]),
  );
}

/** How much of what lies beneath a wash hides, 0 to 1. */
function strengthOf(selector: string, name: string): number {
  const from = css.indexOf(`${selector} {`);
  return Number(new RegExp(`--${name}-strength: ([\\d.]+);`).exec(css.slice(from))?.[1]);
}

function channels(hex: string): readonly number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
}

/** Relative luminance. Source: WCAG 2.2, "relative luminance". */
function luminance(rgb: readonly number[]): number {
  const [r, g, b] = rgb.map((value) => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

/** Contrast of two colours. Source: WCAG 2.2, "contrast ratio". */
function contrast(a: readonly number[], b: readonly number[]): number {
  const [light, dark] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

/** What is seen where one colour lies over another. */
function over(top: readonly number[], strength: number, ground: readonly number[]): readonly number[] {
  return top.map((value, i) => value * strength + ground[i]! * (1 - strength));
}

const WATER = ['tint-1', 'tint-2', 'tint-3', 'tint-4', 'tint-5'] as const;

describe.each([
  ['the light look', ':root'],
  ['the cabin look', ":root[data-look='cabin']"],
] as const)('%s', (_name, selector) => {
  const look = colours(selector);
  const divedStrength = strengthOf(selector, 'dived');
  const of = (name: string): readonly number[] => channels(look.get(name) ?? expect.fail(`no --${name}`));

  it.each(['ink', 'caution', 'proposal'])('has words in --%s read on paper and on all the water', (words) => {
    for (const ground of ['paper', 'sheet', 'land', ...WATER]) {
      expect(contrast(of(words), of(ground)), ground).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('has the chosen dive stand out, and the words on its row read', () => {
    for (const ground of ['paper', ...WATER]) {
      expect(contrast(of('chosen'), of(ground)), ground).toBeGreaterThanOrEqual(4.5);
    }
    expect(contrast(of('on-chosen'), of('chosen'))).toBeGreaterThanOrEqual(7);
  });

  it('has ghosts seen on the water and over what was dived, and words read over it', () => {
    for (const ground of WATER) {
      const dived = over(of('dived'), divedStrength, of(ground));
      expect(contrast(of('ghost'), of(ground)), ground).toBeGreaterThanOrEqual(3);
      expect(contrast(of('ghost'), dived), ground).toBeGreaterThanOrEqual(3);
      expect(contrast(of('ink'), dived), ground).toBeGreaterThanOrEqual(3);
    }
  });

  it('has grounds of tables on which words are read', () => {
    expect(contrast(of('ink'), of('range'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('ink'), of('proposal-wash'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('ink-soft'), of('shade'))).toBeGreaterThanOrEqual(4.5);
  });
});
