/**
 * How the desktop is packaged: what goes in, for whom; `fuses.ts` shuts doors of the runtime. Built by
 * electron-builder; `package.ts` runs it.
 */
import type { Configuration } from 'electron-builder';
import { TRIP_EXTENSION } from '../core/library';
import { flipPacked, LINUX_EXECUTABLE } from './fuses';
import { at, OUT } from './paths';

/** The media type of trip files, by which Linux knows them. */
const TRIP_TYPE = 'application/vnd.carryover.trip+json';

export const PACKAGE: Configuration = {
  appId: 'app.carryover.desktop',
  productName: 'Carryover',
  copyright: 'Copyright the contributors of Carryover. MIT License.',
  directories: { output: at('dist'), buildResources: at('build/resources') },
  // Everything is bundled: no package, no source, no map goes in.
  files: [
    'out/renderer/**',
    'out/main/**',
    'out/preload/**',
    'out/command/**',
    'package.json',
    'LICENSE',
    '!**/node_modules/**',
    '!**/*.map',
  ],
  extraResources: [{ from: `${OUT}/licences.txt`, to: 'licences.txt' }],
  asar: true,
  npmRebuild: false,
  nodeGypRebuild: false,
  electronLanguages: ['en-US', 'en-GB'],
  afterPack: flipPacked,
  extraMetadata: { main: 'out/main/main.js', homepage: 'https://carryover.invalid/' },
  publish: null,
  fileAssociations: [
    {
      ext: TRIP_EXTENSION,
      name: 'Carryover trip',
      description: 'A trip of several days of diving, planned in Carryover',
      mimeType: TRIP_TYPE,
      role: 'Editor',
      rank: 'Owner',
    },
  ],
  linux: {
    target: ['AppImage', 'deb'],
    category: 'Science',
    synopsis: 'Plan several days of diving on air and enriched air',
    maintainer: 'The contributors of Carryover <contributors@carryover.invalid>',
    executableName: LINUX_EXECUTABLE,
  },
  mac: {
    target: ['dmg', 'zip'],
    category: 'public.app-category.sports',
    hardenedRuntime: true,
    darkModeSupport: true,
  },
  win: { target: ['nsis'] },
  nsis: {
    oneClick: false,
    allowToChangeInstallationDirectory: true,
    // Windows registers file types for the whole machine alone.
    perMachine: true,
    deleteAppDataOnUninstall: false,
  },
};
