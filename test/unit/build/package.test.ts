import {
  copyFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { icns, ico, iconSvg } from '../../../build/icon';
import { bundledLicences, unaccepted } from '../../../build/licences';
import { FUSES, flipDecided, fuseFaults } from '../../../build/fuses';
import { packOverStandIn, SHIPPED_FUSES, standInBinary } from '../../../build/pack-over-stand-in';
import { PACKAGE } from '../../../build/package-config';
import { checkPacked, readArchive } from '../../../build/packed-app';
import { at, ROOT } from '../../../build/paths';

/** The wire as decided, in the runtime's order: run as Node, cookies, NODE_OPTIONS, inspector, integrity, asar, … */
const FUSES_OF_OURS = '010011001';

/** The packer starts programs of its own, beside other tests. */
const SLOW_MS = 120_000;

/** A project with bundles as ours has them, small; more files may be put in. */
function project(files: Readonly<Record<string, string>> = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'carryover-package-'));
  copyFileSync(at('LICENSE'), join(folder, 'LICENSE'));
  const all = {
    'package.json': JSON.stringify({ name: 'carryover', version: '0.2.0', main: 'out/main/main.js' }),
    'out/main/main.js': 'main()',
    'out/preload/preload.cjs': 'preload()',
    'out/command/carryover.js': 'command()',
    'out/command/check-worker.js': 'worker()',
    'out/renderer/index.html': '<title>window</title>',
    'out/renderer/assets/a.js': 'let a',
    'out/licences.txt': 'react 19 (MIT)',
    ...files,
  };
  for (const [path, text] of Object.entries(all)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

async function pack(files: Readonly<Record<string, string>> = {}, patch: object = {}): Promise<string> {
  const folder = project(files);
  const manifest = readFileSync(at('node_modules/electron/package.json'), 'utf8');
  const { version: electronVersion } = JSON.parse(manifest) as { version: string };
  const config = {
    ...PACKAGE,
    electronVersion,
    extraResources: [{ from: join(folder, 'out/licences.txt'), to: 'licences.txt' }],
    ...patch,
  };
  return packOverStandIn(config, join(folder, 'dist'), folder);
}

describe('the package', () => {
  let packed: string;

  // The packer checks the whole configuration against its own schema first.
  beforeAll(async () => {
    packed = await pack({
      'out/renderer/assets/a.js.map': '{}',
      'core/water.ts': 'source',
      'node_modules/left-over/index.js': 'package',
      '.env': 'secret',
    });
  }, SLOW_MS);

  it('has the bundles and nothing else of the project', () => {
    const paths = readArchive(join(packed, 'resources', 'app.asar')).map(({ path }) => path);
    expect(paths.toSorted()).toEqual([
      'LICENSE',
      'out/command/carryover.js',
      'out/command/check-worker.js',
      'out/main/main.js',
      'out/preload/preload.cjs',
      'out/renderer/assets/a.js',
      'out/renderer/index.html',
      'package.json',
    ]);
  });

  it('passes its own looking over, licences and fuses included', async () => {
    expect(await checkPacked(packed)).toEqual([]);
  });

  it('shuts the runtime’s doors', async () => {
    expect(FUSES).toEqual({
      RunAsNode: false,
      EnableNodeOptionsEnvironmentVariable: false,
      EnableNodeCliInspectArguments: false,
      OnlyLoadAppFromAsar: true,
      EnableEmbeddedAsarIntegrityValidation: true,
      GrantFileProtocolExtraPrivileges: false,
      EnableCookieEncryption: true,
      LoadBrowserProcessSpecificV8Snapshot: false,
      WasmTrapHandlers: true,
    });
    const wire = readFileSync(join(packed, 'carryover'), 'latin1').slice(-FUSES_OF_OURS.length);
    expect(wire).toBe(FUSES_OF_OURS);
  });

  it('keeps only the languages it speaks', () => {
    expect(readdirSync(join(packed, 'locales')).toSorted()).toEqual(['en-GB.pak', 'en-US.pak']);
  });

  it('says what is wrong with one that is not as it should be', async () => {
    const broken = mkdtempSync(join(tmpdir(), 'carryover-broken-'));
    cpSync(packed, broken, { recursive: true });
    writeFileSync(join(broken, 'carryover'), standInBinary(`1${FUSES_OF_OURS.slice(1)}`));
    rmSync(join(broken, 'resources', 'licences.txt'));
    expect(await checkPacked(broken)).toEqual([
      'The fuse RunAsNode is not off.',
      'The licences of the packages are not there.',
    ]);
    rmSync(join(broken, 'resources', 'app.asar'));
    expect((await checkPacked(broken))[0]).toMatch(/app\.asar is not there/);
  });

  it(
    'finds what has no place in it, and the folders of the machine that built it',
    async () => {
      const folder = await pack(
        { 'core/water.ts': 'source', 'out/main/main.js': `const at = '${ROOT}/out';` },
        { files: ['out/renderer/**', 'out/main/**', 'core/**', 'package.json', 'LICENSE'] },
      );
      expect(await checkPacked(folder)).toEqual([
        'out/preload/preload.cjs is not in the archive.',
        'out/command/carryover.js is not in the archive.',
        'core/water.ts has no place in the archive.',
        'out/main/main.js names a folder of the machine that built it.',
      ]);
    },
    SLOW_MS,
  );

  it('opens trip files by double click, on every system that can be told so', () => {
    expect(PACKAGE.fileAssociations).toMatchObject([{ ext: 'carryover', role: 'Editor' }]);
    // Windows registers file types for the whole machine alone.
    expect(PACKAGE.nsis?.perMachine).toBe(true);
  });
});

describe('the fuses of a runtime', () => {
  const binary = (fuses: string): string => {
    const path = join(mkdtempSync(join(tmpdir(), 'carryover-fuses-')), 'carryover');
    writeFileSync(path, standInBinary(fuses));
    return path;
  };

  it.each([
    ['the nine of today', SHIPPED_FUSES],
    ['the eight before', SHIPPED_FUSES.slice(0, 8)],
    ['one taken out of service', `${SHIPPED_FUSES.slice(0, 6)}r${SHIPPED_FUSES.slice(7)}`],
  ])('are all flipped as decided: %s', async (_, fuses) => {
    const path = binary(fuses);
    expect(await fuseFaults(path)).not.toEqual([]);
    await flipDecided(path);
    expect(await fuseFaults(path)).toEqual([]);
  });

  it('stop the packing where one is there that nobody decided', async () => {
    const path = binary(`${SHIPPED_FUSES}0`);
    await expect(flipDecided(path)).rejects.toThrow('a fuse at place 9 that nobody has named');
    expect(readFileSync(path, 'latin1').endsWith(`${SHIPPED_FUSES}0`)).toBe(true);
    expect(await fuseFaults(binary(`${FUSES_OF_OURS}0`))).toEqual([
      'The runtime has a fuse at place 9 that nobody has named or decided.',
    ]);
  });

  it('are missed where there are none', async () => {
    const path = binary(FUSES_OF_OURS);
    writeFileSync(path, 'no fuses here');
    expect((await fuseFaults(path))[0]).toMatch(/cannot be read/);
  });
});

describe('the licences', () => {
  it('are known and accepted for every package that goes in', () => {
    const licences = bundledLicences();
    expect(licences.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['react', 'zod', 'pdfkit', 'electron-store']),
    );
    expect(unaccepted(licences)).toEqual([]);
    expect(licences.filter(({ text }) => text === '').map(({ name }) => name)).toEqual([]);
  });

  it('that nobody has accepted stop the packing', () => {
    const licence = (name: string, terms: string) => ({ name, version: '1', licence: terms, text: 'x' });
    const given = [
      licence('a', 'GPL-3.0'),
      licence('b', '(MIT OR GPL-3.0)'),
      licence('c', 'MIT AND GPL-3.0'),
      licence('d', 'none named'),
    ];
    expect(unaccepted(given).map(({ name }) => name)).toEqual(['a', 'c', 'd']);
  });
});

describe('the icon', () => {
  it('is drawn as it lies in the resources', () => {
    expect(readFileSync(at('build/resources/icon.svg'), 'utf8')).toBe(iconSvg());
  });

  it('is wrapped as Windows and Apple want it', () => {
    const png = new Uint8Array([1, 2, 3]);
    const windows = Buffer.from(ico([{ size: 256, png }]));
    expect(windows.subarray(0, 8)).toEqual(Buffer.from([0, 0, 1, 0, 1, 0, 0, 0]));
    expect(windows.readUInt32LE(18)).toBe(22);
    expect(windows.subarray(22)).toEqual(Buffer.from(png));
    const apple = Buffer.from(icns([{ type: 'ic10', png }]));
    expect(apple.toString('latin1', 0, 4)).toBe('icns');
    expect(apple.readUInt32BE(4)).toBe(apple.length);
    expect(apple.toString('latin1', 8, 12)).toBe('ic10');
  });
});
