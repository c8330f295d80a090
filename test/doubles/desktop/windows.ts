/** `BrowserWindow` and its contents: a page of Chromium, its navigation and new windows asked about first. */
import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Frame, Page, Route } from '@playwright/test';
import { app } from './app';
import { pack } from './codec';
import { answerInvoke } from './ipc';
import { pageScript } from './page-side';
import { schemes, toApp, toPage } from './scheme-host';
import { defaultSession } from './session';
import { happened, state, USER_DATA } from './state';
import { ask } from './system';

/** Where what was printed lies, in the folder of the user's data. */
const PRINTED_FILE = 'double.printed.pdf';

/** The browser of the double; there once the app is ready. */
export const browser = { context: undefined as BrowserContext | undefined };
const windows = new Map<Page, BrowserWindow>();
/** Pages that were a window once; a crashed one stays among the browser's pages for a while. */
const used = new WeakSet<Page>();

export function allWindows(): readonly BrowserWindow[] {
  return [...new Set(windows.values())];
}

interface Options {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly show?: boolean;
  readonly webPreferences: { readonly preload: string };
}

type OpenHandler = (details: { url: string }) => { action: 'allow' | 'deny' };

class Preventable {
  isPrevented = false;

  constructor(
    readonly url = '',
    readonly isMainFrame = true,
  ) {}

  preventDefault(): void {
    this.isPrevented = true;
  }
}

class WebContents extends EventEmitter {
  /** The address that main itself is loading: nobody is asked about that one. */
  loading: string | undefined;
  openHandler: OpenHandler = () => ({ action: 'allow' });
  /** Resolves once the page has heard the last note. */
  heard: Promise<unknown> = Promise.resolve();

  constructor(private readonly window: BrowserWindow) {
    super();
  }

  get page(): Page | undefined {
    return this.window.page;
  }

  send(channel: string, ...args: unknown[]): void {
    this.heard = this.deliver(channel, pack(args));
  }

  private async deliver(channel: string, payload: unknown): Promise<void> {
    try {
      await this.page?.evaluate(
        ([name, packed]) =>
          (globalThis as unknown as { doubleReceive(name: string, packed: unknown): void }).doubleReceive(
            name as string,
            packed,
          ),
        [channel, payload],
      );
    } catch {
      // A page that is going away hears nothing any more; the runtime drops such notes as well.
    }
  }

  setWindowOpenHandler(handler: OpenHandler): void {
    this.openHandler = handler;
  }

  reload(): void {
    void this.window.loadURL(this.window.url);
  }

  /** As the runtime: the process ends, which is told a moment later, and loading again takes a new one. */
  forcefullyCrashRenderer(): void {
    happened('forcefullyCrashRenderer');
    this.window.losePage('killed');
  }

  closeDevTools(): void {}

  /** The pages go to a file; the user's part in the dialog is played, its answer what is called back. */
  print(options: object, callback: (isPrinted: boolean, failureReason: string) => void): void {
    const { page } = this;
    if (page === undefined) throw new Error('electron double: a window without a page cannot print');
    void page
      .pdf({ path: join(USER_DATA, PRINTED_FILE), preferCSSPageSize: true, printBackground: true })
      .then(() => ask('print', [options]))
      .then((answer) => callback(...(answer as [boolean, string])));
  }
}

export class BrowserWindow extends EventEmitter {
  readonly webContents = new WebContents(this);
  page: Page | undefined;
  url = '';
  private isDestroyedNow = false;
  private isMaximizedNow = false;
  private readonly bounds: { x: number; y: number; width: number; height: number };

  constructor(readonly options: Options) {
    super();
    if (!state.isReady) throw new Error('Cannot create BrowserWindow before app is ready');
    happened('new BrowserWindow', options);
    const { x, y, width, height } = options;
    this.bounds = { x, y, width, height };
    app.emit('web-contents-created', {}, this.webContents);
  }

  async loadURL(url: string): Promise<void> {
    happened('loadURL', url);
    this.url = url;
    // A crashed page cannot be driven any more: loading again takes a new one, as a new process would.
    if (this.page === undefined || this.page.isClosed()) this.page = await this.open();
    this.webContents.loading = toPage(url);
    this.webContents.emit('did-start-navigation', { isMainFrame: true, isSameDocument: false });
    await this.page.goto(toPage(url));
    this.webContents.emit('did-finish-load');
    this.emit('ready-to-show');
  }

