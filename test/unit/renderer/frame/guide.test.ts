import { readdirSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../../../renderer/commands/all';
import { guideBlocks } from '../../../../renderer/frame/guide/guide-text';

const FOLDER = new URL('../../../../renderer/frame/guide/', import.meta.url).pathname;
const BLOCKS = guideBlocks(readFileSync(`${FOLDER}guide.md`, 'utf8'));
const textOf = JSON.stringify(BLOCKS);

describe('the guide', () => {
  it('has six jobs, each a heading, a picture and its steps', () => {
    const kinds = BLOCKS.slice(2).map(({ kind }) => kind);
    expect(kinds).toEqual(Array.from({ length: 6 }, () => ['heading', 'picture', 'steps']).flat());
    expect(textOf).not.toMatch(/\*\*|\n|!\[/);
  });

  it('cautions before anything else', () => {
    expect(BLOCKS[1]).toMatchObject({ kind: 'paragraph', isCaution: true });
  });

  it('shows every picture there is, small enough for a repository', () => {
    const shown = BLOCKS.flatMap((block) => (block.kind === 'picture' ? [block.file] : []));
    expect(shown.toSorted()).toEqual(readdirSync(FOLDER).filter((name) => name.endsWith('.webp')));
    for (const file of shown) {
      const { size } = statSync(`${FOLDER}${file}`);
      expect(size, file).toBeGreaterThan(5000);
      expect(size, file).toBeLessThan(120_000);
    }
  });

  it('calls commands by the names that they have', () => {
    const labels = COMMANDS.map(({ label }) => label);
    for (const label of ['Draft a new trip', 'Mend the days ahead', 'Read recorded profiles from a file']) {
      expect(labels).toContain(label);
      expect(textOf).toContain(label);
    }
  });
});
