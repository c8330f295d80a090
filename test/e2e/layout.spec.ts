import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { ROOT } from '../../build/paths';
import { PLACES } from '../../renderer/commands/place-names';
import { expect, test } from './fixtures';
import { MixesPlace } from './pages/mixes';

const DEMO = readFileSync(join(ROOT, 'core/document/demo-trip.json'), 'utf8');

/** As long as a name may get where people write down title, name and cabin: 60 letters without a space. */
const LONG_NAME = 'Wernhildegard'.repeat(5).slice(0, 60);

interface Document {
  title: string;
  party: { name: string }[];
  sites: { name: string }[];
}

/** The demo trip with names that are as long as they come. */
function withLongNames(): string {
  const trip = JSON.parse(DEMO) as Document;
  trip.title = LONG_NAME;
  trip.party.forEach((diver, i) => (diver.name = `${i + 1}${LONG_NAME}`.slice(0, 60)));
  trip.sites.forEach((site, i) => (site.name = `${i + 1}${LONG_NAME}`.slice(0, 60)));
  return JSON.stringify(trip);
}

/** How far the page could be scrolled, and whether its width is the window's. */
function overflow(page: Page): Promise<{ x: number; y: number }> {
  return page.evaluate(() => ({
    x: document.documentElement.scrollWidth - window.innerWidth,
    y: document.documentElement.scrollHeight - window.innerHeight,
  }));
}

async function stripTop(page: Page): Promise<number> {
  const box = await page.getByRole('region', { name: 'The trip, day by day' }).boundingBox();
  return box?.y ?? Number.NaN;
}

test.describe('the page of Days at 1280 by 800', () => {
  for (const look of ['light', 'cabin'] as const) {
    test(`has no scroll bar in any state of the demo, ${look}`, async ({ bench, strip }) => {
      const { page } = bench;
      const expectNone = (message: string) =>
        expect.poll(() => overflow(page), { message }).toEqual({ x: 0, y: 0 });
      if (look === 'cabin') await bench.command('cabin');
      await page.setViewportSize({ width: 1280, height: 800 });
      await expectNone('at rest');
      for (const grip of ['depth', 'time', 'start'] as const) {
        for (const dive of [1, 11, 22]) {
          await strip.hold(dive, grip, grip === 'depth' ? { y: 40 } : { x: 12 });
          await expectNone(`dive ${dive} held at its ${grip}`);
          await page.keyboard.press('Escape');
          await strip.letGo();
        }
      }
      await expect(page.locator('.recharts-wrapper')).toHaveCount(2);
      const band = await page.locator('[data-part=band]').first().boundingBox();
      // The last dive stands furthest right of what can be read.
      await page.mouse.move((await strip.leftOf(22, 'start')) + 2, band!.y + band!.height - 5, { steps: 3 });
      await expect(page.locator('[data-part=readout]').first()).toBeVisible();
      await expectNone('a band read');
      await page.getByRole('button', { name: 'Curves as a table' }).click();
      await expect(page.getByRole('table', { name: /Nitrogen and oxygen carried by/ })).toBeVisible();
      await expectNone('the curves as a table');
      await page.getByRole('button', { name: 'Curves as a table' }).click();
      await page.getByRole('button', { name: 'All 16 compartments' }).click();
      await expect(page.locator('[data-part=compartment]')).toHaveCount(16);
      await expectNone('all compartments');
      await bench.chooseTightest();
      await expectNone('a dive chosen');
    });
  }

  test('keeps the strip where it is, whatever the headline says', async ({ bench }) => {
    const { page } = bench;
    const atRest = await stripTop(page);
    await bench.chooseTightest();
    await bench.set('Depth', '58');
    await expect(bench.sentence).toContainText('One dive has no mix that can be used there: ');
    await bench.settled();
    await expect.poll(() => stripTop(page)).toBe(atRest);
    await page.keyboard.press('Control+z');
  });
});

test('another dive is read from the head of its card', async ({ bench, strip }) => {
  const { page } = bench;
  await strip.dive(1).focus();
  await page.keyboard.press('Enter');
  await bench.chooseTightest();
  // Once all that it says is there, it is longer than the window.
  const scroll = (card: Element) => {
    card.scrollTo(0, 300);
    return card.scrollTop;
  };
  await expect.poll(() => bench.card.evaluate(scroll)).toBeGreaterThan(0);
  await page.keyboard.press('Control+ArrowRight');
  await strip.dive(2).click({ position: { x: 4, y: 30 } });
  await expect.poll(() => bench.card.evaluate((card) => card.scrollTop)).toBe(0);
});

