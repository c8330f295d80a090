import { describe, expect, it } from 'vitest';
import { layerBreaches, packageBreaches } from '../../../build/checks/layers';
import { sourceFiles } from '../../../build/checks/read-source';

const breaches = (path: string, text: string): readonly string[] =>
  layerBreaches([{ path, text }]).map(({ what }) => what);

describe('layerBreaches', () => {
  it('lets the window and the desktop import the core', () => {
    expect(breaches('renderer/store/store.ts', "import { a } from '../../core/document/types';")).toEqual([]);
    expect(breaches('electron/main.ts', "import { a } from '../core/host';")).toEqual([]);
  });

  // Each way in which one file can name another, each from core towards the window.
  it.each([
    ['a statement', "import { a } from '../renderer/store/store';"],
    ['a type', "import type { A } from '../renderer/store/store';"],
    ['a re-export', "export { a } from '../renderer/store/store';"],
    ['a re-export of all', "export * from '../renderer/store/store';"],
    ['a call', "const a = await import('../renderer/store/store');"],
    ['a type in place', "type A = import('../renderer/store/store').A;"],
    ['a bare import', "import '../renderer/store/store';"],
  ])('catches %s that points backwards', (_way, text) => {
    expect(breaches('core/water.ts', text)).toEqual(['core imports renderer/store/store']);
  });

  it.each([
    ['renderer/main.tsx', "import { a } from '../electron/main';", 'renderer imports electron/main'],
    ['electron/main.ts', "import { a } from '../renderer/main';", 'electron imports renderer/main'],
    ['core/water.ts', "import { a } from '../build/bundle';", 'core imports build/bundle'],
    ['renderer/main.tsx', "import { a } from '../test/setup';", 'renderer imports test/setup'],
    ['core/water.ts', "import { join } from 'node:path';", 'core imports node:path'],
    ['renderer/main.tsx', "import { join } from 'node:path';", 'renderer imports node:path'],
    ['core/water.ts', "import { create } from 'zustand/vanilla';", 'core imports zustand'],
    ['core/slate/layout.ts', "import Pdf from 'pdfkit';", 'core imports pdfkit'],
    ['renderer/main.tsx', "import { app } from 'electron';", 'renderer imports electron'],
    ['electron/main.ts', "import { build } from 'vite';", 'electron imports vite'],
    ['core/water.ts', "import '@fontsource/ibm-plex-sans';", 'core imports @fontsource/ibm-plex-sans'],
  ])('catches %s with %s', (path, text, what) => {
    expect(breaches(path, text)).toEqual([what]);
  });

  it('lets only the PDF file of core use the PDF library', () => {
    expect(breaches('core/slate/pdf.ts', "import Pdf from 'pdfkit';")).toEqual([]);
  });

  it('catches a package that nobody has classified, and says where to do it', () => {
    const [breach] = layerBreaches([{ path: 'core/water.ts', text: "\n\nimport x from 'left-over';" }]);
    expect(breach).toMatchObject({ where: 'core/water.ts:3', what: 'core imports left-over' });
    expect(breach?.mend).toContain('build/checks/layers.ts');
  });

  it('catches barrels and file endings', () => {
    expect(breaches('core/index.ts', '')).toEqual(['is a barrel']);
    expect(breaches('core/water.ts', "import { a } from './gas.ts';")).toEqual([
      'imports ./gas.ts with its ending',
    ]);
  });

  it('does not take text for an import', () => {
    expect(
      breaches(
        'core/water.ts',
        "const text = \"import { a } from '../renderer/main'\"; // from '../electron/main'",
      ),
    ).toEqual([]);
  });

  it('throws over a file it cannot read rather than pass it', () => {
    expect(() => breaches('core/water.ts', 'import { from')).toThrow('core/water.ts');
  });
});

describe('packageBreaches', () => {
  it('catches an installed package of no layer, and a listed one that is gone', () => {
    const all = packageBreaches(['left-over']);
    expect(all.map(({ what }) => what)).toContain('left-over belongs to no layer');
    expect(all.map(({ what }) => what)).toContain('zod is not among the dependencies');
  });
});

describe('sourceFiles', () => {
  it('finds the files of every folder', () => {
    const paths = sourceFiles().map(({ path }) => path);
    expect(paths).toContain('core/water.ts');
    expect(paths).toContain('renderer/host/browser-host.ts');
    expect(paths).toContain('test/unit/build/layers.test.ts');
    expect(paths).toContain('vitest.config.ts');
    expect(paths.some((path) => path.includes('node_modules'))).toBe(false);
  });
});
