/** The largest trips that are planned, in the built window: how long its thread is busy at a stretch. */
import { chromium, type Browser, type Page } from '@playwright/test';
import { bundle } from '../../build/bundle';
import { findBrowser } from '../../build/find-browser';
import { at } from '../../build/paths';
import { serve } from '../../build/serve';
import { QUIET_FLAGS } from '../../build/test-browser';
import type { Trip } from '../../core/document/types';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from './big-trip';
import type { BenchLine } from './report';

const ONE_SECOND_MS = 1000;
/** Long enough for what an edit or a place sets off beside the window to come back. */
const SETTLE_MS = 4000;

/** Levels of every dive: as many as a dive may have, each a stretch of its own for every tissue. */
function withLevels(trip: Trip, levels: number): Trip {
  const dives = trip.dives.map((dive) => ({
    ...dive,
    legs: Array.from({ length: levels }, (_, level) => ({
      depthM: Math.max(6, dive.depthM - level),
      min: level === 0 ? 4 : 2,
    })),
    bottomMin: 4 + 2 * (levels - 1),
  }));
  return { ...trip, dives };
}

interface Event {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds of the thread. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** The longest that the window's thread works at a stretch while something is done, ms of the processor. */
async function longestTaskMs(browser: Browser, page: Page, work: () => Promise<unknown>): Promise<number> {
  await browser.startTracing(page, { categories: ['toplevel', '__metadata'] });
  await work();
  await page.waitForTimeout(SETTLE_MS);
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    readonly traceEvents: readonly Event[];
  };
  const threadOf = ({ pid, tid }: Event): string => `${pid} ${tid}`;
  const windows = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(threadOf),
  );
  const tasks = traceEvents.filter(
    (event) => event.ph === 'X' && event.name.endsWith('RunTask') && windows.has(threadOf(event)),
  );
  if (tasks.length === 0) throw new Error('no work of the window was seen');
  return tasks.reduce((longest, { tdur = 0 }) => Math.max(longest, tdur / 1000), 0);
}

async function linesOf(
  browser: Browser,
  address: string,
  shape: string,
  trip: Trip,
): Promise<readonly BenchLine[]> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(address);
  await page.getByRole('button', { name: 'I accept, show me the demo trip' }).click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  page.on('filechooser', (chooser) => {
    const buffer = Buffer.from(writeTrip(trip));
    void chooser.setFiles({ name: 'largest.json', mimeType: 'application/json', buffer });
  });
  const lines: BenchLine[] = [];
  const line = async (what: string, work: () => Promise<unknown>): Promise<void> => {
    const ms = await longestTaskMs(browser, page, work);
    lines.push({
      what: `${shape}: ${what}, its longest stretch`,
      ms,
      floor: 'one second',
      floorMs: ONE_SECOND_MS,
      atMost: 1,
    });
  };
  await line('opened', async () => {
    await page.keyboard.press('Control+o');
    await page.getByRole('heading', { level: 1, name: trip.title }).waitFor();
  });
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: /Find a command/ }).fill('dive 1');
  await page.keyboard.press('Enter');
  const mark = page.getByRole('listbox', { name: 'Dives' }).getByRole('option', { selected: true });
  // The first, so that every dive after it is reckoned anew.
  await line('its first dive made deeper', () => mark.press('ArrowDown'));
  for (const [number, place] of ['Days', 'Sites', 'Mixes', 'Party', 'Slates'].entries()) {
    if (place !== 'Days') await line(`${place} gone to`, () => page.keyboard.press(`Alt+${number + 1}`));
  }
  await line('Days gone to', () => page.keyboard.press('Alt+1'));
  await page.close();
  return lines;
}

export async function benchLargestTrip(): Promise<readonly BenchLine[]> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error('the window cannot be measured: no Chromium was found');
  await bundle(['window']);
  const served = await serve(at('out/renderer'), 0);
  const browser = await chromium.launch({ executablePath, args: [...QUIET_FLAGS] });
  try {
    const shapes = [
      ['50 dives of 60 divers', bigTrip(50, 60)],
      ['400 dives of 7 divers', bigTrip(400, 7)],
      ['50 dives of 60 divers, 20 levels each', withLevels(bigTrip(50, 60), 20)],
    ] as const;
    const lines: BenchLine[] = [];
    for (const [shape, trip] of shapes) lines.push(...(await linesOf(browser, served.address, shape, trip)));
    return lines;
  } finally {
    await browser.close();
    await served.close();
  }
}
