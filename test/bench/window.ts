/** What the built window costs: its first paint, and an edit on a trip of 56 dives and 12 divers. */
import { chromium, type Browser, type Page } from '@playwright/test';
import { bundle } from '../../build/bundle';
import { findBrowser } from '../../build/find-browser';
import { at } from '../../build/paths';
import { serve } from '../../build/serve';
import { QUIET_FLAGS } from '../../build/test-browser';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from './big-trip';
import { percentile, pressesMs, type Press } from './key-to-paint';
import type { BenchLine } from './report';

const PRESSES = 120;
const LOADS = 7;
const ONE_SECOND_MS = 1000;
/** A page of one word: what the browser itself needs. */
const EMPTY_PAGE = 'data:text/html,<p>word';
/** Two frames of a 60 Hz screen, milliseconds. */
const TWO_FRAMES_MS = 2000 / 60;

/** Opens the window on the full trip, its dive 30 chosen. */
export async function openFullTrip(page: Page, address: string): Promise<void> {
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

function depthField(page: Page) {
  return page.getByRole('textbox', { name: 'Depth', exact: true });
}

export function chosenMark(page: Page) {
  return page.getByRole('listbox', { name: 'Dives' }).getByRole('option', { selected: true });
}

/** A way to change something by keys, or to draw the page anew without changing anything. */
export interface Way {
  readonly what: string;
  readonly keys: readonly string[];
  readonly focus: (page: Page) => Promise<void>;
  readonly prepare?: (page: Page) => (turn: number) => Promise<void>;
}

/** The next dive is chosen: strip and card are drawn anew, and nothing is reckoned. */
export const BARE: Way = {
  what: 'another dive chosen',
  keys: ['Control+ArrowRight', 'Control+ArrowLeft'],
  focus: (page) => chosenMark(page).focus(),
};

const EDITS: readonly Way[] = [
  {
    what: 'a depth by arrow key on the strip',
    keys: ['ArrowDown', 'ArrowUp'],
    focus: (page) => chosenMark(page).focus(),
  },
  {
    what: 'a depth by arrow key in the card',
    keys: ['ArrowUp', 'ArrowDown'],
    focus: (page) => depthField(page).focus(),
  },
  {
    what: 'a depth typed in the card, from Enter',
    keys: ['Enter'],
    focus: (page) => depthField(page).focus(),
    prepare: (page) => async (turn) => depthField(page).fill(turn % 2 === 0 ? '21' : '24'),
  },
];

export async function pressesOfWay(browser: Browser, address: string, way: Way): Promise<readonly Press[]> {
  const page = await browser.newPage({ locale: 'en-GB', viewport: { width: 1280, height: 800 } });
  try {
    await openFullTrip(page, address);
    await way.focus(page);
    return await pressesMs(page, way.keys, PRESSES, way.prepare?.(page));
  } finally {
    await page.close();
  }
}

/** What a press costs a page that has nothing to do for it. */
export async function pressesOfEmptyPage(browser: Browser): Promise<readonly Press[]> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  try {
    await page.goto(EMPTY_PAGE);
    return await pressesMs(page, ['ArrowDown', 'ArrowUp'], PRESSES);
  } finally {
    await page.close();
  }
}

/** The page's own work to the paint, at the median, beside that of a page with nothing to do. */
export function workLine(what: string, presses: readonly Press[], empty: readonly Press[]): BenchLine {
  const median = (from: readonly Press[]) =>
    percentile(
      from.map(({ workMs }) => workMs),
      0.5,
    );
  return {
    what: `${what}, work of the page's own thread, median`,
    ms: median(presses),
    floor: 'a press on an empty page',
    floorMs: median(empty),
  };
}

/** An edit: to the paint beside two frames, on both clocks, and beside the bare page. */
export function editLines(
  what: string,
  presses: readonly Press[],
  bare: readonly Press[],
): readonly BenchLine[] {
  const at95 = (from: readonly Press[], of: keyof Press) =>
    percentile(
      from.map((press) => press[of]),
      0.95,
    );
  return [
    {
      what: `${what}, key press to paint, 95th percentile`,
      ms: at95(presses, 'wallMs'),
      floor: 'two frames',
      floorMs: TWO_FRAMES_MS,
      atMost: 1,
    },
    {
      what: '  the same',
      ms: at95(presses, 'wallMs'),
      floor: `${BARE.what}, nothing reckoned`,
      floorMs: at95(bare, 'wallMs'),
    },
    {
      what: "  of it, work of the page's own thread",
      ms: at95(presses, 'workMs'),
      floor: `${BARE.what}, nothing reckoned`,
      floorMs: at95(bare, 'workMs'),
    },
    {
      what: '  the same until the next press',
      ms: at95(presses, 'settledWorkMs'),
      floor: `${BARE.what}, nothing reckoned`,
      floorMs: at95(bare, 'settledWorkMs'),
    },
  ];
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
  const browser = await chromium.launch({ executablePath, args: [...QUIET_FLAGS] });
  try {
    const paintMs = await firstPaintMs(browser, served.address);
    const emptyMs = await firstPaintMs(browser, EMPTY_PAGE);
    const lines: BenchLine[] = [
      { what: 'first paint of the window', ms: paintMs, floor: 'an empty page', floorMs: emptyMs },
      { what: 'the same', ms: paintMs, floor: 'one second', floorMs: ONE_SECOND_MS, atMost: 1 },
    ];
    const empty = await pressesOfEmptyPage(browser);
    const bare = await pressesOfWay(browser, served.address, BARE);
    lines.push(workLine(BARE.what, bare, empty));
    for (const way of EDITS) {
      const presses = await pressesOfWay(browser, served.address, way);
      lines.push(workLine(way.what, presses, empty), ...editLines(way.what, presses, bare));
    }
    return lines;
  } finally {
    await browser.close();
    await served.close();
  }
}
