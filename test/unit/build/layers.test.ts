import { describe, expect, it } from 'vitest';
import { layerBreaches, packageBreaches } from '../../../build/checks/layers';
import { readFileSync } from 'node:fs';
import { sourceFiles } from '../../../build/checks/read-source';
import { ROOMS } from '../../../build/checks/rooms';
import { at } from '../../../build/paths';

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
    ['electron/terminal/plan.ts', "import { app } from 'electron';", 'electron/terminal imports electron'],
    [
      'electron/terminal/plan.ts',
      "import { a } from '../close-guard';",
      'electron/terminal imports electron/close-guard',
    ],
    ['electron/main.ts', "import { a } from './terminal/plan';", 'electron imports electron/terminal/plan'],
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
    expect(breaches('core/words/index.ts', '')).toEqual(['is a barrel']);
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

describe('the order of rooms', () => {
  // Each is an arrow that stood there once, or one of its kind; types count.
  it.each([
    ['core/water.ts', "import type { Trip } from './document/types';", 'core/water', 'core/document'],
    ['core/profile.ts', "import { a } from './tissues/leg-map';", 'core/profile', 'core/tissues'],
    ['core/ascent/tolerated.ts', "import type { A } from '../oxygen/doses';", 'core/ascent', 'core/oxygen'],
    ['core/supply.ts', "type A = import('./words/said').Said;", 'core/supply', 'core/words'],
    ['core/tables/data.ts', "import type { A } from '../ledger/entry';", 'core/tables', 'core/ledger'],
    ['core/words/said.ts', "import type { A } from '../document/types';", 'core/words', 'core/document'],
    ['core/document/check-trip.ts', "import { a } from '../ledger/ledger';", 'core/document', 'core/ledger'],
    ['core/ledger/room.ts', "export * from '../cautions/all';", 'core/ledger', 'core/cautions'],
    ['core/cautions/all.ts', "import { a } from '../mixes/choice';", 'core/cautions', 'core/mixes'],
    ['core/mixes/stock.ts', "import { a } from '../proposal/starting-sheet';", 'core/mixes', 'core/proposal'],
    ['core/slate/kinds/wet.ts', "import { a } from '../../formats/zip';", 'core/slate', 'core/formats'],
    ['core/workings/all.ts', "const a = await import('../formats/all');", 'core/workings', 'core/formats'],
    // Neighbours on one step know nothing of each other.
    ['core/gas.ts', "import { a } from './units';", 'core/gas', 'core/units'],
    ['core/library.ts', "import { a } from './ledger/ledger';", 'core/library', 'core/ledger'],
    [
      'renderer/figures/format.ts',
      "import { desk } from '../store/store';",
      'renderer/figures',
      'renderer/store',
    ],
    ['renderer/store/store.ts', "import { a } from '../actions/edit';", 'renderer/store', 'renderer/actions'],
    [
      'renderer/actions/exports.ts',
      "import { a } from '../parts/field';",
      'renderer/actions',
      'renderer/parts',
    ],
    ['renderer/commands/all.ts', "import { a } from '../frame/keys';", 'renderer/commands', 'renderer/frame'],
    [
      'renderer/parts/field.tsx',
      "import type { A } from '../places/days/days';",
      'renderer/parts',
      'renderer/places/days',
    ],
    [
      'renderer/places/party/party.tsx',
      "import { a } from '../days/strip/marks';",
      'renderer/places/party',
      'renderer/places/days',
    ],
    ['renderer/frame/frame.tsx', "import { a } from '../start';", 'renderer/frame', 'renderer/start'],
  ])('catches %s with %s', (path, text, from, target) => {
    expect(breaches(path, text)).toEqual([`${from} imports ${target}, which does not stand below it`]);
  });

  it('lets a room import what stands below it, and itself', () => {
    expect(breaches('core/document/types.ts', "import type { A } from '../ascent/tolerated';")).toEqual([]);
    expect(breaches('core/slate/kinds/wet.ts', "import { a } from '../layout';")).toEqual([]);
    expect(breaches('renderer/places/starting/lists.ts', "import { a } from '../sites/site-list';")).toEqual(
      [],
    );
    expect(breaches('renderer/places/days/days.tsx', "import './days.module.css';")).toEqual([]);
  });

  it('catches a room that has no place yet', () => {
    expect(breaches('core/weather/wind.ts', '')).toEqual(['core/weather has no place in the order of core']);
    expect(breaches('renderer/places/weather/wind.tsx', '')).toEqual([
      'renderer/places has no place in the order of renderer',
    ]);
    expect(breaches('core/formats/all.ts', "import { a } from '../weather/wind';")).toEqual([
      'core/formats imports core/weather, which does not stand below it',
    ]);
  });

  it('is of rooms that exist, each once', () => {
    const paths = sourceFiles().map(({ path }) => path);
    for (const [folder, steps] of Object.entries(ROOMS)) {
      const rooms = steps.flat();
      expect(new Set(rooms).size).toBe(rooms.length);
      for (const room of rooms) {
        const found = paths.filter(
          (path) =>
            path.startsWith(`${folder}/${room}/`) ||
            path === `${folder}/${room}.ts` ||
            path === `${folder}/${room}.tsx`,
        );
        expect([room, found.length > 0]).toEqual([room, true]);
      }
    }
  });

  it.each(['core', 'renderer'] as const)('of %s is the table of the guide', (folder) => {
    const guide = readFileSync(at('DEVELOPERS.md'), 'utf8');
    const [, table = ''] = guide.split(new RegExp(`^\\| ${folder} +\\|.*\n`, 'm'));
    const rows = table.split('\n\n', 1)[0]!.split('\n').slice(1);
    const told = rows.map((row) => [...row.split('|')[1]!.matchAll(/`([^`]+)`/g)].map(([, room]) => room));
    expect(told).toEqual(ROOMS[folder]);
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
