/**
 * Who may import whom, types included: arrows point from the window and the desktop to the core, never
 * back, inside both from room to room below (rooms.ts), and every package a layer uses is written down here, or it
 * is an error.
 */
import { readFileSync } from 'node:fs';
import { dirname, posix } from 'node:path';
import { at, isStarted } from '../paths';
import { orderBreach, placeBreach } from './rooms';
import { lineAt, parse, sourceFiles, walk, type SourceFile, type SyntaxNode } from './read-source';

interface Layer {
  /** Folders whose files this layer may import; a folder with rules of its own is another. */
  readonly folders: readonly string[];
  readonly packages: readonly string[];
  readonly mayUseNode: boolean;
}

const TOOLS = [
  'axe-core',
  '@electron/asar',
  '@electron/fuses',
  '@hyzyla/pdfium',
  '@neslinesli93/qpdf-wasm',
  '@playwright/test',
  '@testing-library/react',
  '@types/papaparse',
  '@vitejs/plugin-react',
  'ajv',
  'electron-builder',
  'fake-indexeddb',
  'fast-check',
  'jsdom',
  'libxml2-wasm',
  'odex',
  'ical.js',
  'papaparse',
  'temporal-polyfill',
  'scslre',
  'tinybench',
  'vite',
  'vitest',
];

/** The faces of print-outs. */
const PRINT_FONTS = [
  '@expo-google-fonts/ibm-plex-sans',
  '@expo-google-fonts/ibm-plex-sans-condensed',
  '@expo-google-fonts/source-serif-4',
];

/** What a program runs on, besides what it computes with. */
const WINDOW_PACKAGES = [
  ...PRINT_FONTS,
  '@fontsource/ibm-plex-sans',
  '@fontsource/ibm-plex-sans-condensed',
  '@fontsource/source-serif-4',
  'idb',
  'react',
  'react-dom',
  'recharts',
  'zustand',
];
const DESKTOP_PACKAGES = [...PRINT_FONTS, 'electron', 'electron-store'];
const CORE_PACKAGES = ['zod'];
const EVERY_PACKAGE = [
  ...CORE_PACKAGES,
  'pdfkit',
  'saxes',
  ...WINDOW_PACKAGES,
  ...DESKTOP_PACKAGES,
  ...TOOLS,
];

/** By folder or file; the longest name that fits a file's path is its layer. */
const LAYERS: Readonly<Record<string, Layer>> = {
  core: { folders: ['core'], packages: CORE_PACKAGES, mayUseNode: false },
  'core/formats/xml.ts': { folders: ['core'], packages: ['saxes'], mayUseNode: false },
  'core/slate/pdf.ts': { folders: ['core'], packages: ['pdfkit'], mayUseNode: false },
  renderer: {
    folders: ['core', 'renderer'],
    packages: [...CORE_PACKAGES, ...WINDOW_PACKAGES],
    mayUseNode: false,
  },
  electron: {
    folders: ['core', 'electron', 'electron/disk'],
    packages: [...CORE_PACKAGES, ...DESKTOP_PACKAGES],
    mayUseNode: true,
  },
  // Whole reads and writes for whoever runs in Node, with the runtime of the desktop or without it.
  'electron/disk': { folders: ['core', 'electron/disk'], packages: CORE_PACKAGES, mayUseNode: true },
  // The commands run where no runtime of the desktop is: they compute and print.
  'electron/terminal': {
    folders: ['core', 'electron/disk', 'electron/terminal'],
    packages: [...CORE_PACKAGES, ...PRINT_FONTS],
    mayUseNode: true,
  },
  build: {
    folders: ['core', 'renderer', 'electron', 'electron/disk', 'electron/terminal', 'build', 'test'],
    packages: EVERY_PACKAGE,
    mayUseNode: true,
  },
  test: {
    folders: ['core', 'renderer', 'electron', 'electron/disk', 'electron/terminal', 'build', 'test'],
    packages: EVERY_PACKAGE,
    mayUseNode: true,
  },
};

/** Run as programs or read by tools, and imported by nobody. */
const NEVER_IMPORTED = [
  '@stryker-mutator/core',
  '@stryker-mutator/vitest-runner',
  '@types/node',
  '@types/pdfkit',
  '@types/react',
  '@types/react-dom',
  'electron-builder',
  'knip',
  'oxfmt',
  'oxlint',
  'oxlint-tsgolint',
  'tsx',
  'typescript',
];

export interface Breach {
  /** "core/water.ts:3" */
  readonly where: string;
  readonly what: string;
  readonly mend: string;
}

interface Import {
  readonly specifier: string;
  readonly start: number;
}

/** Everything a file imports: statements, types, calls, re-exports. */
function importsOf(file: SourceFile): readonly Import[] {
  const imports: Import[] = [];
  walk(parse(file).program, (node) => {
    const source = sourceOf(node);
    if (source !== null) imports.push({ specifier: source, start: node.start });
  });
  return imports;
}

function sourceOf(node: SyntaxNode): string | null {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ExportNamedDeclaration':
    case 'ExportAllDeclaration':
    case 'ImportExpression':
    case 'TSImportType': {
      const source = node['source'] as { value?: unknown } | null;
      return typeof source?.value === 'string' ? source.value : null;
    }
    default:
      return null;
  }
}

