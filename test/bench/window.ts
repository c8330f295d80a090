/** The cost of an edit in the built window: from key press to the painted result, on a trip of 56 dives and 12 divers. */
import { chromium, type Browser, type Page } from '@playwright/test';
import { bundle } from '../../build/bundle';
import { findBrowser } from '../../build/find-browser';
import { at } from '../../build/paths';
import { serve } from '../../build/serve';
import { writeTrip } from '../../core/trip/write-trip';
import { bigTrip } from './big-trip';
import type { BenchLine } from './report';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const PRESSES = 60;
const LOADS = 7;
const ONE_SECOND_MS = 1000;
/** A page of one word: what the browser itself needs. */
const EMPTY_PAGE = 'data:text/html,<p>word';
/** Two frames of a 60 Hz screen, milliseconds. */
const TWO_FRAMES_MS = 2000 / 60;

/** Opens the window on the full trip, its dive 30 chosen. */
async function openFullTrip(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: 'I accept, show me the demo trip' }).click();
  page.on('filechooser', (chooser) => {
    const buffer = Buffer.from(writeTrip(bigTrip(56, 12)));
    void chooser.setFiles({ name: 'full.json', mimeType: 'application/json', buffer });
  });
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.keyboard.press('Control+o');
  await page.getByRole('heading', { level: 1, name: 'A full fortnight' }).waitFor();
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: /Find a command/ }).fill('dive 30');
  await page.keyboard.press('Enter');
  await page.getByRole('region', { name: 'Dive 30' }).waitFor();
}

/**
 * Milliseconds from each key press to the end of the frame that shows its result. The clock starts in the
 * page as the press arrives and stops once the browser has painted: the task after the frame's callback.
 */
async function pressesMs(page: Page, keys: readonly string[]): Promise<readonly number[]> {
  await page.evaluate(() => {
    const times: number[] = [];
    Object.assign(window, { times });
    window.addEventListener(
      'keydown',
      () => {
        const from = performance.now();
        requestAnimationFrame(() => {
          const channel = new MessageChannel();
          channel.port1.addEventListener('message', () => times.push(performance.now() - from));
          channel.port1.start();
          channel.port2.postMessage(null);
        });
      },
      { capture: true },
    );
  });
  for (let i = 0; i < PRESSES; i += 1) {
    await page.keyboard.press(keys[i % keys.length]!);
    await page.waitForFunction((n) => (window as unknown as { times: number[] }).times.length >= n, i + 1);
    // The curves follow a frame later; the next press waits as a hand would.
    await page.waitForTimeout(60);
  }
  return page.evaluate(() => (window as unknown as { times: number[] }).times);
}

function percentile(times: readonly number[], share: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/** Milliseconds from navigation to the first text or picture, the median of several fresh profiles. */
async function firstPaintMs(browser: Browser, address: string): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < LOADS; i += 1) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    const page = await context.newPage();
    await page.goto(address);
    await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint').length > 0);
    times.push(
      await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN),
    );
    await context.close();
  }
  return percentile(times, 0.5);
}

export async function benchWindow(): Promise<readonly BenchLine[]> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error('the window cannot be measured: no Chromium was found');
  await bundle(['window']);
  const served = await serve(at('out/renderer'), 0);
  const browser = await chromium.launch({ executablePath, args: FLAGS });
  try {
    const run = async (keys: readonly string[]): Promise<number> => {
      const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
      await openFullTrip(page, served.address);
      await page.getByRole('textbox', { name: 'Depth', exact: true }).focus();
      const times = await pressesMs(page, keys);
      await page.close();
      return percentile(times, 0.95);
    };
    // Typing re-renders the field alone: the page's own cost of a key.
    const bareMs = await run(['1', '2']);
    const editMs = await run(['ArrowUp', 'ArrowDown']);
    const paintMs = await firstPaintMs(browser, served.address);
    const emptyMs = await firstPaintMs(browser, EMPTY_PAGE);
    return [
      { what: 'first paint of the window', ms: paintMs, floor: 'an empty page', floorMs: emptyMs },
      { what: 'the same', ms: paintMs, floor: 'one second', floorMs: ONE_SECOND_MS, atMost: 1 },
      {
        what: 'a depth edited among 56 dives and 12 divers, key press to paint, 95th percentile',
        ms: editMs,
        floor: 'the same page, a character typed',
        floorMs: bareMs,
      },
      {
        what: 'the same',
        ms: editMs,
        floor: 'two frames',
        floorMs: TWO_FRAMES_MS,
        atMost: 1,
      },
    ];
  } finally {
    await browser.close();
    await served.close();
  }
}
