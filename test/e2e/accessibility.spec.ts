import { PLACES } from '../../renderer/commands/place-names';
import { expect, test } from './fixtures';
import { wcagBreaches } from './wcag';

for (const look of ['light', 'cabin'] as const) {
  test.describe(`in the ${look} look`, () => {
    test.use({
      colorScheme: look === 'cabin' ? 'dark' : 'light',
      contextOptions: { reducedMotion: 'reduce' },
    });

    test('the cautions of the first start hold WCAG 2.2 AA', async ({ page, firstStart }) => {
      await page.goto('/');
      await expect(firstStart.dialog).toBeVisible();
      expect(await wcagBreaches(page)).toEqual([]);
    });

    for (const { id, label } of PLACES) {
      test(`${label} holds WCAG 2.2 AA`, async ({ page, bench }) => {
        if (id === 'days') await bench.chooseTightest();
        else await page.getByRole('navigation').getByRole('button', { name: label }).click();
        await expect(page.getByRole('main')).not.toContainText('One moment…');
        expect(await wcagBreaches(page)).toEqual([]);
      });
    }

    for (const words of ['keys', 'settings', 'title water', 'my trips', 'all cautions', 'about']) {
      test(`the sheet for “${words}” holds WCAG 2.2 AA`, async ({ page, bench }) => {
        await bench.command(words);
        await expect(bench.dialog).toBeVisible();
        expect(await wcagBreaches(page)).toEqual([]);
      });
    }
  });
}

test('text at 200 percent loses nothing to the side', async ({ page, bench }) => {
  await bench.enlarge();
  await bench.chooseTightest();
  await bench.expectNothingBeside('with the card of a dive');
  await bench.field('Depth').scrollIntoViewIfNeeded();
  await expect(bench.field('Depth')).toBeInViewport({ ratio: 1 });
  for (const width of [1280, 840]) {
    await page.setViewportSize({ width, height: 800 });
    for (const { id, label } of PLACES) {
      await page.getByRole('navigation').getByRole('button', { name: label }).click();
      await expect(page.locator('main > *').first()).toBeVisible();
      await expect(page.getByRole('main')).not.toContainText('One moment…');
      await bench.expectNothingBeside(`${id} at ${width} px`);
    }
  }
  // Drawn anew, the strip takes no more than before: it would grow with each dive that is chosen.
  await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
  const highPx = () =>
    page.getByRole('region', { name: 'The trip, day by day' }).evaluate((strip) => strip.clientHeight);
  await expect(page.locator('.recharts-wrapper')).toHaveCount(2);
  await bench.settled();
  const before = await highPx();
  for (const number of [1, 2, 3]) {
    await bench.command(`dive ${number},`);
    await expect(bench.card.getByRole('region', { name: `Dive ${number}`, exact: true })).toBeVisible();
    await bench.settled();
    await expect.poll(highPx).toBe(before);
  }
});
