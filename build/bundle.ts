/**
 * Bundles the programs into out/: of the desktop the window (any browser of today), the main process (an ES
 * module) and the preload script (one CommonJS file, as a sandboxed preload must be), and the command.
 */
import react from '@vitejs/plugin-react';
import { readFileSync } from 'node:fs';
import { build, type InlineConfig, type Plugin } from 'vite';
import { FACE_FILES, FACE_NAMES } from '../core/slate/faces';
import { fontFile } from '../electron/terminal/font-files';
import { forgetBundled, noteBundled } from './bundled';
import { at, isStarted, OUT } from './paths';

const COMMON: InlineConfig = { configFile: false, logLevel: 'warn', root: at() };

/** Times of the bundler's own parts are nobody's business who starts the app. */
const CHECKS = { pluginTimings: false };

/** Every window of the desktop and of the browser host; Node 20 of main is that of Electron or later. */
const WINDOW_TARGET = 'chrome120';
const MAIN_TARGET = 'node20';

interface StyleSheet {
  walkDecls(property: string, each: (declaration: { value: string }) => void): void;
}

/** The fonts' own style sheets name WOFF besides, which no engine that runs the window would ever ask for. */
const WOFF2_ALONE = {
  postcssPlugin: 'woff2-alone',
  // Before the bundler looks at the addresses, which it does once as well.
  Once(sheet: StyleSheet): void {
    sheet.walkDecls('src', (source) => {
      source.value = source.value.replaceAll(/,\s*url\([^)]*\.woff\)\s*format\('woff'\)/g, '');
    });
  },
};

const WINDOW: InlineConfig = {
  ...COMMON,
  root: at('renderer'),
  publicDir: false,
  plugins: [react()],
  // Short names of classes: with file, name and line in each they cost the first load six hundred bytes.
  css: { postcss: { plugins: [WOFF2_ALONE] }, modules: { generateScopedName: '[hash:base64:5]' } },
  // A worker is a module of its own file: the policy allows no blob.
  worker: { format: 'es', rolldownOptions: { checks: CHECKS } },
  build: {
    outDir: `${OUT}/renderer`,
    emptyOutDir: true,
    target: WINDOW_TARGET,
    // Fonts and pictures stay files: the policy allows no font out of a data address.
    assetsInlineLimit: 0,
    // All of it lies on this machine: to ask ahead for what a part imports gains nothing, and to name it costs the first load.
    modulePreload: false,
    chunkSizeWarningLimit: 2000,
    rolldownOptions: {
      checks: CHECKS,
      // What the start needs is one file: left to itself the bundler makes a dozen, each compressed on its own.
      output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } },
    },
  },
};

const MAIN: InlineConfig = {
  ...COMMON,
  ssr: { noExternal: true, external: ['electron'] },
  build: {
    ssr: at('electron/main.ts'),
    outDir: `${OUT}/main`,
    emptyOutDir: true,
    target: MAIN_TARGET,
    rolldownOptions: { checks: CHECKS, output: { format: 'es', entryFileNames: 'main.js' } },
  },
};

const PRELOAD: InlineConfig = {
  ...COMMON,
  ssr: { noExternal: true, external: ['electron'] },
  build: {
    ssr: at('electron/preload.ts'),
    outDir: `${OUT}/preload`,
    emptyOutDir: true,
    target: WINDOW_TARGET,
    rolldownOptions: {
      checks: CHECKS,
      output: { format: 'cjs', entryFileNames: 'preload.cjs', codeSplitting: false },
    },
  },
};

/** The fonts of print-outs stand beside the command, which has no packages where it is installed. */
const FONTS: Plugin = {
  name: 'fonts-of-slates',
  generateBundle() {
    for (const name of FACE_NAMES) {
      const source = readFileSync(at('node_modules/@expo-google-fonts', FACE_FILES[name]));
      this.emitFile({ type: 'asset', fileName: fontFile(name), source });
    }
  },
};

const COMMAND: InlineConfig = {
  ...COMMON,
  plugins: [FONTS],
  ssr: { noExternal: true },
  build: {
    ssr: true,
    outDir: `${OUT}/command`,
    emptyOutDir: true,
    target: MAIN_TARGET,
    rolldownOptions: {
      checks: CHECKS,
      // The threads of `check` are programs of their own.
      input: ['carryover', 'check-worker'].map((name) => at(`electron/terminal/${name}.ts`)),
      output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: '[name].js' },
    },
  },
};

const BUNDLES = { window: WINDOW, main: MAIN, preload: PRELOAD, command: COMMAND };
export type BundleName = keyof typeof BUNDLES;
const ALL = Object.keys(BUNDLES) as readonly BundleName[];

/** Builds bundles one after the other; throws with the bundler's own message where one fails. */
export async function bundle(names: readonly BundleName[] = ALL): Promise<void> {
  const fromMs = Date.now();
  forgetBundled(OUT);
  for (const name of names) await build(BUNDLES[name]);
  if (ALL.every((name) => names.includes(name))) noteBundled(OUT, fromMs);
}

/** `npm run bundle`, or `npm run bundle -- main preload` for some of them. */
async function main(asked: readonly string[]): Promise<number> {
  const unknown = asked.find((name) => !Object.hasOwn(BUNDLES, name));
  if (unknown !== undefined) {
    console.error(`bundle: there is no bundle "${unknown}"; there are ${ALL.join(', ')}.`);
    return 2;
  }
  const names = asked.length === 0 ? ALL : (asked as readonly BundleName[]);
  const startedMs = Date.now();
  try {
    await bundle(names);
  } catch (error) {
    console.error(`bundle: ${error instanceof Error ? error.message : String(error)}`);
    return 1;
  }
  console.log(`bundle: ${names.join(', ')} in ${((Date.now() - startedMs) / 1000).toFixed(1)} s`);
  return 0;
}

if (isStarted(import.meta.url)) process.exitCode = await main(process.argv.slice(2));