/** Every breach of the layers in the files given. */
export function layerBreaches(files: readonly SourceFile[]): readonly Breach[] {
  return files.flatMap((file) => [
    ...barrelBreaches(file),
    ...roomBreaches(file),
    ...importsOf(file).flatMap((found) => importBreaches(file, found)),
  ]);
}

function roomBreaches({ path }: SourceFile): readonly Breach[] {
  const breach = placeBreach(path);
  return breach === null ? [] : [{ where: path, ...breach }];
}

function barrelBreaches({ path }: SourceFile): readonly Breach[] {
  if (!/(^|\/)index\.tsx?$/.test(path)) return [];
  return [
    {
      where: path,
      what: 'is a barrel',
      mend: 'Import the file that defines a thing, and name it after that thing.',
    },
  ];
}

function importBreaches(file: SourceFile, { specifier, start }: Import): readonly Breach[] {
  const where = `${file.path}:${lineAt(file.text, start)}`;
  const name = layerName(file.path);
  const layer = LAYERS[name];
  if (layer === undefined)
    return [{ where, what: 'lies in no layer', mend: 'Move the file into one of the folders.' }];
  if (specifier.startsWith('.')) return relativeBreaches(file, where, name, layer, specifier);
  if (specifier.startsWith('node:')) {
    if (layer.mayUseNode) return [];
    return [
      {
        where,
        what: `${name} imports ${specifier}`,
        mend: `${name} runs without Node: take what it needs as an argument.`,
      },
    ];
  }
  const wanted = packageOf(specifier);
  if (layer.packages.includes(wanted)) return [];
  const mend = EVERY_PACKAGE.includes(wanted)
    ? `${name} may import ${layer.packages.join(', ')}.`
    : 'Nobody has said which layer may use this package: do so in build/checks/layers.ts, with a reason in DEVELOPERS.md.';
  return [{ where, what: `${name} imports ${wanted}`, mend }];
}

function relativeBreaches(
  file: SourceFile,
  where: string,
  name: string,
  layer: Layer,
  specifier: string,
): readonly Breach[] {
  const plain = specifier.split('?', 1)[0] ?? specifier;
  if (/\.(js|mjs|ts|tsx)$/.test(plain)) {
    return [
      {
        where,
        what: `imports ${specifier} with its ending`,
        mend: 'Leave the ending of TypeScript files out.',
      },
    ];
  }
  const target = posix.join(dirname(file.path), plain);
  if (target === 'package.json') return [];
  if (!layer.folders.includes(folderOf(target))) {
    return [
      { where, what: `${name} imports ${target}`, mend: `${name} may import ${layer.folders.join(', ')}.` },
    ];
  }
  const breach = orderBreach(file.path, target);
  return breach === null ? [] : [{ where, ...breach }];
}

/** A few files and a folder have rules of their own; every other file those of its top folder, configs those of build. */
function layerName(path: string): string {
  if (LAYERS[path] !== undefined) return path;
  return path.includes('/') ? folderOf(path) : 'build';
}

/** The folder of the table that a file lies in: the longest name that fits. */
function folderOf(path: string): string {
  const [top = ''] = path.split('/');
  const fitting = Object.keys(LAYERS).filter((name) => path.startsWith(`${name}/`));
  return fitting.reduce((longest, name) => (name.length > longest.length ? name : longest), top);
}

function packageOf(specifier: string): string {
  const parts = specifier.split('/');
  return specifier.startsWith('@') ? parts.slice(0, 2).join('/') : (parts[0] ?? specifier);
}

/** Packages that are installed and classified nowhere, or classified and no longer installed. */
export function packageBreaches(installed: readonly string[]): readonly Breach[] {
  const classified = new Set([...EVERY_PACKAGE, ...NEVER_IMPORTED]);
  const unclassified = installed
    .filter((name) => !classified.has(name))
    .map((name) => ({
      where: 'package.json',
      what: `${name} belongs to no layer`,
      mend: 'Say in build/checks/layers.ts who may import it, or remove it.',
    }));
  const gone = [...classified]
    .filter((name) => !installed.includes(name))
    .map((name) => ({
      where: 'build/checks/layers.ts',
      what: `${name} is not among the dependencies`,
      mend: 'Take it off the lists.',
    }));
  return [...unclassified, ...gone];
}

function installedPackages(): readonly string[] {
  const { dependencies = {}, devDependencies = {} } = JSON.parse(
    readFileSync(at('package.json'), 'utf8'),
  ) as {
    dependencies?: object;
    devDependencies?: object;
  };
  return [...Object.keys(dependencies), ...Object.keys(devDependencies)];
}

if (isStarted(import.meta.url)) {
  const files = sourceFiles();
  const breaches = [...layerBreaches(files), ...packageBreaches(installedPackages())];
  for (const { where, what, mend } of breaches) console.error(`${where}: ${what}\n  ${mend}`);
  console.log(`layers: ${files.length} files, ${breaches.length} breaches`);
  process.exitCode = breaches.length === 0 && files.length > 0 ? 0 : 1;
}
