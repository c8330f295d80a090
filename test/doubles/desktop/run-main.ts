/**
 * Runs a built main process under the double and answers the test that started it:
 * `node --import tsx --import ./register.mjs run-main.ts MAIN [FILES...]`.
 */
import { pathToFileURL } from 'node:url';
import { chromium } from '@playwright/test';
import { app, ending } from './app';
import { pack, unpack } from './codec';
import { answerInvoke } from './ipc';
import { happened, PROFILE, state } from './state';
import { menu, menuItem } from './system';
import { allWindows, browser, judgeNewPage, routeRequest } from './windows';

interface Order {
  readonly id: number;
  readonly name: keyof typeof ORDERS;
  readonly argument: unknown;
}

/** What a test may tell the double to do, or ask of it. */
const ORDERS = {
  answerDialog: (answer: unknown) => void state.dialogAnswers.push(answer),
  /** As JSON: what a click does stays here. */
  menu: () => JSON.parse(JSON.stringify(menu.items)) as unknown,
  /** Done once the page has heard of it: what the test does next comes after. */
  clickMenu: async (id: unknown) => {
    const item = menuItem(String(id));
    if (item?.click === undefined) throw new Error(`no menu item "${String(id)}" to click`);
    item.click();
    await allWindows()[0]?.webContents.heard;
  },
  /** A call as a frame would make it that is not the window's own. */
  invokeAs: async (argument: unknown) => {
    const { senderFrame, channel, args } = argument as {
      senderFrame: unknown;
      channel: string;
      args: unknown[];
    };
    return unpack(await answerInvoke({ senderFrame }, channel, pack(args)));
  },
  openFile: (path: unknown) => void app.emit('open-file', { preventDefault: () => {} }, path),
  hang: () => void allWindows()[0]?.emit('unresponsive'),
  closeWindow: () => allWindows()[0]?.close(),
  quit: () => app.quit(),
};

process.on('message', (order: Order) => {
  void (async () => {
    try {
      const value = await ORDERS[order.name](order.argument);
      process.send?.({ id: order.id, value: pack(value) });
    } catch (error) {
      process.send?.({ id: order.id, error: String(error) });
    }
  })();
});

const [, , main = ''] = process.argv;
// The app sees the arguments it would have been started with: its runtime, its folder, then files.
process.argv.splice(1, 2, '.');
await import(pathToFileURL(main).href);

const context = await chromium.launchPersistentContext(PROFILE, {
  // The first start asks the system for units and clock: tests read metres.
  locale: 'en-GB',
  ...(process.env['DOUBLE_BROWSER'] ? { executablePath: process.env['DOUBLE_BROWSER'] } : {}),
  args: [
    ...(process.env['DOUBLE_FLAGS'] ?? '').split(' '),
    `--remote-debugging-port=${process.env['DOUBLE_PORT']}`,
  ],
  viewport: null,
  acceptDownloads: true,
});
browser.context = context;
ending.closeBrowser = () => context.close();
await context.route('**/*', routeRequest);
context.on('page', (page) => void judgeNewPage(page));
state.isReady = true;
happened('ready');
app.emit('ready', {});
process.send?.({ ready: true });
