/** Starts the built desktop under the double, for one test, and ends it. */
import { spawn } from 'node:child_process';
import { createServer, type AddressInfo } from 'node:net';
import { chromium, expect, type Browser, type Page } from '@playwright/test';
import { findTestBrowser } from '../../../build/find-browser';
import { at } from '../../../build/paths';
import { QUIET_FLAGS } from '../../../build/test-browser';
import { unpack } from './codec';
import { launchRuntime } from './launch-runtime';
import type { Happening } from './state';
import type { MenuItem } from './system';

export interface LaunchOptions {
  readonly userData: string;
  readonly files?: readonly string[];
  /** Work areas of the screens there are. */
  readonly screens?: readonly object[];
  readonly isPackaged?: boolean;
  readonly main?: string;
}

export interface RunningDesktop {
  /** The window's page as it is now; another one after a crash. */
  page(): Promise<Page>;
  answerDialog(answer: unknown): Promise<void>;
  /** What happened so far, in its order; also after the end. */
  log(): readonly Happening[];
  menu(): Promise<readonly MenuItem[]>;
  clickMenu(id: string): Promise<void>;
  invokeAs(call: {
    senderFrame: unknown;
    channel: string;
    args: unknown[];
  }): Promise<{ value?: unknown; error?: string }>;
  openFile(path: string): Promise<void>;
  hang(): Promise<void>;
  closeWindow(): Promise<void>;
  /** Ends the process, and returns its exit code. */
  quit(): Promise<number | null>;
  /** As a power cut would: no goodbye. */
  kill(): Promise<void>;
  readonly exited: Promise<number | null>;
  output(): string;
}

const READY_MS = 30_000;

interface Reply {
  readonly ready?: true;
  readonly happening?: Happening;
  readonly id?: number;
  readonly value?: unknown;
  readonly error?: string;
}

/** Runs the built main; resolves once it is ready, or, where it ends before, once it has ended. */
export async function launchDesktop(options: LaunchOptions): Promise<RunningDesktop> {
  if (process.env['CARRYOVER_RUNTIME'] === 'electron') return launchRuntime(options);
  const port = await freePort();
  const folder = at('test/doubles/desktop');
  const child = spawn(
    process.execPath,
    [
      '--import',
      'tsx',
      '--import',
      `${folder}/register.mjs`,
      `${folder}/run-main.ts`,
      options.main ?? at('out/main/main.js'),
      ...(options.files ?? []),
    ],
    {
      cwd: at(),
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
      env: {
        ...process.env,
        DOUBLE_APP_ROOT: at(),
        DOUBLE_USER_DATA: options.userData,
        DOUBLE_BROWSER: findTestBrowser() ?? '',
        DOUBLE_FLAGS: QUIET_FLAGS.join(' '),
        DOUBLE_PORT: String(port),
        ...(options.screens === undefined ? {} : { DOUBLE_SCREENS: JSON.stringify(options.screens) }),
        ...(options.isPackaged === true ? { DOUBLE_PACKAGED: '1' } : {}),
      },
    },
  );
  let output = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  const exited = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const log: Happening[] = [];
  const replies = new Map<number, (reply: Reply) => void>();
  const ready = new Promise<void>((resolve) => {
    child.on('message', (reply: Reply) => {
      if (reply.ready === true) resolve();
      else if (reply.happening !== undefined) log.push(reply.happening);
      else replies.get(reply.id ?? -1)?.(reply);
    });
  });
  const tooLate = new Promise<never>((_resolve, reject) => {
    setTimeout(() => reject(new Error(`main did not become ready\n${output}`)), READY_MS).unref();
  });
  await Promise.race([ready, exited, tooLate]);

  let orders = 0;
  const order = async (name: string, argument?: unknown): Promise<unknown> => {
    orders += 1;
    const id = orders;
    const reply = await new Promise<Reply>((resolve, reject) => {
      replies.set(id, resolve);
      void exited.then((code) => reject(new Error(`main has ended (${code}) before "${name}"\n${output}`)));
      if (child.connected) child.send({ id, name, argument });
    });
    if (reply.error !== undefined) throw new Error(reply.error);
    return unpack(reply.value);
  };

  let browser: Browser | undefined;
  const page = async (): Promise<Page> => {
    browser ??= await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    const [context] = browser.contexts();
    let found: Page | undefined;
    await expect(async () => {
      found = context?.pages().findLast((each) => each.url().includes('.carryover.localhost'));
      // A crashed page stays in the list for a while, and answers nothing any more.
      expect(await found?.evaluate(() => document.readyState)).toBe('complete');
    }).toPass({ timeout: READY_MS, intervals: [50] });
    return found as Page;
  };

  return {
    page,
    exited,
    output: () => output,
    answerDialog: async (answer) => void (await order('answerDialog', answer)),
    log: () => log,
    menu: async () => (await order('menu')) as readonly MenuItem[],
    clickMenu: async (id) => void (await order('clickMenu', id)),
    invokeAs: async (call) => (await order('invokeAs', call)) as { value?: unknown; error?: string },
    openFile: async (path) => void (await order('openFile', path)),
    hang: async () => void (await order('hang')),
    closeWindow: async () => void (await order('closeWindow')),
    quit: async () => {
      if (child.exitCode === null && child.signalCode === null) {
        await order('quit').catch(() => {});
        await exited;
      }
      return child.exitCode;
    },
    kill: async () => {
      child.kill('SIGKILL');
      await exited;
    },
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });
}
