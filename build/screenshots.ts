/**
 * `npm run screenshots`: every place of the window, with the demo trip, in light and in the cabin, at two
 * sizes and with doubled text, into out/screenshots. With `--readme`: the one picture of the README.
 */
import { mkdirSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { chromium, type Browser, type Page } from '@playwright/test';
import type { Settings } from '../core/host';
import { PLACES } from '../renderer/commands/place-names';
import { bundle } from './bundle';
import { at, OUT } from './paths';
import { serve } from './serve';
import { obtainTestBrowser, QUIET_FLAGS } from './test-browser';

interface Shot {
  readonly width: number;
  readonly height: number;
  readonly settings: Partial<Settings>;
  readonly file: string;
  /** Whether the trip's tightest dive is chosen, so that its card shows. */
  readonly hasDive?: true;
}

const SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
] as const;

const README: Shot = {
  width: 1280,
  height: 800,
  settings: { look: 'light', place: 'days' },
  file: at('build/readme/days.png'),
  hasDive: true,
};

function everyPlace(): readonly Shot[] {
  const folder = `${OUT}/screenshots`;
  return PLACES.flatMap(({ id: place }) => [
    ...SIZES.flatMap((size) =>
      (['light', 'cabin'] as const).map((look) => ({
        ...size,
        settings: { look, place },
        file: `${folder}/${place}-${look}-${size.width}x${size.height}.png`,
      })),
    ),
    {
      width: 1280,
      height: 800,
      settings: { look: 'light', place, textScale: 2 } as const,
      file: `${folder}/${place}-light-1280x800-text-200.png`,
    },
  ]);
}

/** Writes settings where the window keeps them, as if a person had chosen them some time before. */
async function chooseSettings(page: Page, settings: Partial<Settings>): Promise<void> {
  await page.evaluate(
    (chosen) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('carryover');
        opening.addEventListener('error', () => reject(new Error('the library does not open')));
        opening.addEventListener('success', () => {
          const change = opening.result.transaction('settings', 'readwrite');
          change.objectStore('settings').put(chosen, 'settings');
          change.addEventListener('complete', () => {
            opening.result.close();
            resolve();
          });
        });
      }),
    { ...settings, cautionsAccepted: true },
  );
}

async function take(browser: Browser, address: string, shot: Shot): Promise<void> {
  const { width, height, settings, file } = shot;
  const context = await browser.newContext({
    viewport: { width, height },
    reducedMotion: 'reduce',
    locale: 'en-GB',
  });
  const page = await context.newPage();
  await page.goto(address);
  await page.getByRole('dialog').waitFor();
  await chooseSettings(page, settings);
  await page.reload();
  await page.getByRole('heading', { level: 1 }).waitFor();
  const tightest = page.getByRole('button').and(page.locator('[data-tightest]'));
  if (shot.hasDive === true) await tightest.click();
  await page.evaluate(() => document.fonts.ready.then(() => {}));
  await page.waitForLoadState('networkidle');
  await page.getByText(/^Laying out/).waitFor({ state: 'hidden' });
  await page.screenshot({ path: file });
  await context.close();
  console.log(file);
}

async function main(): Promise<number> {
  const { values } = parseArgs({ options: { readme: { type: 'boolean' } } });
  const found = obtainTestBrowser((line) => console.log(line));
  if (found.kind === 'missing') {
    console.error(`No browser to take pictures with.\n  ${found.mend}`);
    return 1;
  }
  await bundle(['window']);
  const served = await serve(`${OUT}/renderer`, 0);
  const browser = await chromium.launch({
    executablePath: found.path,
    args: [...QUIET_FLAGS],
  });
  for (const folder of [at('build/readme'), `${OUT}/screenshots`]) mkdirSync(folder, { recursive: true });
  try {
    for (const shot of values.readme === true ? [README] : everyPlace()) {
      // One after the other: pictures taken at once would wait for each other anyway.
      // oxlint-disable-next-line no-await-in-loop
      await take(browser, served.address, shot);
    }
  } finally {
    await browser.close();
    await served.close();
  }
  return 0;
}

process.exitCode = await main();
