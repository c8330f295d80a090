import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { at } from '../../../build/paths';
import { CONTENT_SECURITY_POLICY } from '../../../electron/content-policy';

/** Bundling the whole window takes its time where other tests run beside it. */
const SLOW_MS = 120_000;
const OUT = mkdtempSync(join(tmpdir(), 'carryover-start-'));
const NOWHERE = mkdtempSync(join(tmpdir(), 'carryover-no-programs-'));

interface Started {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs `npm start` as a process; `onAddress` is called when it says where it serves, and then it is ended. */
function start(
  args: readonly string[],
  env: NodeJS.ProcessEnv = {},
  onAddress: (address: string) => Promise<void> = async () => {},
): Promise<Started> {
  const child = spawn(process.execPath, ['--import', 'tsx', at('build/start.ts'), ...args], {
    cwd: at(),
    env: { ...process.env, CARRYOVER_OUT: OUT, DISPLAY: '', WAYLAND_DISPLAY: '', ...env },
  });
  let [stdout, stderr] = ['', ''];
  let isServing = false;
  child.stderr.on('data', (chunk: Buffer) => (stderr += chunk.toString()));
  child.stdout.on('data', (chunk: Buffer) => {
    stdout += chunk.toString();
    const [address] = /http:\/\/127\.0\.0\.1:\d+\//.exec(stdout) ?? [];
    if (address === undefined || isServing) return;
    isServing = true;
    void onAddress(address).finally(() => child.kill('SIGINT'));
  });
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, stdout, stderr })));
}

describe('npm start', () => {
  it(
    'serves the workbench without a window, and ends with Ctrl-C',
    async () => {
      let page: Response | undefined;
      const { code, stdout, stderr } = await start(['--no-window', '--port', '0'], {}, async (address) => {
        page = await fetch(address);
      });
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      expect(stdout).toMatch(
        /^No window, as asked\. Open http:\/\/127\.0\.0\.1:\d+\/ in a browser; Ctrl-C ends it\.\n$/,
      );
      expect(page?.headers.get('content-security-policy')).toBe(CONTENT_SECURITY_POLICY);
      expect(await page?.text()).toContain('<title>');
    },
    SLOW_MS,
  );

  it(
    'says in one line that there is no display, or no browser',
    async () => {
      const noDisplay = await start(['--port', '0']);
      expect(noDisplay.code).toBe(0);
      expect(noDisplay.stdout).toMatch(/^No display to open a window on\. Open http/);
      // Releases that nobody answers for: the runtime cannot be had.
      const env = {
        DISPLAY: ':77',
        PATH: NOWHERE,
        ELECTRON_MIRROR: 'http://127.0.0.1:1/',
        ELECTRON_OVERRIDE_DIST_PATH: NOWHERE,
      };
      const noBrowser = await start(['--port', '0'], env);
      expect(noBrowser).toMatchObject({ code: 0, stderr: '' });
      expect(noBrowser.stdout.split('\n')).toEqual([
        'Not in Electron: the Electron runtime is not installed, and its releases are out of reach.',
        expect.stringMatching(/^No browser of the Chromium family is installed\. Open http/),
        '',
      ]);
    },
    SLOW_MS,
  );

  it(
    'opens an app window with a profile of its own, and ends when that is closed',
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'carryover-browser-'));
      const seen = join(folder, 'seen');
      writeFileSync(join(folder, 'chromium'), `#!/bin/sh\necho "$@" > ${seen}\n`, { mode: 0o755 });
      const env = {
        DISPLAY: ':77',
        PATH: `${folder}:/usr/bin:/bin`,
        XDG_DATA_HOME: folder,
        ELECTRON_MIRROR: 'http://127.0.0.1:1/',
        ELECTRON_OVERRIDE_DIST_PATH: NOWHERE,
      };
      const { code, stdout } = await start(['--port', '0'], env, () => new Promise(() => {}));
      expect(code).toBe(0);
      expect(stdout).toContain(
        `in an app window of ${join(folder, 'chromium')}; closing the window ends it.`,
      );

      const args = readFileSync(seen, 'utf8');
      expect(args).toMatch(/--app=http:\/\/127\.0\.0\.1:\d+\/ /);
      expect(args).toContain(`--user-data-dir=${join(folder, 'carryover-window')}`);
    },
    SLOW_MS,
  );

  it(
    'says so where the port is taken',
    async () => {
      const server = createServer().listen(0, '127.0.0.1');
      await new Promise((resolve) => server.once('listening', resolve));
      const { port } = server.address() as AddressInfo;
      const { code, stdout, stderr } = await start(['--no-window', '--port', String(port)]);
      server.close();
      expect({ code, stdout }).toEqual({ code: 1, stdout: '' });
      expect(stderr).toMatch(new RegExp(`^Port ${port} is taken`));
      expect(stderr).not.toContain('    at ');
    },
    SLOW_MS,
  );

  it('refuses options it does not know and ports that are none', async () => {
    expect(await start(['--port', 'abc'])).toMatchObject({ code: 2, stdout: '' });
    const unknown = await start(['--nonsense']);
    expect(unknown.code).toBe(2);
    expect(unknown.stderr).toContain("Unknown option '--nonsense'");
    expect(unknown.stderr).not.toContain('    at ');
  });
});
