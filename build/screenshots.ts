/**
 * `npm run screenshots`: every place of the window, with the demo trip, in light and in the cabin, at two
 * sizes and with doubled text, into out/screenshots. With `--guide`: the pictures of the guide, which the README shows too.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
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
  /** What is done before the picture is taken. */
  readonly first?: (page: Page) => Promise<void>;
}

const SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
] as const;

/** A picture of the guide. */
function guideShot(name: string, place: Settings['place'], first: (page: Page) => Promise<void>): Shot {
  const file = at(`renderer/frame/guide/${name}.webp`);
  return { width: 1280, height: 800, settings: { look: 'light', place }, file, first };
}

const GUIDE: readonly Shot[] = [
  guideShot('draft', 'days', async (page) => {
    await runCommand(page, 'draft new trip');
    await page.getByLabel(/^The \d+ sites of/).check();
    await page.getByRole('dialog').getByText('Kettle Pinnacle').first().waitFor();
  }),
  guideShot('days', 'days', async (page) => {
    await page.getByRole('button').and(page.locator('[data-tightest]')).click();
  }),
  guideShot('mixes', 'mixes', async () => {}),
  guideShot('slates', 'slates', async () => {}),
  guideShot('evening', 'days', (page) => page.keyboard.press('Alt+l')),
  guideShot('class', 'mixes', async (page) => {
    await page.getByRole('tab', { name: 'In class' }).click();
    await page.getByRole('img', { name: /^Nitrogen over the minutes/ }).waitFor();
  }),
];

async function runCommand(page: Page, words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: /Find a command/ }).fill(words);
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').waitFor();
}

/** How much of a picture is kept: what is written in it can be read, in a fifth of the bytes. */
const WEBP_QUALITY = 0.7;

/** A picture as WebP, written by the browser itself. */
async function webpOf(page: Page, png: Buffer): Promise<Buffer> {
  const text = await page.evaluate(
    async ({ base64, quality }) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const canvas = document.createElement('canvas');
      canvas.width = bitmap.width;
      canvas.height = bitmap.height;
      canvas.getContext('2d')!.drawImage(bitmap, 0, 0);
      return canvas.toDataURL('image/webp', quality).split(',')[1]!;
    },
    { base64: png.toString('base64'), quality: WEBP_QUALITY },
  );
  return Buffer.from(text, 'base64');
}

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
  const { width, height, settings, file, first } = shot;
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
  await first?.(page);
  await page.evaluate(() => document.fonts.ready.then(() => {}));
  await page.waitForLoadState('networkidle');
  await page.getByText(/^Laying out/).waitFor({ state: 'hidden' });
  const png = await page.screenshot();
  writeFileSync(file, file.endsWith('.webp') ? await webpOf(page, png) : png);
  await context.close();
  console.log(file);
}

async function main(): Promise<number> {
  const { values } = parseArgs({ options: { guide: { type: 'boolean' } } });
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
  mkdirSync(`${OUT}/screenshots`, { recursive: true });
  try {
    for (const shot of values.guide === true ? GUIDE : everyPlace()) {
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
