/**
 * How the desktop is packaged: what goes in, for whom, and which doors of the runtime are shut. Built by
 * electron-builder; `package.ts` runs it.
 */
import type { Configuration } from 'electron-builder';
import { TRIP_EXTENSION } from '../core/library';
import { at, OUT } from './paths';

type Fuses = Required<NonNullable<Configuration['electronFuses']>>;

/**
 * Switches in the runtime's own binary, flipped before it is signed. All are named: where a new version
 * brings another, this stops compiling until somebody has decided.
 */
export const FUSES: Fuses = {
  // The app is an app: nobody may run it as plain Node, feed it options, or attach an inspector.
  runAsNode: false,
  enableNodeOptionsEnvironmentVariable: false,
  enableNodeCliInspectArguments: false,
  // Only the archive that was packed is run, and only unchanged (macOS and Windows check that).
  onlyLoadAppFromAsar: true,
  enableEmbeddedAsarIntegrityValidation: true,
  // Pages come by the app's own scheme; files need no privileges.
  grantFileProtocolExtraPrivileges: false,
  // The app keeps no cookies; should one ever be set, it is not readable on the disk.
  enableCookieEncryption: true,
  // There is no snapshot of its own for the main process.
  loadBrowserProcessSpecificV8Snapshot: false,
  // Flipping breaks the signature that Apple's chips ask for; it is made anew where nobody signs.
  resetAdHocDarwinSignature: true,
};

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
  electronFuses: FUSES,
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
    executableName: 'carryover',
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
