/**
 * One page a worker for test after test: opened anew it would cost as much again as the window in it. Between two
 * tests it goes to an empty address of the same server, so that the process stays, and all that was kept is cleared.
 * What cannot be taken back, such as a clock of its own, makes the next test have a new page.
 */
import type { Browser, BrowserContext, BrowserContextOptions, CDPSession, Page } from '@playwright/test';

/** The server has nothing there: a page that runs no script. */
const NOWHERE = '/nothing-here';

/**
 * That nothing is there, or no icon for a page that names none, may be told when the next test has begun. The window
 * names an icon of its own: of its faults this is none.
 * @param url of what was not found
 */
export function isBetweenTests(url: string): boolean {
  return url.endsWith(NOWHERE) || url.endsWith('/favicon.ico');
}

/** After these a page, its context or its clock is not as it was. */
const LASTING = {
  page: ['addInitScript', 'addLocatorHandler', 'close', 'emulateMedia', 'exposeBinding', 'exposeFunction'],
  context: [
    'addInitScript',
    'close',
    'exposeFunction',
    'grantPermissions',
    'newCDPSession',
    'newPage',
    'route',
  ],
  clock: ['install', 'pauseAt', 'setFixedTime', 'setSystemTime'],
} as const;

/** A process that had many windows is slower than a new one. */
const MOST_TESTS = 25;

/** What a test listens to; the runner itself listens to other things. */
const HEARD = ['console', 'dialog', 'download', 'filechooser', 'pageerror', 'popup', 'request', 'response'];

interface Kept {
  readonly key: string;
  readonly context: BrowserContext;
  readonly page: Page;
  readonly storage: CDPSession;
  /** Keys and buttons that are down. */
  readonly held: Set<string>;
  isSpoilt: boolean;
  tests: number;
}

export class KeptPage {
  private kept: Kept | undefined;

  constructor(private readonly browser: Browser) {}

  /** A page on which nothing was ever done, as far as it can see. */
  async fresh(options: BrowserContextOptions): Promise<Page> {
    const key = JSON.stringify(options);
    const old = this.kept;
    if (old?.key === key && isAsNew(old)) {
      await clear(old, options);
      old.tests += 1;
      return old.page;
    }
    await this.close();
    this.kept = await open(this.browser, options, key);
    return this.kept.page;
  }

  async close(): Promise<void> {
    await this.kept?.context.close();
    this.kept = undefined;
  }
}

function isAsNew({ isSpoilt, held, tests, page }: Kept): boolean {
  return !isSpoilt && held.size === 0 && tests < MOST_TESTS && !page.isClosed();
}

async function open(browser: Browser, options: BrowserContextOptions, key: string): Promise<Kept> {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const storage = await context.newCDPSession(page);
  await slowDown(storage);
  const kept: Kept = { key, context, page, storage, held: new Set(), isSpoilt: false, tests: 1 };
  const spoil = (): void => {
    kept.isSpoilt = true;
  };
  beforeEach(page, LASTING.page, spoil);
  beforeEach(context, LASTING.context, spoil);
  beforeEach(page.clock, LASTING.clock, spoil);
  page.on('crash', spoil);
  for (const hand of [page.keyboard, page.mouse]) {
    beforeEach(hand, ['down'], (name) => kept.held.add(String(name)));
    beforeEach(hand, ['up'], (name) => kept.held.delete(String(name)));
  }
  return kept;
}

/** Has a method tell its first argument before it does what it always did. */
function beforeEach(object: object, names: readonly string[], tell: (first: unknown) => void): void {
  for (const name of names) {
    const method = Reflect.get(object, name) as (...args: unknown[]) => unknown;
    Reflect.set(object, name, (...args: unknown[]) => {
      tell(args[0]);
      return Reflect.apply(method, object, args);
    });
  }
}

/**
 * To find a test that reads before the window is done: CARRYOVER_E2E_SLOWER=6 has its thread take six times as long
 * and each part that is loaded late come late, while the test is as quick as ever.
 */
async function slowDown(session: CDPSession): Promise<void> {
  const rate = Number(process.env['CARRYOVER_E2E_SLOWER'] ?? 1);
  if (rate <= 1) return;
  await session.send('Emulation.setCPUThrottlingRate', { rate });
  await session.send('Network.enable');
  const conditions = { offline: false, latency: 50 * rate, downloadThroughput: -1, uploadThroughput: -1 };
  await session.send('Network.emulateNetworkConditions', conditions);
}

async function clear({ page, storage }: Kept, { viewport, baseURL }: BrowserContextOptions): Promise<void> {
  for (const event of HEARD) page.removeAllListeners(event);
  await page.unrouteAll({ behavior: 'ignoreErrors' });
  // Where it rests, it would point at something of the next window.
  await page.mouse.move(0, 0);
  await page.goto(NOWHERE);
  await storage.send('Storage.clearDataForOrigin', {
    origin: new URL(baseURL!).origin,
    storageTypes: 'all',
  });
  const size = page.viewportSize();
  if (viewport && (size?.width !== viewport.width || size.height !== viewport.height)) {
    await page.setViewportSize(viewport);
  }
}