  private async open(): Promise<Page> {
    const { context } = browser;
    if (context === undefined) throw new Error('electron double: no browser');
    // A persistent context starts with one empty page: the first window takes it.
    const [blank] = context.pages();
    const page = blank === undefined || used.has(blank) ? await context.newPage() : blank;
    used.add(page);
    windows.set(page, this);
    await page.setViewportSize({ width: this.bounds.width, height: this.bounds.height });
    await page.exposeBinding(
      'doubleSend',
      async ({ frame }, kind: string, name: string, payload: unknown) => {
        switch (kind) {
          case 'invoke':
            return answerInvoke({ sender: this.webContents, senderFrame: frameOf(frame) }, name, payload);
          case 'permission':
            return defaultSession.askPermission(this.webContents, name);
          default:
            return defaultSession.checkPermission(this.webContents, name);
        }
      },
    );
    await page.addInitScript({
      content: pageScript(readFileSync(this.options.webPreferences.preload, 'utf8')),
    });
    page.on('console', (message) => happened('console', { level: message.type(), text: message.text() }));
    page.on('pageerror', (error) => happened('pageerror', String(error)));
    page.on('download', (download) => {
      const isAllowed = defaultSession.mayDownload();
      happened('download', { isAllowed });
      if (!isAllowed) void download.cancel();
    });
    page.on('crash', () => this.losePage('crashed'));
    page.on('close', () => {
      if (windows.delete(page)) this.closed();
    });
    return page;
  }

  /** The process of the page has ended. */
  losePage(reason: string): void {
    const { page } = this;
    if (page === undefined) return;
    windows.delete(page);
    this.page = undefined;
    setImmediate(() => this.webContents.emit('render-process-gone', {}, { reason }));
    void page.close();
  }

  /** A request of this window's page; null where it may go on. */
  refusesNavigation(frame: Frame, url: string): boolean {
    const isMain = frame.parentFrame() === null;
    if (isMain && this.webContents.loading === url) {
      this.webContents.loading = undefined;
      return false;
    }
    const event = new Preventable(toApp(url), isMain);
    if (isMain) this.webContents.emit('will-navigate', event, event.url);
    this.webContents.emit('will-frame-navigate', event);
    happened('navigation', { url: event.url, isPrevented: event.isPrevented });
    return event.isPrevented;
  }

  private closed(): void {
    if (this.isDestroyedNow) return;
    this.isDestroyedNow = true;
    this.emit('closed');
    if (allWindows().length > 0) return;
    if (app.listenerCount('window-all-closed') > 0) app.emit('window-all-closed');
    else app.quit();
  }

  close(): void {
    const event = new Preventable();
    this.emit('close', event);
    happened('close', { isPrevented: event.isPrevented });
    if (!event.isPrevented) this.destroy();
  }

  destroy(): void {
    const { page } = this;
    if (page === undefined || page.isClosed()) this.closed();
    else void page.close();
  }

  show(): void {
    happened('show');
  }

  focus(): void {
    happened('focus');
  }

  restore(): void {}

  setProgressBar(progress: number): void {
    happened('setProgressBar', progress);
  }

  setRepresentedFilename(path: string): void {
    happened('setRepresentedFilename', path);
  }

  setDocumentEdited(isEdited: boolean): void {
    happened('setDocumentEdited', isEdited);
  }

  maximize(): void {
    this.isMaximizedNow = true;
  }

  isMaximized(): boolean {
    return this.isMaximizedNow;
  }

  isMinimized(): boolean {
    return false;
  }

  isDestroyed(): boolean {
    return this.isDestroyedNow;
  }

  getNormalBounds(): { x: number; y: number; width: number; height: number } {
    return { ...this.bounds };
  }
}

interface SenderFrame {
  readonly url: string;
  readonly parent: SenderFrame | null;
}

function frameOf(frame: Frame): SenderFrame {
  const parent = frame.parentFrame();
  return { url: toApp(frame.url()), parent: parent === null ? null : frameOf(parent) };
}

/** Every request of the browser: refused where the app says so, answered by its scheme where it is one. */
export async function routeRequest(route: Route): Promise<void> {
  const request = route.request();
  const url = request.url();
  const window = windowOf(request);
  if (request.isNavigationRequest() && window?.refusesNavigation(request.frame(), url) === true) {
    return route.abort('aborted');
  }
  if (!(await defaultSession.mayRequest(toApp(url)))) {
    happened('request refused', toApp(url));
    return route.abort('blockedbyclient');
  }
  const handler = schemes.handlerOf(toApp(url));
  if (handler === undefined) return route.continue();
  const response = await handler(new Request(toApp(url), { method: request.method() }));
  return route.fulfill({
    status: response.status,
    headers: Object.fromEntries(response.headers),
    body: Buffer.from(await response.arrayBuffer()),
  });
}

function windowOf(request: ReturnType<Route['request']>): BrowserWindow | undefined {
  try {
    return windows.get(request.frame().page());
  } catch {
    // A new window's first request has no page yet.
    return undefined;
  }
}

/** A page that the app did not open itself: its opener's handler decides whether it may stay. */
export async function judgeNewPage(page: Page): Promise<void> {
  const opener = await page.opener();
  if (opener === null) return;
  const { action } = windows.get(opener)?.webContents.openHandler({ url: toApp(page.url()) }) ?? {
    action: 'allow',
  };
  happened('window.open', { action });
  if (action === 'deny') await page.close();
}