test('a notice moves nothing, and goes once something else is looked at', async ({ bench, strip }) => {
  const { page } = bench;
  const atRest = await stripTop(page);
  await bench.chooseTightest();
  const [download] = await Promise.all([page.waitForEvent('download'), bench.command('ledger')]);
  const notice = page.getByRole('status').filter({ hasText: 'Saved “' });
  await expect(notice).toContainText(download.suggestedFilename());
  await expect.poll(() => stripTop(page)).toBe(atRest);
  await expect.poll(() => overflow(page)).toEqual({ x: 0, y: 0 });
  await page.waitForTimeout(2100);
  await strip.dive(2).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('navigation').getByRole('button', { name: 'Sites' }).click();
  await expect(notice).toHaveCount(0);
});

/** The demo trip's days again and again, until there are so many, and too long: figures of three digits. */
function withDays(count: number, title: string): string {
  const trip = JSON.parse(DEMO) as {
    dives: { id: string; startsAt: string; bottomMin: number; legs?: unknown; asDived?: unknown }[];
  };
  const dates = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  const dives = Array.from({ length: count }, (_, day) => {
    const date = new Date(Date.parse(`${dates[0]}T00:00Z`) + day * 86_400_000).toISOString().slice(0, 10);
    return trip.dives
      .filter(({ startsAt }) => startsAt.startsWith(dates[day % dates.length]!))
      .map(({ asDived: _asDived, legs: _legs, ...dive }, i) => ({
        ...dive,
        id: `${day}-${i}`,
        startsAt: date + dive.startsAt.slice(10),
        bottomMin: dive.bottomMin + 40,
      }));
  }).flat();
  return JSON.stringify({ ...trip, title, dives, flight: null });
}

test('the heads of days are read whole, however many there are', async ({ bench }) => {
  const { page } = bench;
  for (const [days, width] of [
    [6, 1280],
    [7, 1280],
    // The narrowest day that is told in full, and the widest that is not.
    [7, 1300],
    [7, 1410],
    [8, 1280],
    [9, 1280],
    [12, 1280],
    [15, 1280],
  ] as const) {
    await page.setViewportSize({ width, height: 800 });
    const title = `${days} days at ${width} px`;
    await bench.openFile('days.carryover.json', withDays(days, title));
    await expect(bench.title).toHaveText(title);
    await expect(page.locator('[data-part="day head"]').nth(days - 1)).toBeVisible();
    const cut = () =>
      page.locator('[data-part="day head"]').evaluateAll((heads) =>
        heads.flatMap((head) => {
          const { right } = head.getBoundingClientRect();
          return [...head.querySelectorAll('span')]
            .filter((span) => span.getBoundingClientRect().left + span.scrollWidth > right + 0.5)
            .map((span) => span.textContent);
        }),
      );
    await bench.settled();
    await expect.poll(cut, { message: title }).toEqual([]);
  }
});

test('names of 60 letters stay on the page, however wide', async ({ bench }) => {
  const { page } = bench;
  await bench.openFile('long.carryover.json', withLongNames());
  await expect(bench.title).toHaveText(LONG_NAME);
  for (const { id, label } of PLACES) {
    await page.getByRole('navigation').getByRole('button', { name: label }).click();
    // From wide to narrow and back: what is drawn for a wide window must not hold it open.
    for (const width of [1920, 840, 1024, 1280, 1440, 1920]) {
      await page.setViewportSize({ width, height: 800 });
      await expect(page.locator(`main > *`).first()).toBeVisible();
      await expect(page.getByRole('main')).not.toContainText('One moment…');
      await bench.expectNothingBeside(`${id} is wider than the window at ${width} px`);
    }
  }
});

test('what the mixes drew for a wide window does not hold a narrow one open', async ({ bench }) => {
  const { page } = bench;
  const mixes = new MixesPlace(bench);
  await mixes.go();
  for (const question of await page.getByRole('tab').allInnerTexts()) {
    await page.setViewportSize({ width: 1920, height: 800 });
    await mixes.ask(question);
    await expect(page.getByRole('main')).not.toContainText('One moment…');
    await bench.expectNothingBeside(`${question} is wider than a window of 1920 px`);
    await page.setViewportSize({ width: 840, height: 800 });
    await bench.expectNothingBeside(`${question} is wider than a window of 840 px`);
  }
});
